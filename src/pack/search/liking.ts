import { areaOf, type Job, type JobRules, type JobSheet } from '../job.ts';
import { openingOf, sharesOf } from './cuttable.ts';
import type { FilledSheet } from './search.ts';
import { alongOf, crossOf, isShavable, type Node, Shape } from './tree.ts';

/** How a person likes layouts; the first difference decides. */
export interface Liking {
  /** The more the leftovers are one large rectangle, the higher; whole 64ths, so that trifles don't count. */
  readonly keeps: number;
  /** Different widths to set out, over all sheets. */
  readonly settings: number;
  /** Cuts, and how often a width is set out if piece after piece is finished: both take about as long. */
  readonly work: number;
  /** Sheets that are ripped first, then crosscut. */
  readonly ripped: number;
}

export function isLiked(a: Liking, b: Liking): boolean {
  if (a.keeps !== b.keeps) return a.keeps > b.keeps;
  if (a.settings !== b.settings) return a.settings < b.settings;
  if (a.work !== b.work) return a.work < b.work;
  return a.ripped > b.ripped;
}

export function likingOfAll(sheets: readonly FilledSheet[], job: Job): Liking {
  const widths = new Set<number>();
  let [keeps, work, ripped] = [0, 0, 0];
  for (const { kind, root, times } of sheets) {
    const its = likingOf(root, job.sheets[kind]!, job.rules);
    for (const width of its.widths) widths.add(width);
    keeps += its.keeps * times;
    work += (its.cuts + its.runs) * times;
    if (its.isRipped) ripped += times;
  }
  return { keeps: inWholes(keeps), settings: widths.size, work, ripped };
}

/** @param set  widths that other sheets ask for anyway: they cost no setting here */
export function likingOfSheet(
  root: Node,
  sheet: JobSheet,
  rules: JobRules,
  set: ReadonlySet<number>,
): Liking {
  const { keeps, widths, cuts, runs, isRipped } = likingOf(root, sheet, rules);
  const settings = [...widths].filter((width) => !set.has(width)).length;
  return { keeps: inWholes(keeps), settings, work: cuts + runs, ripped: isRipped ? 1 : 0 };
}

function inWholes(keeps: number): number {
  return Math.floor(keeps * 64);
}

function likingOf(root: Node, sheet: JobSheet, rules: JobRules) {
  const area = areaOf(sheet);
  const keeps = leftovers(root, sheet, rules).reduce((sum, it) => sum + (it / area) * (it / area), 0);
  return { keeps, ...cutsOf(root, sheet, rules) };
}

export interface SheetCuts {
  /** What is set out to cut it, in cells. */
  readonly widths: ReadonlySet<number>;
  readonly cuts: number;
  /** Equal cuts in a row, off one piece in hand and those that are cut like it, are one run. */
  readonly runs: number;
  /** True where the first cut runs along the sheet's length. */
  readonly isRipped: boolean;
}

/** The cuts that a sheet's tree stands for, the same that are written out in the end (`emit.ts`). */
export function cutsOf(root: Node, sheet: JobSheet, rules: JobRules): SheetCuts {
  const widths = new Set<number>();
  let [cuts, runs] = [0, 0];
  let first: Shape | undefined;
  const cut = (shape: Shape, size: number, whole: number): void => {
    if (size >= whole) return;
    first ??= shape;
    widths.add(size);
    cuts++;
  };
  const run = (isCut: boolean): void => {
    if (isCut) runs++;
  };
  const line = (kids: readonly Node[], shape: Shape, long: number, high: number): void => {
    const sorted = [...kids].sort(
      (a, b) => alongOf(b, shape) - alongOf(a, shape) || a.kids.length - b.kids.length,
    );
    const end = sorted.reduce((left, kid) => left - alongOf(kid, shape), long);
    const shares = sharesOf({ kids: sorted, shape, end, cross: high }, rules) ?? [];
    const sizes = sorted.map((kid, i) => alongOf(kid, shape) + (shares[i] ?? 0));
    let rest = long;
    for (const [i, size] of sizes.entries()) {
      cut(shape, size, i < sorted.length - 1 ? Number.POSITIVE_INFINITY : rest);
      if (i === 0 || size !== sizes[i - 1]) run(size < rest || i < sorted.length - 1);
      rest -= size;
    }
    // Only now, since the sheet's own cuts come first.
    for (const [i, kid] of sorted.entries()) {
      const before = runs;
      const own = alongOf(kid, shape);
      if (isShavable(kid, shape)) cut(shape, own, sizes[i]!);
      if (kid.shape === Shape.part) {
        cut(acrossOf(shape), crossOf(kid, shape), high);
        run(crossOf(kid, shape) < high);
      } else line(kid.kids, kid.shape, high, isShavable(kid, shape) ? own : sizes[i]!);
      // What is cut like the strip beside it is cut with it.
      if (i > 0 && sizes[i] === sizes[i - 1] && isLike(kid, sorted[i - 1]!)) runs = before;
    }
  };

  const shape = root.shape === Shape.part ? Shape.row : root.shape;
  const kids = root.shape === Shape.part ? [root] : root.kids;
  const [long, high] = shape === Shape.row ? [sheet.length, sheet.width] : [sheet.width, sheet.length];
  const low = crossOf(root, shape);
  const used = alongOf(root, shape);
  switch (openingOf(root, sheet, rules)) {
    case 'rest first':
      cut(acrossOf(shape), low, high);
      run(low < high);
      line(kids, shape, long, low);
      break;
    case 'end first':
      cut(shape, used, long);
      run(used < long);
      cut(acrossOf(shape), low, high);
      run(low < high);
      line(kids, shape, used, low);
      break;
    default:
      line(kids, shape, long, high);
  }
  return { widths, cuts, runs, isRipped: first === Shape.column };
}

function isLike(a: Node, b: Node): boolean {
  return (
    a.shape === b.shape &&
    a.width === b.width &&
    a.height === b.height &&
    a.kids.length === b.kids.length &&
    a.kids.every((kid, i) => isLike(kid, b.kids[i]!))
  );
}

/** A row is parted by crosscuts, so what lies across it by rips; and the other way round. */
function acrossOf(shape: Shape): Shape {
  return shape === Shape.row ? Shape.column : Shape.row;
}

/** Areas of what is left over: beside the whole tree, and beside each kid of a line. */
export function leftovers(root: Node, sheet: JobSheet, rules: JobRules): number[] {
  const left: number[] = [];
  const opening = openingOf(root, sheet, rules);
  if (opening === 'each alone') {
    const [long, high] =
      root.shape === Shape.column ? [sheet.width, sheet.length] : [sheet.length, sheet.width];
    left.push((long - alongOf(root, root.shape)) * high);
    for (const kid of root.kids) {
      left.push((high - crossOf(kid, root.shape)) * alongOf(kid, root.shape));
      beside(kid, left);
    }
  } else {
    const [endX, endY] = [sheet.length - root.width, sheet.width - root.height];
    const isEndFirst = opening === 'end first';
    left.push(endX * (isEndFirst ? sheet.width : root.height));
    left.push(endY * (isEndFirst ? root.width : sheet.length));
    beside(root, left);
  }
  return left.filter((area) => area > 0);
}

function beside(node: Node, left: number[]): void {
  for (const kid of node.kids) {
    const gap = crossOf(node, node.shape) - crossOf(kid, node.shape);
    if (gap > 0) left.push(gap * alongOf(kid, node.shape));
    beside(kid, left);
  }
}
