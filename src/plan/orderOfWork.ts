import { equal, toFraction } from '../measure/index.ts';
import type { Length, NonEmpty, SheetPlan, Step, WidthSetOut, WidthUse } from '../model/index.ts';

/**
 * Tells for each width in turn which steps of which picture it serves.
 *
 * @param widths  in the order of setting, as the pictures were arranged for
 */
export function* orderOfWork(
  sheets: readonly SheetPlan[],
  widths: readonly Length[],
): Generator<undefined, readonly WidthSetOut[]> {
  const benches = sheets.map(benchOf);
  const order: WidthSetOut[] = [];
  for (const size of widths) {
    const key = toFraction(size);
    const uses = benches.flatMap((bench) => (bench.sizes.has(key) ? usesOf(bench, size) : []));
    if (isNonEmpty(uses)) order.push({ size, uses });
    yield;
  }
  if (benches.some(({ hands }) => hands.some(isOpen)))
    throw new Error('an order of settings leaves cuts over');
  return order;
}

/** What is set out where each picture is finished by its own steps before the next is begun. */
export function widthsByPicture(sheets: readonly SheetPlan[]): readonly Length[] {
  const runs = sheets.flatMap(({ steps }) => steps.filter(isCut).flatMap((step) => step.runs));
  const sizes = runs.flatMap(({ size, cuts }) => (cuts > 0 ? [size] : []));
  return sizes.filter((size, i) => i === 0 || !equal(size, sizes[i - 1]!));
}

type CutStep = Extract<Step, { readonly marks: unknown }>;

function isCut(step: Step): step is CutStep {
  return step.kind === 'rip' || step.kind === 'crosscut';
}

/** A picture while it is cut. */
interface BenchOfSheet {
  readonly sheet: SheetPlan;
  readonly hands: readonly Hand[];
  /** What is cut off at some time. */
  readonly sizes: ReadonlySet<string>;
  /** Strips that have come off, by name. */
  readonly loose: Map<string, number>;
}

/** A step, and how many of its runs are done. */
interface Hand {
  readonly step: CutStep;
  done: number;
}

function benchOf(sheet: SheetPlan): BenchOfSheet {
  const hands = sheet.steps.filter(isCut).map((step) => ({ step, done: 0 }));
  const runs = hands.flatMap(({ step }) => step.runs);
  const sizes = new Set(runs.flatMap(({ size, cuts }) => (cuts > 0 ? [toFraction(size)] : [])));
  return { sheet, hands, sizes, loose: new Map([['sheet', 1]]) };
}

function isOpen({ step, done }: Hand): boolean {
  return done < step.runs.length;
}

/** A strip comes after what gives it, so one pass over the steps meets all that come off at this setting. */
function usesOf({ sheet, hands, loose }: BenchOfSheet, size: Length): readonly WidthUse[] {
  return hands.flatMap((hand) => {
    const { piece, runs, number } = hand.step;
    if (!isOpen(hand) || loose.get(piece.name) !== piece.count) return [];
    let cuts = 0;
    for (; isOpen(hand); hand.done++) {
      const run = runs[hand.done]!;
      if (run.cuts > 0 && !equal(run.size, size)) break;
      cuts += run.cuts;
      for (const { what, name, count } of run.gives) {
        if (what === 'strip') loose.set(name, (loose.get(name) ?? 0) + count);
      }
    }
    if (cuts === 0) return [];
    return [{ sheet: sheet.first, step: number, piece: piece.name, cuts: cuts * piece.count * sheet.times }];
  });
}

function isNonEmpty(uses: readonly WidthUse[]): uses is NonEmpty<WidthUse> {
  return uses.length > 0;
}

/** How many different widths an order sets out. */
export function differentWidths(order: readonly WidthSetOut[]): number {
  return new Set(order.map(({ size }) => toFraction(size))).size;
}
