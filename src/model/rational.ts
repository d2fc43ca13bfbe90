/**
 * An exact rational number in lowest terms; the denominator is above zero. Made only by `measure/`,
 * which keeps it so.
 */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

declare const unit: unique symbol;

/** An exact number of millimetres, of either sign. 1 in = 127/5 mm. Never a float. */
export type Length = Rational & { readonly [unit]: 'mm' };

/** A list that holds at least one member. */
export type NonEmpty<T> = readonly [T, ...T[]];
