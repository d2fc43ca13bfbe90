import { compare, millimetres } from '../measure/index.ts';
import type { Length, Outline } from '../model/index.ts';
import { standingOf } from './contains.ts';
import { ordinatesAt } from './heights.ts';
import { laid } from './makers/turned.ts';
import { middleOf, snapped } from './root.ts';
import { point } from './vector.ts';

/** From one place of a line to another. */
export interface Range {
  readonly from: Length;
  readonly to: Length;
}

/**
 * What of a level or upright line lies within an outline, from its low end. A stretch on an edge does: what
 * goes up to the line takes nothing of it.
 *
 * @param axis  the way the line runs
 * @param at    where it lies the other way
 */
export function insideAlong(
  outline: Outline,
  axis: 'x' | 'y',
  at: Length,
  { from, to }: Range,
): readonly Range[] {
  if (axis === 'x') {
    const swap = { move: ({ x, y }: ReturnType<typeof point>) => ({ x: y, y: x }), swapsHands: true };
    return insideAlong(laid(outline, swap), 'y', at, { from, to });
  }
  const crossed = ordinatesAt([outline.rim, ...outline.holes], at).map((it) =>
    millimetres(snapped(middleOf(it))),
  );
  const between = crossed.filter((it) => compare(it, from) > 0 && compare(it, to) < 0);
  const stops = [from, ...between, to]
    .sort(compare)
    .filter((it, i, all) => i === 0 || compare(it, all[i - 1]!) > 0);
  const found: Range[] = [];
  for (const [i, high] of stops.entries()) {
    const low = stops[i - 1];
    if (low === undefined) continue;
    const half = millimetres(snapped(middleOf({ lo: low, hi: high })));
    if (standingOf(outline, point(at, half)) === 'outside') continue;
    const last = found.at(-1);
    if (last !== undefined && compare(last.to, low) === 0)
      found[found.length - 1] = { from: last.from, to: high };
    else found.push({ from: low, to: high });
  }
  return found;
}
