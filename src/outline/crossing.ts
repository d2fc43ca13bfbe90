import {
  add,
  compareRationals,
  divide,
  larger,
  millimetres,
  multiply,
  negate,
  rational,
  smaller,
  subtract,
} from '../measure/index.ts';
import type { Arc, Curve, Line, Point, Rational, Segment } from '../model/index.ts';
import { isOnItsSide, radiusSquare } from './arc.ts';
import { boxOfLoop, type HeldBox, heldBy } from './box.ts';
import { curvePoint, split } from './curve.ts';
import { lineTo } from './loop.ts';
import { exactRoot, nearRoot, snapped, snappedPoint } from './root.ts';
import {
  between,
  cross,
  dot,
  half,
  isSame,
  leftOf,
  less,
  plus,
  sideOf,
  signOf,
  square,
  stretched,
  type Vector,
} from './vector.ts';

/** Points nearer to each other than this, in mm, are taken for one where edges meet. */
export const touch: Rational = rational(1n, 2n ** 17n);
const touchSquare = multiply(touch, touch);

export function isNear(a: Vector, b: Vector): boolean {
  if (areApart(a.x, b.x) || areApart(a.y, b.y)) return false;
  return compareRationals(square(less(a, b)), touchSquare) <= 0;
}

/** Further than a touch; most points are, and that is seen without bringing anything to lowest terms. */
function areApart(a: Rational, b: Rational): boolean {
  const off = a.numerator * b.denominator - b.numerator * a.denominator;
  return (off < 0n ? -off : off) * touch.denominator > touch.numerator * a.denominator * b.denominator;
}

/**
 * Where two segments meet, their ends included; where they run along each other, the ends of what they share.
 * Exact where the point is rational, and where it is not, or a curve takes part, off by less than `touch`.
 */
export function meetings(a: Segment, b: Segment): readonly Point[] {
  const found = [...crossings(a, b), ...endsOn(a, b), ...endsOn(b, a)];
  const ends = [a.from, a.to, b.from, b.to];
  const settled = found.map((at) => ends.find((end) => isNear(end, at)) ?? at);
  return settled.filter((at, i) => settled.findIndex((other) => isNear(other, at)) === i);
}

function endsOn(a: Segment, b: Segment): readonly Point[] {
  return [a.from, a.to].filter((at) => isOn(b, at));
}

/** True for a point on the segment, or nearer to it than `touch`. */
export function isOn(it: Segment, at: Point): boolean {
  if (isNear(it.from, at) || isNear(it.to, at)) return true;
  switch (it.kind) {
    case 'line': {
      const [way, there] = [less(it.to, it.from), less(at, it.from)];
      const along = dot(way, there);
      if (signOf(along) < 0 || compareRationals(along, square(way)) > 0) return false;
      const off = cross(way, there);
      return compareRationals(multiply(off, off), multiply(touchSquare, square(way))) <= 0;
    }
    case 'arc': {
      const [r, d] = [radiusSquare(it), square(less(at, it.centre))];
      // |d − r| ≤ touch, as |d² − r²| ≤ 2r·touch without the root: squared, and a little generous.
      const off = subtract(d, r);
      const most = multiply(rational(4n), multiply(touchSquare, r));
      return compareRationals(multiply(off, off), most) <= 0 && isOnItsSide(it, at);
    }
    case 'curve':
      return isOnCurve(it, at, 0);
  }
}

function isOnCurve(it: Curve, at: Point, halvings: number): boolean {
  if (!isInBox(hullOf(it), at)) return false;
  if (isFlat(it) || halvings === mostHalvings) return isOn(lineTo(it.from, it.to), at);
  return split(it, half).some((part) => isOnCurve(part, at, halvings + 1));
}

function crossings(a: Segment, b: Segment): readonly Point[] {
  if (a.kind === 'curve') return crossingsOfCurve(a, b, 0);
  if (b.kind === 'curve') return crossingsOfCurve(b, a, 0);
  if (a.kind === 'line') return b.kind === 'line' ? ofLines(a, b) : ofLineAndArc(a, b);
  return b.kind === 'line' ? ofLineAndArc(b, a) : ofArcs(a, b);
}

