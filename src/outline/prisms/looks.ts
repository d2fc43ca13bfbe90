import { absolute, compareRationals } from '../../measure/index.ts';
import type { Segment, Way } from '../../model/index.ts';
import { less, signOf } from '../vector.ts';
import type { Plane } from './prism.ts';

/** Where an edge looks, by its chord: one that slopes counts where it looks most, one halfway between up or along. */
export function looksTo(
  { from, to }: Pick<Segment, 'from' | 'to'>,
  plane: Plane,
): { readonly way: Way; readonly end: 'low' | 'high' } {
  // The material lies to the left, so the edge looks to the right of travel: (y, −x).
  const { x, y } = less(to, from);
  const isToTheRight = compareRationals(absolute(y), absolute(x)) > 0;
  return isToTheRight
    ? { way: plane.right, end: signOf(y) > 0 ? 'high' : 'low' }
    : { way: plane.up, end: signOf(x) > 0 ? 'low' : 'high' };
}

/** Of an edge that slants: the other way in which it looks, too. */
export function slantOf(
  edge: Pick<Segment, 'from' | 'to'>,
  plane: Plane,
): ReturnType<typeof looksTo> | undefined {
  const { x, y } = less(edge.to, edge.from);
  if (signOf(x) === 0 || signOf(y) === 0) return undefined;
  return looksTo(edge, plane).way === plane.up
    ? { way: plane.right, end: signOf(y) > 0 ? 'high' : 'low' }
    : { way: plane.up, end: signOf(x) > 0 ? 'low' : 'high' };
}
