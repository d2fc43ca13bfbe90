import {
  add,
  differenceOfProducts,
  divide,
  millimetres,
  mixed,
  multiply,
  negate,
  rational,
  subtract,
  sumOfProducts,
} from '../measure/index.ts';
import type { Length, Point, Rational } from '../model/index.ts';

/** A step in the plane: a point less a point. A point is the step to it from the datum. */
export interface Vector {
  readonly x: Rational;
  readonly y: Rational;
}

export const half: Rational = rational(1n, 2n);
export const origin: Point = { x: millimetres(rational(0n)), y: millimetres(rational(0n)) };

export function point(x: Rational, y: Rational): Point {
  return { x: millimetres(x), y: millimetres(y) };
}

export function plus(a: Vector, b: Vector): Point {
  return point(add(a.x, b.x), add(a.y, b.y));
}

export function less(a: Vector, b: Vector): Point {
  return point(subtract(a.x, b.x), subtract(a.y, b.y));
}

export function stretched(a: Vector, by: Rational): Point {
  return point(multiply(a.x, by), multiply(a.y, by));
}

export function shrunk(a: Vector, by: Rational): Point {
  return point(divide(a.x, by), divide(a.y, by));
}

/** The point `share` of the way from `a` to `b`. */
export function between(a: Vector, b: Vector, share: Rational): Point {
  return point(mixed(a.x, b.x, share), mixed(a.y, b.y, share));
}

export function middle(a: Vector, b: Vector): Point {
  return between(a, b, half);
}

/** A quarter turn to the left. */
export function leftOf(a: Vector): Point {
  return point(negate(a.y), a.x);
}

export function opposite(a: Vector): Point {
  return point(negate(a.x), negate(a.y));
}

export function dot(a: Vector, b: Vector): Rational {
  return sumOfProducts(a.x, b.x, a.y, b.y);
}

/** Above 0 where `b` points to the left of `a`. */
export function cross(a: Vector, b: Vector): Rational {
  return differenceOfProducts(a.x, b.y, a.y, b.x);
}

export function square(a: Vector): Rational {
  return dot(a, a);
}

export function isSame(a: Vector, b: Vector): boolean {
  return isEqual(a.x, b.x) && isEqual(a.y, b.y);
}

/** -1, 0 or 1. */
export function signOf(a: Rational): -1 | 0 | 1 {
  return a.numerator > 0n ? 1 : a.numerator < 0n ? -1 : 0;
}

/** The sign of `cross`: that asks for no lowest terms. */
export function turnTo(a: Vector, b: Vector): -1 | 0 | 1 {
  return order(
    a.x.numerator * b.y.numerator * (a.y.denominator * b.x.denominator),
    a.y.numerator * b.x.numerator * (a.x.denominator * b.y.denominator),
  );
}

/** Above 0 where `at` lies to the left of the line from `from` to `to`, 0 on it. */
export function sideOf(from: Vector, to: Vector, at: Vector): -1 | 0 | 1 {
  // Of what is compared each side lacks the same denominator, that of `from`.
  return order(
    over(to.x, from.x) * over(at.y, from.y) * (to.y.denominator * at.x.denominator),
    over(to.y, from.y) * over(at.x, from.x) * (to.x.denominator * at.y.denominator),
  );
}

/** a − b, over both their denominators. */
function over(a: Rational, b: Rational): bigint {
  return a.numerator * b.denominator - b.numerator * a.denominator;
}

function order(a: bigint, b: bigint): -1 | 0 | 1 {
  return a > b ? 1 : a < b ? -1 : 0;
}

export function mirroredAt(at: Vector, x: Length): Point {
  return point(subtract(add(x, x), at.x), at.y);
}

function isEqual(a: Rational, b: Rational): boolean {
  return a.numerator === b.numerator && a.denominator === b.denominator;
}
