import { isZero, toDrawnMm } from '../../measure/index.ts';
import type { MaterialPlan, SheetPlan, Step } from '../../model/index.ts';
import { tag } from './cutNumbers.ts';
import type { Flow } from './flow.ts';
import { lowered, type Mark, type Point, rectangle } from './mark.ts';
import { flutesMark, grainMark } from './patterns.ts';
import { guttersOf, type Picture, pictureOf } from './picture.ts';
import type { Sizes } from './sizes.ts';
import { wordsOfStep } from './stepWords.ts';
import { leadingOf, shortened, type Typeface, widthOf, words, wordsEndingAt, wrapped } from './type.ts';

const scales = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000];

/** Each distinct layout once: its picture to scale and the steps beside or below it. */
export function sheetPages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  const coarsest = Math.max(
    1,
    ...plans.flatMap(({ sheets }) => sheets.map((it) => scaleFor(flow, sizes, it))),
  );
  let open: number | undefined;
  for (const plan of plans) {
    for (const [index, sheet] of plan.sheets.entries()) {
      const wanted = wantedScale(flow, sizes, plan, sheet, coarsest);
      const { scale, block } = fitting(flow, sizes, plan, sheet, wanted);
      if (
        scale !== open ||
        flow.room() < Math.max(block.leastMm, Math.min(block.allMm, flow.fullMm * 0.75))
      ) {
        flow.open(statementOf(scale));
        open = scale;
      }
      if (index === 0) flow.bookmark(plan.demand.material.name);
      block.draw();
    }
  }
}

/**
 * One scale for all pictures where it costs no piece its words and none much of its size: they compare
 * better, and several share a page. Else the sheet's own.
 */
function wantedScale(
  flow: Flow,
  sizes: Sizes,
  plan: MaterialPlan,
  sheet: SheetPlan,
  coarsest: number,
): number {
  const own = scaleFor(flow, sizes, sheet);
  if (coarsest === own || coarsest > 2 * own) return own;
  const lettersAt = (scale: number): number => blockOf(flow, sizes, plan, sheet, scale).letters;
  return lettersAt(coarsest) <= lettersAt(own) ? coarsest : own;
}

/** A picture with all its steps on one page, if a scale that is a little coarser makes it so. */
function fitting(
  flow: Flow,
  sizes: Sizes,
  plan: MaterialPlan,
  sheet: SheetPlan,
  wanted: number,
): { readonly scale: number; readonly block: Block } {
  const first = { scale: wanted, block: blockOf(flow, sizes, plan, sheet, wanted) };
  if (first.block.allMm <= flow.fullMm) return first;
  const coarser = scales.find((scale) => scale > wanted && scale <= wanted * 1.34);
  const second = coarser === undefined ? undefined : blockOf(flow, sizes, plan, sheet, coarser);
  if (coarser === undefined || second === undefined || second.allMm > flow.fullMm) return first;
  return { scale: coarser, block: second };
}

function statementOf(scale: number): string {
  return scale === 1
    ? 'drawn full size; still mark out with your rule'
    : `drawn at 1:${scale}, mark out with your rule`;
}

/** The largest scale at which the sheet leaves room for its marks and for steps. */
function scaleFor(flow: Flow, sizes: Sizes, plan: SheetPlan): number {
  const { left, right } = guttersOf(flow.face, sizes, plan);
  const width = flow.width - left - right;
  const height = flow.fullMm * 0.42;
  const last = scales[scales.length - 1] ?? 1;
  const fits = (scale: number): boolean =>
    toDrawnMm(plan.sheet.length) / scale <= width && toDrawnMm(plan.sheet.width) / scale <= height;
  return scales.find(fits) ?? last;
}

interface Block {
  /** What has to stay together: heading and picture. */
  readonly leastMm: number;
  readonly allMm: number;
  /** Kinds of pieces that have a letter in place of words. */
  readonly letters: number;
  readonly draw: () => void;
}

/** Narrower than this no step reads well. */
const leastBeside = 56;
const columnGap = 6;
const afterBlock = 6;

/**
 * Steps stand beside the picture for as long as it is high, the others below it in two columns.
 *
 *   ┌─────────┐ 1 ──────
 *   │ picture │ 2 ──────
 *   └─────────┘ 3 ──────
 *   4 ──────────  6 ────
 *   5 ──────────  7 ────
 */
