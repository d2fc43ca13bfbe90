import {
  compareRationals,
  divide,
  larger,
  millimetres,
  multiply,
  rational,
  sum,
} from '../../measure/index.ts';
import type {
  Arc,
  BentFace,
  Curve,
  Enclosure,
  Length,
  Line,
  Outline,
  Point,
  Rational,
  Segment,
} from '../../model/index.ts';
import { arcRound, radiusSquare, sweepOf } from '../arc.ts';
import { arcsFor } from '../arcsForCurve.ts';
import { addUp, angleOf, exactly, lessBy, nothing, opposite, pi, timesExact } from '../enclosure.ts';
import { arrivingOf, leavingOf, lineTo, reversed } from '../loop.ts';
import { swelledArc } from '../offset.ts';
import { lengthOf } from '../perimeter.ts';
import {
  asLengths,
  coarse,
  coarseHair,
  exactRoot,
  fine,
  hair,
  nearRoot,
  snappedPoint,
  widened,
} from '../root.ts';
import {
  cross,
  dot,
  half,
  isSame,
  leftOf,
  less,
  plus,
  signOf,
  square,
  stretched,
  type Vector,
} from '../vector.ts';
import { tightestOf } from './bendRadius.ts';
import { type TopEdge, turnsOf } from './topEdge.ts';

/**
 * A skin of a thickness t bent over an edge: between the edge and what lies t off it.
 *
 *        ╭────────╮  outer: l + t·θ        l: how long the edge is
 *      ╱ ╭──────╮ ╲                        θ: how far it turns in all, crests less hollows
 *     ╱ ╱ inner  ╲ ╲
 *
 * It takes its length from one of its faces; its ends are square to its faces, as they are cut.
 */
export interface Skin {
  /** As it is seen from the side, where the edge is. */
  readonly profile: Outline;
  readonly developed: Readonly<Record<BentFace, Enclosure<Length>>>;
  /** The least radius on the inside of its bends: of the edge over crests, less its thickness in hollows. */
  readonly leastRadius: { readonly radius: Enclosure<Length>; readonly at: Point } | undefined;
}

export type Unfollowed =
  | { readonly kind: 'hollow'; readonly at: Length }
  | { readonly kind: 'tight'; readonly at: Length; readonly radius: Enclosure<Length> };

export interface Card {
  readonly thickness: Length;
  /** How far the edge may be off where it should be. */
  readonly within: Length;
}

/** @returns why it can't follow the edge, where it can't: into a corner, or a hollow tighter than it is thick */
export function skinOver(edge: TopEdge, { thickness, within }: Card): Skin | Unfollowed {
  const corner = turnsOf(edge).find(({ bends }) => bends === 'into');
  if (corner !== undefined) return { kind: 'hollow', at: corner.at.x };
  const hollow = tightestOf(edge, 'into');
  if (hollow !== undefined && compareRationals(hollow.radius.lo, thickness) <= 0) {
    return { kind: 'tight', at: hollow.at.x, radius: hollow.radius };
  }
  const crest = tightestOf(edge, 'over');
  const inHollow = hollow && { at: hollow.at, radius: asLengths(lessBy(hollow.radius, exactly(thickness))) };
  const bends = [crest, inHollow].filter((it) => it !== undefined);
  const long = addUp(...edge.map(lengthOf));
  const turned = addUp(
    ...edge.map(turnOf),
    ...turnsOf(edge).map(({ before, after }) => overTurn(arrivingOf(before), leavingOf(after))),
  );
  const developed = (off: Rational) => asLengths(widened(addUp(long, timesExact(turned, off)), 2n ** 40n));
  return {
    profile: bandOver(edge, { thickness, within }),
    developed: {
      outer: developed(thickness),
      middle: developed(multiply(thickness, half)),
      inner: developed(rational(0n)),
    },
    leastRadius: bends.reduce<Skin['leastRadius']>(
      (least, it) =>
        least === undefined || compareRationals(it.radius.lo, least.radius.lo) < 0 ? it : least,
      undefined,
    ),
  };
}

/** How far a segment turns with the clock, in radians. */
function turnOf(it: Segment): Enclosure {
  switch (it.kind) {
    case 'line':
      return nothing;
    case 'arc':
      return it.turn === 'right' ? sweepOf(it) : opposite(sweepOf(it));
    case 'curve':
      return overTurn(leavingOf(it), arrivingOf(it));
  }
}

