import { compareRationals, multiply, rational, whole } from '../../measure/index.ts';
import type { MaterialDemand, MaterialLayouts, Outcome, Price, SearchProgress } from '../../model/index.ts';
import { holdsTooLittle } from '../bounds/index.ts';
import { gridOf } from '../grid.ts';
import { areaOf, type Job } from '../job.ts';
import { pack } from '../pack.ts';
import { pose } from '../pose.ts';
import { isSoldInPacks, moneyOf } from '../prices.ts';
import { saidOf } from '../progress.ts';
import { provedBy } from '../proofs.ts';
import { billOf } from '../savings/bill.ts';
import { withProgress } from '../search/search.ts';
import { type Purchase, packSizes, purchasesBelow } from './purchases.ts';
import { rebought } from './rebought.ts';

/**
 * Lays the parts out on the sheets that cost least, where some are sold in packs. The search counts each sheet for
 * its share of a pack; so afterwards what is dearer for a pack that is hardly opened is bought otherwise.
 *
 *   pack ─→ layouts ─rebought→ the same, alike sheets bought the cheapest way ─┬─ no purchase is cheaper ─→ done
 *                                                                             └─ pack onto a cheaper purchase
 *
 * Of the purchases that cost less, those that hold too little by a bound are passed over; of the rest the search tries
 * a few by halving, then the largest. Where none is left below what was found, it is the cheapest.
 */
export function* packCheapest(
  demand: MaterialDemand,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const laid = yield* pack(demand, steps);
  if (laid.value === undefined || !isSoldInPacks(demand.sheets)) return laid;
  const value = withLayouts(laid.value, rebought(laid.value));
  if (value.unplaced.length > 0 || isCheapest(value)) return { ...laid, value };
  return { ...laid, value: yield* boughtCheaper(value, steps) };
}

function isCheapest({ proof }: MaterialLayouts): boolean {
  return proof.kind !== 'none' && proof.cost?.kind !== 'dearer';
}

function withLayouts(value: MaterialLayouts, layouts: MaterialLayouts['layouts']): MaterialLayouts {
  const now = { ...value, layouts };
  return value.unplaced.length > 0 ? now : { ...now, proof: provedBy(value.bound, now) };
}

function* boughtCheaper(laid: MaterialLayouts, steps: number): Generator<SearchProgress, MaterialLayouts> {
  const { demand } = laid;
  const money = moneyOf(demand.sheets);
  const measured = gridOf(demand);
  const spent = billOf(laid).cost;
  if (money === undefined || measured.kind === 'too fine' || spent === undefined) return laid;
  const toUnits = ({ amount }: Pick<Price, 'amount'>): number =>
    Number(multiply(amount, rational(money.units)).numerator);
  const job = pose(demand, measured.grid);
  const counts = demand.parts.map(({ count }) => count);
  const sizes = packSizes(demand);
  const cheaper = purchasesBelow(toUnits(spent), job, sizes, counts);
  if (cheaper === undefined) return laid;

  const say = () => ({
    step: laid.steps,
    sheets: billOf(laid).sheets,
    bound: laid.bound.sheets,
  });
  const isTooLittle = (it: Purchase): Generator<SearchProgress, boolean> =>
    saidOf(demand.material.name, withProgress(holdsTooLittle(job, boughtWith(job, it, sizes), counts), say));
  let first = 0;
  while (first < Math.min(cheaper.length, mostBounds) && (yield* isTooLittle(cheaper[first]!))) first++;

  const open = cheaper[first];
  let best = laid;
  let taken = laid.steps;
  let tries = 0;
  const seen = new Set(cheaper.slice(0, first));
  function* holdsAll(purchase: Purchase): Generator<SearchProgress, boolean> {
    seen.add(purchase);
    if (purchase !== open && (yield* isTooLittle(purchase))) return false;
    tries++;
    const found = (yield* pack(onlyBought(demand, purchase, sizes), steps)).value;
    taken = Math.max(taken, found?.steps ?? 0);
    if (found?.unplaced.length !== 0) return false;
    const now = { ...laid, layouts: found.layouts };
    best = { ...now, layouts: rebought(now) };
    return true;
  }
  let [low, high] = [first, cheaper.length];
  while (low < high && tries < mostTries) {
    const middle = (low + high) >> 1;
    if (yield* holdsAll(cheaper[middle]!)) high = middle;
    else low = middle + 1;
  }
  // One that costs less may hold more, as sheets differ: of those that are left, the largest come first.
  const isOpen = (it: Purchase) => !seen.has(it) && it.cost < toUnits(billOf(best).cost ?? spent);
  tries = 0;
  for (let looks = 0; looks < mostBounds && tries < mostTries; looks++) {
    const largest = largestOf(cheaper.filter(isOpen), job, sizes);
    if (largest === undefined) break;
    yield* holdsAll(largest);
  }
  const bill = toUnits(billOf(best).cost ?? spent);
  const least = multiply(whole(Math.min(open?.cost ?? bill, bill)), rational(1n, money.units));
  return { ...boundBelow({ amount: least, currency: money.currency }, best), steps: taken };
}

/** What no bound rules out may be the cheapest; all that costs less than `least` is not. */
function boundBelow(least: Price, best: MaterialLayouts): MaterialLayouts {
  const { bound } = best;
  if (bound.cost === undefined || compareRationals(least.amount, bound.cost.amount) <= 0)
    return { ...best, proof: provedBy(bound, best) };
  const higher = { ...bound, cost: least };
  return { ...best, bound: higher, proof: provedBy(higher, best) };
}

function largestOf(purchases: readonly Purchase[], job: Job, sizes: readonly number[]): Purchase | undefined {
  const held = (it: Purchase): number =>
    boughtWith(job, it, sizes).reduce(
      (sum, count, kind) => sum + (sizes[kind] === 0 ? 0 : count * areaOf(job.sheets[kind]!)),
      0,
    );
  return purchases.reduce<Purchase | undefined>(
    (best, it) => (best === undefined || held(it) > held(best) ? it : best),
    undefined,
  );
}

/** By kind of sheet how many there are then. */
function boughtWith(job: Job, { packs }: Purchase, sizes: readonly number[]): readonly number[] {
  return job.sheets.map(({ available }, i) => (sizes[i] === 0 ? available : packs[i]! * sizes[i]!));
}

/** The same parts, on no more than a purchase and what is at hand. */
function onlyBought(demand: MaterialDemand, { packs }: Purchase, sizes: readonly number[]): MaterialDemand {
  const sheets = demand.sheets.map((sheet, i) =>
    sheet.isOffcut ? sheet : { ...sheet, available: packs[i]! * sizes[i]! },
  );
  return { ...demand, sheets };
}

/** Bounds that are looked at before anything is laid out anew. */
const mostBounds = 60;
/** Purchases that are tried by halving, and then by size, each with the full effort. */
const mostTries = 4;
