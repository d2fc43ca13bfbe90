import {
  absolute,
  compare,
  larger,
  millimetres,
  minus,
  rational,
  scaled,
  smaller,
  sum,
} from '../measure/index.ts';
import {
  type Build,
  type Edge,
  type Fault,
  type Length,
  type LevelSide,
  levelSides,
  type Way,
} from '../model/index.ts';
import { wayOf } from './atSide.ts';
import { type Top, type Tops, topsAt, topWithin } from './tops.ts';

type OffLevel = Extract<Fault, { kind: 'level is off' }>;
type Step = Extract<Fault, { kind: 'steps' }>;
type LevelFault = OffLevel | Step | Extract<Fault, { kind: 'no floor' | 'hangs on a curve' }>;

/**
 * Compares the floor that a build presents at its sides, at the height its layers really add up to, with the
 * levels that it declares. Where a side goes from one level to another, its floor begins at the one, ends at the
 * other, and neither leaves what lies between them nor jumps.
 *
 * @param toldWays  directions in which a sum doesn't come out: that a floor is short there has been told
 */
export function levelFaults(build: Build, toldWays: readonly Way[]): readonly LevelFault[] {
  return levelSides.flatMap((side): readonly LevelFault[] => {
    const edge = build.edges[side];
    if (edge?.kind !== 'floor') return [];
    const tops = topsAt(build, side, coarse);
    const isTold = toldWays.some((way) => way !== wayOf(side) && way !== 'up');
    if (tops.least.length === 0) return isTold ? [] : [{ kind: 'no floor', at: edge.at, side }];
    const faults = offsAt(build, side, edge, tops);
    const isLevel = faults.length === 0 || tops.most === tops.least;
    return isLevel ? faults : offsAt(build, side, edge, topsAt(build, side));
  });
}

/** What is at its level even with curves so far off is looked at no closer. */
const coarse = millimetres(rational(1n, 10n));

function offsAt(
  build: Build,
  side: LevelSide,
  edge: Extract<Edge, { kind: 'floor' }>,
  { least, most }: Tops,
): readonly LevelFault[] {
  return squaresOf(build, side, edge).flatMap((square) => {
    const [low, high] = [least, most].map((tops) => offsIn(build, side, square, tops));
    return least === most || high === undefined ? (low ?? []) : surely(low ?? [], high, build);
  });
}

interface Square {
  readonly from: Length;
  readonly to: Length;
  /** At its two ends. */
  readonly start: Length;
  readonly end: Length;
  readonly at: Edge['at'];
}

/** The squares along a side. */
function squaresOf(build: Build, side: LevelSide, edge: Extract<Edge, { kind: 'floor' }>): readonly Square[] {
  const way = wayOf(side);
  const squares = edge.levels.length - 1;
  const joint = (number: number): Length =>
    scaled(build.footprint[way], rational(BigInt(number), BigInt(squares)));
  return edge.levels.slice(1).flatMap(({ value: end }, index): readonly Square[] => {
    const start = edge.levels[index];
    if (start === undefined) return [];
    return [{ from: joint(index), to: joint(index + 1), start: start.value, end, at: start.at }];
  });
}

/** What is off within one square: each top once, at the first place where it is. */
function offsIn(
  build: Build,
  side: LevelSide,
  square: Square,
  tops: readonly Top[],
): readonly (OffLevel | Step)[] {
  const here = tops.flatMap((top) => within(top, square));
  return compare(square.start, square.end) === 0
    ? offLevel(build, side, square, here)
    : offSlope(build, side, square, here);
}

/** The part of a top that lies in a square. */
function within(top: Top, square: Square): readonly Top[] {
  const [from, to] = [larger(top.from, square.from), smaller(top.to, square.to)];
  return compare(from, to) >= 0 ? [] : [topWithin(top, from, to)];
}