function ofLines(a: Line, b: Line): readonly Point[] {
  const [one, other] = [less(a.to, a.from), less(b.to, b.from)];
  const turn = cross(one, other);
  if (signOf(turn) === 0) return []; // side by side, or along each other: then their ends tell
  const across = less(b.from, a.from);
  const shares = [divide(cross(across, other), turn), divide(cross(across, one), turn)];
  const [share] = shares;
  return share !== undefined && shares.every(isShare) ? [between(a.from, a.to, share)] : [];
}

function isShare(a: Rational): boolean {
  return signOf(a) >= 0 && a.numerator <= a.denominator;
}

//   The line comes nearest to the centre at its foot, and meets the circle as far on either side of it:
//
//            ╭─────╮
//     ──────●───f───●──────
//           (   C   )
function ofLineAndArc(line: Line, arc: Arc): readonly Point[] {
  const way = less(line.to, line.from);
  const run = square(way);
  const atFoot = divide(dot(less(arc.centre, line.from), way), run);
  const foot = between(line.from, line.to, atFoot);
  const rest = subtract(radiusSquare(arc), square(less(foot, arc.centre)));
  return sharesBeside(divide(rest, run), divide(touchSquare, run))
    .map((off) => add(atFoot, off))
    .filter(isShare)
    .map((share) => between(line.from, line.to, share))
    .map(snappedIfLong)
    .filter((at) => isOnItsSide(arc, at));
}

//   Two circles meet on the line that stands square to the one through their centres.
function ofArcs(a: Arc, b: Arc): readonly Point[] {
  const way = less(b.centre, a.centre);
  const run = square(way);
  if (compareRationals(run, touchSquare) <= 0) return []; // one circle, or one inside the other
  const [ra, rb] = [radiusSquare(a), radiusSquare(b)];
  const share = divide(add(subtract(ra, rb), run), multiply(rational(2n), run));
  const foot = plus(a.centre, stretched(way, share));
  const rest = subtract(ra, multiply(multiply(share, share), run));
  return sharesBeside(divide(rest, run), divide(touchSquare, run))
    .map((off) => plus(foot, stretched(leftOf(way), off)))
    .map(snappedIfLong)
    .filter((at) => isOnItsSide(a, at) && isOnItsSide(b, at));
}

/** ± the root of a square; one of 0 where the two would lie within a touch of each other. */
function sharesBeside(squared: Rational, least: Rational): readonly Rational[] {
  if (compareRationals(squared, negate(least)) < 0) return [];
  if (signOf(squared) <= 0) return [rational(0n)];
  const off = exactRoot(squared) ?? snapped(nearRoot(squared), 2n ** 64n);
  return [negate(off), off];
}

/** A point on a grid of 2^-40 mm, where its own figures are longer than a drawing's ever are. */
function snappedIfLong(at: Point): Point {
  return at.x.denominator < longest && at.y.denominator < longest ? at : snappedPoint(at);
}

const longest = 2n ** 60n;
const mostHalvings = 24;

function crossingsOfCurve(curve: Curve, other: Segment, halvings: number): readonly Point[] {
  const isOneCurve =
    other.kind === 'curve' &&
    ((isSame(curve.from, other.from) && isSame(curve.leaving, other.leaving) && isSame(curve.to, other.to)) ||
      (isSame(curve.from, other.to) &&
        isSame(curve.leaving, other.arriving) &&
        isSame(curve.to, other.from)));
  if (isOneCurve) return [];
  return partsMeeting(curve, other, halvings).map((share) => curvePoint(curve, snapped(share)));
}

/**
 * The shares of a curve's parameter at which it meets another segment: halved, and the other too where it is a
 * curve, until what may still meet is straight.
 */
