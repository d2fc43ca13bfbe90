import { isZero } from '../../measure/index.ts';
import type { MaterialPlan, SheetPlan, Step } from '../../model/index.ts';
import { sheetWord } from '../saying.ts';
import { tag } from './cutNumbers.ts';
import {
  columnsOf,
  countFitting,
  drawAt,
  type Entry,
  entriesOf,
  halfOf,
  heightOfAll,
  inTwoColumns,
  type Row,
} from './entries.ts';
import type { Flow } from './flow.ts';
import { type Area, lowered, type Mark, type Point, rectangle } from './mark.ts';
import { flutesMark, grainMark } from './patterns.ts';
import { type Picture, pictureOf, placeOf } from './picture.ts';
import type { Sizes } from './sizes.ts';
import { wordsOfStep } from './stepWords.ts';
import {
  leadingOf,
  type Paragraph,
  paragraphOf,
  rowsIn,
  shortened,
  type Typeface,
  widthOf,
  words,
  wordsEndingAt,
  wrapped,
} from './type.ts';

/** A picture with its heading and its steps. */
export interface Block {
  readonly scale: number;
  readonly heightMm: number;
  /** Kinds of pieces that have a letter in place of words. */
  readonly keyed: Picture['keyed'];
  readonly draw: () => void;
}

/** Narrower than this no step reads well. */
const leastBeside = 52;

/**
 * Steps stand beside the picture for as long as it is high, the others below it in two columns.
 *
 *   ┌─────────┐ 1 ──────
 *   │ picture │ 2 ──────
 *   └─────────┘ 3 ──────
 *   4 ──────────  6 ────
 *   5 ──────────  7 ────
 */
export function blockOf(
  flow: Flow,
  sizes: Sizes,
  plan: MaterialPlan,
  { sheet, rowsOf }: SheetSteps,
  scale: number,
): Block {
  const { face } = flow;
  const home = homeIn(flow);
  const picture = pictureOf(face, sizes, plan.demand, sheet, scale, home);
  const { keyed } = picture;
  const { beside, besideLeft, below, topMm } = arranged(flow, picture.area, keyed, rowsOf);
  const name = nameOf(plan, sheet);
  return {
    scale,
    heightMm: heightOfBlock(topMm, below),
    keyed,
    draw: () => {
      heading(flow, sizes, plan, sheet, scale);
      const top = flow.y();
      flow.add(lowered(picture.marks, top - home.y));
      drawAt(flow, beside, besideLeft, top + 1);
      flow.down(topMm + (below.length > 0 ? 1 : 0));
      inTwoColumns(flow, below, `further steps of ${name}`);
    },
  };
}

/** How high a block is if no more pieces need a letter than these: found without drawing its picture. */
export function leastHeightMm(
  flow: Flow,
  sizes: Sizes,
  { sheet, rowsOf }: SheetSteps,
  scale: number,
  keyed: Picture['keyed'],
): number {
  const { area } = placeOf(flow.face, sizes, sheet, scale, homeIn(flow));
  const { below, topMm } = arranged(flow, area, keyed, rowsOf);
  return heightOfBlock(topMm, below);
}

/** Where the first picture of a page stands: composed there, most need not be moved. */
function homeIn({ column, topMm }: Flow): Point {
  return { x: column.left, y: topMm + headingMm };
}

function heightOfBlock(topMm: number, below: readonly Entry[]): number {
  return headingMm + topMm + 1 + columnsOf(below).heightMm;
}

interface Arranged {
  readonly beside: readonly Entry[];
  readonly besideLeft: number;
  readonly below: readonly Entry[];
  /** Of the picture and what stands beside it. */
  readonly topMm: number;
}

