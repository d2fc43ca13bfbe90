import { absolute, add, compareRationals, divide, multiply, rational, subtract } from '../measure/index.ts';
import type { Arc, Curve, Length, Line, Point, Rational } from '../model/index.ts';
import { arcRound, radiusOf, radiusSquare } from './arc.ts';
import { cubicOf, overOne, split } from './curve.ts';
import { arrivingOf, leavingOf, lineTo, reversedSegment } from './loop.ts';
import { type Figures, fine, nearRoot, snapped, snappedPoint } from './root.ts';
import {
  cross,
  dot,
  half,
  isSame,
  leftOf,
  less,
  middle,
  opposite,
  plus,
  shrunk,
  signOf,
  square,
  stretched,
  type Vector,
} from './vector.ts';

/**
 * Arcs and lines, end to end and without a bend between them, that a curve is nowhere further off than `off`:
 * what a compass can draw of it, and what can be moved out and in as it is. Pairs of arcs, each pair with the
 * curve's own directions at its ends:
 *
 *            ╭──●──╮         the arcs go over into each other at J, where both have one tangent
 *          ╭╯   J   ╲
 *         ●          ●
 *
 * @source the pair whose ends are as far from the corners of its tangents (Bolton 1975, biarcs); from memory
 */
export function arcsFor(curve: Curve, off: Length, figures: Figures = fine): readonly (Arc | Line)[] {
  return pieces(curve, off, figures, 0);
}

const mostHalvings = 12;

function pieces(curve: Curve, off: Length, figures: Figures, halvings: number): readonly (Arc | Line)[] {
  const { from, to } = curve;
  if (isSame(from, to)) return [];
  if (halvings === mostHalvings) return [lineTo(from, to)];
  const pair = pairFor(curve, figures);
  if (pair?.every(({ arc, part }) => isNear(part, arc, off))) return pair.map(({ arc }) => arc);
  return split(curve, half).flatMap((part) => pieces(part, off, figures, halvings + 1));
}

interface ArcFor {
  readonly arc: Arc | Line;
  /** The part of the curve that it stands for. */
  readonly part: Curve;
}

function pairFor(curve: Curve, figures: Figures): readonly [ArcFor, ArcFor] | undefined {
  const { from, to } = curve;
  const [leaving, arriving] = [unitOf(leavingOf(curve), figures), unitOf(arrivingOf(curve), figures)];
  const chord = less(to, from);
  const both = plus(leaving, arriving);
  const [along, opening] = [dot(chord, both), subtract(rational(1n), dot(leaving, arriving))];
  if (signOf(along) <= 0) return undefined;
  // How far the tangents run on: 2(1 − t₀·t₁) d² + 2 (v·t) d − v·v = 0, in the form that 1 − t₀·t₁ = 0 leaves whole.
  const root = nearRoot(
    add(multiply(along, along), multiply(multiply(rational(2n), opening), square(chord))),
  );
  const run = snapped(divide(square(chord), add(along, root)));
  const joint = snappedPoint(
    plus(middle(from, to), stretched(less(leaving, arriving), multiply(run, half))),
    figures.points,
  );
  if (isSame(joint, from) || isSame(joint, to)) return undefined;
  const first = arcLeaving(from, leaving, joint, figures);
  const second = reversedSegment(arcLeaving(to, opposite(arriving), joint, figures));
  const [part, rest] = split(curve, shareBeside(curve, joint, less(to, from)));
  // What is turned round is an arc or a line, as it was.
  return [
    { arc: first, part },
    { arc: second as Arc | Line, part: rest },
  ];
}

function unitOf(way: Vector, { ratios }: Figures): Point {
  const length = nearRoot(square(way));
  return snappedPoint(shrunk(way, length), ratios);
}

//  C = M + k·N has to lie square to the tangent: (C − from)·t = 0.
function arcLeaving(from: Point, tangent: Point, to: Point, { ratios }: Figures): Arc | Line {
  const way = less(to, from);
  const [normal, bend] = [leftOf(way), cross(tangent, way)];
  const off = dot(normal, tangent);
  // So flat that the centre would be a mile off: |k| > 2^20 chords.
  const isStraight = compareRationals(multiply(absolute(bend), rational(2n ** 21n)), dot(way, tangent)) < 0;
  if (isStraight) return lineTo(from, to);
  const k = divide(dot(way, tangent), multiply(rational(-2n), off));
  const centre = plus(middle(from, to), stretched(normal, snapped(k, ratios)));
  return arcRound(from, to, centre, signOf(bend) > 0 ? 'left' : 'right');
}

/** Where on the curve one is abreast of a point, seen along its chord. */
function shareBeside({ from, leaving, arriving, to }: Curve, at: Point, way: Vector): Rational {
  // How far along the way its control points are from there: so far is the curve, too, as a cubic of its parameter.
  const { over } = overOne([from, leaving, arriving, to].map((it) => dot(way, less(it, at))));
  let [low, size] = [0n, 1n << 16n];
  const all = size;
  while (size > 1n) {
    size >>= 1n;
    if (cubicOf(over, low + size, all) < 0n) low += size;
  }
  return rational(low, all);
}

/**
 * As seen from the centre, F(t) = |B(t) − C|² − r² is of the sixth degree, and in Bernstein form it is never
 * beyond its coefficients; |F| ≤ r·off keeps |B − C| within `off` of r.
 */
function isNear(part: Curve, arc: Arc | Line, off: Length): boolean {
  if (arc.kind === 'line') return isFlat(part, arc, off);
  const { from, leaving, arriving, to } = part;
  const points = [from, leaving, arriving, to].map((it) => less(it, arc.centre));
  const { over: places, under } = overOne(points.flatMap(({ x, y }) => [x, y]));
  const squares = squareInBernsteinForm(places);
  // All over one denominator, ten times the square of that of the places, so that nothing is brought to lowest terms.
  const { numerator, denominator } = radiusSquare(arc);
  const most = multiply(radiusOf(arc).lo, off);
  const share = 10n * under * under;
  return squares.every((coefficient) => {
    const away = coefficient * denominator - numerator * share; // over both denominators
    return (away < 0n ? -away : away) * most.denominator <= most.numerator * share * denominator;
  });
}

function isFlat({ from, leaving, arriving, to }: Curve, line: Line, off: Length): boolean {
  const way = less(line.to, line.from);
  const most = multiply(multiply(off, off), square(way));
  return [from, leaving, arriving, to].every((at) => {
    const across = cross(way, less(at, line.from));
    return compareRationals(multiply(across, across), most) <= 0;
  });
}

/** Ten times the square of a cubic: c_k = Σ C(3,i) C(3,k−i) / C(6,k) · p_i·p_(k−i). */
function squareInBernsteinForm(places: readonly bigint[]): readonly bigint[] {
  const product = (i: number, j: number): bigint =>
    places[2 * i]! * places[2 * j]! + places[2 * i + 1]! * places[2 * j + 1]!; // x and y of four points
  return [
    10n * product(0, 0),
    10n * product(0, 1),
    4n * product(0, 2) + 6n * product(1, 1),
    product(0, 3) + 9n * product(1, 2),
    4n * product(1, 3) + 6n * product(2, 2),
    10n * product(2, 3),
    10n * product(3, 3),
  ];
}
