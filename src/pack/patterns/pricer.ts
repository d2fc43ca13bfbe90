import { isStrict, type Job, type JobRules, type JobSheet } from '../job.ts';
import type { Node } from '../search/tree.ts';
import { BestSheet } from './bestSheet.ts';
import { LimitedSheet } from './limitedSheet.ts';
import { type Lying, waysOfLying } from './pattern.ts';
import { StripSheet } from './stripSheet.ts';

type SheetOfPoints = BestSheet | LimitedSheet;

/** Ways of finding a good sheet; `exact` is missing where it would take too long, or where no part lies on it. */
export interface Pricer {
  readonly quick: readonly StripSheet[];
  readonly few: SheetOfPoints | undefined;
  /** Where `exact` is missing: the best, if limits are looked on as a little tighter. */
  readonly safe?: SheetOfPoints | undefined;
  readonly exact: SheetOfPoints | undefined;
  /** So much work that it waits until the quick ways find nothing more. */
  readonly isSlow: boolean;
}

export function* pricerFor(job: Job, wanted: readonly number[], sheet: number): Generator<void, Pricer> {
  const it = job.sheets[sheet]!;
  const ways = waysOfLying(job, wanted, sheet);
  if (ways.length === 0 || it.available === 0)
    return { quick: [], few: undefined, exact: undefined, isSlow: false };
  if (isStrict(job.rules)) return yield* limitedPricer(job, ways, it);
  const exact = BestSheet.over(it, ways, job.rules, mostWork);
  const isSlow = exact === undefined || exact.work > slowWork;
  const quick = isSlow ? stripSheets(it, ways, job.rules) : [];
  const few = isSlow ? BestSheet.overFew(it, ways, job.rules, fewPointsAside) : undefined;
  return { quick, few, exact, isSlow };
}

function stripSheets(sheet: JobSheet, ways: readonly Lying[], rules: JobRules): StripSheet[] {
  return [false, true].flatMap((upright) => StripSheet.over(sheet, ways, rules, upright) ?? []);
}

/** Where cuts are limited, sheets that are good without the limits mostly can't be cut. */
function* limitedPricer({ rules }: Job, ways: readonly Lying[], sheet: JobSheet): Generator<void, Pricer> {
  const most = mostLimitedWork / 4;
  const exact = LimitedSheet.over(sheet, ways, rules, most);
  yield;
  const isSlow = exact === undefined || exact.work > slowWork;
  const few = isSlow ? yield* fewLimited(sheet, ways, rules, slowLimitedWork) : undefined;
  if (exact !== undefined) return { quick: [], few, exact, isSlow };
  const safe = LimitedSheet.overSafe(sheet, ways, rules, most);
  yield;
  if (safe !== undefined) return { quick: [], few, safe, exact, isSlow };
  const many = yield* fewLimited(sheet, ways, rules, manyPointsWork);
  return { quick: stripSheets(sheet, ways, rules), few, safe: many, exact, isSlow };
}

/** Over all points if that takes no more than `work`, else over as many as that allows. */
function* fewLimited(
  sheet: JobSheet,
  ways: readonly Lying[],
  rules: JobRules,
  work: number,
): Generator<void, LimitedSheet> {
  const all = LimitedSheet.overSafe(sheet, ways, rules, work);
  if (all !== undefined) return all;
  let most = manyLimitedPoints;
  for (;;) {
    yield;
    const few = LimitedSheet.overFew(sheet, ways, rules, most);
    if (few.work <= work || most <= fewLimitedPoints) return few;
    most = Math.floor(most * 0.8);
  }
}

/**
 * Sheets worth more than `over` that can be cut. At the quick stage, by the ways that take little work; thoroughly, by
 * those that take much, where there are such. `best` is the value of the best sheet, where it was worked out; `work`
 * what the slow ways took.
 */
export function* goodSheets(
  { quick, few, safe, exact, isSlow }: Pricer,
  values: Float64Array,
  over: number,
  stage: 'quick' | 'thorough',
  may: { readonly quick: boolean; readonly exact: boolean },
  isCuttable: (tree: Node) => boolean,
  mostTrees: number,
): Generator<
  void,
  { readonly trees: readonly Node[]; readonly best: number | undefined; readonly work: number }
> {
  const trees: Node[] = [];
  function* tryPoints(way: SheetOfPoints): Generator<void, number> {
    const best = yield* way.solve(values);
    if (best <= over) return best;
    for (const tree of way.trees(over, mostTrees)) {
      if (isCuttable(tree)) trees.push(tree);
      yield;
    }
    return best;
  }
  if (stage === 'quick' && may.quick) {
    for (const way of quick) {
      const tree = (yield* way.solve(values)) > over ? way.tree() : undefined;
      if (tree !== undefined && isCuttable(tree)) trees.push(tree);
      yield;
    }
    if (trees.length === 0 && few !== undefined) yield* tryPoints(few);
  }
  if ((stage === 'quick') === isSlow || !may.exact) return { trees, best: undefined, work: 0 };
  let work = 0;
  if (safe !== undefined) {
    yield* tryPoints(safe);
    work += safe.work;
  }
  // Where not even that is slow, there is nothing that such a sheet could hold.
  if (exact === undefined) return { trees, best: isSlow ? undefined : 0, work };
  if (isSlow && trees.length > 0) return { trees, best: undefined, work };
  const best = yield* tryPoints(exact);
  return { trees, best, work: work + exact.work };
}

/** Points a side of a run over few points. */
const fewPointsAside = 160;
/** As many points as the work allows, but these at least. */
const fewLimitedPoints = 120;
const manyLimitedPoints = 800;
const slowLimitedWork = 6_000_000;
const manyPointsWork = 60_000_000;
/** Additions of all exact runs together, and from which on one counts as slow. */
export const mostWork = 300_000_000;
/** The same within limits on cuts, where nothing else gives a bound so near; an addition takes less time there. */
export const mostLimitedWork = 800_000_000;
const slowWork = 4_000_000;
