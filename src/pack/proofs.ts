import { compareRationals, rational, subtract } from '../measure/index.ts';
import type { CostProof, LowerBound, MaterialDemand, MaterialLayouts, Price, Proof } from '../model/index.ts';
import { areaBound, type Bound, dualFeasibleBound } from './bounds/index.ts';
import type { Job } from './job.ts';
import { isSoldInPacks, moneyOf } from './prices.ts';
import { billOf } from './savings/bill.ts';

type Laid = Pick<MaterialLayouts, 'demand' | 'layouts'>;

/** What is known of the fewest sheets, and of the least cost where there is a choice of prices. */
export function* boundInWords(
  bound: Bound,
  demand: MaterialDemand,
  job: Job,
  counts: readonly number[],
): Generator<void, LowerBound> {
  const { sheets, argument } = bound;
  const money = moneyOf(demand.sheets);
  const inPacks = isSoldInPacks(demand.sheets);
  if (money === undefined || (money.prices < 2 && !inPacks)) return { sheets, argument };
  const cost = inPacks ? yield* leastInPacks(demand, job, counts) : bound.cost;
  return {
    sheets,
    argument,
    cost: { amount: rational(BigInt(cost), money.units), currency: money.currency },
  };
}

/** What layouts are known to be, beside a bound; all parts are placed on them. */
export function provedBy(bound: LowerBound, laid: Laid): Proof {
  const { sheets: bought, cost: spent } = billOf(laid);
  const least = bound.cost;
  const cost = least === undefined || spent === undefined ? {} : { cost: costProof(least, spent) };
  return bought === bound.sheets
    ? { kind: 'fewest', ...cost }
    : { kind: 'within', sheets: bought - bound.sheets, ...cost };
}

function costProof(least: Price, spent: Price): CostProof {
  const over = subtract(spent.amount, least.amount);
  if (compareRationals(over, rational(0n)) === 0) return { kind: 'cheapest' };
  return { kind: 'dearer', by: { amount: over, currency: least.currency } };
}

/** The bounds again, with each pack bought whole; what the search goes by counts each sheet for its share. */
function* leastInPacks(demand: MaterialDemand, job: Job, counts: readonly number[]): Generator<void, number> {
  const inPacks: Job = {
    ...job,
    sheets: job.sheets.map((sheet, i) => ({ ...sheet, pack: demand.sheets[i]?.pack ?? 1 })),
  };
  const byArea = areaBound(inPacks, counts).cost;
  return Math.max(byArea, (yield* dualFeasibleBound(inPacks, counts)).cost);
}
