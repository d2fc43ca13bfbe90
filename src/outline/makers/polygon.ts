import type { Drawn, Point } from '../../model/index.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { loopThrough } from '../loop.ts';
import { coincident, loopFaults } from '../wellFormed.ts';
import { outlineOf } from './outlineOf.ts';

/** `{ polygon: [[0, 0], [3, 0], [3, 1]] }`: at least three points, in either turn, not crossing itself. */
export function polygon(points: readonly Point[]): Drawn {
  if (points.length < 3) {
    return undrawn(fault('T04', ['polygon'], () => ({ found: points.length, least: 3 })));
  }
  const twice = coincident(points, (i) => ['polygon', i]);
  if (twice.length > 0) return undrawn(...twice);
  const rim = loopThrough(points);
  const faults = loopFaults(rim, ['polygon']);
  return faults.length > 0 ? undrawn(...faults) : drawn(outlineOf(rim));
}
