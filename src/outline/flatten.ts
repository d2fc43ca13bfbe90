import {
  add,
  compareRationals,
  divide,
  floor,
  millimetres,
  multiply,
  rational,
  squareRoot,
  subtract,
} from '../measure/index.ts';
import type { Arc, Curve, Length, Loop, Outline, Point, Rational, Segment } from '../model/index.ts';
import { arcRound, halfTangent, radiusOf, spokes } from './arc.ts';
import { split } from './curve.ts';
import { snapped } from './root.ts';
import {
  cross,
  dot,
  half,
  isSame,
  leftOf,
  less,
  opposite,
  plus,
  sideOf,
  signOf,
  square,
  stretched,
} from './vector.ts';

/** How far straight edges may be off the curves that they stand for. */
export const mostOff: Length = millimetres(rational(1n, 100n));

/** Where the straight edges lie: within the material, around it, or from point to point of the curve. */
export type Lean = 'inward' | 'outward' | 'along';

/** Straight-sided loops, the rim first. */
export type Facets = readonly (readonly Point[])[];

/**
 * An outline with straight edges in place of its curves, no point of one further than `off` from the other.
 *
 *     inward: chords        outward: tangents       (where it bulges out; the other way round in a hollow)
 *        ╭─●─╮                 ●─────●
 *       ●     ●               ╱ ╭───╮ ╲
 */
export function flattened({ rim, holes }: Outline, lean: Lean, off: Length = mostOff): Facets {
  return [rim, ...holes].map((it) => flattenedLoop(it, lean, off));
}

export function flattenedLoop(loop: Loop, lean: Lean, off: Length = mostOff): readonly Point[] {
  const points = loop.flatMap((it) => [it.from, ...bends(it, lean, off)]);
  return points.filter((it, i) => !isSame(it, points[(i + 1) % points.length]!)); // i is within
}

/** Points on a segment between its ends, near enough for straight edges in its place. */
export function bendsOf(it: Segment): readonly Point[] {
  return bends(it, 'along', mostOff);
}

/** A segment in pieces that are nowhere further than that from their chords. */
export function piecesOf(it: Segment): readonly Segment[] {
  if (it.kind === 'line') return [it];
  if (it.kind === 'curve') return piecesOfCurve(it, 0);
  const points = [it.from, ...bendsOf(it), it.to];
  return points.slice(1).map((to, i) => arcRound(points[i]!, to, it.centre, it.turn, it.radius)); // one before each
}

function piecesOfCurve(it: Curve, halvings: number): readonly Curve[] {
  if (isWithin(it, mostOff) || halvings === mostHalvings) return [it];
  return split(it, half).flatMap((part) => piecesOfCurve(part, halvings + 1));
}

/** The points between a segment's ends. */
function bends(it: Segment, lean: Lean, off: Length): readonly Point[] {
  switch (it.kind) {
    case 'line':
      return [];
    case 'arc': {
      const spokesOut = spokesAlong(it, off);
      const hasChordsInside = it.turn === 'left';
      const chords = lean === 'along' || (lean === 'inward') === hasChordsInside;
      return chords
        ? spokesOut.slice(1, -1).map((spoke) => plus(it.centre, spoke))
        : spokesOut.slice(1).map((spoke, i) => plus(it.centre, tangentsMeet(spokesOut[i]!, spoke)));
    }
    case 'curve':
      return bendsOfCurve(it, lean, off, 0);
  }
}

//  The tangents at the ends of two spokes of one length r meet at (u + v) · r² / (r² + u·v).
function tangentsMeet(u: Point, v: Point): Point {
  const r = square(u);
  return stretched(plus(u, v), divide(r, add(r, dot(u, v))));
}

/**
 * Spokes to points exactly on the circle, so near each other that neither chord nor tangents are further off
 * than allowed. First whole quarter turns, then equal steps of t, the tangent of half the angle:
 *   u(t) = ((1 − t²) u + 2t · u turned left) / (1 + t²)     is rational and as long as u.
 */
function spokesAlong(arc: Arc, off: Length): readonly Point[] {
  const [first, last] = spokes(arc);
  const toSide = (u: Point) => (arc.turn === 'left' ? leftOf(u) : opposite(leftOf(u)));
  const found: Point[] = [first];
  let here = first;
  const stepBy = (most: Rational, end: Point) => {
    const count = stepsFor(most, radiusOf(arc).hi, off);
    for (let i = 1n; i < count; i++) {
      const t = snapped(multiply(most, rational(i, count)), 2n ** 20n);
      const tt = multiply(t, t);
      const along = divide(subtract(rational(1n), tt), add(rational(1n), tt));
      const across = divide(multiply(rational(2n), t), add(rational(1n), tt));
      found.push(plus(stretched(here, along), stretched(toSide(here), across)));
    }
    found.push(end);
    here = end;
  };
  for (;;) {
    const rest = halfTangent({ ...arc, from: plus(arc.centre, here) });
    if (rest !== undefined && signOf(rest) >= 0 && compareRationals(rest, rational(1n)) <= 0) {
      if (signOf(rest) > 0) stepBy(rest, last);
      return found;
    }
    stepBy(rational(1n), toSide(here));
  }
}

/** A step of t turns by at most 2t, and neither its chord nor its tangents are off by more than r·t²/2; a tenth more. */
function stepsFor(most: Rational, radius: Rational, off: Length): bigint {
  const squared = divide(
    multiply(multiply(most, most), multiply(radius, rational(11n, 10n))),
    multiply(rational(2n), off),
  );
  return squareRoot(floor(squared)) + 1n;
}

const mostHalvings = 20;

function bendsOfCurve(it: Curve, lean: Lean, off: Length, halvings: number): readonly Point[] {
  if (isWithin(it, off) || halvings === mostHalvings) return lean === 'along' ? [] : chain(it, lean);
  const [first, second] = split(it, half);
  return [
    ...bendsOfCurve(first, lean, off, halvings + 1),
    first.to,
    ...bendsOfCurve(second, lean, off, halvings + 1),
  ];
}

/** True where the control points, to either side of the chord, are no further apart across it. */
function isWithin({ from, leaving, arriving, to }: Curve, off: Length): boolean {
  const way = less(to, from);
  const [a, b] = [leaving, arriving].map((at) => cross(way, less(at, from)));
  const none = rational(0n);
  const largest = [a!, b!, none].reduce((x, y) => (compareRationals(x, y) >= 0 ? x : y));
  const least = [a!, b!, none].reduce((x, y) => (compareRationals(x, y) <= 0 ? x : y));
  const apart = subtract(largest, least);
  return compareRationals(multiply(apart, apart), multiply(multiply(off, off), square(way))) <= 0;
}

//  The curve lies within the hull of its control points; inward is the hull's left chain, outward its right.
//
//          l ●────● a        left of travel, from f to t, where l and a lie to the left
//           ╱      ╲
//        f ●────────● t      right: the chord
function chain({ from, leaving, arriving, to }: Curve, lean: 'inward' | 'outward'): readonly Point[] {
  const side = lean === 'inward' ? 1 : -1;
  const out = [leaving, arriving].filter((at) => sideOf(from, to, at) === side);
  const [one, other] = out;
  if (one === undefined || other === undefined) return out;
  const bendsAt = (a: Point, b: Point, c: Point) => sideOf(a, b, c) === -side;
  if (!bendsAt(from, one, other)) return [other];
  return bendsAt(one, other, to) ? out : [one];
}
