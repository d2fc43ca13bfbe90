import { areaBound, type Bound, betterOf, dualFeasibleBound } from '../bounds/index.ts';
import { isStrict, type Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { generateColumns } from '../patterns/columns.ts';
import { asFilling, givenBack, roundDown } from '../patterns/rounding.ts';
import { stripsAtOnce } from './atOnce.ts';
import { construct, recipesFor, stockOrders } from './construct.ts';
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
/** Patterns pay where there are so many copies of a kind, and no more kinds than these. */
const mostlyAlike = 3;
const mostKinds = 200;
/** Rounded down, a mix keeps few of its patterns where there are more kinds to a sheet than this. */
const mostKindsToASheet = 2;
/** So many times as many copies as are searched one by one, of more kinds than patterns are made of. */
const farTooMany = 10;
const mostForBestFit = 2000;
/** With limits on strips and cuts each place is checked by a copy of its sheet, so all of this must be less. */
const strictShare = 3;

/**
 * Looks for the cheapest sheets that hold all parts.
 *
 *   many copies ─mix of patterns, rounded down→ few copies ─16 quick ways→ a filling ─ruin, recreate→ a better
 *
 * @param counts  how many of each kind are wanted (0 for those set aside)
 * @param limit   read before every step, so that whoever drives the search may end it early
 */
export function* search(job: Job, counts: readonly number[], limit: Limit): Generator<Progress, Found> {
  const most = isStrict(job.rules) ? mostCopies / strictShare : mostCopies;
  let known = areaBound(job, counts);
  const atOnce = yield* withProgress(stripsAtOnce(job, counts, known), () => ({
    step: 0,
    sheets: 0,
    bound: known.sheets,
  }));
  if (atOnce !== undefined)
    return { sheets: atOnce, leftOut: job.kinds.map(() => 0), steps: 0, bound: known };
  let repeated: Repeated = {
    sheets: [],
    rest: counts,
    available: job.sheets.map((sheet) => sheet.available),
  };
  const kinds = counts.filter((count) => count > 0).length;
  const hasWholePatterns = kinds <= mostKindsToASheet * known.sheets || copiesIn(counts) > 3 * mostCopies;
  const isAlike = copiesIn(counts) >= mostlyAlike * kinds && kinds <= mostKinds;
  if (copiesIn(counts) > most && isAlike && hasWholePatterns) {
    const say = () => ({ step: 0, sheets: 0, bound: known.sheets });
    const mix = yield* withProgress(generateColumns(job, counts), say);
    known = betterOf(known, mix.bound);
    repeated = roundDown(job, counts, mix);
    // Where limits on cuts spoil the patterns, sheets are filled one after the other and repeated.
    if (copiesIn(repeated.rest) > 3 * most) {
      repeated = yield* repeatGoodSheets(job, repeated, most, known);
    }
  }
  if (kinds > mostKinds && copiesIn(counts) > farTooMany * most && copiesIn(counts) >= mostlyAlike * kinds) {
    repeated = yield* repeatGoodSheets(job, repeated, most, known);
  }
  const few = copiesOf(job, repeated.rest);
  const bought = boughtOf(job, repeated.sheets);
  const quick = yield* bestConstructed(withStock(job, repeated.available), few, bought, known);
  const laid = [...repeated.sheets, ...toFilled(quick, few)];
  const leftOut = countsOf(job, few, quick.leftOut);
  // Further bounds cost more time than the quick ways take; often there is nothing left to prove.
  if (boughtOf(job, laid) > known.sheets) {
    const say = () => ({ step: 0, sheets: boughtOf(job, laid), bound: known.sheets });
    known = betterOf(known, yield* withProgress(dualFeasibleBound(job, counts), say));
  }

  const { kept, given } = yield* withProgress(givenBack(job, repeated, known, most), () => ({
    step: 0,
    sheets: boughtOf(job, laid),
    bound: known.sheets,
  }));
  const { copies, filling } = asFilling(job, [...given, ...toFilled(quick, few)], leftOut);
  const free = job.sheets.map(({ available }, kind) => available - timesOf(kept, kind));
  const before = { sheets: boughtOf(job, kept), cost: costOf(job, kept) };
  const best = yield* improve(withStock(job, free), copies, filling, limit, known, before);
  return {
    sheets: [...kept, ...toFilled(best.filling, copies)],
    leftOut: countsOf(job, copies, best.filling.leftOut),
    steps: best.steps,
    bound: known,
  };
}

function withStock(job: Job, available: readonly number[]): Job {
  return { ...job, sheets: job.sheets.map((sheet, kind) => ({ ...sheet, available: available[kind]! })) };
}

function toFilled({ sheets }: Filling, { kindOf }: Copies): FilledSheet[] {
  return sheets.flatMap(({ kind, root }) => (root === null ? [] : [{ kind, root, kindOf, times: 1 }]));
}

function countsOf(job: Job, copies: Copies, parts: readonly number[]): number[] {
  const counts = job.kinds.map(() => 0);
  for (const part of parts) counts[copies.kindOf[part]!]!++;
  return counts;
}

function timesOf(sheets: readonly FilledSheet[], kind: number): number {
  return sheets.reduce((sum, it) => sum + (it.kind === kind ? it.times : 0), 0);
}

export function copiesIn(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + count, 0);
}

/** Sheets that are no offcuts. */
export function boughtOf(job: Job, sheets: readonly FilledSheet[]): number {
  return sheets.reduce((sum, { kind, times }) => sum + (job.sheets[kind]!.cost > 0 ? times : 0), 0);
}

function costOf(job: Job, sheets: readonly FilledSheet[]): number {
  return sheets.reduce((sum, { kind, times }) => sum + job.sheets[kind]!.cost * times, 0);
}

function* bestConstructed(
  job: Job,
  copies: Copies,
  before: number,
  bound: Bound,
): Generator<Progress, Filling> {
  let best: Filling = { sheets: [], leftOut: [...copies.area.keys()] };
  const pace = new Pace();
  for (const stock of stockOrders(job)) {
    // Best fit looks at every sheet for every part: too slow for parts in their thousands.
    const isHuge = copies.area.length > mostForBestFit / (isStrict(job.rules) ? strictShare : 1);
    for (const recipe of recipesFor(job).filter(({ firstFit }) => firstFit || !isHuge)) {
      const filling = yield* withProgress(construct(job, copies, recipe, stock, pace), () => ({
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
