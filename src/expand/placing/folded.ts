import { minus, sum, zero } from '../../measure/index.ts';
import {
  endOfSide,
  type Length,
  type Outline,
  type Profile,
  type Stance,
  type TileSide,
  type Way,
  ways,
} from '../../model/index.ts';
import { laid, type Motion, movedPanel, withPanels } from '../../outline/index.ts';
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
 *
 * @param blank  as it lies there, with what is cut into it; undefined where nobody could draw it
 */
export function foldedInPlace(
  { outline, panels, length, height, laps, tray }: FoldedBody,
  blank: Outline | undefined,
  flip: PartMember['flip'],
  stance: Stance,
  facing: TileSide,
): FoldedInPlace {
  const isBack = flip === 'length' || flip === 'both';
  const isDown = endOfSide[facing].end === 'low';
  const [along, seen] = tray === undefined ? [stance.width, stance.length] : [stance.length, stance.width];
  const isSwapped = order(stance.thickness) < order(seen);
  const motion: Motion = {
    move: ({ x, y }) => {
      const [there, up] = [isBack ? minus(tray?.width ?? length, x) : x, isDown ? minus(height, y) : y];
      return isSwapped ? { x: up, y: there } : { x: there, y: up };
    },
    swapsHands: [isBack, isDown, isSwapped].filter((it) => it).length % 2 === 1,
  };
  const whole: Profile = { along, outline: laid(outline, motion) };
  const isPlain = panels === undefined || blank === undefined;
  const profile = isPlain
    ? whole
    : withPanels(whole, blank, () => panels().map((it) => movedPanel(it, motion)));
  if (laps === undefined) return { profile, below: zero, above: zero };
  const over = minus(height, sum(laps.from, laps.thickness));
  return isDown ? { profile, below: over, above: laps.from } : { profile, below: laps.from, above: over };
}

function order(way: Way): number {
  return ways.indexOf(way);
}
