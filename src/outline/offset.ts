import {
  absolute,
  add,
  compareRationals,
  divide,
  larger,
  millimetres,
  minus,
  multiply,
  rational,
  subtract,
  sum,
  zero,
} from '../measure/index.ts';
import type { Arc, Length, Line, Loop, Outline, Point, Rational, Segment } from '../model/index.ts';
import { arcRound, radiusSquare } from './arc.ts';
import { arcsFor } from './arcsForCurve.ts';
import type { HeldBox } from './box.ts';
import { standingInLoops } from './contains.ts';
import { doOverlap, hullOf, isNear, touch } from './crossing.ts';
import { isClearOf } from './distance.ts';
import { arrivingOf, leavingOf, lineTo } from './loop.ts';
import { midpointOf } from './midpoint.ts';
import { exactRoot, hair, nearRoot, snappedPoint } from './root.ts';
import { cutWhereTheyMeet, Pool } from './splitting.ts';
import { outlinesOf, stitched } from './stitching.ts';
import { cross, dot, isSame, leftOf, less, opposite, plus, signOf, square, stretched } from './vector.ts';

/** Curves are moved out as arcs that are no further off them than this. */
export const offCurves: Length = millimetres(rational(1n, 200n));

/**
 * An outline larger all round (or smaller, for `by` below zero): every edge moved out by as much, arcs about
 * their own centres. None where nothing is left, several where it falls apart.
 *
 * A corner stays a corner, as a knife cuts it; one sharper than 60° is rounded off, or it would run far out.
 *
 *       ┌───────────┐ by           ╲   M
 *       │ ┌───────┐ │            ───╲──●          M: where the moved edges, or their tangents, meet
 *       │ │       │ │          by    V  ╲
 *
 * First each edge is moved and joined to the next, which in hollow corners crosses itself; all is then cut
 * where it meets, and what is nearer to the outline than `by` is dropped.
 */
export function offset(outline: Outline, by: Length): readonly Outline[] {
  if (by.numerator === 0n) return [outline];
  const { loops, hasCurves } = withoutCurves(outline);
  const moved = loops.map((it) => movedOut(it, by));
  const edges = reachesOf(loops.flat(), by);
  const pool = new Pool();
  const [pieces = []] = cutWhereTheyMeet([moved.flatMap(({ segments }) => segments)], pool);
  const corners = moved.flatMap((it) => it.corners);
  const clear = pieces.filter((it) => isClear(it, edges, loops, by) && !isCoveredBy(it, corners));
  const isExact = moved.every((it) => it.isExact) && outline.within.numerator === 0n;
  const rounded = isExact ? zero : larger(outline.within, hair);
  const within = hasCurves ? sum(rounded, offCurves) : rounded;
  return outlinesOf(stitched(withoutTwins(clear)), within, outline.marks);
}

type Plain = Line | Arc;

function withoutCurves({ rim, holes }: Outline): {
  readonly loops: readonly (readonly Plain[])[];
  readonly hasCurves: boolean;
} {
  const loops = [rim, ...holes];
  return {
    loops: loops.map((loop) => loop.flatMap((it) => (it.kind === 'curve' ? arcsFor(it, offCurves) : [it]))),
    hasCurves: loops.flat().some(({ kind }) => kind === 'curve'),
  };
}

interface Moved {
  readonly segments: Loop;
  /** What the sharp corners add: V, the ends of the moved edges, and M where they meet. */
  readonly corners: readonly Loop[];
  readonly isExact: boolean;
}

function movedOut(loop: readonly Plain[], by: Length): Moved {
  const shifted = loop.map((it) => (it.kind === 'line' ? shiftedLine(it, by) : swelledArc(it, by)));
  const corners: Loop[] = [];
  const segments = loop.flatMap((it, i): readonly Segment[] => {
    const next = (i + 1) % loop.length;
    const [here, there] = [shifted[i]!.segment, shifted[next]!.segment]; // as many as the loop has
    const join = joinAt(it.to, it, loop[next]!, here.to, there.from, by);
    const [first, second] = join;
    if (first?.kind === 'line' && second?.kind === 'line' && !isSame(first.to, it.to)) {
      corners.push([lineTo(it.to, first.from), first, second, lineTo(second.to, it.to)]);
    }
    return isSame(here.from, here.to) ? join : [here, ...join];
  });
  return { segments, corners, isExact: shifted.every((it) => it.isExact) };
}

/** A line moved to the right of travel. */
export function shiftedLine(
  { from, to }: Line,
  by: Length,
): { readonly segment: Plain; readonly isExact: boolean } {
  const way = less(to, from);
  const exact = exactRoot(square(way));
  const length = exact ?? nearRoot(square(way));
  const out = stretched(opposite(leftOf(way)), divide(by, length));
  const shift = exact === undefined ? snappedPoint(out) : out;
  return { segment: lineTo(plus(from, shift), plus(to, shift)), isExact: exact !== undefined };
}

