import type { Price } from '../model/index.ts';
import { multiply, whole } from './rational.ts';

/** How a thing is sold: a price, and how many are sold together for it. */
export interface Sold {
  readonly price: Price | undefined;
  /** Absent: each alone. */
  readonly pack?: number;
}

/** How many packs so many things take; what is sold alone is a pack of one. */
export function packsFor({ pack = 1 }: Pick<Sold, 'pack'>, count: number): number {
  return Math.ceil(count / pack);
}

/** What so many cost, in whole packs; undefined where no price is known. */
export function priceFor(sold: Sold, count: number): Price | undefined {
  const { price } = sold;
  return price && { ...price, amount: multiply(price.amount, whole(packsFor(sold, count))) };
}
