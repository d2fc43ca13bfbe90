/** One way of setting something on a page. */
export interface Way {
  /** Drawn at 1 : scale; undefined where nothing is drawn to scale. */
  readonly scale: number | undefined;
  readonly heightMm: number;
  /** What this way costs the reader beside the best one, 0 for that one. */
  readonly loss: number;
}

/** What has to stay together on one page, in any of its ways. */
export interface Unit {
  /** Between it and what stands above it. */
  readonly gapMm: number;
  /** So much higher where it is the first on its page. */
  readonly atTopMm: number;
  readonly ways: readonly Way[];
}

/** Which units stand together on one page, in order: index of the chosen way of each. */
export type PageOf = readonly number[];

const mostOnPage = 9;
/** A page whose pictures differ in scale can't say it once in its largest line. */
const lossOfMixing = 0.12;

/**
 * Parts a row of units into pages: as few pages as there can be, and of these the ones that cost the reader
 * least. A unit that is higher than a page in every way stands alone, and goes on where it must.
 *
 *   units  1   2   3 │ 4   5 │ 6        a page is a run of neighbours;
 *   ways   a   b   a │ a   a │ a        each is set in one of its ways
 *
 * @param firstMm  what is left of the page that is open; it may get none
 */
export function pageBreaks(units: readonly Unit[], firstMm: number, fullMm: number): readonly PageOf[] {
  // best[n]: the pages of the first n units.
  const best: (Best | undefined)[] = [];
  for (let end = 0; end <= units.length; end++) {
    const first = end > mostOnPage ? undefined : onePage(units.slice(0, end), firstMm);
    best[end] = first === undefined ? undefined : { pages: [first.chosen], loss: first.loss };
    for (let start = end - 1; start >= Math.max(0, end - mostOnPage); start--) {
      const before = best[start];
      const run = units.slice(start, end);
      const page = onePage(run, fullMm) ?? (run.length === 1 ? { chosen: [0], loss: 0 } : undefined);
      if (page === undefined) break;
      if (before === undefined) continue;
      const found = { pages: [...before.pages, page.chosen], loss: before.loss + page.loss };
      const known = best[end];
      if (known === undefined || isBetter(found, known)) best[end] = found;
    }
  }
  return best[units.length]?.pages ?? [];
}

interface Best {
  readonly pages: readonly PageOf[];
  readonly loss: number;
}

function isBetter(a: Best, b: Best): boolean {
  if (a.pages.length !== b.pages.length) return a.pages.length < b.pages.length;
  return a.loss < b.loss - 1e-9;
}

interface Chosen {
  readonly chosen: PageOf;
  readonly loss: number;
}

/** The ways that fit one page together and cost least; undefined where none do. */
function onePage(units: readonly Unit[], roomMm: number): Chosen | undefined {
  let best: Chosen | undefined;
  const choose = (index: number, left: number, chosen: PageOf, loss: number): void => {
    const unit = units[index];
    if (unit === undefined) {
      const scales = new Set(chosen.flatMap((it, at) => units[at]?.ways[it]?.scale ?? []));
      const all = loss + Math.max(0, scales.size - 1) * lossOfMixing;
      if (best === undefined || all < best.loss - 1e-9) best = { chosen, loss: all };
      return;
    }
    const gap = index === 0 ? unit.atTopMm : unit.gapMm;
    for (const [way, it] of unit.ways.entries()) {
      const rest = left - gap - it.heightMm;
      if (rest >= 0) choose(index + 1, rest, [...chosen, way], loss + it.loss);
    }
  };
  choose(0, roomMm, [], 0);
  return best;
}