function partsMeeting(curve: Curve, other: Segment, halvings: number): readonly Rational[] {
  if (!doOverlap(hullOf(curve), hullOf(other)) || surelyMisses(curve, other)) return [];
  const isDone = isFlat(curve) || halvings >= mostHalvings;
  if (other.kind === 'curve' && !isFlat(other) && (isDone || halvings % 2 === 1)) {
    return split(other, half).flatMap((part) => partsMeeting(curve, part, halvings + 1));
  }
  if (isDone) {
    const [chord, straight] = [
      lineTo(curve.from, curve.to),
      other.kind === 'curve' ? lineTo(other.from, other.to) : other,
    ];
    if (isSame(chord.from, chord.to) || isSame(straight.from, straight.to)) return [];
    const way = less(chord.to, chord.from);
    return crossings(chord, straight).map((at) => divide(dot(less(at, chord.from), way), square(way)));
  }
  const [first, second] = split(curve, half);
  return [
    ...partsMeeting(first, other, halvings + 1).map((it) => multiply(it, half)),
    ...partsMeeting(second, other, halvings + 1).map((it) => add(half, multiply(it, half))),
  ];
}

/** All on one side of a line, or all within a circle: then so is the whole curve. */
function surelyMisses({ from, leaving, arriving, to }: Curve, other: Segment): boolean {
  const points = [from, leaving, arriving, to];
  switch (other.kind) {
    case 'line': {
      const sides = points.map((at) => sideOf(other.from, other.to, at));
      return sides[0] !== 0 && sides.every((side) => side === sides[0]);
    }
    case 'arc': {
      const r = radiusSquare(other);
      return points.every((at) => compareRationals(square(less(at, other.centre)), r) < 0);
    }
    case 'curve':
      return false;
  }
}

const flatness = rational(1n, 2n ** 20n);

function isFlat({ from, leaving, arriving, to }: Curve): boolean {
  const way = less(to, from);
  const most = multiply(multiply(flatness, flatness), square(way));
  return [leaving, arriving].every((at) => {
    const off = cross(way, less(at, from));
    return compareRationals(multiply(off, off), most) <= 0;
  });
}

/** A box that surely holds a segment and whatever is within a touch of it. */
export function hullOf(it: Segment): HeldBox {
  const { left, right, bottom, top } = tightHullOf(it);
  return {
    left: millimetres(subtract(left, touch)),
    right: millimetres(add(right, touch)),
    bottom: millimetres(subtract(bottom, touch)),
    top: millimetres(add(top, touch)),
  };
}

function tightHullOf(it: Segment): HeldBox {
  if (it.kind === 'arc') return heldBy(boxOfLoop([it]));
  const points = it.kind === 'line' ? [it.from, it.to] : [it.from, it.leaving, it.arriving, it.to];
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return {
    left: xs.reduce(smaller),
    right: xs.reduce(larger),
    bottom: ys.reduce(smaller),
    top: ys.reduce(larger),
  };
}

export function doOverlap(a: HeldBox, b: HeldBox): boolean {
  return (
    compareRationals(a.left, b.right) <= 0 &&
    compareRationals(b.left, a.right) <= 0 &&
    compareRationals(a.bottom, b.top) <= 0 &&
    compareRationals(b.bottom, a.top) <= 0
  );
}

/** The places of boxes that overlap, the lower first: found along one direction, not by trying all with all. */
export function* pairsOf(hulls: readonly HeldBox[]): Generator<readonly [number, number]> {
  const order = hulls
    .map((_, i) => i)
    .sort((a, b) => compareRationals(hulls[a]!.left, hulls[b]!.left) || a - b);
  for (const [place, i] of order.entries()) {
    const one = hulls[i]!; // order holds the places of hulls
    for (let next = place + 1; next < order.length; next++) {
      const j = order[next]!;
      const other = hulls[j]!;
      if (compareRationals(other.left, one.right) > 0) break; // and so do all after it
      if (doOverlap(one, other)) yield i < j ? [i, j] : [j, i];
    }
  }
}

function isInBox(box: HeldBox, { x, y }: Point): boolean {
  return doOverlap(box, { left: x, right: x, bottom: y, top: y });
}
