import { equal, isZero, toDrawnMm } from '../../measure/index.ts';
import type { Length, SheetPlan, Step, Strip } from '../../model/index.ts';
import { widthOf } from '../columns/index.ts';
import type { Showing } from './lengths.ts';
import { columnOf, type DrawingRoom, type Placing, rowOf } from './pictureLayout.ts';

export interface Mark {
  readonly at: number;
  readonly text: string;
}

type CutStep = Extract<Step, { readonly marks: unknown }>;

/** The cuts whose marks run along the sheet's own edges: at most one up its side, one along its bottom. */
export interface LeadingCuts {
  readonly up: CutStep | undefined;
  readonly along: CutStep | undefined;
}

/** The first cut; and where that leaves one strip and what is left over, also the cut of that strip. */
export function leadingCuts({ steps }: SheetPlan): LeadingCuts {
  const cuts = steps.filter((step): step is CutStep => step.kind === 'rip' || step.kind === 'crosscut');
  const [first] = cuts;
  const given = (first?.runs ?? []).flatMap(({ gives }) => gives);
  const [strip, ...others] = given.filter(({ what }) => what === 'part' || what === 'strip');
  const isOnlyOne = strip?.what === 'strip' && strip.count === 1 && others.length === 0;
  const second = isOnlyOne ? cuts.find(({ piece }) => piece.name === strip.name) : undefined;
  const startsAtDatum =
    second !== undefined && isZero(second.piece.box.left) && isZero(second.piece.box.bottom);
  const both = startsAtDatum ? [first, second] : [first];
  return {
    up: both.find((step) => step?.kind === 'rip'),
    along: both.find((step) => step?.kind === 'crosscut'),
  };
}

/** Their running marks, and the sheet's own size at the end of both edges. */
export function marksAlong(
  { up, along }: LeadingCuts,
  { inside }: SheetPlan,
  showing: Showing,
): { readonly up: readonly Mark[]; readonly along: readonly Mark[] } {
  const toMark = (length: Length): Mark => ({ at: toDrawnMm(length), text: showing.short(length) });
  return {
    up: [...(up?.marks ?? []), inside.width].map(toMark),
    along: [...(along?.marks ?? []), inside.length].map(toMark),
  };
}

export function writeMarks(
  place: Placing,
  marks: { readonly up: readonly Mark[]; readonly along: readonly Mark[] },
  { kerf }: DrawingRoom,
): void {
  const { canvas, leftMargin, plan, top } = place;
  const half = toDrawnMm(kerf) / 2;
  const edgesY = plan.blocks.flatMap((it) => [it.bottom, it.top]);
  const rows = new Set<number>();
  for (const { at, text } of [...marks.up].reverse()) {
    const edge = edgeOfMark(at, half, edgesY);
    if (edge === undefined || rows.has(rowOf(place, edge))) continue;
    rows.add(rowOf(place, edge));
    canvas.write({ column: leftMargin - 1 - widthOf(text), row: rowOf(place, edge) }, text);
  }
  const edgesX = plan.blocks.flatMap((it) => [it.left, it.right]);
  let free = Number.POSITIVE_INFINITY;
  for (const { at, text } of [...marks.along].reverse()) {
    const edge = edgeOfMark(at, half, edgesX);
    if (edge === undefined) continue;
    const column = columnOf(place, edge) - widthOf(text) + 1;
    if (column < 0 || column + widthOf(text) >= free) continue;
    canvas.write({ column, row: top + plan.y.cells + 1 }, text);
    free = column;
  }
}

/** A mark's cut is drawn half a kerf beyond it, or on the sheet's edge; inside a joined outline not at all. */
function edgeOfMark(at: number, half: number, edges: readonly number[]): number | undefined {
  const edge = nearest(at + half, edges);
  return Math.abs(edge - at) <= half + 0.01 ? edge : undefined;
}

function nearest(wanted: number, edges: readonly number[]): number {
  return edges.reduce((best, edge) => (Math.abs(edge - wanted) < Math.abs(best - wanted) ? edge : best), 0);
}

export function letterOf(name: string): string {
  return name.replace(/^strip /, '');
}

/** The strips that lie one above the other along the marks of the side. */
export function stripsBeside(up: CutStep | undefined, { strips }: SheetPlan): readonly Strip[] {
  if (up === undefined) return [];
  const names = up.runs.flatMap(({ gives }) => gives.map(({ name }) => name));
  return strips.filter(({ name, box }) => names.includes(name) && equal(box.length, up.piece.box.length));
}

/** Names beside the strips of the leading rip; on the upper edge of all others, where it is long enough. */
export function writeStrips(place: Placing, sheet: SheetPlan, beside: readonly Strip[]): void {
  const { canvas, leftMargin, plan } = place;
  const edgesX = plan.blocks.flatMap((it) => [it.left, it.right]);
  const edgesY = plan.blocks.flatMap((it) => [it.bottom, it.top]);
  const taken = new Set<string>();
  for (const strip of sheet.strips) {
    const left = toDrawnMm(strip.box.left);
    const bottom = toDrawnMm(strip.box.bottom);
    const right = left + toDrawnMm(strip.box.length);
    const top = bottom + toDrawnMm(strip.box.width);
    const low = rowOf(place, nearest(bottom, edgesY));
    const high = rowOf(place, nearest(top, edgesY));
    const letter = letterOf(strip.name);
    if (beside.includes(strip)) {
      canvas.write({ column: leftMargin + plan.x.cells + 2, row: (low + high) >> 1 }, letter);
      continue;
    }
    // Strips that begin in one corner have their names in a row, the outer one first.
    const end = columnOf(place, nearest(right, edgesX));
    const row = high === place.top ? 0 : high;
    let column = columnOf(place, nearest(left, edgesX)) + 1;
    while (taken.has(`${column} ${row}`)) column += 2;
    if (column + widthOf(letter) > end) continue;
    canvas.write({ column, row }, letter);
    taken.add(`${column} ${row}`);
  }
}
