import type { Length } from './rational.ts';
import type { Span } from './source.ts';
import type { Price } from './spec.ts';

/** A fitting of which a batch takes some: what it is, how many, and how many are at hand. */
export interface FittingDemand {
  readonly name: string;
  /** What is printed in place of the name. */
  readonly label: string;
  readonly note: string | undefined;
  readonly at: Span;
  readonly diameter: Length | undefined;
  readonly depth: Length | undefined;
  readonly hasPoles: boolean;
  /** Over the whole batch, spares included. */
  readonly count: number;
  readonly spares: number;
  readonly uses: readonly FittingUse[];
  /** How many lie in the drawer, and where; undefined where nobody counts them. */
  readonly atHand: FittingsAtHand | undefined;
  /** So many are sold together. */
  readonly pack: number;
  /** Of a pack. */
  readonly price: Price | undefined;
}

/** What takes some of a fitting: a tile, a part of it, or the session itself. */
export interface FittingUse {
  readonly tile: string | undefined;
  readonly part: string | undefined;
  /** One tile, or the whole session, takes so many. */
  readonly each: number;
  /** Over the whole batch. */
  readonly count: number;
}

export interface FittingsAtHand {
  readonly count: number;
  readonly where: string | undefined;
}

/** As a drawer's file lists them. */
export interface ListedFittings extends FittingsAtHand {
  readonly name: string;
  readonly note: string | undefined;
  readonly at: Span;
  /** Where the count is written; undefined where that is left to go without saying. */
  readonly countAt: Span | undefined;
}
