import type { JobRules } from '../job.ts';
import { fewPoints, sumsOf } from './raster.ts';

/**
 * The lines that can be cut within the limits, along one side of a sheet. A piece on this side measures one
 * of the `points`. A line that fills it begins with its smallest kid and goes on with a shorter line; or the
 * piece holds a shorter line, and behind it a strip that can be held:
 *
 *     ├─ near ─┤────── far ──────┤          ├────── line ──────┤─ strip ─┤
 *     └────────── point ─────────┘          └─────────── point ──────────┘
 *
 * A strip can be held that is as wide as the least and, in cells, one kerf. Without a least strip pieces of other sizes than sums of parts are of no use: narrow one until something in
 * it stops that; what becomes free behind it may be of any width, also behind `far`. With a least strip it may
 * not, so a piece may have to stay wider than what is in it, and all sizes count.
 */
export interface LimitedAxis {
  /** Rising, from 0 to the whole side. */
  readonly points: readonly number[];
  /** The ways of point i stand from `from[i]` up to `from[i + 1]` in `near` and `far`. */
  readonly from: Int32Array;
  /** Index of a point; for `far` also that and the number of points more: the best of all points up to it. */
  readonly near: Int32Array;
  readonly far: Int32Array;
  /** Index of the last point behind which a strip can be held; those up to it are as good. −1 for none. */
  readonly held: Int32Array;
}

/** All points of a side, rising. @returns  undefined where there are more than `most` */
export function limitedPoints(
  whole: number,
  sizes: readonly number[],
  rules: JobRules,
  most: number,
): ReadonlySet<number> | undefined {
  if (rules.leastStrip > 0) {
    return whole < most ? new Set(Array.from({ length: whole + 1 }, (_, i) => i)) : undefined;
  }
  const sums = sumsOf(whole, sizes, most);
  return sums === undefined ? undefined : new Set([...sums, whole]);
}

/**
 * Over some of the points only. A line may then end up to a kerf before its point: mostly its kids can do with
 * pieces that are so much wider; whether they can has to be looked at.
 */
export function fewOfLimitedAxis(
  whole: number,
  sizes: readonly number[],
  rules: JobRules,
  most: number,
): LimitedAxis {
  const strip = heldFrom(rules);
  const withStrip = strip > 0 ? [...sizes, strip] : sizes;
  const points = fewPoints(whole, withStrip, most);
  return axisOf(new Set([0, ...sizes.filter((size) => size <= whole), ...points]), rules, rules.kerf);
}

/** The narrowest strip that can be held, in cells; 0 where any can. */
function heldFrom({ kerf, leastStrip }: JobRules): number {
  return leastStrip > 0 ? kerf + leastStrip : 0;
}

/** @param play  how much shorter than its point a line may be */
export function axisOf(sizes: ReadonlySet<number>, rules: JobRules, play = 0): LimitedAxis {
  const strip = heldFrom(rules);
  const points = [...sizes].sort((a, b) => a - b);
  const count = points.length;
  const axis = { from: new Int32Array(count + 1), held: new Int32Array(count) };
  const most = cutsUpTo(points);
  const near = new Int32Array(most);
  const far = new Int32Array(most);
  let found = 0;
  points.forEach((point, i) => {
    axis.from[i] = found;
    axis.held[i] = strip > 0 ? lastUpTo(points, point - strip) : i - 1;
    let behind = i;
    for (let j = 1; 2 * points[j]! <= point && j < i; j++) {
      while (points[behind]! > point - points[j]!) behind--;
      const isExact = points[behind]! >= point - points[j]! - play;
      if (strip > 0 && (!isExact || points[j]! < strip)) continue;
      near[found] = j;
      far[found] = strip > 0 ? behind : count + behind;
      found++;
    }
  });
  axis.from[count] = found;
  return { points, ...axis, near: near.slice(0, found), far: far.slice(0, found) };
}

/** So many pairs there are at most of a point and one up to half of it, other than the first. */
function cutsUpTo(points: readonly number[]): number {
  let [pairs, halves] = [0, 1];
  for (const point of points) {
    while (halves < points.length && 2 * points[halves]! <= point) halves++;
    pairs += halves - 1;
  }
  return pairs;
}

function lastUpTo(points: readonly number[], size: number): number {
  let [low, high] = [0, points.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (points[middle]! <= size) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