/**
 * An arc moved to the right of travel, about its centre. One that shrinks beyond that turns inside out, and is dropped
 * later whatever its shape: a line does.
 */
export function swelledArc(arc: Arc, by: Length): { readonly segment: Plain; readonly isExact: boolean } {
  const exact = arc.radius;
  const radius = exact ?? nearRoot(radiusSquare(arc));
  const swelled = arc.turn === 'left' ? add(radius, by) : subtract(radius, by);
  const factor = divide(swelled, radius);
  const moved = (at: Point) => {
    const there = plus(arc.centre, stretched(less(at, arc.centre), factor));
    return exact === undefined ? snappedPoint(there) : there;
  };
  const [from, to] = [moved(arc.from), moved(arc.to)];
  const isExact = exact !== undefined;
  if (signOf(swelled) <= 0 || isSame(from, to)) return { segment: lineTo(from, to), isExact };
  const outer = isExact ? millimetres(swelled) : undefined;
  return { segment: arcRound(from, to, arc.centre, arc.turn, outer), isExact };
}

function joinAt(
  corner: Point,
  before: Segment,
  after: Segment,
  end: Point,
  start: Point,
  by: Length,
): readonly Segment[] {
  if (isNear(end, start)) return isSame(end, start) ? [] : [lineTo(end, start)];
  const [came, goes] = [arrivingOf(before), leavingOf(after)];
  const turn = signOf(cross(came, goes));
  // A needle's point turns straight back; in a hollow one the cap is dropped later.
  const turnsBack = turn === 0 && signOf(dot(came, goes)) < 0;
  const opensUp = turnsBack || (signOf(by) > 0 ? turn > 0 : turn < 0);
  const [a, b] = [less(end, corner), less(start, corner)];
  const squared = multiply(by, by);
  // In a hollow corner the way by the corner itself is dropped later.
  if (!opensUp) return [lineTo(end, corner), lineTo(corner, start)];
  const cosine = divide(dot(a, b), squared);
  if (compareRationals(cosine, sharpest) < 0) {
    return [arcRound(end, start, corner, signOf(by) > 0 ? 'left' : 'right', absolute(by))];
  }
  const out = divide(rational(1n), add(rational(1n), cosine));
  const tip = plus(corner, stretched(plus(a, b), out));
  const settled = tip.x.denominator * tip.y.denominator > 2n ** 120n ? snappedPoint(tip) : tip;
  return [lineTo(end, settled), lineTo(settled, start)];
}

/** The cosine of the turn at a corner of 60°. */
const sharpest: Rational = rational(-1n, 2n);

/** An edge, and a box outside which one is clear of it. */
interface Reach {
  readonly edge: Plain;
  readonly box: HeldBox;
}

function reachesOf(edges: readonly Plain[], by: Length): readonly Reach[] {
  const out = absolute(by);
  return edges.map((edge) => {
    const { left, right, bottom, top } = hullOf(edge);
    return {
      edge,
      box: { left: minus(left, out), right: sum(right, out), bottom: minus(bottom, out), top: sum(top, out) },
    };
  });
}

function isClear(piece: Segment, edges: readonly Reach[], loops: readonly Loop[], by: Length): boolean {
  const at = midpointOf(piece);
  const here = { left: at.x, right: at.x, bottom: at.y, top: at.y };
  const distance = subtract(absolute(by), touch);
  if (edges.some(({ edge, box }) => doOverlap(box, here) && !isClearOf(edge, at, distance))) return false;
  return standingInLoops(loops, at) === (by.numerator > 0n ? 'outside' : 'inside');
}

/** A sharp corner reaches further out than `by`, and what runs through it is no edge of the whole. */
function isCoveredBy(piece: Segment, corners: readonly Loop[]): boolean {
  const at = midpointOf(piece);
  return corners.some(
    (it) =>
      standingInLoops([it], at) === 'inside' &&
      it.every((edge) => edge.kind === 'line' && isClearOf(edge, at, touch)),
  );
}

/** Pieces that lie on each other: once where they run the same way, not at all where they cancel out. */
function withoutTwins(pieces: readonly Segment[]): readonly Segment[] {
  const isTwin = (a: Segment, b: Segment) =>
    isSame(a.from, b.from) && isSame(a.to, b.to) && isNear(midpointOf(a), midpointOf(b));
  const isCancelled = (a: Segment, b: Segment) =>
    isSame(a.from, b.to) && isSame(a.to, b.from) && isNear(midpointOf(a), midpointOf(b));
  return pieces.filter(
    (it, i) =>
      !pieces.some((other) => isCancelled(it, other)) &&
      !pieces.slice(0, i).some((other) => isTwin(it, other)),
  );
}