/** The angle from one direction to another, with the clock above 0; less than half a turn, since an edge never goes back. */
function overTurn(came: Vector, goes: Vector): Enclosure {
  const [turn, along] = [cross(goes, came), dot(came, goes)];
  const right = timesExact(pi(), rational(BigInt(signOf(turn)), 2n));
  if (signOf(along) === 0) return right;
  const angle = angleOf(divide(turn, along));
  return signOf(along) > 0 ? angle : addUp(angle, right, right);
}

/** Curves are moved out as arcs that are no further off them than this. */
const offCurves: Length = millimetres(rational(1n, 200n));

function bandOver(edge: TopEdge, { thickness, within }: Card): Outline {
  // What is moved lies to the right of travel, so that the edge is gone along from its right end.
  const outer = movedOut(reversed(edge), thickness);
  const [first, last] = [edge[0]!, edge.at(-1)!]; // an edge has segments
  const [outerFirst, outerLast] = [outer[0]!, outer.at(-1)!];
  const rim = [...edge, lineTo(last.to, outerFirst.from), ...outer, lineTo(outerLast.to, first.from)];
  const hasCurves = edge.some(({ kind }) => kind === 'curve');
  const rounded = edge.every(isExactlyMoved) ? within : larger(within, hair);
  const off = hasCurves ? sum(rounded, offCurves, coarseHair) : rounded;
  return { rim, holes: [], marks: [], within: off };
}

function isExactlyMoved(it: Segment): boolean {
  if (it.kind === 'arc') return it.radius !== undefined;
  return it.kind === 'line' && exactRoot(square(leavingOf(it))) !== undefined;
}

/** Each segment moved out, with an arc round each crest that is a corner. */
function movedOut(inner: readonly Segment[], by: Length): readonly Segment[] {
  const { points } = inner.some(({ kind }) => kind === 'curve') ? coarse : fine;
  const moved = inner.map((it) => movedSegment(it, by, points));
  return moved.flatMap((some, i) => {
    const next = moved[i + 1];
    const [end, start] = [some.at(-1)?.to, next?.[0]?.from];
    if (end === undefined || start === undefined || isSame(end, start)) return some;
    const corner = inner[i]!.to; // as many as were moved
    return [
      ...some,
      isCloseBy(end, start, by) ? lineTo(end, start) : arcRound(end, start, corner, 'left', by),
    ];
  });
}

function movedSegment(it: Segment, by: Length, parts: bigint): readonly Segment[] {
  if (it.kind === 'arc') return [swelledArc(it, by).segment];
  const [start, end] = [
    movedPoint(it.from, leavingOf(it), by, parts),
    movedPoint(it.to, arrivingOf(it), by, parts),
  ];
  if (it.kind === 'line') return [lineTo(start, end)];
  const pieces = arcsFor(short(it), offCurves, coarse);
  // Its own directions at its ends are known better than those of the arcs that stand for it.
  const joints = pieces.slice(1).map((piece) => movedPoint(piece.from, leavingOf(piece), by, parts));
  const points = [start, ...joints, end];
  return pieces.map((piece, i) => movedPiece(piece, points[i]!, points[i + 1]!, by)); // one more than pieces
}

/** Held to the grid of points, so that figures stay short. */
function short({ from, leaving, arriving, to }: Curve): Curve {
  const near = (at: Point): Point => snappedPoint(at, coarse.points);
  return { kind: 'curve', from: near(from), leaving: near(leaving), arriving: near(arriving), to: near(to) };
}

/** About the same centre; one that would shrink to nothing is a line. */
function movedPiece(piece: Arc | Line, from: Point, to: Point, by: Length): Segment {
  if (piece.kind === 'line' || isSame(from, to)) return lineTo(from, to);
  const isGone = piece.turn === 'right' && compareRationals(radiusSquare(piece), multiply(by, by)) <= 0;
  return isGone ? lineTo(from, to) : arcRound(from, to, piece.centre, piece.turn, undefined, coarse.ratios);
}

/** A point moved square to a direction, to the right of it: exactly where that is rational. */
function movedPoint(at: Point, way: Vector, by: Length, parts: bigint): Point {
  const long = square(way);
  const exact = exactRoot(long);
  const right = stretched(leftOf(way), divide(by, exact ?? nearRoot(long)));
  const there = plus(at, stretched(right, rational(-1n)));
  return exact === undefined ? snappedPoint(there, parts) : there;
}

/** True for the ends of two segments that go on in one another, which the rounding of points keeps apart. */
function isCloseBy(a: Point, b: Point, by: Length): boolean {
  const off = less(a, b);
  return compareRationals(multiply(square(off), rational(2n ** 32n)), multiply(by, by)) <= 0;
}
