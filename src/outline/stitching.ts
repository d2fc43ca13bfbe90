import { compareRationals, multiply, negate, toFraction } from '../measure/index.ts';
import type { DrawnMark, Length, Loop, NonEmpty, Outline, Point, Segment } from '../model/index.ts';
import { areaWithin } from './area.ts';
import { standingInLoops } from './contains.ts';
import { touch } from './crossing.ts';
import { arrivingOf, joinedUp, leavingOf } from './loop.ts';
import { midpointOf } from './midpoint.ts';
import { perimeterOfLoop } from './perimeter.ts';
import { cross, dot, signOf, type Vector } from './vector.ts';

/**
 * Puts segments together into closed loops. Where several go on from one point, the sharpest turn to the left
 * is taken, so that shapes that touch in a point stay shapes of their own.
 */
export function stitched(segments: readonly Segment[]): readonly Loop[] {
  const leaving = new Map<string, Segment[]>();
  for (const it of segments) {
    const key = keyOf(it.from);
    leaving.set(key, [...(leaving.get(key) ?? []), it]);
  }
  const loops: Loop[] = [];
  for (const start of segments) {
    const loop = loopFrom(start, leaving);
    if (loop !== undefined) loops.push(joinedUp(loop));
  }
  return loops;
}

function loopFrom(start: Segment, leaving: Map<string, Segment[]>): Loop | undefined {
  if (!take(start, leaving)) return undefined;
  const loop = [start];
  const end = keyOf(start.from);
  for (let last = start; keyOf(last.to) !== end; ) {
    const next = sharpestLeft(last, leaving.get(keyOf(last.to)) ?? []);
    if (next === undefined) return undefined;
    take(next, leaving);
    loop.push(next);
    last = next;
  }
  return loop;
}

function take(it: Segment, leaving: Map<string, Segment[]>): boolean {
  const there = leaving.get(keyOf(it.from)) ?? [];
  leaving.set(
    keyOf(it.from),
    there.filter((other) => other !== it),
  );
  return there.includes(it);
}

function keyOf({ x, y }: Point): string {
  return `${toFraction(x)} ${toFraction(y)}`;
}

function sharpestLeft(last: Segment, on: readonly Segment[]): Segment | undefined {
  if (on.length < 2) return on[0];
  const came = arrivingOf(last);
  return on.reduce((best, it) => (turnsFurther(came, leavingOf(it), leavingOf(best)) ? it : best));
}

/** True where `one` turns further to the left of `came` than `other` does. */
function turnsFurther(came: Vector, one: Vector, other: Vector): boolean {
  const [quarter, otherQuarter] = [quarterOf(came, one), quarterOf(came, other)];
  if (quarter !== otherQuarter) return quarter > otherQuarter;
  return signOf(cross(other, one)) > 0;
}

/** Quarters of a turn, from straight back on the right (0) over straight on to the left (3). */
function quarterOf(came: Vector, goes: Vector): number {
  const [left, on] = [signOf(cross(came, goes)), signOf(dot(came, goes))];
  if (left < 0) return on < 0 ? 0 : 1;
  return on >= 0 ? 2 : 3;
}

/** Loops against the clock are rims, loops with it the holes of the rim they lie in. */
export function outlinesOf(
  loops: readonly Loop[],
  within: Length,
  marks: readonly DrawnMark[],
): readonly Outline[] {
  const real = loops.filter((it) => !isSliver(it));
  const rims = real.filter((it) => areaWithin(it).lo.numerator > 0n);
  const holes = real.filter((it) => areaWithin(it).hi.numerator < 0n);
  return rims.map((rim) => ({
    rim,
    holes: holes.filter(
      (it) => standingInLoops([rim], midpointOf((it as NonEmpty<Segment>)[0])) === 'inside',
    ),
    marks,
    within,
  }));
}

/** No wider than what is rounded: edges that should lie on each other, and do so but for a hair. */
function isSliver(loop: Loop): boolean {
  const area = areaWithin(loop);
  const least = multiply(touch, perimeterOfLoop(loop).hi);
  return compareRationals(area.hi, least) < 0 && compareRationals(area.lo, negate(least)) > 0;
}
