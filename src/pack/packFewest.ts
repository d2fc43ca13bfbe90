import { add, compareRationals, multiply, rational, whole } from '../measure/index.ts';
import type {
  Blanks,
  MaterialDemand,
  MaterialLayouts,
  OtherBlanks,
  Outcome,
  Rational,
  SearchProgress,
} from '../model/index.ts';
import { areaBound, betterOf, dualFeasibleBound } from './bounds/index.ts';
import { packCheapest } from './buying/cheapest.ts';
import { gridOf } from './grid.ts';
import { pose, usable } from './pose.ts';
import { isChoiceOfPrices } from './prices.ts';
import { saidOf } from './progress.ts';
import { billOf, costsMore } from './savings/bill.ts';
import { withProgress } from './search/search.ts';

/**
 * Lays parts out that can be cut from blanks in more ways than one: the way that needs the fewest sheets (or the
 * cheapest) is taken, the first where they need the same. A way is passed over where its area, or its bound,
 * shows that it can't need fewer. What is claimed of the fewest is said to be for these blanks, unless it holds
 * however they are formed.
 *
 * @param steps  the most steps of the search, for each way
 */
export function* packFewest(
  { first, others }: Blanks,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  let best = yield* packCheapest(first, steps);
  for (const { leastArea, form } of others) {
    const room = best.value && roomOfFewer(best.value);
    if (room !== undefined && compareRationals(leastArea, room) > 0) continue;
    const way = form(room);
    if (way === undefined) continue;
    if (best.value !== undefined && (yield* isHopeless(way, best.value))) continue;
    const other = yield* packCheapest(way, steps);
    if (other.value !== undefined && (best.value === undefined || isBetter(other.value, best.value))) {
      best = other;
    }
  }
  const { value } = best;
  const room = value && roomOfFewer(value);
  const isCertain = ({ leastArea }: OtherBlanks) =>
    room !== undefined && compareRationals(leastArea, room) > 0;
  if (value === undefined || others.every(isCertain)) return best;
  return { ...best, value: { ...value, bound: { ...value.bound, isForBlanks: true } } };
}

/** The area of one sheet fewer, beside all offcuts there are; undefined where that is not what is looked for. */
function roomOfFewer(best: MaterialLayouts): Rational | undefined {
  const { sheets } = best.demand;
  if (best.unplaced.length > 0 || isChoiceOfPrices(sheets)) return undefined;
  const { sheets: bought } = billOf(best);
  if (bought === 0) return rational(-1n);
  let [room, largest] = [rational(0n), rational(0n)];
  for (const sheet of sheets) {
    const { length, width } = usable(sheet);
    const area = multiply(length, width);
    if (!sheet.isOffcut) largest = compareRationals(area, largest) > 0 ? area : largest;
    else if (sheet.available === 'as needed') return undefined;
    else room = add(room, multiply(area, whole(sheet.available)));
  }
  return add(room, multiply(largest, whole(bought - 1)));
}

/** True where the bound of a way shows that it needs no fewer sheets. */
function* isHopeless(demand: MaterialDemand, best: MaterialLayouts): Generator<SearchProgress, boolean> {
  if (best.unplaced.length > 0 || isChoiceOfPrices(demand.sheets)) return false;
  const { sheets } = billOf(best);
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
