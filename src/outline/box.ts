import { add, compareRationals, rational, subtract } from '../measure/index.ts';
import type { Arc, Curve, Enclosure, Length, Loop, Outline, Rational, Segment } from '../model/index.ts';
import { radiusOf, sweepsOver } from './arc.ts';
import { type Axis, keepsBetween, split } from './curve.ts';
import { exactly, largestOf, smallestOf } from './enclosure.ts';
import { asLengths, widened } from './root.ts';
import { half } from './vector.ts';

/** The upright rectangle round an outline; each side exact where it is rational. */
export interface Box {
  readonly left: Enclosure<Length>;
  readonly right: Enclosure<Length>;
  readonly bottom: Enclosure<Length>;
  readonly top: Enclosure<Length>;
}

/** The smallest box of rational numbers that surely holds it. */
export interface HeldBox {
  readonly left: Length;
  readonly right: Length;
  readonly bottom: Length;
  readonly top: Length;
}

export function boxOf({ rim }: Outline): Box {
  return boxOfLoop(rim);
}

export function boxOfLoop(loop: Loop): Box {
  const [left, right] = reachOf(loop, 'x');
  const [bottom, top] = reachOf(loop, 'y');
  return { left, right, bottom, top };
}

export function heldBy({ left, right, bottom, top }: Box): HeldBox {
  return { left: left.lo, right: right.hi, bottom: bottom.lo, top: top.hi };
}

type Reach = readonly [low: Enclosure<Length>, high: Enclosure<Length>];

function reachOf(loop: Loop, axis: Axis): Reach {
  const reaches = loop.map((it) => reachOfSegment(it, axis));
  const low = reaches.map(([it]) => it).reduce(smallestOf);
  const high = reaches.map(([, it]) => it).reduce(largestOf);
  return [asLengths(widened(low)), asLengths(widened(high))];
}

/** What is cut leaves most edges as they were, and their boxes are asked for at each cut. */
const known = { x: new WeakMap<Segment, Reached>(), y: new WeakMap<Segment, Reached>() };

type Reached = readonly [Enclosure, Enclosure];

function reachOfSegment(it: Segment, axis: Axis): Reached {
  if (it.kind === 'line') return reachFound(it, axis);
  const reach = known[axis].get(it) ?? reachFound(it, axis);
  known[axis].set(it, reach);
  return reach;
}

function reachFound(it: Segment, axis: Axis): Reached {
  const ends = [exactly(it.from[axis]), exactly(it.to[axis])] as const;
  const low = smallestOf(...ends);
  const high = largestOf(...ends);
  switch (it.kind) {
    case 'line':
      return [low, high];
    case 'arc':
      return [
        sweepsOver(it, towards(axis, -1n)) ? extremeOf(it, axis, -1n) : low,
        sweepsOver(it, towards(axis, 1n)) ? extremeOf(it, axis, 1n) : high,
      ];
    case 'curve':
      return keepsBetween(it, axis) ? [low, high] : reachOfCurve(it, axis, 0);
  }
}

function towards(axis: Axis, sign: bigint): { readonly x: Rational; readonly y: Rational } {
  const [none, one] = [rational(0n), rational(sign)];
  return axis === 'x' ? { x: one, y: none } : { x: none, y: one };
}

function extremeOf(arc: Arc, axis: Axis, sign: bigint): Enclosure {
  const radius = radiusOf(arc);
  const centre = arc.centre[axis];
  return sign > 0n
    ? { lo: add(centre, radius.lo), hi: add(centre, radius.hi) }
    : { lo: subtract(centre, radius.hi), hi: subtract(centre, radius.lo) };
}

const mostHalvings = 24;

/** No point of a curve is beyond its control points, and its ends are points of it. */
function reachOfCurve(it: Curve, axis: Axis, halvings: number): Reached {
  const ends = [it.from[axis], it.to[axis]].sort(compareRationals);
  const all = [it.from, it.leaving, it.arriving, it.to].map((at) => at[axis]).sort(compareRationals);
  const surely: Reached = [
    { lo: all[0]!, hi: ends[0]! }, // two ends, four points
    { lo: ends[1]!, hi: all[3]! },
  ];
  if (keepsBetween(it, axis) || halvings === mostHalvings) return surely;
  const [first, second] = split(it, half).map((part) => reachOfCurve(part, axis, halvings + 1));
  return [smallestOf(first![0], second![0]), largestOf(first![1], second![1])];
}
