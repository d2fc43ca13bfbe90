import type { FileUnits, Length, Rational } from '../model/index.ts';
import { compare, isNegative, isPositive, isZero, millimetres, minus, ratio, scaled } from './length.ts';
import {
  add,
  ceiling,
  compareRationals,
  floor,
  multiply,
  nearestHalfEven,
  nearestHalfUp,
  rational,
} from './rational.ts';

/** What becomes of a value that lies between two steps. */
export type RoundingWay = 'up' | 'down' | 'half up' | 'half even';

export function roundToWhole(number: Rational, way: RoundingWay): bigint {
  switch (way) {
    case 'up':
      return ceiling(number);
    case 'down':
      return floor(number);
    case 'half up':
      return nearestHalfUp(number);
    case 'half even':
      return nearestHalfEven(number);
  }
}

/** @param step above 0; the result is a whole multiple of it */
export function roundToStep(length: Length, step: Length, way: RoundingWay): Length {
  return scaled(step, rational(roundToWhole(ratio(length, step), way)));
}

export function isMultiple(length: Length, step: Length): boolean {
  return ratio(length, step).denominator === 1n;
}

/** A length that has no rational form, as the nearest multiple of a step. */
export interface Nearest {
  readonly length: Length;
  /** Sign of the true length less `length`; 0 where it is exact. */
  readonly rest: -1 | 0 | 1;
}

/**
 * The diagonal of a rectangle to the nearest multiple of `step`, decided in integers; a half goes up.
 *
 * With s the square of the diagonal in steps, the nearest whole number to √s is ⌊(⌊√(4s)⌋ + 1) / 2⌋, since
 * ⌊√(4s)⌋ counts its halves.
 */
export function diagonal(length: Length, width: Length, step: Length): Nearest {
  const [a, b] = [ratio(length, step), ratio(width, step)];
  const square = add(multiply(a, a), multiply(b, b));
  const halves = squareRoot(floor(multiply(square, rational(4n))));
  const steps = rational((halves + 1n) / 2n);
  const rest = compareRationals(square, multiply(steps, steps));
  return { length: scaled(step, steps), rest: rest < 0 ? -1 : rest > 0 ? 1 : 0 };
}

/**
 * ⌊√n⌋ for n ≥ 0.
 *
 * @source Newton's (Heron's) iteration from above, in integers; from memory
 */
export function squareRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let root = startFor(n);
  for (;;) {
    const next = (root + n / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

/** Anything not below the root will do to start from; near it, few steps are left, which are exact whatever this is. */
function startFor(n: bigint): bigint {
  const near = Math.sqrt(Number(n));
  // A power of two, where a float ends; else more than two roundings of 2^-53 on top of it.
  if (near === Infinity) return 1n << BigInt((n.toString(16).length * 4 + 1) >> 1);
  return BigInt(Math.floor(near * (1 + 2 ** -50))) + 1n;
}

/** The nearest mark of a rule; a half goes up. */
export interface RulerMark {
  readonly mark: Length;
  /** True length less the mark. */
  readonly error: Length;
  readonly tendency: Tendency | undefined;
}

/** The trade's words: `full` is a little over the mark, `scant` a little under it. */
export type Tendency = 'scant' | 'full';

/**
 * @param step  distance of two marks, above 0
 * @param way   what becomes of a value half way between two marks
 */
export function nearestMark(length: Length, step: Length, way: RoundingWay = 'half up'): RulerMark {
  const mark = roundToStep(length, step, way);
  const error = minus(length, mark);
  return { mark, error, tendency: tendencyOf(mark, error) };
}

/** Below zero as the rule is held: from zero outwards, so that -60 mm is a scant 2 3/8 in the other way. */
export function tendencyOf(mark: Length, error: Length): Tendency | undefined {
  if (isZero(error)) return undefined;
  return isPositive(error) === !isNegative(mark) ? 'full' : 'scant';
}

/** True for a step that divides an inch or a millimetre, as the marks of a rule do. */
export function isGraduation(step: Length): boolean {
  return isPositive(step) && (divides(step, oneInch) || divides(step, oneMm));
}

/** The unit that a rule is read in. */
export function unitOfRule(step: Length): FileUnits {
  return divides(step, oneMm) ? 'mm' : 'in';
}

export function divides(step: Length, whole: Length): boolean {
  return compare(step, whole) <= 0 && isMultiple(whole, step);
}

export const oneMm: Length = millimetres(rational(1n));
export const oneInch: Length = millimetres(rational(127n, 5n));
