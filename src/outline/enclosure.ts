import {
  add,
  compareRationals,
  divide,
  floor,
  larger,
  multiply,
  negate,
  rational,
  subtract,
} from '../measure/index.ts';
import type { Enclosure, Rational } from '../model/index.ts';

/** Sums and products of values that are only known to lie between two rationals. */

export function exactly(value: Rational): Enclosure {
  return { lo: value, hi: value };
}

export const nothing: Enclosure = exactly(rational(0n));

export function addUp(...all: readonly Enclosure[]): Enclosure {
  return all.reduce((a, b) => ({ lo: add(a.lo, b.lo), hi: add(a.hi, b.hi) }), nothing);
}

export function lessBy(a: Enclosure, b: Enclosure): Enclosure {
  return { lo: subtract(a.lo, b.hi), hi: subtract(a.hi, b.lo) };
}

/** @param by of either sign */
export function timesExact(a: Enclosure, by: Rational): Enclosure {
  const [one, other] = [multiply(a.lo, by), multiply(a.hi, by)];
  return by.numerator < 0n ? { lo: other, hi: one } : { lo: one, hi: other };
}

/** @param a,b at least 0 */
export function productOf(a: Enclosure, b: Enclosure): Enclosure {
  return { lo: multiply(a.lo, b.lo), hi: multiply(a.hi, b.hi) };
}

/** @param a at least 0; @param by above 0 */
export function quotientOf(a: Enclosure, by: Enclosure): Enclosure {
  return { lo: divide(a.lo, by.hi), hi: divide(a.hi, by.lo) };
}

export function largestOf(a: Enclosure, b: Enclosure): Enclosure {
  return { lo: larger(a.lo, b.lo), hi: larger(a.hi, b.hi) };
}

export function smallestOf(a: Enclosure, b: Enclosure): Enclosure {
  return opposite(largestOf(opposite(a), opposite(b)));
}

export function opposite({ lo, hi }: Enclosure): Enclosure {
  return { lo: negate(hi), hi: negate(lo) };
}

export function isExact({ lo, hi }: Enclosure): boolean {
  return compareRationals(lo, hi) === 0;
}

// Angles are worked out in whole numbers of 2^-96. Each step of a series loses less than one of them, and
// there are fewer than a hundred steps; `slip` is more than all of that.
const fine = 2n ** 96n;
const slip = 2n ** 10n;

/**
 * The angle, in radians, whose tangent is given; between -π/2 and π/2.
 *
 * @source arctan x = x − x³/3 + x⁵/5 − …, the further terms alternate and shrink (Gregory); from memory
 */
export function angleOf(tangent: Rational): Enclosure {
  if (tangent.numerator === 0n) return nothing;
  if (tangent.numerator < 0n) return opposite(angleOf(negate(tangent)));
  const one = rational(1n);
  if (compareRationals(tangent, one) > 0) return lessBy(halfPi(), angleOf(divide(one, tangent)));
  // arctan x = π/4 − arctan((1 − x) / (1 + x)), so that the series is asked for at most 1/2.
  if (compareRationals(tangent, rational(1n, 2n)) > 0) {
    const rest = divide(subtract(one, tangent), add(one, tangent));
    return lessBy(timesExact(halfPi(), rational(1n, 2n)), angleOf(rest));
  }
  const inFine = floor(multiply(tangent, rational(fine)));
  // The tangent itself was rounded down by less than one; its angle by no more.
  const sum = series(inFine);
  return { lo: rational(sum - slip, fine), hi: rational(sum + slip, fine) };
}

function series(x: bigint): bigint {
  const square = (x * x) / fine;
  let [power, sum, sign] = [x, x, -1n];
  for (let n = 3n; power !== 0n; n += 2n) {
    power = (power * square) / fine;
    sum += (sign * power) / n;
    sign = -sign;
  }
  return sum;
}

let knownHalfPi: Enclosure | undefined;

/** @source π/4 = 4 arctan(1/5) − arctan(1/239) (Machin); from memory */
function halfPi(): Enclosure {
  if (knownHalfPi === undefined) {
    const [fifth, other] = [angleOf(rational(1n, 5n)), angleOf(rational(1n, 239n))];
    knownHalfPi = lessBy(timesExact(fifth, rational(8n)), timesExact(other, rational(2n)));
  }
  return knownHalfPi;
}

export function pi(): Enclosure {
  return timesExact(halfPi(), rational(2n));
}