function blockOf(flow: Flow, sizes: Sizes, plan: MaterialPlan, sheet: SheetPlan, scale: number): Block {
  const { face, column, width } = flow;
  const headingMm = 2 * leadingOf('heading') + 1;
  const picture = pictureOf(face, sizes, plan.demand, sheet, scale, { x: column.left, y: 0 });
  const { area, keyed } = picture;
  const pictureMm = area.bottom;
  const besideLeft = area.right + 3;
  const besideMm = column.right - besideLeft;
  const all = besideMm < leastBeside ? [] : rows(face, sizes, sheet, keyed, besideMm);
  // A last entry or two may hang over: that is better than a short row of their own.
  const overhang = heightOfAll(all) <= pictureMm + 24 ? 24 : 0;
  const beside = all.slice(0, countFitting(all, pictureMm + overhang - 1));
  const below = rows(face, sizes, sheet, keyed, (width - columnGap) / 2).slice(beside.length);
  const topMm = Math.max(pictureMm, heightOfAll(beside) + 1);
  return {
    leastMm: headingMm + topMm,
    letters: keyed.length,
    allMm: headingMm + topMm + 1 + columnsOf(below).heightMm,
    draw: () => {
      heading(flow, sizes, plan, sheet);
      const top = flow.y();
      flow.add(lowered(picture.marks, top));
      let y = top + 1;
      for (const entry of beside) {
        flow.add(entry.draw({ x: besideLeft, y }));
        y += entry.heightMm;
      }
      flow.down(topMm + (below.length > 0 ? 1 : 0));
      overflow(flow, below);
      flow.down(afterBlock);
    },
  };
}

function countFitting(entries: readonly Entry[], heightMm: number): number {
  let y = 0;
  for (const [index, entry] of entries.entries()) {
    y += entry.heightMm;
    if (y > heightMm) return index;
  }
  return entries.length;
}

function heightOfAll(entries: readonly Entry[]): number {
  return entries.reduce((all, { heightMm }) => all + heightMm, 0);
}

function heading(
  flow: Flow,
  sizes: Sizes,
  { demand }: MaterialPlan,
  { sheet, first, times }: SheetPlan,
): void {
  const { face, column } = flow;
  const last = first + times - 1;
  const which = times === 1 ? `sheet ${first}` : `sheets ${first} to ${last}`;
  const repeat = times === 1 ? 'cut 1 sheet like this' : `cut ${times} sheets like this`;
  const called = sheet.label === undefined ? '' : ` · ${sheet.isOffcut ? 'offcut ' : ''}${sheet.label}`;
  const room = flow.width - widthOf(face, 'heading', repeat) - 6;
  const y = flow.y() + leadingOf('heading') * 0.76;
  flow.add([
    words(
      face,
      'heading',
      shortened(face, 'heading', `${demand.material.name} · ${which}${called}`, room) ?? '',
      {
        x: column.left,
        y,
      },
    ),
    wordsEndingAt(face, 'heading', repeat, { x: column.right, y }),
  ]);
  flow.down(leadingOf('heading'));
  const facts = `${sizes.pair(sheet.length, sheet.width)} ${sizes.unit}, ${sizes.fine(demand.material.thickness)} thick`;
  const kerf = isZero(demand.rules.kerf)
    ? ''
    : `; a cut takes ${sizes.fine(demand.rules.kerf)}, beyond the mark`;
  flow.add([words(face, 'text', facts + kerf, { x: column.left, y: flow.y() + 3.9 })]);
  flow.add(directions(flow, demand.material, sheet, column.left + widthOf(face, 'text', facts + kerf) + 6));
  flow.down(leadingOf('heading'));
}

/** Which way grain and flutes run on this sheet: mark and word. */
function directions(
  { face, y }: Flow,
  material: MaterialPlan['demand']['material'],
  sheet: SheetPlan['sheet'],
  left: number,
): readonly Mark[] {
  const marks: Mark[] = [];
  let x = left;
  const middle = y() + 2.6;
  const put = (name: string, runs: typeof sheet.grain, draw: typeof grainMark): void => {
    if (runs === 'none') return;
    if (runs === 'unknown') {
      const text = `${name}: look, not known`;
      marks.push(words(face, 'text', text, { x, y: y() + 3.9 }));
      x += widthOf(face, 'text', text) + 6;
      return;
    }
    const reach = runs === 'length' ? 9 : 3.6;
    marks.push(
      ...draw(
        { x: x + reach / 2, y: middle },
        runs === 'length' ? 9 : 5,
        runs === 'length' ? 'across' : 'up',
      ),
    );
    const text = `${name} ${runs === 'length' ? 'left to right' : 'bottom to top'}`;
    marks.push(words(face, 'text', text, { x: x + reach + 1.6, y: y() + 3.9 }));
    x += reach + 7 + widthOf(face, 'text', text);
  };
  if (material.hasGrain) put('grain', sheet.grain, grainMark);
  if (material.hasFlutes) put('flutes', sheet.flutes, flutesMark);
  return marks;
}