function offLevel(
  { lip }: Build,
  side: LevelSide,
  square: Square,
  tops: readonly Top[],
): readonly OffLevel[] {
  const faults: OffLevel[] = [];
  const declared = square.start;
  for (const { from, to, start, end, part } of tops) {
    const found =
      compare(absolute(minus(start, declared)), absolute(minus(end, declared))) >= 0 ? start : end;
    if (isWithin(found, declared, lip)) continue;
    const isTold = faults.some(
      (it) => compare(it.found, found) === 0 || (it.part === part && compare(start, end) !== 0),
    );
    if (isTold) continue;
    faults.push({ kind: 'level is off', at: square.at, side, declared, found, part, from, to, lip });
  }
  return faults;
}

/**
 * What is off where a floor goes from one level to another.
 *
 *                 ╭──── end, within a lip
 *        ╭───┐   ╱
 *     ──╯    └──╯       between the two, no step higher than a lip
 *   start
 */
function offSlope(
  build: Build,
  side: LevelSide,
  square: Square,
  tops: readonly Top[],
): readonly (OffLevel | Step)[] {
  const { lip, slack } = build;
  const [low, high] = [smaller(square.start, square.end), larger(square.start, square.end)];
  const off = (declared: Length, found: Length, { from, to, part }: Top, end?: LevelSide): OffLevel => ({
    kind: 'level is off',
    at: square.at,
    side,
    declared,
    found,
    part,
    from,
    to,
    lip,
    ...(end === undefined ? {} : { end }),
  });
  const [first, last] = [tops[0], tops.at(-1)];
  const [near, far] = endsOf(side);
  const faults: (OffLevel | Step)[] = [];
  if (first !== undefined && compare(minus(first.from, square.from), slack) <= 0) {
    if (!isWithin(first.start, square.start, lip)) faults.push(off(square.start, first.start, first, near));
  }
  if (last !== undefined && compare(minus(square.to, last.to), slack) <= 0) {
    if (!isWithin(last.end, square.end, lip)) faults.push(off(square.end, last.end, last, far));
  }
  if (faults.length > 0) return faults;
  const beyond = tops.flatMap((top): readonly OffLevel[] => {
    const [least, most] = [smaller(top.start, top.end), larger(top.start, top.end)];
    if (compare(most, sum(high, lip)) > 0) return [off(high, most, top)];
    return compare(sum(least, lip), low) < 0 ? [off(low, least, top)] : [];
  });
  if (beyond.length > 0) return beyond.slice(0, 1);
  for (const [index, top] of tops.entries()) {
    const before = tops[index - 1];
    if (before === undefined || compare(minus(top.from, before.to), slack) > 0) continue;
    if (isWithin(before.end, top.start, lip)) continue;
    const step = { where: top.from, from: before.end, to: top.start };
    return [{ kind: 'steps', at: square.at, side, part: top.part, ...step, lip }];
  }
  return [];
}

function endsOf(side: LevelSide): readonly [LevelSide, LevelSide] {
  return wayOf(side) === 'across' ? ['left', 'right'] : ['front', 'back'];
}

/**
 * Of the least and the most that curves may reach: surely too high is what the least is, surely too low what the
 * most is. What only one of the two says can't be told.
 */
function surely(
  least: readonly (OffLevel | Step)[],
  most: readonly (OffLevel | Step)[],
  { lip }: Build,
): readonly LevelFault[] {
  const isHigh = (it: OffLevel | Step) =>
    it.kind === 'level is off' && compare(it.found, sum(it.declared, lip)) > 0;
  const isLow = (it: OffLevel | Step) => it.kind === 'level is off' && !isHigh(it);
  const sure = [
    ...least.filter(isHigh),
    ...most.filter(isLow),
    ...(most.some(isStep) ? least.filter(isStep) : []),
  ];
  if (sure.length > 0) return sure;
  const [doubt] = [...least, ...most];
  if (doubt === undefined) return [];
  const { at, part, side } = doubt;
  return [{ kind: 'hangs on a curve', at, what: 'level', part, other: undefined, side }];
}

function isStep({ kind }: OffLevel | Step): boolean {
  return kind === 'steps';
}

export function isWithin(a: Length, b: Length, most: Length): boolean {
  return compare(absolute(minus(a, b)), most) <= 0;
}
