import { greatestCommonDivisor } from '../measure/index.ts';
import type { SheetKind } from '../model/index.ts';

/** The money in which costs are whole numbers. */
export interface Money {
  readonly currency: string;
  /** Costs are counted in so many parts of one of it; each sheet's share of its pack is a whole number of them. */
  readonly units: bigint;
  /** How many different prices there are. */
  readonly prices: number;
}

/** Undefined where not all sheets that could be bought have a price in the same money. */
export function moneyOf(sheets: readonly SheetKind[]): Money | undefined {
  const bought = sheets.filter((sheet) => !sheet.isOffcut);
  const prices = bought.flatMap(({ price, pack = 1 }) =>
    price === undefined ? [] : [{ ...price, pack: BigInt(pack) }],
  );
  const [first] = prices;
  const isPriced =
    prices.length === bought.length &&
    prices.every(({ currency, amount }) => currency === first?.currency && amount.numerator > 0n);
  if (!isPriced || first === undefined) return undefined;
  const units = prices
    .map(({ amount, pack }) => amount.denominator * pack)
    .reduce((a, b) => (a * b) / greatestCommonDivisor(a, b), 1n);
  const different = new Set(
    prices.map(({ amount, pack }) => `${amount.numerator}/${amount.denominator} ${pack}`),
  );
  return { currency: first.currency, units, prices: different.size };
}

/** True where the fewest sheets need not be the cheapest: prices differ, or sheets are sold in packs. */
export function isChoiceOfPrices(sheets: readonly SheetKind[]): boolean {
  return (moneyOf(sheets)?.prices ?? 1) > 1 || isSoldInPacks(sheets);
}

/** True where some can be bought by the pack alone, and all have a price in the same money. */
export function isSoldInPacks(sheets: readonly SheetKind[]): boolean {
  return sheets.some((it) => !it.isOffcut && it.pack !== undefined) && moneyOf(sheets) !== undefined;
}
