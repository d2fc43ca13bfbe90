import { areaOf, type Job, type JobSheet } from '../job.ts';
import { construct, recipes } from './construct.ts';
import { copiesOf } from './copies.ts';
import { openingOf } from './cuttable.ts';
import type { Filling } from './filling.ts';
import { copiesIn, type FilledSheet } from './search.ts';
import type { Copies, OpenSheet } from './sheet.ts';
import { inStrips, mostInStrips, sheetsInOrder, stripWays } from './strips.ts';
import { alongOf, collectParts, crossOf, lineOf, type Node, Shape } from './tree.ts';

/** How a person likes a sheet's layout; the first difference decides. */
interface Liking {
  /** The more the leftovers are one large rectangle, the higher; whole 64ths, so that trifles don't count. */
  readonly keeps: number;
  /** Different widths to set out. */
  readonly settings: number;
  readonly cuts: number;
  /** Sheets that are ripped first, then crosscut. */
  readonly ripped: number;
}

/**
 * Lays the same parts out on the same sheets anew, in all the quick ways there are, and keeps what a person
 * likes best: all sheets together in strips, or each sheet by itself.
 */
export function* tidied(job: Job, sheets: readonly FilledSheet[]): Generator<void, FilledSheet[]> {
  const counts = countsOf(job, sheets);
  const strips = copiesIn(counts) > mostInStrips ? [] : stripsOf(job, counts, sheets);
  let best: FilledSheet[] | undefined;
  let liking: Liking | undefined;
  for (const laid of strips) {
    yield;
    const ripped = laid.map((sheet) => ({
      ...sheet,
      root: ripsFirst(sheet.root, job.sheets[sheet.kind]!, job),
    }));
    const itsLiking = likingOfAll(ripped, job);
    if (liking !== undefined && !isLiked(itsLiking, liking)) continue;
    best = ripped;
    liking = itsLiking;
  }
  // Where all of it goes into strips, nothing else is liked better often enough to be worth the time.
  if (best === undefined) {
    best = [];
    for (const sheet of sheets) {
      best.push({ ...sheet, root: yield* tidiedTree(job, sheet) });
      yield;
    }
  }
  // What is already cut into comes to hand before what is whole.
  const isWhole = ({ kind }: FilledSheet) => (job.sheets[kind]!.cost > 0 ? 1 : 0);
  return best.toSorted((a, b) => isWhole(a) - isWhole(b));
}

function* stripsOf(
  job: Job,
  counts: readonly number[],
  sheets: readonly FilledSheet[],
): Generator<FilledSheet[]> {
  const order = sheetsInOrder(job, sheets);
  const isMixed = order.some((kind) => kind !== order[0]);
  for (const kinds of isMixed ? [order, order.toReversed()] : [order]) {
    for (const way of stripWays) {
      const laid = inStrips(job, counts, kinds, way);
      if (laid !== undefined) yield laid;
    }
  }
}

export function countsOf(job: Job, sheets: readonly FilledSheet[]): number[] {
  const counts = job.kinds.map(() => 0);
  for (const { root, kindOf, times } of sheets) {
    const parts: number[] = [];
    collectParts(root, parts);
    for (const part of parts) counts[kindOf[part]!]! += times;
  }
  return counts;
}

function* tidiedTree(job: Job, { kind, root, kindOf }: FilledSheet): Generator<void, Node> {
  const parts: number[] = [];
  collectParts(root, parts);
  const { copies, numbers } = copiesOfParts(job, parts, kindOf);
  const sheet = job.sheets[kind]!;
  let best = root;
  let liking = likingOf(root, sheet, job);
  for (const recipe of recipes) {
    const { sheets, leftOut } = yield* construct(job, copies, recipe, [kind]);
    const other = sheets[0]?.root ?? null;
    if (leftOut.length > 0 || sheets.length !== 1 || other === null) continue;
    const itsLiking = likingOf(other, sheet, job);
    if (!isLiked(itsLiking, liking)) continue;
    renumber(other, numbers);
    best = other;
    liking = itsLiking;
  }
  return ripsFirst(best, sheet, job);
}

function likingOfAll(sheets: readonly FilledSheet[], job: Job): Liking {
  const widths = new Set<number>();
  let keeps = 0;
  let cuts = 0;
  let ripped = 0;
  for (const { kind, root, times } of sheets) {
    const sheet = job.sheets[kind]!;
    keeps += keepsOfSheet(root, sheet, job) * times;
    cuts += countCuts(root, widths) * times;
    if (root.shape === Shape.column) ripped += times;
  }
  return { keeps: Math.floor(keeps * 64), settings: widths.size, cuts, ripped };
}

/**
 * A row of columns that are all divided alike is as well a column of rows: the same cuts and settings, but long
 * rips come first and the crosscuts after them.
 *
 *     ┌────┬──────┬────┐        ┌────┬──────┬────┐
 *     │    │      │    │        ├────┴──────┴────┤ ← rip
 *     ├────┼──────┼────┤   =    │                │
 *     │    │      │    │        │                │
 *     └────┴──────┴────┘        └────────────────┘
 */
