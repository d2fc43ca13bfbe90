import { compareRationals, multiply, rational, subtract } from '../measure/index.ts';
import type { Curve, Enclosure, Length, Loop, Outline, Rational, Segment } from '../model/index.ts';
import { radiusOf, sweepOf } from './arc.ts';
import { split } from './curve.ts';
import { addUp, productOf } from './enclosure.ts';
import { asLengths, rootOf, widened } from './root.ts';
import { half, less, square, type Vector } from './vector.ts';

/** The length of all its edges, holes included. Exact where every edge has a rational length. */
export function perimeterOf({ rim, holes }: Outline): Enclosure<Length> {
  return asLengths(widened(addUp(...[rim, ...holes].map(perimeterOfLoop))));
}

/** The length of the curved part of its rim: what a strip bent over it needs. */
export function curvedLengthOf({ rim }: Outline): Enclosure<Length> {
  return asLengths(widened(perimeterOfLoop(rim.filter(({ kind }) => kind !== 'line'))));
}

export function perimeterOfLoop(loop: Loop): Enclosure {
  return addUp(...loop.map(lengthOf));
}

export function lengthOf(it: Segment): Enclosure {
  switch (it.kind) {
    case 'line':
      return apart(it.from, it.to);
    case 'arc':
      return productOf(radiusOf(it), sweepOf(it));
    case 'curve':
      return lengthOfCurve(it, near, 0);
  }
}

// Each half may be off by half as much, and gets better by more than that.
const near = rational(1n, 2n ** 9n);
const mostHalvings = 12;

/** No shorter than its chord, no longer than the way round by its control points. Known to 2^-9 mm. */
function lengthOfCurve(it: Curve, off: Rational, halvings: number): Enclosure {
  const lo = apart(it.from, it.to).lo;
  const hi = addUp(apart(it.from, it.leaving), apart(it.leaving, it.arriving), apart(it.arriving, it.to)).hi;
  if (compareRationals(subtract(hi, lo), off) < 0 || halvings === mostHalvings) return widened({ lo, hi });
  const halfOff = multiply(off, half);
  return addUp(...split(it, half).map((part) => lengthOfCurve(part, halfOff, halvings + 1)));
}

function apart(a: Vector, b: Vector): Enclosure {
  return rootOf(square(less(b, a)));
}
