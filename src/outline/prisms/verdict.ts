import { millimetres, minus, rational, scaled, sum } from '../../measure/index.ts';
import type { Block, Length, Outline, Rational, Way } from '../../model/index.ts';
import { standingOf } from '../contains.ts';
import { type Lean, mostOff } from '../flatten.ts';
import type { Answer } from '../sharing.ts';
import type { Plane } from './prism.ts';

/** A first, rough look: it tells nearly everything. */
export const rough: Length = millimetres(rational(1n));

/**
 * What is so with edges that surely lie within the curves is so; what is not so even with edges around them is
 * not. Between the two lies 0.01 mm of a curve.
 *
 * @param isExact  true where no curve takes part
 */
export function answered(isExact: boolean, has: (lean: Lean, off: Length) => boolean): Answer {
  if (isExact) return has('inward', mostOff) ? 'yes' : 'no';
  if (has('inward', rough)) return 'yes';
  if (!has('outward', rough)) return 'no';
  if (has('inward', mostOff)) return 'yes';
  return has('outward', mostOff) ? 'within' : 'no';
}

/** Where to look first for a point that two shapes share: the middle of what their boxes do, and about it. */
const shares = [
  [1n, 1n],
  [1n, 3n],
  [3n, 1n],
] as const;

/**
 * True where a point is found that lies inside both; undefined stands for all of the box. False tells nothing.
 *
 * @param box  what the boxes of the two share
 */
export function sharesAPoint(
  outlines: readonly (Outline | undefined)[],
  { low, high }: Block,
  plane: Plane,
): boolean {
  const between = (way: Way, share: Rational) => sum(low[way], scaled(minus(high[way], low[way]), share));
  const parts = shares.map(([less, more]) => rational(less, less + more));
  return parts.some((x) =>
    parts.some((y) => {
      const at = { x: between(plane.right, x), y: between(plane.up, y) };
      return outlines.every((it) => it === undefined || standingOf(it, at) === 'inside');
    }),
  );
}
