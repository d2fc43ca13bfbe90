import { minus, sum, zero } from '../../measure/index.ts';
import {
  endOfSide,
  type Length,
  type Profile,
  type Stance,
  type TileSide,
  type Way,
  ways,
} from '../../model/index.ts';
import { laid } from '../../outline/index.ts';
import type { FoldedBody } from '../folds.ts';
import type { PartMember } from './rows.ts';

/** A folded part in its block: what it fills, and how far that reaches beyond its place in its row. */
export interface FoldedInPlace {
  readonly profile: Profile;
  readonly below: Length;
  readonly above: Length;
}

/**
 * Seen along its folds, with the part's length from the low end of its way, and the good side where it looks.
 *
 *       ┌────────────────┐ ┬ good side         its row counts this, where it laps
 *       │ ┌────────────┐ │ ┴
 *       │ │            │ │   below
 *       └─┘            └─┘
 */
export function foldedInPlace(
  { outline, length, height, laps, tray }: FoldedBody,
  flip: PartMember['flip'],
  stance: Stance,
  facing: TileSide,
): FoldedInPlace {
  const isBack = flip === 'length' || flip === 'both';
  const isDown = endOfSide[facing].end === 'low';
  const [along, seen] = tray === undefined ? [stance.width, stance.length] : [stance.length, stance.width];
  const isSwapped = order(stance.thickness) < order(seen);
  const inBlock = laid(outline, {
    move: ({ x, y }) => {
      const [there, up] = [isBack ? minus(tray?.width ?? length, x) : x, isDown ? minus(height, y) : y];
      return isSwapped ? { x: up, y: there } : { x: there, y: up };
    },
    swapsHands: [isBack, isDown, isSwapped].filter((it) => it).length % 2 === 1,
  });
  const profile: Profile = { along, outline: inBlock };
  if (laps === undefined) return { profile, below: zero, above: zero };
  const over = minus(height, sum(laps.from, laps.thickness));
  return isDown ? { profile, below: over, above: laps.from } : { profile, below: laps.from, above: over };
}

function order(way: Way): number {
  return ways.indexOf(way);
}
