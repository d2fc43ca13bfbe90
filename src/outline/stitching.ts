import { compareRationals, divide, multiply, negate, rational, toFraction } from '../measure/index.ts';
import type { DrawnMark, Length, Loop, NonEmpty, Outline, Point, Rational, Segment } from '../model/index.ts';
import { radiusSquare } from './arc.ts';
import { areaWithin } from './area.ts';
import { standingInLoops } from './contains.ts';
import { touch } from './crossing.ts';
import { arrivingOf, joinedUp, leavingOf, reversedSegment } from './loop.ts';
import { midpointOf } from './midpoint.ts';
import { perimeterOfLoop } from './perimeter.ts';
import { cross, dot, less, signOf, square } from './vector.ts';

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
  return on.reduce((best, it) => (turnsFurther(last, it, best) ? it : best));
}

/** True where `one` turns further to the left of what comes in than `other` does; in one direction, by its bend. */
function turnsFurther(last: Segment, one: Segment, other: Segment): boolean {
  const [quarter, otherQuarter] = [quarterOf(last, one), quarterOf(last, other)];
  if (quarter !== otherQuarter) return quarter > otherQuarter;
  const side = signOf(cross(leavingOf(other), leavingOf(one)));
  return side === 0 ? bendsFurther(one, other) : side > 0;
}

/**
 * Quarters of a turn, from straight back on the right (0) over straight on to the left (3). What goes straight back
 * goes back on the side to which it bends away from what comes in:
 *
 *        │╲
 *        │ ╲   on its right, since it bends to its own left
 *   came ▲  ▼
 */
function quarterOf(last: Segment, it: Segment): number {
  const [came, goes] = [arrivingOf(last), leavingOf(it)];
  const [left, on] = [signOf(cross(came, goes)), signOf(dot(came, goes))];
  if (left < 0) return on < 0 ? 0 : 1;
  if (left === 0 && on < 0) return bendsFurther(it, reversedSegment(last)) ? 0 : 3;
  return on >= 0 ? 2 : 3;
}

/** True where one that sets out in the direction of another bends further to the left. */
function bendsFurther(one: Segment, other: Segment): boolean {
  return compareRationals(bendOf(one), bendOf(other)) > 0;
}

/** How sharply a segment sets out to bend, squared, and below 0 to the right. */
function bendOf(it: Segment): Rational {
  switch (it.kind) {
    case 'line':
      return rational(0n);
    case 'arc': {
      const bend = divide(rational(1n), radiusSquare(it));
      return it.turn === 'left' ? bend : negate(bend);
    }
    case 'curve': {
      // κ = 2/3 · (a × b) / |a|³ with the first two sides of its control points.
      const [a, b] = [less(it.leaving, it.from), less(it.arriving, it.leaving)];
      const length = square(a);
      if (length.numerator === 0n) return rational(0n);
      const side = cross(a, b);
      const over = multiply(multiply(length, length), length);
      const bend = divide(multiply(multiply(side, side), rational(4n, 9n)), over);
      return signOf(side) < 0 ? negate(bend) : bend;
    }
  }
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
