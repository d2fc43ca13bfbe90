import type { JobSheet } from '../job.ts';

/**
 * The least that sheets cost which hold `amount` together, where no sheet holds more than `held` of it: all
 * offcuts first, since these cost nothing, then whole sheets, or packs of them, in the cheapest mix. Whatever the amount
 * measures (area, scaled sizes, values), no way of cutting can be cheaper.
 *
 * @returns  in the units of the sheets' costs; if all sheets together hold too little, what they all cost
 */
export function leastCost(
  sheets: readonly JobSheet[],
  amount: bigint,
  held: (sheet: JobSheet) => bigint,
): number {
  let rest = amount;
  const bought: Bought[] = [];
  for (const sheet of sheets) {
    const each = held(sheet);
    if (sheet.cost > 0) {
      const pack = sheet.pack ?? 1;
      const [all, cost] = [each * BigInt(pack), BigInt(sheet.cost) * BigInt(pack)];
      if (each > 0n) bought.push({ held: all, cost, available: Math.floor(sheet.available / pack) });
    } else if (sheet.available === Number.POSITIVE_INFINITY) {
      if (each > 0n) return 0;
    } else rest -= each * BigInt(sheet.available);
  }
  // The cheapest for what they hold come first.
  bought.sort((a, b) => Number(signOf(a.cost * b.held - b.cost * a.held)));
  return Number(cheapestMix(bought, rest));
}

interface Bought {
  readonly held: bigint;
  readonly cost: bigint;
  readonly available: number;
}

/**
 * Tries the numbers of each kind of sheet, as many as are of use first. A mix is given up once even fractions
 * of the sheets still to come would make it dearer than the best; if there are too many mixes, the fractions
 * alone are the answer.
 */
function cheapestMix(kinds: readonly Bought[], amount: bigint): bigint {
  const all = kinds.reduce(
    (sum, { cost, available }) => sum + cost * BigInt(Math.min(available, mostOfAll)),
    0n,
  );
  let best = all;
  let mixes = 0;
  const tryFrom = (kind: number, rest: bigint, spent: bigint): void => {
    if (rest <= 0n) {
      if (spent < best) best = spent;
      return;
    }
    const sheet = kinds[kind];
    if (sheet === undefined || spent + inFractions(sheet, rest) >= best) return;
    if (mixes++ > mostMixes) return;
    const wanted = ceilOf(rest, sheet.held);
    const most = sheet.available < wanted ? BigInt(sheet.available) : wanted;
    for (let count = most; count >= 0n; count--) {
      tryFrom(kind + 1, rest - count * sheet.held, spent + count * sheet.cost);
      if (mixes > mostMixes) return;
    }
  };
  tryFrom(0, amount, 0n);
  const [first] = kinds;
  if (mixes <= mostMixes || first === undefined) return best;
  const least = inFractions(first, amount);
  if (least >= all) return all;
  return least;
}

/** All of it on sheets like this one, cut into fractions: rounded up, as costs are whole. */
function inFractions({ held, cost }: Bought, amount: bigint): bigint {
  return ceilOf(amount * cost, held);
}

function ceilOf(a: bigint, b: bigint): bigint {
  return a <= 0n ? 0n : (a + b - 1n) / b;
}

function signOf(value: bigint): number {
  return value < 0n ? -1 : value > 0n ? 1 : 0;
}

const mostMixes = 20_000;
/** Stands for as many as needed: more than any batch takes. */
const mostOfAll = 10_000_000;
