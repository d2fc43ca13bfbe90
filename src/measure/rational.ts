import type { Rational } from '../model/index.ts';

/**
 * Exact rational arithmetic on BigInt. Plain data and functions, so that nothing can slip a binary float in:
 * no function here takes a `number` that is not checked to be whole.
 */

/** @param denominator not 0; the sign moves to the numerator and the fraction to lowest terms */
export function rational(numerator: bigint, denominator = 1n): Rational {
  // Whole numbers have nothing to be brought to lowest terms; sums of many millimetres live here.
  if (denominator === 1n) return { numerator, denominator };
  if (denominator === 0n) throw new RangeError('a rational needs a denominator other than 0');
  const divisor = greatestCommonDivisor(numerator, denominator);
  if (divisor === 1n && denominator > 0n) return { numerator, denominator };
  const signed = denominator < 0n ? -divisor : divisor;
  return { numerator: numerator / signed, denominator: denominator / signed };
}

/** @param value a whole number; anything else is a bug of the caller's */
export function whole(value: number): Rational {
  return { numerator: BigInt(value), denominator: 1n };
}

export function add(a: Rational, b: Rational): Rational {
  if (a.numerator === 0n) return b;
  if (b.numerator === 0n) return a;
  if (a.denominator === b.denominator) return rational(a.numerator + b.numerator, a.denominator);
  return rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function negate(a: Rational): Rational {
  return { numerator: -a.numerator, denominator: a.denominator };
}

export function subtract(a: Rational, b: Rational): Rational {
  if (b.numerator === 0n) return a;
  if (a.numerator === 0n) return negate(b);
  if (a.denominator === b.denominator) return rational(a.numerator - b.numerator, a.denominator);
  return rational(a.numerator * b.denominator - b.numerator * a.denominator, a.denominator * b.denominator);
}

export function multiply(a: Rational, b: Rational): Rational {
  if (a.denominator === 1n && b.denominator === 1n)
    return { numerator: a.numerator * b.numerator, denominator: 1n };
  return rational(a.numerator * b.numerator, a.denominator * b.denominator);
}

/** a·b + c·d, brought to lowest terms once instead of three times. */
export function sumOfProducts(a: Rational, b: Rational, c: Rational, d: Rational): Rational {
  return sumOver(
    a.numerator * b.numerator,
    a.denominator * b.denominator,
    c.numerator * d.numerator,
    c.denominator * d.denominator,
  );
}

/** a·b − c·d */
export function differenceOfProducts(a: Rational, b: Rational, c: Rational, d: Rational): Rational {
  return sumOver(
    a.numerator * b.numerator,
    a.denominator * b.denominator,
    -c.numerator * d.numerator,
    c.denominator * d.denominator,
  );
}

function sumOver(one: bigint, under: bigint, other: bigint, underOther: bigint): Rational {
  if (under === underOther) return rational(one + other, under);
  return rational(one * underOther + other * under, under * underOther);
}

/** The number `share` of the way from `a` to `b`: a (1 − p/q) + b p/q. */
export function mixed(a: Rational, b: Rational, { numerator: p, denominator: q }: Rational): Rational {
  const [under, underOther] = [a.denominator, b.denominator];
  if (under === underOther) return rational(a.numerator * (q - p) + b.numerator * p, under * q);
  return rational(a.numerator * underOther * (q - p) + b.numerator * under * p, under * underOther * q);
}

/** A fraction that is not in lowest terms, which takes longer to find than all the rest. */
export interface LooseFraction {
  readonly over: bigint;
  /** Above 0. */
  readonly under: bigint;
}

/**
 * How high a straight line is at x, from (x0, y0) to (x1, y1): y0 + (x − x0) (y1 − y0) / (x1 − x0), with all
 * denominators brought to the bottom at once.
 *
 * @param x1  above x0
 */
export function heightOnLine(
  x: Rational,
  x0: Rational,
  y0: Rational,
  x1: Rational,
  y1: Rational,
): LooseFraction {
  const along = (x.numerator * x0.denominator - x0.numerator * x.denominator) * x1.denominator;
  const run = (x1.numerator * x0.denominator - x0.numerator * x1.denominator) * x.denominator;
  const [a, b] = [y0.denominator, y1.denominator];
  if (a === b) return { over: y0.numerator * run + along * (y1.numerator - y0.numerator), under: a * run };
  return {
    over: y0.numerator * b * run + along * (y1.numerator * a - y0.numerator * b),
    under: a * b * run,
  };
}

/** @param b not 0 */
export function divide(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** Below 0, 0 or above 0 as `a` is less than, equal to or more than `b`. */
export function compareRationals(a: Rational, b: Rational): number {
  if (a.denominator === b.denominator) {
    return a.numerator < b.numerator ? -1 : a.numerator > b.numerator ? 1 : 0;
  }
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** The largest whole number not above `a`. */
export function floor(a: Rational): bigint {
  const quotient = a.numerator / a.denominator;
  return a.numerator < 0n && quotient * a.denominator !== a.numerator ? quotient - 1n : quotient;
}

export function ceiling(a: Rational): bigint {
  return -floor(negate(a));
}

/** The nearest whole number; a half goes up, as on a maker's rule. */
export function nearestHalfUp(a: Rational): bigint {
  return floor(rational(2n * a.numerator + a.denominator, 2n * a.denominator));
}

/** The nearest whole number; a half goes to the even one (NIST SP 811, B.7.1). */
export function nearestHalfEven(a: Rational): bigint {
  const up = nearestHalfUp(a);
  const isTie =
    (2n * a.numerator) % a.denominator === 0n && (2n * a.numerator) / a.denominator === 2n * up - 1n;
  return isTie && up % 2n !== 0n ? up - 1n : up;
}

/** `7`, `-19/8`: in lowest terms, for JSON and messages of our own. */
export function toFraction(a: Rational): string {
  return a.denominator === 1n ? `${a.numerator}` : `${a.numerator}/${a.denominator}`;
}

export function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  const x = a < 0n ? -a : a;
  const y = b < 0n ? -b : b;
  if (y === 1n) return 1n;
  if (x <= short && y <= short) return BigInt(euclidOfShort(Number(x), Number(y)));
  return y > long ? divisorOfLong(x, y) : euclid(x, y);
}

/** The most that a machine divides as whole numbers, and so the quickest: most of a batch is no longer. */
const short = 2n ** 31n - 1n;

function euclidOfShort(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}

const long = 2n ** 64n;

/** Long denominators are mostly powers of two times little else, and those are seen at a glance. */
function divisorOfLong(x: bigint, y: bigint): bigint {
  if (x === 0n) return y;
  const [twosOfX, twosOfY] = [x & -x, y & -y];
  const odd = y / twosOfY;
  const divisor = odd === 1n ? 1n : euclid(odd, x % odd);
  if (twosOfX < twosOfY) return twosOfX * divisor;
  return twosOfY * divisor;
}

/**
 * Where all begins and ends: lists to swap by would double what a short run spends here.
 *
 * @source Euclid, Elements VII.2
 */
function euclid(a: bigint, b: bigint): bigint {
  let x = a;
  let y = b;
  while (y !== 0n) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
}
