import { isPositive, toDrawnMm, toFraction } from '../../measure/index.ts';
import type { Length, MaterialPlan, NonEmpty, SheetPlan } from '../../model/index.ts';
import { datumCorner, spread } from './datum.ts';
import type { Flow } from './flow.ts';
import { line, lines, type Mark } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { crossName, registerMark, stretchesOf } from './tiling.ts';
import { leadingOf, shortened, widthOf, words } from './type.ts';

/** The marks of one datum edge, to be laid along it instead of reading a rule for each. */
export interface StoryStick {
  /** Where it is used: several edges may have the same marks. */
  readonly uses: NonEmpty<string>;
  /** From the datum edge, ascending. */
  readonly marks: NonEmpty<Length>;
}

/** One stick for each distinct row of marks, in the order of the work. */
export function sticksOf(plans: readonly MaterialPlan[]): readonly StoryStick[] {
  const sticks = new Map<string, StoryStick>();
  for (const plan of plans) {
    for (const sheet of plan.sheets) {
      for (const step of sheet.steps) {
        if (step.kind !== 'rip' && step.kind !== 'crosscut') continue;
        const [first, ...rest] = step.marks.filter(isPositive);
        if (first === undefined) continue;
        const use = `${nameOf(plan, sheet)}, ${step.kind}s of ${step.piece.name === 'sheet' ? 'the sheet' : step.piece.name}, step ${step.number}`;
        const key = [first, ...rest].map(toFraction).join(' ');
        const known = sticks.get(key);
        sticks.set(key, {
          marks: [first, ...rest],
          uses: known === undefined ? [use] : [...known.uses, use],
        });
      }
    }
  }
  return [...sticks.values()];
}

function nameOf({ demand }: MaterialPlan, { first, times }: SheetPlan): string {
  const which = times === 1 ? `sheet ${first}` : `sheets ${first} to ${first + times - 1}`;
  return `${demand.material.name} ${which}`;
}

const stickMm = 20;
const apartMm = 5;
/** Beyond the last mark, for its figure. */
const pastMm = 16;
/** From the datum end of the paper to its first mark there is room for the corner. */
const beforeMm = 5;

/**
 * Paper strips at full size, several on a page; one that is longer than the page goes on in the next strip, the
 * two are laid over each other by their crosses.
 *
 *      ┌──────────────────────────┬─┐
 *      │ 0   2 7/8  3       5 7/8 ┼A│
 *    ◣ └─┴───┴──────┴───────┴─────┴─┘
 */
export function stickPages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  const sticks = sticksOf(plans);
  if (sticks.length === 0) return;
  const heading = 'story sticks, full size';
  flow.open(heading);
  flow.bookmark('story sticks');
  flow.say(
    'text',
    `Measure the bar of 100 mm first. Cut along the lines, lay the stick with its end on the datum edge, and prick the marks off; figures are in ${sizes.unit}. Where a stick goes on, lay the crosses of one letter over each other.`,
  );
  flow.down(3);
  let crosses = 0;
  for (const { marks, uses } of sticks) {
    const last = toDrawnMm(marks[marks.length - 1] ?? marks[0]);
    const strips = stretchesOf(last + pastMm, flow.width - beforeMm - 2);
    for (const [i, strip] of strips.entries()) {
      if (flow.room() < stickMm + apartMm + leadingOf('caption')) flow.carryOn();
      const part = strips.length === 1 ? '' : `, strip ${i + 1} of ${strips.length}`;
      const title = `${uses.join('; ')}${part}`;
      drawStrip(flow, sizes, marks, strip.shown, {
        title,
        isFirst: i === 0,
        before: i === 0 ? undefined : { at: strip.own.from, name: crossName(crosses + i - 1) },
        behind: i === strips.length - 1 ? undefined : { at: strip.own.to, name: crossName(crosses + i) },
      });
    }
    crosses += strips.length - 1;
  }
}

