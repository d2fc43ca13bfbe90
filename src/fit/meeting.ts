import { compare, minus, rational, scaled, toFraction } from '../measure/index.ts';
import {
  type Build,
  endOfSide,
  type Fault,
  type Length,
  type LevelSide,
  levelSides,
  type StandingFitting,
  seenFromOutside,
} from '../model/index.ts';
import { isWithin } from './levels.ts';
import { meets, type Profile, profilesOf } from './mating.ts';

type Unmet = Extract<Fault, { kind: 'does not meet' }>;

/** A side of one grid square with what is let into it, as it is seen from outside. */
interface Window {
  readonly build: Build;
  readonly side: LevelSide;
  readonly wide: Length;
  readonly profile: Profile;
  readonly held: readonly Held[];
}

interface Held {
  readonly hole: StandingFitting;
  /** From the left end. */
  readonly where: Length;
  /** From the table. */
  readonly high: Length;
}

/**
 * Whether what is let into the sides of tiles meets its like in every turn that they may have: any two sides that
 * present the same heights may lie against each other, a side against itself among them.
 *
 *      ┌──────┐ ┌──────┐   seen from outside, what is left on the one is right on the other
 *      │    N)│ │(S    │
 *      │    S)│ │(N    │
 *      └──────┘ └──────┘
 *
 * Sides without fittings ask for nothing.
 *
 * @returns  faults by the name of the tile; of sides that are alike the first is told
 */
export function unmetBy(builds: readonly Build[]): ReadonlyMap<string, readonly Unmet[]> {
  const windows = alikeOnce(builds.flatMap(windowsOf));
  const faults = new Map<string, Unmet[]>();
  for (const [index, one] of windows.entries()) {
    for (const other of windows.slice(index)) {
      const unmet = mayMeet(one, other) ? (unmetIn(one, other) ?? unmetIn(other, one)) : undefined;
      if (unmet === undefined) continue;
      const { tile } = unmet.of.build;
      const known = faults.get(tile);
      if (known === undefined) faults.set(tile, [unmet.fault]);
      else known.push(unmet.fault);
    }
  }
  return faults;
}

function windowsOf(build: Build): readonly Window[] {
  const { fittings = [], footprint, squares } = build;
  const profiles = profilesOf(build);
  return levelSides.flatMap((side): readonly Window[] => {
    const along = side === 'front' || side === 'back' ? 'across' : 'along';
    const held = fittings
      .filter((it) => it.side === side && isAtTheSide(it, build))
      .map((it) => heldAt(it, build, along));
    if (held.length === 0) return [];
    const count = squares[along];
    const wide = scaled(footprint[along], rational(1n, BigInt(count)));
    return Array.from({ length: count }, (_, i): Window => {
      const [from, to] = [i, i + 1].map((it) => scaled(wide, rational(BigInt(it)))) as [Length, Length]; // two of two
      const own = held.filter(({ where }) => compare(where, from) >= 0 && compare(where, to) < 0);
      return {
        build,
        side,
        wide,
        profile: profileFrom(profiles[side], side, i),
        held: own.map((it) => ({ ...it, where: minus(it.where, from) })),
      };
    }).filter(({ held: some }) => some.length > 0);
  });
}

/** No further in than it is deep: what lies further in belongs to the inside of its tile. */
function isAtTheSide({ side, middle, deep }: StandingFitting, { footprint }: Build): boolean {
  const { way, end } = endOfSide[side];
  if (way === 'up') return false;
  const inward = end === 'low' ? middle[way] : minus(footprint[way], middle[way]);
  return compare(inward, deep) <= 0;
}

function heldAt(hole: StandingFitting, { footprint }: Build, along: 'across' | 'along'): Held {
  const at = hole.middle[along];
  const isFromLow = seenFromOutside[hole.side].from === 'low';
  return { hole, where: isFromLow ? at : minus(footprint[along], at), high: hole.middle.up };
}

/** The heights of one square of a side, from its left as it is seen from outside. */
function profileFrom(profile: Profile, side: LevelSide, index: number): Profile {
  if (profile.kind !== 'floor') return profile;
  const isFromLow = seenFromOutside[side].from === 'low';
  const levels = isFromLow ? profile.levels : [...profile.levels].reverse();
  return { kind: 'floor', levels: levels.slice(index, index + 2) };
}

function alikeOnce(windows: readonly Window[]): readonly Window[] {
  const first = new Map<string, Window>();
  for (const it of windows) {
    const heights =
      it.profile.kind === 'floor'
        ? it.profile.levels.map(toFraction)
        : it.profile.kind === 'foot'
          ? [toFraction(it.profile.level)]
          : [];
    const held = it.held
      .map(({ hole, where, high }) =>
        [hole.fitting, hole.pole ?? '', toFraction(where), toFraction(high)].join(' '),
      )
      .sort();
    const key = [it.profile.kind, ...heights, toFraction(it.wide), ...held].join('\n');
    if (!first.has(key)) first.set(key, it);
  }
  return [...first.values()];
}

function mayMeet(one: Window, other: Window): boolean {
  if (one.profile.kind === 'unchecked' || other.profile.kind === 'unchecked') return false;
  const facing: Profile =
    other.profile.kind === 'floor'
      ? { kind: 'floor', levels: [...other.profile.levels].reverse() }
      : other.profile;
  return compare(one.wide, other.wide) === 0 && meets(one.profile, facing, one.build.lip);
}

/** The first of one side's fittings that has nothing to meet, or is pushed away. */
function unmetIn(one: Window, other: Window): { readonly of: Window; readonly fault: Unmet } | undefined {
  for (const { hole, where, high } of one.held) {
    const facing = minus(one.wide, where);
    const met = other.held.find(
      (it) =>
        it.hole.fitting === hole.fitting &&
        isWithin(it.where, facing, one.build.lip) &&
        isWithin(it.high, high, one.build.lip),
    );
    const isPushedAway = met !== undefined && met.hole.pole !== undefined && met.hole.pole === hole.pole;
    if (met !== undefined && !isPushedAway) continue;
    const fault: Unmet = {
      kind: 'does not meet',
      hole,
      side: one.side,
      where,
      high,
      other: other.build.tile,
      otherSide: other.side,
      otherAt: (met ?? other.held[0])?.hole.at ?? other.build.at,
      isPushedAway,
    };
    return { of: one, fault };
  }
  return undefined;
}