function arranged(flow: Flow, area: Area, keyed: Picture['keyed'], stepsAt: SheetSteps['rowsOf']): Arranged {
  const { face, column } = flow;
  /** The letters of the picture first, then its steps. */
  const rowsOf = (widthMm: number): readonly Entry[] => [
    ...keyed.flatMap((it, index) => rowsOfKey(face, it, widthMm, index === keyed.length - 1)),
    ...stepsAt(widthMm),
  ];
  const heightMm = area.bottom - area.top;
  const besideLeft = area.right + 3;
  const besideMm = column.right - besideLeft;
  const all = besideMm < leastBeside ? [] : rowsOf(besideMm);
  const overhang = heightOfAll(all) <= heightMm + mostOverhang ? mostOverhang : 0;
  const beside = all.slice(0, countFitting(all, heightMm + overhang - 1));
  const below =
    all.length > 0 && beside.length === all.length ? [] : rowsOf(halfOf(flow)).slice(beside.length);
  return { beside, besideLeft, below, topMm: Math.max(heightMm, heightOfAll(beside) + 1) };
}

const headingMm = 2 * leadingOf('heading') + 1;
/** The last entries may hang over the picture's foot: that is better than a short row of their own. */
const mostOverhang = 24;

/** Which sheet of which material, and what it is called. */
export function nameOf({ demand }: MaterialPlan, { sheet, first, times }: SheetPlan): string {
  const which = times === 1 ? `sheet ${first}` : `sheets ${first} to ${first + times - 1}`;
  const called =
    sheet.label === undefined ? '' : ` · ${sheetWord(sheet) === 'offcut' ? 'offcut ' : ''}${sheet.label}`;
  return `${demand.material.name} · ${which}${called}`;
}

/** Which sheet, how often, what it is, at which scale it is drawn. */
function heading(flow: Flow, sizes: Sizes, plan: MaterialPlan, it: SheetPlan, scale: number): void {
  const { face, column } = flow;
  const { sheet, times } = it;
  const { material, rules } = plan.demand;
  const repeat = times === 1 ? 'cut 1 sheet like this' : `cut ${times} sheets like this`;
  const room = flow.width - widthOf(face, 'heading', repeat) - 6;
  const y = flow.y() + leadingOf('heading') * 0.76;
  flow.add([
    words(face, 'heading', shortened(face, 'heading', nameOf(plan, it), room) ?? '', { x: column.left, y }),
    wordsEndingAt(face, 'heading', repeat, { x: column.right, y }),
  ]);
  flow.down(leadingOf('heading'));
  const drawn = scale === 1 ? 'drawn full size' : `drawn at 1:${scale}`;
  const below = { y: flow.y() + 3.9 };
  flow.add([wordsEndingAt(face, 'text', drawn, { x: column.right, ...below })]);
  const facts = `${sizes.pair(sheet.length, sheet.width)} ${sizes.unit}, ${sizes.fine(material.thickness)} thick`;
  const kerf = isZero(rules.kerf)
    ? '; cut on the mark'
    : `; a cut takes ${sizes.fine(rules.kerf)}, beyond the mark`;
  const most = flow.width - widthOf(face, 'text', drawn) - 6;
  const said = widthOf(face, 'text', facts + kerf) <= most ? facts + kerf : facts;
  flow.add([
    words(face, 'text', shortened(face, 'text', said, most) ?? '', { x: column.left, ...below }),
    ...directions(flow, material, sheet, column.left + widthOf(face, 'text', said) + 6, column.left + most),
  ]);
  flow.down(leadingOf('heading') + 1);
}

/** Which way grain and flutes run on this sheet: mark and word, as far as there is room. */
function directions(
  { face, y }: Flow,
  material: MaterialPlan['demand']['material'],
  sheet: SheetPlan['sheet'],
  left: number,
  right: number,
): readonly Mark[] {
  const marks: Mark[] = [];
  let x = left;
  const put = (name: string, runs: typeof sheet.grain, draw: typeof grainMark): void => {
    if (runs === 'none') return;
    const reach = runs === 'unknown' ? -1.6 : runs === 'length' ? 9 : 3.6;
    const way = runs === 'length' ? 'left to right' : 'bottom to top';
    const texts = runs === 'unknown' ? [`${name}: look, not known`] : [`${name} ${way}`, name];
    const text = texts.find((it) => x + reach + 1.6 + widthOf(face, 'text', it) <= right);
    if (text === undefined) return;
    if (runs !== 'unknown') {
      const centre = { x: x + reach / 2, y: y() + 2.6 };
      marks.push(...draw(centre, runs === 'length' ? 9 : 5, runs === 'length' ? 'across' : 'up'));
    }
    marks.push(words(face, 'text', text, { x: x + reach + 1.6, y: y() + 3.9 }));
    x += reach + 7 + widthOf(face, 'text', text);
  };
  if (material.hasGrain) put('grain', sheet.grain, grainMark);
  if (material.hasFlutes) put('flutes', sheet.flutes, flutesMark);
  return marks;
}

