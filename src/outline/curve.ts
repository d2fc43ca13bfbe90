import { add, compareRationals, greatestCommonDivisor, multiply, rational } from '../measure/index.ts';
import type { Curve, Point, Rational } from '../model/index.ts';
import { between, plus, stretched, type Vector } from './vector.ts';

/** A cubic piece from a point and slope to a point and slope (Hermite's form), `along` the parameter's run. */
export function curveBySlopes(
  from: Point,
  slopeFrom: Vector,
  to: Point,
  slopeTo: Vector,
  along: Rational,
): Curve {
  const third = multiply(along, rational(1n, 3n));
  return {
    kind: 'curve',
    from,
    leaving: plus(from, stretched(slopeFrom, third)),
    arriving: plus(to, stretched(slopeTo, { numerator: -third.numerator, denominator: third.denominator })),
    to,
  };
}

/**
 * The curve in two, `share` of its parameter's way along.
 *
 * @source de Casteljau's construction; from memory
 */
export function split(curve: Curve, share: Rational): readonly [Curve, Curve] {
  const { from, leaving, arriving, to } = curve;
  const [a, b, c] = [
    between(from, leaving, share),
    between(leaving, arriving, share),
    between(arriving, to, share),
  ];
  const [d, e] = [between(a, b, share), between(b, c, share)];
  const at = between(d, e, share);
  return [
    { kind: 'curve', from, leaving: a, arriving: d, to: at },
    { kind: 'curve', from: at, leaving: e, arriving: c, to },
  ];
}

export function curvePoint(curve: Curve, share: Rational): Point {
  return split(curve, share)[0].to;
}

export type Axis = 'x' | 'y';

/** True where the curve's control points, and so all of it, keep between its ends in that direction. */
export function keepsBetween({ from, leaving, arriving, to }: Curve, axis: Axis): boolean {
  return [leaving, arriving].every(
    (it) => compareRationals(from[axis], it[axis]) * compareRationals(it[axis], to[axis]) >= 0,
  );
}

/**
 * How high a curve is over a share of its way along the base, where x runs evenly with the parameter as it does in
 * the pieces of a top edge; undefined for other curves. Asked for many times of one curve:
 *
 *   y(p/q) = (Y₀ r³ + 3 Y₁ p r² + 3 Y₂ p² r + Y₃ p³) / (d q³),   r = q − p,  Yᵢ/d the heights of its control points
 *
 * @source Bernstein's form of a cubic; from memory
 */
export function evenHeightOf(curve: Curve): ((share: Rational) => Rational) | undefined {
  const before = knownHeights.get(curve);
  if (before !== undefined) return before.of;
  const of = isEvenAlong(curve) ? heightOf(curve) : undefined;
  knownHeights.set(curve, { of });
  return of;
}

const knownHeights = new WeakMap<Curve, { readonly of: ((share: Rational) => Rational) | undefined }>();

function heightOf({ from, leaving, arriving, to }: Curve): (share: Rational) => Rational {
  const { over, under } = overOne([from.y, leaving.y, arriving.y, to.y]);
  return ({ numerator: p, denominator: q }) => rational(cubicOf(over, p, q), under * q * q * q);
}

/** In Bernstein's form: d q³ times the value at p/q of the cubic with those values over d at its control points. */
export function cubicOf(
  [first = 0n, second = 0n, third = 0n, last = 0n]: readonly bigint[],
  p: bigint,
  q: bigint,
) {
  const r = q - p;
  return r * (r * (first * r + 3n * second * p) + 3n * third * p * p) + last * p * p * p;
}

/** Some numbers over their least common denominator. */
export function overOne(all: readonly Rational[]): {
  readonly over: readonly bigint[];
  readonly under: bigint;
} {
  const under = all.reduce(
    (so, { denominator }) =>
      so === denominator ? so : (so * denominator) / greatestCommonDivisor(so, denominator),
    1n,
  );
  return { over: all.map(({ numerator, denominator }) => numerator * (under / denominator)), under };
}

/** True where x runs evenly with the parameter, as it does in the pieces of a top edge. */
function isEvenAlong({ from, leaving, arriving, to }: Curve): boolean {
  const twoThirds = (a: Rational, b: Rational) => add(multiply(rational(2n), a), b);
  const thrice = (a: Rational) => multiply(rational(3n), a);
  return (
    compareRationals(twoThirds(from.x, to.x), thrice(leaving.x)) === 0 &&
    compareRationals(twoThirds(to.x, from.x), thrice(arriving.x)) === 0
  );
}
