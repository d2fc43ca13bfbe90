import { divide } from '../measure/index.ts';
import type { Point, Segment } from '../model/index.ts';
import { radiusSquare } from './arc.ts';
import { curvePoint } from './curve.ts';
import { nearRoot, snappedPoint } from './root.ts';
import { half, leftOf, less, middle, opposite, plus, square, stretched } from './vector.ts';

/** A point well between a segment's ends: exact on lines and curves, on an arc to the grid of its points. */
export function midpointOf(it: Segment): Point {
  switch (it.kind) {
    case 'line':
      return middle(it.from, it.to);
    case 'arc': {
      // An arc that turns left lies to the right of its chord, and is halved by the chord's perpendicular.
      const normal = leftOf(less(it.to, it.from));
      const out = it.turn === 'left' ? opposite(normal) : normal;
      const spoke = stretched(out, nearRoot(divide(radiusSquare(it), square(normal))));
      return snappedPoint(plus(it.centre, spoke));
    }
    case 'curve':
      return curvePoint(it, half);
  }
}