/** A sheet and what its steps say: set at a width once, since each scale asks for it again, and often for the same. */
export interface SheetSteps {
  readonly sheet: SheetPlan;
  readonly rowsOf: (widthMm: number) => readonly Entry[];
}

export function stepsOf(face: Typeface, sizes: Sizes, sheet: SheetPlan): SheetSteps {
  const said = sheet.steps.map((step) =>
    wordsOfStep(step, sizes).map((text) => paragraphOf(face, 'text', text)),
  );
  const known = new Map<number, readonly Entry[]>();
  const rowsOf = (widthMm: number): readonly Entry[] => {
    const rows = known.get(widthMm) ?? [
      ...sheet.steps.flatMap((step, index) => rowsOfStep(face, sheet, step, said[index] ?? [], widthMm)),
      ...rowsOfLeftovers(face, sizes, sheet, widthMm),
    ];
    known.set(widthMm, rows);
    return rows;
  };
  return { sheet, rowsOf };
}

function rowsOfStep(
  face: Typeface,
  { times }: SheetPlan,
  step: Step,
  said: readonly Paragraph[],
  width: number,
): readonly Entry[] {
  const boxes = times <= 3 ? times : 1;
  const indent = boxes * 4.6 + 8;
  const lines = said.flatMap((paragraph, index): Row[] => {
    const indentMm = index === 0 ? indent : indent + 3;
    return rowsIn(paragraph, width - indentMm).map((text) => ({ text, indentMm }));
  });
  const lead = ({ x, y }: Point): readonly Mark[] => [
    ...Array.from({ length: boxes }, (_, box) => tickBox({ x: x + box * 4.6, y })),
    ...tag(face, `${step.number}`, { x: x + boxes * 4.6 + 3.3, y: y + 2.45 }),
  ];
  return entriesOf(face, lines, lead, 1.1);
}

/** What is kept, by name and size, once all is cut. */
function rowsOfLeftovers(
  face: Typeface,
  sizes: Sizes,
  { leftovers }: SheetPlan,
  width: number,
): readonly Entry[] {
  const kept = new Map<string, { readonly size: string; readonly count: number }>();
  for (const { box, keep } of leftovers) {
    if (keep === undefined) continue;
    kept.set(keep, { size: sizes.pair(box.length, box.width), count: (kept.get(keep)?.count ?? 0) + 1 });
  }
  if (kept.size === 0) return [];
  const named = [...kept]
    .sort(([a], [b]) => a.length - b.length || (a < b ? -1 : 1))
    .map(
      ([name, { size, count }]) =>
        `${name.replace(' ', '\u00a0')}: ${count === 1 ? '' : `${count}\u00a0of\u00a0`}${size}`,
    );
  const scrap = leftovers.some(({ keep }) => keep === undefined) ? ['the rest is scrap'] : [];
  const said = `Write on what is left: ${[...named, ...scrap].join(', ')}`;
  const lead = ({ x, y }: Point): readonly Mark[] => [tickBox({ x, y })];
  const lines = wrapped(face, 'text', said, width - 12.6).map((text): Row => ({ text, indentMm: 12.6 }));
  return entriesOf(face, lines, lead, 1.1);
}

function rowsOfKey(
  face: Typeface,
  { key, label, size, count, isShown }: Picture['keyed'][number],
  width: number,
  isLast: boolean,
): readonly Entry[] {
  const here = count === 1 ? '' : `, ${count} here`;
  const said = `${label}, ${size}${here}${isShown ? '' : ' (too small to point at)'}`;
  const lines = wrapped(face, 'text', said, width - 8).map((text): Row => ({ text, indentMm: 8 }));
  const lead = ({ x, y }: Point): readonly Mark[] => [words(face, 'key', key, { x: x + 1, y: y + 3.9 })];
  return entriesOf(face, lines, lead, isLast ? 2 : 0.4);
}

function tickBox({ x, y }: Point): Mark {
  return rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 });
}
