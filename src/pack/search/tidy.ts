import type { Job, JobRules, JobSheet } from '../job.ts';
import { Pace } from '../pace.ts';
import { construct, recipes } from './construct.ts';
import { copiesOf } from './copies.ts';
import { openingOf } from './cuttable.ts';
import type { Filling } from './filling.ts';
import { cutsOf, isLiked, type Liking, leftovers, likingOfAll, likingOfSheet } from './liking.ts';
import { copiesIn, type FilledSheet } from './search.ts';
import type { Copies, OpenSheet } from './sheet.ts';
import { inStrips, mostInStrips, sheetsInOrder, stripWays } from './strips.ts';
import { collectParts, copyAsItIs, lineOf, type Node, Shape } from './tree.ts';

/**
 * Lays the same parts out on the same sheets anew, in all the quick ways there are, and keeps what a person
 * likes best: all sheets together in strips; where they don't go into strips, each by itself.
 */
export function* tidied(job: Job, sheets: readonly FilledSheet[]): Generator<void, FilledSheet[]> {
  const counts = countsOf(job, sheets);
  let best = copiesIn(counts) > mostInStrips ? undefined : yield* stripsLikedBest(job, counts, sheets);
  // A search may leave a larger rest in one piece, but in a maze of pieces and widths: strips are liked better.
  best ??= yield* eachByItself(
    job,
    sheets.map((sheet) => rippedFirst(sheet, job)),
  );
  // What is already cut into comes to hand before what is whole.
  const isWhole = ({ kind }: FilledSheet) => (job.sheets[kind]!.cost > 0 ? 1 : 0);
  return best.toSorted((a, b) => isWhole(a) - isWhole(b));
}

function* eachByItself(job: Job, sheets: readonly FilledSheet[]): Generator<void, FilledSheet[]> {
  const tidy = [...sheets];
  const widths = tidy.map(({ root, kind }) => cutsOf(root, job.sheets[kind]!, job.rules).widths);
  const users = new Map<number, number>();
  const use = (own: ReadonlySet<number>, by: number) => {
    for (const width of own) users.set(width, (users.get(width) ?? 0) + by);
  };
  for (const own of widths) use(own, 1);
  for (const [i, sheet] of tidy.entries()) {
    use(widths[i]!, -1);
    const set = new Set([...users].flatMap(([width, count]) => (count > 0 ? [width] : [])));
    const tidier = yield* tidiedSheet(job, sheet, set);
    tidy[i] = tidier;
    use(cutsOf(tidier.root, job.sheets[sheet.kind]!, job.rules).widths, 1);
    yield;
  }
  return tidy;
}

/** @returns  undefined where the parts don't go onto these sheets in strips */
function* stripsLikedBest(
  job: Job,
  counts: readonly number[],
  sheets: readonly FilledSheet[],
): Generator<void, FilledSheet[] | undefined> {
  const order = sheetsInOrder(job, sheets);
  const isMixed = order.some((kind) => kind !== order[0]);
  const pace = new Pace();
  let best: FilledSheet[] | undefined;
  let liking: Liking | undefined;
  for (const kinds of isMixed ? [order, order.toReversed()] : [order]) {
    for (const way of stripWays) {
      const laid = yield* inStrips(job, counts, kinds, way, pace);
      if (laid === undefined) continue;
      yield;
      const ripped = laid.map((sheet) => rippedFirst(sheet, job));
      const itsLiking = likingOfAll(ripped, job);
      if (liking !== undefined && !isLiked(itsLiking, liking)) continue;
      best = ripped;
      liking = itsLiking;
    }
  }
  return best;
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

/** @param set  widths that other sheets ask for anyway */
function* tidiedSheet(job: Job, from: FilledSheet, set: ReadonlySet<number>): Generator<void, FilledSheet> {
  const { kind, root, kindOf } = from;
  const sheet = job.sheets[kind]!;
  const likingOf = ({ root: it }: FilledSheet) => likingOfSheet(it, sheet, job.rules, set);
  let best = from;
  const offer = (other: FilledSheet): void => {
    const ripped = rippedFirst(other, job);
    if (isLiked(likingOf(ripped), likingOf(best))) best = ripped;
  };
  const parts: number[] = [];
  collectParts(root, parts);
  const { copies, numbers } = copiesOfParts(job, parts, kindOf);
  const pace = new Pace();
  for (const recipe of recipes) {
    const { sheets, leftOut } = yield* construct(job, copies, recipe, [kind], pace);
    const laid = sheets[0]?.root ?? null;
    if (leftOut.length > 0 || sheets.length !== 1 || laid === null) continue;
    renumber(laid, numbers);
    offer({ ...from, root: laid });
  }
  const counts = countsOf(job, [{ ...from, times: 1 }]);
  for (const way of stripWays) {
    for (const laid of (yield* inStrips(job, counts, [kind], way, pace)) ?? [])
      offer({ ...laid, times: from.times });
    yield;
  }
  return best;
}

function rippedFirst(sheet: FilledSheet, { sheets, rules }: Job): FilledSheet {
  return { ...sheet, root: ripsFirst(sheet.root, sheets[sheet.kind]!, rules) };
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
function ripsFirst(root: Node, sheet: JobSheet, rules: JobRules): Node {
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
  const rows = first.map((_, j) => {
    const kids = columns.map((column) => copyAsItIs(column[j]!, (part) => part));
    return lineOf(Shape.row, kids, rules);
  });
  const turned = lineOf(Shape.column, rows, rules);
  if (openingOf(turned, sheet, rules) === undefined) return root;
  const [before, after] = [root, turned].map((it) => likingOfSheet(it, sheet, rules, noWidths));
  return isLiked(before!, after!) ? root : turned;
}

const noWidths: ReadonlySet<number> = new Set();

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
export function* gathered(
  job: Job,
  copies: Copies,
  filling: Filling,
  nearMiss: Filling | undefined,
): Generator<void, Filling> {
  if (nearMiss === undefined || filling.leftOut.length > 0) return filling;
  const kinds = new Set(filling.sheets.map(({ kind }) => kind));
  for (const kind of kinds) {
    const used = nearMiss.sheets.filter((sheet) => sheet.kind === kind && sheet.root !== null).length;
    const allowed = filling.sheets.filter((sheet) => sheet.kind === kind).length;
    if (used + 1 > allowed) continue;
    const last = yield* onOneSheet(job, copies, nearMiss.leftOut, kind);
    if (last === undefined) continue;
    const sheets = [...nearMiss.sheets.filter(({ root }) => root !== null), last];
    if (keepsOf(job, sheets) > keepsOf(job, filling.sheets)) return { sheets, leftOut: [] };
  }
  return filling;
}

function keepsOf(job: Job, sheets: readonly OpenSheet[]): number {
  return sheets.reduce((sum, { root, kind }) => {
    const sheet = job.sheets[kind]!;
    return root === null ? sum : sum + leftovers(root, sheet, job.rules).reduce((a, b) => a + b * b, 0);
  }, 0);
}

function* onOneSheet(
  job: Job,
  copies: Copies,
  parts: readonly number[],
  kind: number,
): Generator<void, OpenSheet | undefined> {
  const { copies: alone, numbers } = copiesOfParts(job, parts, copies.kindOf);
  const pace = new Pace();
  for (const recipe of recipes) {
    const { sheets, leftOut } = yield* construct(job, alone, recipe, [kind], pace);
    const [only] = sheets;
    if (leftOut.length > 0 || sheets.length !== 1 || only === undefined || only.root === null) continue;
    renumber(only.root, numbers);
    return only;
  }
  return undefined;
}
