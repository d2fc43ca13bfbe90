import type {
  Diagnostic,
  MaterialDemand,
  MaterialLayouts,
  NonEmpty,
  Outcome,
  SearchProgress,
} from '../model/index.ts';
import { areaBound, betterOf, dualFeasibleBound } from './bounds/index.ts';
import { fits } from './fits.ts';
import { gridOf } from './grid.ts';
import { pack } from './pack.ts';
import { moneyOf, pose } from './pose.ts';
import { saidOf } from './progress.ts';
import { billOf, costsMore } from './savings/bill.ts';
import { withProgress } from './search/search.ts';

/**
 * Lays parts out that can be cut from blanks in more ways than one: all of them laid out, the one that needs
 * the fewest sheets (or the cheapest) is taken, the first where they need the same. A way is passed over where
 * its bound alone shows that it can't need fewer.
 *
 * @param steps  the most steps of the search, for each way
 */
export function* packFewest(
  [first, ...others]: NonEmpty<MaterialDemand>,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  let best = yield* pack(first, steps);
  for (const way of others) {
    if (best.value !== undefined && (yield* isHopeless(way, best.value))) continue;
    const other = yield* pack(way, steps);
    if (other.value !== undefined && (best.value === undefined || isBetter(other.value, best.value))) {
      best = other;
    }
  }
  return best;
}

/**
 * Whether the parts can be cut with blanks of some way of forming them; the later ways are formed only where the
 * first can't. What is wrong is told of the first.
 */
export function* fitsSomehow(
  [first, ...others]: NonEmpty<() => MaterialDemand>,
  steps: number,
): Generator<SearchProgress, readonly Diagnostic[]> {
  const faults = yield* fits(first(), steps);
  if (faults.length === 0) return faults;
  for (const way of others) if ((yield* fits(way(), steps)).length === 0) return [];
  return faults;
}

function* isHopeless(demand: MaterialDemand, best: MaterialLayouts): Generator<SearchProgress, boolean> {
  if (best.unplaced.length > 0) return false;
  const { sheets } = billOf(best);
  if (sheets === 0) return true;
  const money = moneyOf(demand.sheets);
  if (money !== undefined && money.prices > 1) return false;
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') return true;
  const job = pose(demand, measured.grid);
  const counts = demand.parts.map(({ count }) => count);
  const simple = areaBound(job, counts);
  if (simple.sheets >= sheets) return true;
  const say = () => ({ step: best.steps, sheets, bound: best.bound.sheets });
  const bounding = withProgress(dualFeasibleBound(job, counts), say);
  return betterOf(simple, yield* saidOf(demand.material.name, bounding)).sheets >= sheets;
}

function isBetter(one: MaterialLayouts, other: MaterialLayouts): boolean {
  const missing = missingParts(one) - missingParts(other);
  if (missing !== 0) return missing < 0;
  const [bill, now] = [billOf(one), billOf(other)];
  if (costsMore(bill, now)) return false;
  return costsMore(now, bill) || bill.sheets < now.sheets;
}

function missingParts({ demand, unplaced }: MaterialLayouts): number {
  return unplaced.reduce((all, { part, count }) => all + count * (isShared(demand, part) ? 2 : 1), 0);
}

function isShared({ parts }: MaterialDemand, part: number): boolean {
  return parts[part]?.members.some(({ shared }) => shared !== undefined) ?? false;
}