/** One entry of the column beside or below a picture. */
interface Entry {
  readonly heightMm: number;
  readonly draw: (at: Point) => readonly Mark[];
}

/** No entry is higher than so many lines: what is longer goes on in a further one. */
const mostLines = 18;

interface Row {
  readonly text: string;
  readonly indentMm: number;
}

/** The letters of the picture first, then its steps. */
function rows(
  face: Typeface,
  sizes: Sizes,
  sheet: SheetPlan,
  keyed: Picture['keyed'],
  width: number,
): readonly Entry[] {
  const boxes = sheet.times <= 3 ? sheet.times : 1;
  const indent = boxes * 4.6 + 8;
  const ofStep = (step: Step): readonly Entry[] => {
    const lines = wordsOfStep(step, sizes).flatMap((said, index): Row[] => {
      const indentMm = index === 0 ? indent : indent + 3;
      return wrapped(face, 'text', said, width - indentMm).map((text) => ({ text, indentMm }));
    });
    const lead = ({ x, y }: Point): readonly Mark[] => [
      ...Array.from({ length: boxes }, (_, box) => tickBox({ x: x + box * 4.6, y })),
      ...tag(face, `${step.number}`, { x: x + boxes * 4.6 + 3.3, y: y + 2.45 }),
    ];
    return entriesOf(face, lines, lead, 1.1);
  };
  const ofKey = (
    { key, label, size, count, isShown }: Picture['keyed'][number],
    index: number,
  ): readonly Entry[] => {
    const said = `${label}, ${size}${count === 1 ? '' : `, ${count} here`}${isShown ? '' : ' (too small to point at)'}`;
    const lines = wrapped(face, 'text', said, width - 8).map((text): Row => ({ text, indentMm: 8 }));
    const isLast = index === keyed.length - 1;
    return entriesOf(
      face,
      lines,
      ({ x, y }) => [words(face, 'key', key, { x: x + 1, y: y + 3.9 })],
      isLast ? 2 : 0.4,
    );
  };
  return [...keyed.flatMap(ofKey), ...sheet.steps.flatMap(ofStep)];
}

function entriesOf(
  face: Typeface,
  lines: readonly Row[],
  lead: Entry['draw'],
  afterMm: number,
): readonly Entry[] {
  const leading = leadingOf('text');
  return Array.from({ length: Math.max(1, Math.ceil(lines.length / mostLines)) }, (_, part): Entry => {
    const own = lines.slice(part * mostLines, (part + 1) * mostLines);
    const isLast = (part + 1) * mostLines >= lines.length;
    return {
      heightMm: Math.max(own.length * leading, 5) + (isLast ? afterMm : 0),
      draw: ({ x, y }) => [
        ...(part === 0 ? lead({ x, y }) : []),
        ...own.map(({ text, indentMm }, row) =>
          words(face, 'text', text, { x: x + indentMm, y: y + 3.9 + row * leading }),
        ),
      ],
    };
  });
}

function tickBox({ x, y }: Point): Mark {
  return rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 });
}

/** Entries in two columns of about equal height, over as many pages as they need. */
function overflow(flow: Flow, entries: readonly Entry[]): void {
  let left = entries;
  while (left.length > 0) {
    const tallest = Math.max(...left.map(({ heightMm }) => heightMm));
    if (flow.room() < Math.min(tallest, columnsOf(left).heightMm) && !flow.isAtTop()) flow.carryOn();
    const balanced = columnsOf(left);
    const first = balanced.heightMm <= flow.room() ? balanced.first : countFitting(left, flow.room());
    const rest = left.slice(first);
    const second = balanced.heightMm <= flow.room() ? rest.length : countFitting(rest, flow.room());
    const columns = [left.slice(0, first), rest.slice(0, second)];
    for (const [side, column] of columns.entries()) {
      let y = 0;
      for (const entry of column) {
        flow.add(
          entry.draw({ x: flow.column.left + side * ((flow.width + columnGap) / 2), y: flow.y() + y }),
        );
        y += entry.heightMm;
      }
    }
    flow.down(Math.max(...columns.map(heightOfAll)));
    left = rest.slice(second);
    if (left.length > 0) flow.carryOn();
  }
}

/** The two columns that are least high when the entries keep their order. */
function columnsOf(entries: readonly Entry[]): { readonly first: number; readonly heightMm: number } {
  const total = heightOfAll(entries);
  let best = { first: entries.length, heightMm: total };
  let above = 0;
  for (const [index, { heightMm }] of entries.entries()) {
    above += heightMm;
    const higher = Math.max(above, total - above);
    if (higher < best.heightMm - 0.01) best = { first: index + 1, heightMm: higher };
  }
  return best;
}