interface Strip {
  readonly title: string;
  readonly isFirst: boolean;
  /** Where it is joined to the strip before it, and to the one behind it. */
  readonly before: Joined | undefined;
  readonly behind: Joined | undefined;
}

interface Joined {
  readonly at: number;
  readonly name: string;
}

function drawStrip(
  flow: Flow,
  sizes: Sizes,
  marks: NonEmpty<Length>,
  shown: { readonly from: number; readonly to: number },
  { title, isFirst, before, behind }: Strip,
): void {
  const { face, column } = flow;
  // The first strip begins on the datum edge itself.
  const from = isFirst ? 0 : shown.from;
  const left = column.left + beforeMm;
  const x = (mm: number): number => left + mm - from;
  const top = flow.y() + leadingOf('caption');
  const bottom = top + stickMm;
  const here = marks
    .map((length) => ({ length, mm: toDrawnMm(length) }))
    .filter(({ mm }) => mm >= from && mm <= shown.to);
  const own = here.filter(
    ({ mm }) => (before === undefined || mm >= before.at) && (behind === undefined || mm < behind.at),
  );
  const { figured, figures, wanted, widths, places } = figuresOf(flow, sizes, own, x, {
    // Clear of joints and ends.
    least: x(before?.at ?? from) + 0.8,
    most: x(behind?.at ?? shown.to) - 0.8,
  });
  const y = bottom - tickMm - 4.6;
  const joined: readonly Mark[] = [before, behind].flatMap((it) =>
    it === undefined
      ? []
      : [
          line('joint', { x: x(it.at), y: top }, { x: x(it.at), y: bottom }),
          ...registerMark({ x: x(it.at), y: top + 4.5 }),
          words(face, 'key', it.name, { x: x(it.at) + 1, y: top + 3.6 }),
        ],
  );
  flow.add([
    words(face, 'caption', shortened(face, 'caption', title, flow.width) ?? '', {
      x: column.left,
      y: top - 1.4,
    }),
    line('part outline', { x: x(from), y: top }, { x: x(shown.to), y: top }),
    line('part outline', { x: x(from), y: bottom }, { x: x(shown.to), y: bottom }),
    line('part outline', { x: x(shown.to), y: top }, { x: x(shown.to), y: bottom }),
    line(isFirst ? 'datum edge' : 'part outline', { x: x(from), y: top }, { x: x(from), y: bottom }),
    ...(isFirst ? [datumCorner({ x: x(0), y: bottom })] : []),
    ...lines(
      'running mark',
      here.map(({ mm }) => [
        { x: x(mm), y: bottom },
        { x: x(mm), y: bottom - tickMm },
      ]),
    ),
    ...figured.flatMap((_, i): readonly Mark[] => [
      line('leader', { x: wanted[i] ?? 0, y: bottom - tickMm }, { x: places[i] ?? 0, y: y + 0.8 }),
      words(face, 'running mark', figures[i] ?? '', { x: (places[i] ?? 0) - (widths[i] ?? 0) / 2 + 0.8, y }),
    ]),
    ...joined,
  ]);
  flow.down(leadingOf('caption') + stickMm + apartMm);
}

interface Place {
  readonly length: Length;
  readonly mm: number;
}

/** As many marks have figures as there is room for: all, else every second, every third, the last one always. */
function figuresOf(
  { face }: Flow,
  sizes: Sizes,
  own: readonly Place[],
  x: (mm: number) => number,
  { least, most }: { readonly least: number; readonly most: number },
) {
  for (let every = 1; every <= own.length; every++) {
    const figured = own.filter((_, i) => (own.length - 1 - i) % every === 0);
    const figures = figured.map(({ length }) => sizes.brief(length));
    const wanted = figured.map(({ mm }) => x(mm));
    const widths = figures.map((it) => widthOf(face, 'running mark', it) + 1.6);
    const places = spread(wanted, widths, least, most);
    if (places !== undefined) return { figured, figures, wanted, widths, places };
  }
  return { figured: [], figures: [], wanted: [], widths: [], places: [] };
}

const tickMm = 5;
