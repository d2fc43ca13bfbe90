import { opposite } from '../../measure/index.ts';
import { endOfSide, type Length, type Outline, type Point, type Profile } from '../../model/index.ts';
import { laid, slopedPanel, withPanels } from '../../outline/index.ts';
import type { PartMember } from './rows.ts';
import type { Body } from './slopes.ts';

/**
 * The profile of what slopes, with what is cut into it; of what is bent as it is.
 *
 * @param drawn  its part's outline, from the low ends of the ways that its length and its width run
 */
export function cutAslant(
  { profile, inclined: { how, size } }: Body,
  drawn: Outline,
  { slope }: PartMember,
  long: Length,
): Profile {
  if (how.kind !== 'slope' || slope === undefined) return profile;
  const { run, rise } = how;
  const goesUp = endOfSide[slope.to].end === 'high';
  const swap = { move: ({ x, y }: Point) => ({ x: y, y: x }), swapsHands: true };
  const outline = size === 'length' ? drawn : laid(drawn, swap);
  return withPanels(profile, outline, () => [
    slopedPanel(profile.outline, { run, rise: goesUp ? rise : opposite(rise) }, long),
  ]);
}
