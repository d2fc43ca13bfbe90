import { compareRationals, divide, larger } from '../measure/index.ts';
import type { Line, Loop, Outline, Point, Segment } from '../model/index.ts';
import { boxOfLoop, type HeldBox, heldBy } from './box.ts';
import { doOverlap, hullOf } from './crossing.ts';
import { lineTo, reversed } from './loop.ts';
import { between, cross, less, point, sideOf, signOf } from './vector.ts';

/**
 * What is left where all that is taken away comes in over one straight edge of the rim and meets nothing else:
 * nearly every notch and arch. undefined where it meets more; then edges have to be cut where they cross.
 *
 *      from ●────┐      ┌────● to        the edge up to where it is crossed first, the way back round what is
 *            out │      │ in             taken away, and the rest of the edge
 *                └──────┘
 */
export function takenOverOneEdge(whole: Outline, away: Outline): Outline | undefined {
  if (away.holes.length > 0) return undefined;
  const reach = heldBy(boxOfLoop(away.rim));
  const isMet = (it: Segment) => doOverlap(hullOf(it), reach);
  if (whole.holes.some((hole) => hole.some(isMet))) return undefined;
  const [edge, ...others] = whole.rim.filter(isMet);
  if (edge?.kind !== 'line' || others.length > 0) return undefined;
  const way = wayInside(edge, away.rim);
  if (way === undefined) return undefined;
  const back = reversed(way);
  const [first, last] = [back[0], back.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const instead = [lineTo(edge.from, first.from), ...back, lineTo(last.to, edge.to)];
  const rim = whole.rim.flatMap((it) => (it === edge ? instead : [it]));
  return { ...whole, rim, within: larger(whole.within, away.within) };
}

/** The part of a loop to the left of an edge, from where it comes in to where it goes out between the edge's ends. */
function wayInside(edge: Line, loop: Loop): Loop | undefined {
  const sides = loop.map((it) => sideOfAll(edge, it));
  const goesIn = sides.indexOf('in');
  const goesOut = sides.indexOf('out');
  const isOnce =
    sides.filter((it) => it === 'in').length === 1 && sides.filter((it) => it === 'out').length === 1;
  if (!isOnce || sides.includes(undefined)) return undefined;
  const [entering, leaving] = [loop[goesIn]!, loop[goesOut]!]; // both were found
  const [into, outOf] = [crossingOf(edge, entering), crossingOf(edge, leaving)];
  if (into === undefined || outOf === undefined || compareRationals(outOf.share, into.share) >= 0)
    return undefined;
  const onward = [...loop.slice(goesIn + 1), ...loop.slice(0, goesIn)];
  const count = (goesOut - goesIn - 1 + loop.length) % loop.length;
  return [lineTo(into.at, entering.to), ...onward.slice(0, count), lineTo(leaving.from, outOf.at)];
}

type Side = 'left' | 'right' | 'in' | 'out';

/** Surely on one side of an edge's line, or a line that crosses it. */
function sideOfAll({ from, to }: Line, it: Segment): Side | undefined {
  if (it.kind === 'line') {
    const [start, end] = [sideOf(from, to, it.from), sideOf(from, to, it.to)];
    if (start === 0 || end === 0) return undefined;
    if (start === end) return start > 0 ? 'left' : 'right';
    return end > 0 ? 'in' : 'out';
  }
  const sides = cornersOf(hullOf(it)).map((at) => sideOf(from, to, at));
  if (sides.every((side) => side > 0)) return 'left';
  return sides.every((side) => side < 0) ? 'right' : undefined;
}

function cornersOf({ left, right, bottom, top }: HeldBox): readonly Point[] {
  return [left, right].flatMap((x) => [bottom, top].map((y) => point(x, y)));
}

/** Where a line crosses an edge, between its ends. */
function crossingOf(edge: Line, line: Segment) {
  const [way, other] = [less(edge.to, edge.from), less(line.to, line.from)];
  const share = divide(cross(less(line.from, edge.from), other), cross(way, other));
  const isBetween = signOf(share) > 0 && share.numerator < share.denominator;
  return isBetween ? { share, at: between(edge.from, edge.to, share) } : undefined;
}
