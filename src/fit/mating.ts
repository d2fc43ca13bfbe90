import type { Build, Edge, Length, LevelSide, Turning } from '../model/index.ts';
import { isWithin } from './levels.ts';

/** What a side presents, without where it was written; heights from its left or front end. */
export type Profile =
  | { readonly kind: 'floor'; readonly levels: readonly Length[] }
  | { readonly kind: 'foot'; readonly level: Length }
  | { readonly kind: 'wall' }
  | { readonly kind: 'unchecked' };

export type Profiles = Readonly<Record<LevelSide, Profile>>;

/**
 * Whether two sides that lie against each other agree: floors at the same heights all along, a foot against
 * a floor at its level, wall against wall. Unchecked meets anything. Heights count, not names.
 *
 * @param lip  how far two floors may be off each other
 */
export function meets(a: Profile, b: Profile, lip: Length): boolean {
  if (a.kind === 'unchecked' || b.kind === 'unchecked') return true;
  if (a.kind === 'foot') return b.kind === 'floor' && b.levels.every((it) => isWithin(it, a.level, lip));
  if (b.kind === 'foot') return meets(b, a, lip);
  if (a.kind === 'wall' || b.kind === 'wall') return a.kind === b.kind;
  return sameHeights(a.levels, b.levels, lip);
}

export function profilesOf(build: Build): Profiles {
  const { front, back, left, right } = build.edges;
  return { front: profileOf(front), back: profileOf(back), left: profileOf(left), right: profileOf(right) };
}

function profileOf(edge: Edge | undefined): Profile {
  if (edge === undefined) return { kind: 'unchecked' };
  if (edge.kind === 'floor') return { kind: 'floor', levels: edge.levels.map(({ value }) => value) };
  return edge.kind === 'foot' ? { kind: 'foot', level: edge.level } : { kind: 'wall' };
}

/**
 * The sides of a tile turned a quarter to the right, seen from above: what was at the left is at the back.
 *
 *        back                      left
 *      ┌──────┐                  ┌──────┐
 *  left│  →   │right       front │  ↓   │ back
 *      └──────┘                  └──────┘
 *        front                    right
 */
export function turnedRight({ front, back, left, right }: Profiles): Profiles {
  // Left and right keep their order as they become back and front; front and back are read from their other
  // end as they become left and right.
  return { back: left, right: turnedRound(back), front: right, left: turnedRound(front) };
}

/** Left swapped for right. */
export function mirrored({ front, back, left, right }: Profiles): Profiles {
  return { front: turnedRound(front), back: turnedRound(back), left: right, right: left };
}

function turnedRound(profile: Profile): Profile {
  return profile.kind === 'floor' ? { ...profile, levels: [...profile.levels].reverse() } : profile;
}

/**
 * The turns and mirror images in which the tile could lie in the same place: each side presents the same as
 * before, within the lip. A tile that isn't as long as it is wide is never turned a quarter.
 */
export function turningsOf(build: Build): readonly Turning[] {
  const asItLies = profilesOf(build);
  const isQuadratic =
    isWithin(build.footprint.across, build.footprint.along, build.slack) &&
    build.squares.across === build.squares.along;
  const found: Turning[] = [];
  for (const isMirrored of [false, true]) {
    let profiles = isMirrored ? mirrored(asItLies) : asItLies;
    for (const turned of ['not', 'right', 'about', 'left'] as const) {
      const isQuarter = turned === 'right' || turned === 'left';
      if ((isQuadratic || !isQuarter) && presentsTheSame(profiles, asItLies, build.lip)) {
        found.push({ turned, mirrored: isMirrored });
      }
      profiles = turnedRight(profiles);
    }
  }
  return found;
}

/** Stricter than `meets`: what is unchecked says nothing, so it can't stand in for what is declared. */
function presentsTheSame(a: Profiles, b: Profiles, lip: Length): boolean {
  return (['front', 'back', 'left', 'right'] as const).every((side) => isAlike(a[side], b[side], lip));
}

function isAlike(a: Profile, b: Profile, lip: Length): boolean {
  if (a.kind === 'floor' && b.kind === 'floor') return sameHeights(a.levels, b.levels, lip);
  if (a.kind === 'foot' && b.kind === 'foot') return isWithin(a.level, b.level, lip);
  return a.kind === b.kind;
}

/** Lists of different length are of sides with different numbers of squares: compared only if both are level. */
function sameHeights(a: readonly Length[], b: readonly Length[], lip: Length): boolean {
  if (a.length === b.length) return a.every((it, index) => isWithin(it, b[index] ?? it, lip));
  return a.every((one) => b.every((other) => isWithin(one, other, lip)));
}
