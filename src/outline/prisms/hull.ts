import { compareRationals } from '../../measure/index.ts';
import type { Point } from '../../model/index.ts';
import { isSame, sideOf } from '../vector.ts';

/**
 * The points round a set of points, against the clock, none of them on the straight line between two others.
 *
 * @source the monotone chain of Andrew (1979), from memory
 */
export function hullOf(points: readonly Point[]): readonly Point[] {
  const sorted = [...points]
    .sort((a, b) => compareRationals(a.x, b.x) || compareRationals(a.y, b.y))
    .filter((it, i, all) => i === 0 || !isSame(it, all[i - 1]!)); // one before
  if (sorted.length < 3) return sorted;
  return [...chain(sorted), ...chain([...sorted].reverse())];
}

/** The lower half from the first to the last, which begins the other half. */
function chain(sorted: readonly Point[]): readonly Point[] {
  const found: Point[] = [];
  for (const at of sorted) {
    while (found.length > 1 && sideOf(found.at(-2)!, found.at(-1)!, at) <= 0) found.pop(); // two and more
    found.push(at);
  }
  return found.slice(0, -1);
}
