import { add, compare, compareRationals, divide, multiply, subtract, sum } from '../measure/index.ts';
import type { Arc, Curve, Enclosure, Length, Outline, Rational, Segment } from '../model/index.ts';
import { isOnItsSide, radiusSquare } from './arc.ts';
import { boxOf } from './box.ts';
import { curvePoint, isEvenAlong, split } from './curve.ts';
import { exactly, largestOf, smallestOf } from './enclosure.ts';
import { asLengths, rootOf, widened } from './root.ts';
import { half, point } from './vector.ts';

/** How high the rim is over (and how low it is at) a place along the base; both exact where they are rational. */
export interface Heights {
  readonly along: Length;
  readonly top: Enclosure<Length>;
  readonly bottom: Enclosure<Length>;
}

/** undefined beside the outline. */
export function heightsAt({ rim }: Outline, along: Length): Heights | undefined {
  const all = rim.flatMap((it) => heightsOf(it, along));
  const [first, ...others] = all;
  if (first === undefined) return undefined;
  return {
    along,
    top: asLengths(widened(others.reduce(largestOf, first))),
    bottom: asLengths(widened(others.reduce(smallestOf, first))),
  };
}

/**
 * A table of offsets: ordinates at a pitch along the base, from the left, and at the right end.
 *
 * @param pitch above 0
 */
export function ordinatesOf(outline: Outline, pitch: Length): readonly Heights[] {
  const { left, right } = boxOf(outline);
  const found: Heights[] = [];
  const last = right.lo;
  for (let along = left.hi; compare(along, last) < 0; along = sum(along, pitch)) {
    found.push(...some(heightsAt(outline, along)));
  }
  return [...found, ...some(heightsAt(outline, last))];
}

function some<T>(it: T | undefined): readonly T[] {
  return it === undefined ? [] : [it];
}

function heightsOf(it: Segment, along: Length): readonly Enclosure[] {
  switch (it.kind) {
    case 'line':
      return isBetween(it.from.x, along, it.to.x) ? onLine(it.from, it.to, along) : [];
    case 'arc':
      return onArc(it, along);
    case 'curve':
      return onCurve(it, along, 0);
  }
}

function isBetween(a: Rational, at: Rational, b: Rational): boolean {
  return compareRationals(a, at) * compareRationals(at, b) >= 0;
}

function onLine(from: Segment['from'], to: Segment['to'], along: Length): readonly Enclosure[] {
  const run = subtract(to.x, from.x);
  if (run.numerator === 0n) return [exactly(from.y), exactly(to.y)];
  const share = divide(subtract(along, from.x), run);
  return [exactly(add(from.y, multiply(share, subtract(to.y, from.y))))];
}

//  y = C.y ± √(r² − (x − C.x)²), as far as the arc reaches.
function onArc(arc: Arc, along: Length): readonly Enclosure[] {
  const ends = [arc.from, arc.to]
    .filter(({ x }) => compareRationals(x, along) === 0)
    .map(({ y }) => exactly(y));
  const off = subtract(along, arc.centre.x);
  const squared = subtract(radiusSquare(arc), multiply(off, off));
  if (squared.numerator < 0n) return ends;
  const { lo, hi } = rootOf(squared);
  const up = { lo: add(arc.centre.y, lo), hi: add(arc.centre.y, hi) };
  const down = { lo: subtract(arc.centre.y, hi), hi: subtract(arc.centre.y, lo) };
  return [...ends, ...[up, down].filter((it) => isOnItsSide(arc, point(along, it.lo)))];
}

const mostHalvings = 30;

function onCurve(it: Curve, along: Length, halvings: number): readonly Enclosure[] {
  const xs = [it.from, it.leaving, it.arriving, it.to].map(({ x }) => compareRationals(x, along));
  if (xs.every((side) => side < 0) || xs.every((side) => side > 0)) return [];
  if (isEvenAlong(it)) {
    const run = subtract(it.to.x, it.from.x);
    return run.numerator === 0n
      ? [exactly(it.from.y), exactly(it.to.y)]
      : [exactly(curvePoint(it, divide(subtract(along, it.from.x), run)).y)];
  }
  if (halvings === mostHalvings) {
    const ys = [it.from, it.leaving, it.arriving, it.to].map(({ y }) => exactly(y));
    return [{ lo: ys.reduce(smallestOf).lo, hi: ys.reduce(largestOf).hi }];
  }
  return split(it, half).flatMap((part) => onCurve(part, along, halvings + 1));
}
