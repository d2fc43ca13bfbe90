import {
  add,
  compare,
  compareRationals,
  divide,
  multiply,
  rational,
  subtract,
  sum,
} from '../measure/index.ts';
import type { Arc, Curve, Enclosure, Length, Outline, Rational, Segment } from '../model/index.ts';
import { isOnItsSide, radiusSquare, sweepsOver } from './arc.ts';
import { boxOf, boxOfLoop, heldBy } from './box.ts';
import { evenHeightOf, keepsBetween, split } from './curve.ts';
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

/** A stretch of the base, ends included. */
export interface Stretch {
  readonly from: Length;
  readonly to: Length;
}

/** Where the rim is curved; elsewhere its corners say all of it. */
export function curvedStretches({ rim }: Outline): readonly Stretch[] {
  return rim.flatMap((it): readonly Stretch[] => {
    if (it.kind === 'line') return [];
    const { left, right } = heldBy(boxOfLoop([it]));
    return [{ from: left, to: right }];
  });
}

/**
 * A table of offsets: ordinates at a pitch along the base, from the left, and at the right end.
 *
 * @param pitch above 0
 * @param over  the stretches that are asked for; all of the base where none are named
 */
export function ordinatesOf(outline: Outline, pitch: Length, over?: readonly Stretch[]): readonly Heights[] {
  const { left, right } = boxOf(outline);
  const isAsked = (along: Length): boolean =>
    over === undefined || over.some(({ from, to }) => compare(from, along) <= 0 && compare(along, to) <= 0);
  const found: Heights[] = [];
  const last = right.lo;
  for (let along = left.hi; compare(along, last) < 0; along = sum(along, pitch)) {
    if (isAsked(along)) found.push(...some(heightsAt(outline, along)));
  }
  return isAsked(last) ? [...found, ...some(heightsAt(outline, last))] : found;
}

function some<T>(it: T | undefined): readonly T[] {
  return it === undefined ? [] : [it];
}

/** Where loops cross an upright line, in any order, places where they touch it among them. */
export function ordinatesAt(loops: readonly Outline['rim'][], along: Length): readonly Enclosure[] {
  return loops.flat().flatMap((it) => heightsOf(it, along));
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
  const sides = [arc.from, arc.to].map(({ x }) => compareRationals(x, along));
  const isBeside = sides.every((it) => it < 0) ? 1n : sides.every((it) => it > 0) ? -1n : 0n;
  if (isBeside !== 0n && !sweepsOver(arc, { x: rational(isBeside), y: rational(0n) })) return [];
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
  const end = [it.from, it.to].find(({ x }) => compareRationals(x, along) === 0);
  // No other point of a curve that keeps between its ends lies over one of them.
  if (end !== undefined && keepsBetween(it, 'x') && compareRationals(it.from.x, it.to.x) !== 0)
    return [exactly(end.y)];
  const even = evenHeightOf(it);
  if (even !== undefined) {
    const run = subtract(it.to.x, it.from.x);
    return run.numerator === 0n
      ? [exactly(it.from.y), exactly(it.to.y)]
      : [exactly(even(divide(subtract(along, it.from.x), run)))];
  }
  if (halvings === mostHalvings) {
    const ys = [it.from, it.leaving, it.arriving, it.to].map(({ y }) => exactly(y));
    return [{ lo: ys.reduce(smallestOf).lo, hi: ys.reduce(largestOf).hi }];
  }
  return split(it, half).flatMap((part) => onCurve(part, along, halvings + 1));
}
