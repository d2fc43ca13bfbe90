import type { Length, Rational } from '../model/index.ts';
import { add, compareRationals, divide, multiply, negate, rational, subtract, whole } from './rational.ts';

/** Arithmetic on lengths: a length plus a length is a length, a length over a length is a number. */

/** Millimetres as a length. The only place, with `inches`, where a bare number becomes one. */
export function millimetres(amount: Rational): Length {
  return amount as Length; // the brand is a type alone; a length is its rational number of millimetres
}

/** Source: 1 in = 25.4 mm exactly (addendum to NBS Circular 572, 1960; UCUM `[in_i]`). */
export const mmPerInch: Rational = rational(127n, 5n);

export function inches(amount: Rational): Length {
  return millimetres(multiply(amount, mmPerInch));
}

export function toInches(length: Length): Rational {
  return divide(length, mmPerInch);
}

export const zero: Length = millimetres(rational(0n));

export function sum(...lengths: readonly Length[]): Length {
  let total: Rational = zero;
  for (const length of lengths) total = add(total, length);
  return millimetres(total);
}

export function minus(a: Length, b: Length): Length {
  return millimetres(subtract(a, b));
}

export function opposite(a: Length): Length {
  return millimetres(negate(a));
}

/** @param count a whole number */
export function times(length: Length, count: number): Length {
  return millimetres(multiply(length, whole(count)));
}

export function scaled(length: Length, factor: Rational): Length {
  return millimetres(multiply(length, factor));
}

export function ratio(a: Length, b: Length): Rational {
  return divide(a, b);
}

export function compare(a: Length, b: Length): number {
  return compareRationals(a, b);
}

export function equal(a: Rational, b: Rational): boolean {
  return a.numerator === b.numerator && a.denominator === b.denominator;
}

export function isZero(a: Rational): boolean {
  return a.numerator === 0n;
}

export function isPositive(a: Rational): boolean {
  return a.numerator > 0n;
}

export function isNegative(a: Rational): boolean {
  return a.numerator < 0n;
}

/** Without its sign. */
export function absolute<T extends Rational>(a: T): T {
  return isNegative(a) ? (negate(a) as Rational as T) : a; // of the same unit, which numbers don't show
}

export function smaller<T extends Rational>(a: T, b: T): T {
  return compareRationals(a, b) <= 0 ? a : b;
}

export function larger<T extends Rational>(a: T, b: T): T {
  return compareRationals(a, b) >= 0 ? a : b;
}

/** The smaller first. */
export function inOrder<T extends Rational>(a: T, b: T): readonly [T, T] {
  return compareRationals(a, b) <= 0 ? [a, b] : [b, a];
}

/** The last step before drawing: millimetres as a float, good to 15 digits. Never feed it back. */
export function toDrawnMm(length: Length): number {
  // Whole and fractional parts apart, so that a numerator beyond 2^53 loses nothing that can be seen.
  const wholeMm = length.numerator / length.denominator;
  const rest = length.numerator - wholeMm * length.denominator;
  return Number(wholeMm) + Number(rest) / Number(length.denominator);
}
