import { add, compareRationals, divide, multiply, negate, rational, subtract } from '../measure/index.ts';
import type { Arc, Enclosure, Length, Point, Rational } from '../model/index.ts';
import { addUp, angleOf, pi, timesExact } from './enclosure.ts';
import { exactRoot, nearRoot, rootOf, snapped } from './root.ts';
import {
  cross,
  dot,
  leftOf,
  less,
  middle,
  plus,
  sideOf,
  signOf,
  square,
  stretched,
  turnTo,
  type Vector,
} from './vector.ts';

/**
 * Arcs. The centre lies on the perpendicular through the middle of the chord, `k` chords to its left:
 *
 *            to ●
 *              /│╲
 *      arc    / │  ╲          N is the chord turned a quarter to the left,
 *            (  M───● C       C = M + k·N, r² = |chord|² (1/4 + k²)
 *             ╲ │k·N
 *              ╲│
 *          from ●
 *
 * So with rational ends, a rational k makes centre and r² rational, and the ends exactly as far from it.
 *
 * @param parts  of a chord, to which a centre is held that can't be exactly where it is asked for
 */
export function arcRound(
  from: Point,
  to: Point,
  centre: Point,
  turn: Arc['turn'],
  radius?: Length,
  parts = 2n ** 64n,
): Arc {
  const [toFrom, toTo] = [square(less(from, centre)), square(less(to, centre))];
  const isEven = compareRationals(toFrom, toTo) === 0;
  const settled = isEven ? centre : centreNear(from, to, centre, parts);
  const exact = radius ?? exactRoot(square(less(from, settled)));
  return { kind: 'arc', from, to, centre: settled, turn, radius: exact as Length | undefined }; // a root of mm²
}

/** The point on the perpendicular through the chord's middle that is nearest to `centre`. */
function centreNear(from: Point, to: Point, centre: Point, parts: bigint): Point {
  const [between, normal] = [middle(from, to), leftOf(less(to, from))];
  const k = divide(dot(less(centre, between), normal), square(normal));
  return plus(between, stretched(normal, snapped(k, parts)));
}

export type Swell = 'left' | 'right';

/** An arc that could be drawn, and whether its centre is exactly where it should be. */
export interface DrawnArc {
  readonly arc: Arc;
  readonly isExact: boolean;
}

/**
 * By its rise over the chord: r = c²/8h + h/2.
 *
 * @param rise    above 0; above half the chord it is more than half a circle
 * @param swells  the side of travel to which it bulges; to the right it goes round to the left
 * @source the formula for circular segments that handbooks print; r from chord and height, checked in the tests
 */
export function arcByRise(from: Point, to: Point, rise: Length, swells: Swell): DrawnArc {
  const chordSquare = square(less(to, from));
  const radius = add(
    divide(chordSquare, multiply(rational(8n), rise)),
    multiply(rise, rational(1n, 2n)),
  ) as Length; // mm² over mm
  const inward = subtract(radius, rise);
  return arcAt(from, to, divide(multiply(inward, inward), chordSquare), signOf(inward), radius, swells);
}

/** By its radius, at least half the chord: the shorter of the two arcs. */
export function arcByRadius(from: Point, to: Point, radius: Length, swells: Swell): DrawnArc {
  const chordSquare = square(less(to, from));
  const kSquare = subtract(divide(multiply(radius, radius), chordSquare), rational(1n, 4n));
  return arcAt(from, to, kSquare, 1, radius, swells);
}

function arcAt(
  from: Point,
  to: Point,
  kSquare: Rational,
  sign: -1 | 0 | 1,
  radius: Length,
  swells: Swell,
): DrawnArc {
  const exact = exactRoot(kSquare);
  const size = exact ?? snapped(nearRoot(kSquare), 2n ** 64n);
  const k = sign < 0 === (swells === 'right') ? negate(size) : size;
  const centre = plus(middle(from, to), stretched(leftOf(less(to, from)), k));
  const turn = swells === 'right' ? 'left' : 'right';
  return { arc: { kind: 'arc', from, to, centre, turn, radius }, isExact: exact !== undefined };
}

export function radiusOf(arc: Arc): Enclosure {
  return arc.radius === undefined ? rootOf(radiusSquare(arc)) : { lo: arc.radius, hi: arc.radius };
}

export function radiusSquare({ from, centre }: Arc): Rational {
  return square(less(from, centre));
}

/** The angle swept, in radians, above 0 and below 2π. */
export function sweepOf(arc: Arc): Enclosure {
  const tangent = halfTangent(arc);
  if (tangent === undefined) return pi();
  const angle = timesExact(angleOf(tangent), rational(2n));
  return signOf(tangent) < 0 ? addUp(angle, timesExact(pi(), rational(2n))) : angle;
}

/**
 * The tangent of half the angle swept; undefined for half a circle, below 0 above it.
 * tan(θ/2) = sin θ / (1 + cos θ), and r² sin θ, r² cos θ are the products of the two spokes.
 */
export function halfTangent(arc: Arc): Rational | undefined {
  const [u, v] = spokes(arc);
  const across = arc.turn === 'left' ? cross(u, v) : negate(cross(u, v));
  const along = add(radiusSquare(arc), dot(u, v));
  return along.numerator === 0n ? undefined : divide(across, along);
}

export function spokes({ from, to, centre }: Arc): readonly [Point, Point] {
  return [less(from, centre), less(to, centre)];
}

/** True where a spoke in that direction meets the arc between its ends, not at them. */
export function sweepsOver(arc: Arc, direction: Vector): boolean {
  const [first, last] = spokes(arc);
  const [u, v] = arc.turn === 'left' ? [first, last] : [last, first];
  const [fromU, toV] = [turnTo(u, direction), turnTo(direction, v)];
  const atU = fromU === 0 && signOf(dot(u, direction)) > 0;
  const atV = toV === 0 && signOf(dot(v, direction)) > 0;
  if (atU || atV) return false;
  const swept = turnTo(u, v);
  if (swept === 0) return fromU > 0;
  return swept > 0 ? fromU > 0 && toV > 0 : !(fromU <= 0 && toV <= 0);
}

/** For a point on the circle, or near it: true where it is on the arc's side of the chord, ends included. */
export function isOnItsSide({ from, to, turn }: Arc, at: Vector): boolean {
  const side = sideOf(from, to, at);
  return turn === 'left' ? side <= 0 : side >= 0;
}
