import { areaBound, type Bound, betterOf, dualFeasibleBound } from '../bounds/index.ts';
import type { Job } from '../job.ts';
import { generateColumns } from '../patterns/columns.ts';
import { giveBack, roundDown, toPattern } from '../patterns/rounding.ts';
import { construct, recipes, stockOrders } from './construct.ts';
import { copiesOf } from './copies.ts';
import { type Filling, isBetter, meritOf } from './filling.ts';
import { improve } from './proposals.ts';
import { type Repeated, repeatGoodSheets } from './repeat.ts';
import type { Copies } from './sheet.ts';
import type { Node } from './tree.ts';

/** One way of filling a sheet, how often, and of which kind the parts in its tree are. */
export interface FilledSheet {
  readonly kind: number;
  readonly root: Node;
  readonly kindOf: Int32Array;
  readonly times: number;
}

export interface Found {
  readonly sheets: readonly FilledSheet[];
  /** By kind. */
  readonly leftOut: readonly number[];
  readonly steps: number;
  readonly bound: Bound;
}

/** The most steps of ruin and recreate. */
export interface Limit {
  readonly steps: number;
}

export interface Progress {
  readonly step: number;
  /** Sheets that cost something, in the best result so far. */
  readonly sheets: number;
  readonly bound: number;
}

/** So many copies are searched one by one; beyond that, good sheets are repeated first. */
const mostCopies = 400;

/**
 * Looks for the cheapest sheets that hold all parts.
 *
 *   many copies ─mix of patterns, rounded down→ few copies ─16 quick ways→ a filling ─ruin, recreate→ a better
 *
 * @param counts  how many of each kind are wanted (0 for those set aside)
 * @param limit   read before every step, so that whoever drives the search may end it early
 */
export function* search(job: Job, counts: readonly number[], limit: Limit): Generator<Progress, Found> {
  const total = counts.reduce((sum, count) => sum + count, 0);
  let known = areaBound(job, counts);
  let repeated: Repeated = {
    sheets: [],
    rest: counts,
    available: job.sheets.map((sheet) => sheet.available),
  };
  if (total > mostCopies) {
    const good = yield* repeatGoodSheets(job, counts, mostCopies, known);
    const patterns = good.sheets.map((sheet) => toPattern(job, sheet));
    const mix = yield* withProgress(generateColumns(job, counts, patterns), () => ({
      step: 0,
      sheets: boughtOf(job, good.sheets),
      bound: known.sheets,
    }));
    known = betterOf(known, mix.bound);
    const rounded = roundDown(job, counts, mix);
    const left = rounded.rest.reduce((sum, count) => sum + count, 0);
    repeated = giveBack(job, left <= 5 * mostCopies ? rounded : good, mostCopies / 2);
  }
  const before = boughtOf(job, repeated.sheets);
  const copies = copiesOf(job, repeated.rest);
  const rest: Job = {
    ...job,
    sheets: job.sheets.map((sheet, i) => ({ ...sheet, available: repeated.available[i]! })),
  };
  const first = yield* bestConstructed(rest, copies, before, known);
  // Further bounds cost more time than the quick ways take; often there is nothing left to prove.
  if (before + boughtIn(rest, first) > known.sheets) known = betterOf(known, dualFeasibleBound(job, counts));
  const bettered = yield* improve(rest, copies, first, limit, known, before);
  const best = bettered.filling;
  const found: FilledSheet[] = [...repeated.sheets];
  for (const { kind, root } of best.sheets) {
    if (root !== null) found.push({ kind, root, kindOf: copies.kindOf, times: 1 });
  }
  const leftOut = job.kinds.map(() => 0);
  for (const part of best.leftOut) leftOut[copies.kindOf[part]!]!++;
  return { sheets: found, leftOut, steps: bettered.steps, bound: known };
}

/** Sheets that are no offcuts. */
export function boughtOf(job: Job, sheets: readonly FilledSheet[]): number {
  return sheets.reduce((sum, { kind, times }) => sum + (job.sheets[kind]!.cost > 0 ? times : 0), 0);
}

function* bestConstructed(
  job: Job,
  copies: Copies,
  before: number,
  bound: Bound,
): Generator<Progress, Filling> {
  let best: Filling = { sheets: [], leftOut: [...copies.area.keys()] };
  for (const stock of stockOrders(job)) {
    for (const recipe of recipes) {
      const filling = yield* withProgress(construct(job, copies, recipe, stock), () => ({
        step: 0,
        sheets: before + boughtIn(job, best),
        bound: bound.sheets,
      }));
      if (isBetter(meritOf(job, copies, filling), meritOf(job, copies, best))) best = filling;
      const isOneSize = job.sheets.length === 1;
      if (isOneSize && best.leftOut.length === 0 && before + best.sheets.length <= bound.sheets) return best;
    }
  }
  return best;
}

/** Sheets of a filling that are no offcuts. */
export function boughtIn(job: Job, { sheets }: Filling): number {
  return sheets.filter(({ kind }) => job.sheets[kind]!.cost > 0).length;
}

export function* withProgress<T>(run: Generator<void, T>, say: () => Progress): Generator<Progress, T> {
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
    yield say();
  }
}
