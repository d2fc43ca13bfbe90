import { add, compareRationals, multiply, rational, subtract } from '../../measure/index.ts';
import type { Arc, Curve, Loop, Outline, Point, Rational, Segment } from '../../model/index.ts';
import { doOverlap, hullOf, isNear, isOn } from '../crossing.ts';
import { bendsOf } from '../flatten.ts';
import { lineTo, reversedSegment } from '../loop.ts';
import { midpointOf } from '../midpoint.ts';
import { snappedPoint } from '../root.ts';
import { partedAt } from '../splitting.ts';
import { isSame, less, square } from '../vector.ts';

/**
 * Two outlines that lie against each other along a curve, or along some of it, as traced from one master: there
 * both get the same straight edges, so what they share is nothing, however coarse the edges are. Where they differ
 * each keeps its curve.
 *
 *        ╭───╮               ●───●
 *       ╱ one ╲      →      ╱     ╲
 *      │───────│           ●───────●       the other lies outside
 */
export function tracedAlike(
  a: Outline | undefined,
  b: Outline | undefined,
): readonly [Outline | undefined, Outline | undefined] {
  if (a === undefined || b === undefined || a === b) return [a, b];
  const off = add(a.within, b.within);
  const [one, other] = partedAlike(a, b);
  const pairs = pairsOf(curvedOf(one), curvedOf(other), off);
  if (pairs.length === 0) return [a, b];
  const edges = new Map<Segment, Loop>();
  for (const [it, back] of pairs) {
    // Both get the same points, so these may as well have short figures.
    const between = bendsOf(it).map((at) => snappedPoint(at));
    edges.set(it, edgesThrough(it, between));
    edges.set(back, edgesThrough(back, [...between].reverse()));
  }
  const drawn = (it: Segment): Loop => edges.get(it) ?? [it];
  return [replaced(one, drawn), replaced(other, drawn)];
}

/** Both with their curves parted where a curve of the other begins or ends on them. */
export function partedAlike(a: Outline, b: Outline): readonly [Outline, Outline] {
  const off = add(a.within, b.within);
  return [partedLike(a, b, off), partedLike(b, a, off)];
}

type Curved = Arc | Curve;

function isCurved(it: Segment): it is Curved {
  return it.kind !== 'line';
}

function curvedOf({ rim, holes }: Outline): readonly Curved[] {
  return [rim, ...holes].flat().filter(isCurved);
}

function replaced(outline: Outline, by: (it: Segment) => Loop): Outline {
  return { ...outline, rim: outline.rim.flatMap(by), holes: outline.holes.map((it) => it.flatMap(by)) };
}

function edgesThrough({ from, to }: Segment, between: readonly Point[]): Loop {
  const points = [from, ...between, to];
  return points.slice(1).map((at, i) => lineTo(points[i]!, at)); // one before each
}

function partedLike(outline: Outline, other: Outline, off: Rational): Outline {
  const curved = curvedOf(other);
  if (curved.length === 0) return outline;
  const isExact = off.numerator === 0n;
  const hulls = isExact ? [] : curved.map(hullOf);
  return replaced(outline, (it) => {
    if (!isCurved(it)) return [it];
    const hull = isExact ? undefined : hullOf(it);
    const stops = curved
      .filter((like, i) =>
        // Pieces of exact curves have no ends that are not exact too: arcs on one circle, and no others.
        hull === undefined ? areOnOneCircle(it, like) : it.kind === like.kind && doOverlap(hull, hulls[i]!),
      )
      .flatMap(({ from, to }) => [from, to])
      .filter((at) => !isNear(at, it.from) && !isNear(at, it.to) && isOn(it, at));
    if (stops.length === 0) return [it];
    return partedAt(
      it,
      stops.filter((at, i) => stops.findIndex((before) => isNear(before, at)) === i),
    );
  });
}

function areOnOneCircle(a: Curved, b: Curved): boolean {
  return (
    a.kind === 'arc' &&
    b.kind === 'arc' &&
    isSame(a.centre, b.centre) &&
    compareRationals(square(less(a.from, a.centre)), square(less(b.from, b.centre))) === 0
  );
}

/** Each curve with the one of the other that runs along all of it, the other way. */
function pairsOf(
  all: readonly Curved[],
  others: readonly Curved[],
  off: Rational,
): readonly (readonly [Curved, Curved])[] {
  const back = others.map((it) => ({ it, turned: reversedSegment(it) }));
  const byKey = new Map(back.map(({ it, turned }) => [keyOf(turned), it]));
  return all.flatMap((one): readonly (readonly [Curved, Curved])[] => {
    const found =
      byKey.get(keyOf(one)) ??
      (off.numerator === 0n ? undefined : back.find(({ turned }) => isLike(one, turned, off))?.it);
    return found === undefined ? [] : [[one, found]];
  });
}

/** No further apart than their points may be off where they should be; with a little more for what follows of it. */
export function isLike(a: Segment, b: Segment, off: Rational): boolean {
  const most = multiply(off, rational(4n));
  const near = (one: Point, other: Point) =>
    (['x', 'y'] as const).every((axis) => {
      const apart = subtract(one[axis], other[axis]);
      return compareRationals({ ...apart, numerator: size(apart) }, most) <= 0;
    });
  if (!near(a.from, b.from) || !near(a.to, b.to)) return false;
  if (a.kind === 'curve' && b.kind === 'curve')
    return near(a.leaving, b.leaving) && near(a.arriving, b.arriving);
  return a.kind === 'arc' && b.kind === 'arc' && a.turn === b.turn && near(midpointOf(a), midpointOf(b));
}

function size({ numerator }: Rational): bigint {
  return numerator < 0n ? -numerator : numerator;
}

function keyOf(it: Segment): string {
  if (it.kind === 'line') return 'line';
  const points = it.kind === 'arc' ? [it.from, it.centre, it.to] : [it.from, it.leaving, it.arriving, it.to];
  const place = points.map(({ x, y }) => `${x.numerator}/${x.denominator},${y.numerator}/${y.denominator}`);
  return [it.kind, it.kind === 'arc' ? it.turn : '', ...place].join(' ');
}