function ripsFirst(root: Node, sheet: JobSheet, job: Job): Node {
  if (root.shape !== Shape.row) return root;
  const columns = root.kids.map((column) => [...column.kids].sort((a, b) => b.height - a.height));
  const [first] = columns;
  const isGrid =
    first !== undefined &&
    first.length > 1 &&
    root.kids.every((column, i) => {
      const kids = columns[i]!;
      return (
        kids.length === first.length &&
        kids.every((kid, j) => kid.width === column.width && kid.height === first[j]!.height)
      );
    });
  if (!isGrid) return root;
  const rows = first.map((_, j) =>
    lineOf(
      Shape.row,
      columns.map((column) => column[j]!),
      job.rules,
    ),
  );
  const turned = lineOf(Shape.column, rows, job.rules);
  return openingOf(turned, sheet, job.rules) === undefined ? root : turned;
}

/** Some parts as copies of their own, and the numbers they have elsewhere. */
function copiesOfParts(
  job: Job,
  parts: readonly number[],
  kindOf: Int32Array,
): { copies: Copies; numbers: number[] } {
  // By kind, so that equal parts are placed in a row whatever their numbers are.
  const numbers = [...parts].sort((a, b) => kindOf[a]! - kindOf[b]! || a - b);
  const counts = job.kinds.map(() => 0);
  for (const part of numbers) counts[kindOf[part]!]!++;
  return { copies: copiesOf(job, counts), numbers };
}

function renumber(node: Node, numbers: readonly number[]): void {
  if (node.shape === Shape.part) node.part = numbers[node.part]!;
  else for (const kid of node.kids) renumber(kid, numbers);
}

/**
 * The near miss of a search for one sheet fewer, with the parts it left out on a sheet of their own: all
 * that is left over in the end lies on that one sheet. Taken if the leftovers are better so.
 */
export function gathered(job: Job, copies: Copies, filling: Filling, nearMiss: Filling | undefined): Filling {
  if (nearMiss === undefined || filling.leftOut.length > 0) return filling;
  const kinds = new Set(filling.sheets.map(({ kind }) => kind));
  for (const kind of kinds) {
    const used = nearMiss.sheets.filter((sheet) => sheet.kind === kind && sheet.root !== null).length;
    const allowed = filling.sheets.filter((sheet) => sheet.kind === kind).length;
    if (used + 1 > allowed) continue;
    const last = onOneSheet(job, copies, nearMiss.leftOut, kind);
    if (last === undefined) continue;
    const sheets = [...nearMiss.sheets.filter(({ root }) => root !== null), last];
    if (keepsOf(job, sheets) > keepsOf(job, filling.sheets)) return { sheets, leftOut: [] };
  }
  return filling;
}

function keepsOf(job: Job, sheets: readonly OpenSheet[]): number {
  return sheets.reduce((sum, { root, kind }) => {
    const sheet = job.sheets[kind]!;
    return root === null ? sum : sum + leftovers(root, sheet, job).reduce((a, b) => a + b * b, 0);
  }, 0);
}

function onOneSheet(job: Job, copies: Copies, parts: readonly number[], kind: number): OpenSheet | undefined {
  const { copies: alone, numbers } = copiesOfParts(job, parts, copies.kindOf);
  for (const recipe of recipes) {
    const run = construct(job, alone, recipe, [kind]);
    let next = run.next();
    while (!next.done) next = run.next();
    const { sheets, leftOut } = next.value;
    const [only] = sheets;
    if (leftOut.length > 0 || sheets.length !== 1 || only === undefined || only.root === null) continue;
    renumber(only.root, numbers);
    return only;
  }
  return undefined;
}

function isLiked(a: Liking, b: Liking): boolean {
  if (a.keeps !== b.keeps) return a.keeps > b.keeps;
  if (a.settings !== b.settings) return a.settings < b.settings;
  if (a.cuts !== b.cuts) return a.cuts < b.cuts;
  return a.ripped > b.ripped;
}

function likingOf(root: Node, sheet: JobSheet, job: Job): Liking {
  const widths = new Set<number>();
  const cuts = countCuts(root, widths);
  const keeps = Math.floor(keepsOfSheet(root, sheet, job) * 64);
  return { keeps, settings: widths.size, cuts, ripped: root.shape === Shape.column ? 1 : 0 };
}

function keepsOfSheet(root: Node, sheet: JobSheet, job: Job): number {
  const area = areaOf(sheet);
  return leftovers(root, sheet, job).reduce((sum, it) => sum + (it / area) * (it / area), 0);
}

/** Areas of what is left over: beside the whole tree, and beside each kid of a line. */
function leftovers(root: Node, sheet: JobSheet, job: Job): number[] {
  const left: number[] = [];
  const opening = openingOf(root, sheet, job.rules);
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

function countCuts(node: Node, widths: Set<number>): number {
  let cuts = 0;
  node.kids.forEach((kid, i) => {
    widths.add(alongOf(kid, node.shape));
    if (i > 0) cuts++;
    if (crossOf(kid, node.shape) < crossOf(node, node.shape)) {
      widths.add(crossOf(kid, node.shape));
      cuts++;
    }
    cuts += countCuts(kid, widths);
  });
  return cuts;
}
