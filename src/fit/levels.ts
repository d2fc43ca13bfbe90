import {
  compare,
  isNegative,
  larger,
  minus,
  rational,
  scaled,
  smaller,
  sum,
  zero,
} from '../measure/index.ts';
import {
  type Build,
  type Edge,
  type Fault,
  type Length,
  type LevelSide,
  levelSides,
  type StandingPart,
  type Way,
} from '../model/index.ts';
import { boxOf, heightsAt, heldBy } from '../outline/index.ts';

/** A stretch of a side on which one floor part is on top. */
export interface Stretch {
  readonly from: Length;
  readonly to: Length;
  readonly part: StandingPart;
}

type LevelFault = Extract<Fault, { kind: 'level is off' | 'no floor' }>;

/** The way in which a side runs, from its left or front end. */
export function wayOf(side: LevelSide): 'across' | 'along' {
  return side === 'front' || side === 'back' ? 'across' : 'along';
}

/**
 * Compares the floor that a build presents at its sides, at the height its layers really add up to, with the
 * levels that it declares. A side that slopes from one level to another is left to a later day: parts that
 * are boxes have no slope.
 *
 * @param toldWays  directions in which a sum doesn't come out: that a floor is short there has been told
 */
export function levelFaults(build: Build, toldWays: readonly Way[]): readonly LevelFault[] {
  return levelSides.flatMap((side): readonly LevelFault[] => {
    const edge = build.edges[side];
    if (edge?.kind !== 'floor') return [];
    const stretches = topsAt(build, side);
    const isTold = toldWays.some((way) => way !== wayOf(side) && way !== 'up');
    if (stretches.length === 0) return isTold ? [] : [{ kind: 'no floor', at: edge.at, side }];
    return squaresOf(build, side, edge).flatMap((square) => offLevel(build, side, square, stretches));
  });
}

/** Sides on which a floor slopes from one level to another: of these only their flat squares are looked at. */
export function slopingSides({ edges }: Build): readonly LevelSide[] {
  return levelSides.filter((side) => {
    const edge = edges[side];
    if (edge?.kind !== 'floor') return false;
    return edge.levels.some(({ value }) => compare(value, edge.levels[0]?.value ?? value) !== 0);
  });
}

interface Square {
  readonly from: Length;
  readonly to: Length;
  readonly level: Length;
  readonly at: Edge['at'];
}

/** The squares along a side whose two ends are declared level. */
function squaresOf(build: Build, side: LevelSide, edge: Extract<Edge, { kind: 'floor' }>): readonly Square[] {
  const way = wayOf(side);
  const squares = edge.levels.length - 1;
  return edge.levels.slice(1).flatMap((end, index): readonly Square[] => {
    const start = edge.levels[index];
    if (start === undefined || compare(start.value, end.value) !== 0) return [];
    const joint = (number: number): Length =>
      scaled(build.footprint[way], rational(BigInt(number), BigInt(squares)));
    return [{ from: joint(index), to: joint(index + 1), level: start.value, at: start.at }];
  });
}

/** What is off within one square: each top once, at the first place where it is. */
function offLevel(
  build: Build,
  side: LevelSide,
  square: Square,
  stretches: readonly Stretch[],
): readonly LevelFault[] {
  const faults: LevelFault[] = [];
  for (const { from, to, part } of stretches) {
    const [start, end] = [larger(from, square.from), smaller(to, square.to)];
    const found = topAt(part, side);
    if (compare(start, end) >= 0 || isWithin(found, square.level, build.lip)) continue;
    if (faults.some((it) => it.kind === 'level is off' && compare(it.found, found) === 0)) continue;
    faults.push({
      kind: 'level is off',
      at: square.at,
      side,
      declared: square.level,
      found,
      part,
      from: start,
      to: end,
      lip: build.lip,
    });
  }
  return faults;
}

export function isWithin(a: Length, b: Length, most: Length): boolean {
  const apart = minus(a, b);
  return compare(isNegative(apart) ? minus(zero, apart) : apart, most) <= 0;
}

/**
 * The highest floor along a side: at each place the highest top of the floor parts that reach it. The
 * highest part is painted first, and what is painted stays.
 *
 *        ┌─────┐
 *   ┌────┤     ├───┐         tops seen from the side
 *   └────┴─────┴───┘
 *   ├────┼─────┼───┤
 *   from      to
 */
export function topsAt(build: Build, side: LevelSide): readonly Stretch[] {
  const way = wayOf(side);
  const reaching = build.parts.filter((part) => part.isFloor && reachesSide(build, part, side));
  const ends = distinct(reaching.flatMap(({ block }) => [block.low[way], block.high[way]]));
  const cellAt = new Map(ends.map((end, index) => [textOf(end), index]));
  const owner = new Array<StandingPart | undefined>(Math.max(0, ends.length - 1)).fill(undefined);
  const nextFree = Array.from({ length: ends.length + 1 }, (_, index) => index);
  const freeFrom = (cell: number): number => {
    let free = cell;
    while (nextFree[free] !== free) {
      nextFree[free] = nextFree[nextFree[free]!]!;
      free = nextFree[free]!;
    }
    return free;
  };
  for (const part of [...reaching].sort((a, b) => compare(topAt(b, side), topAt(a, side)))) {
    const last = cellAt.get(textOf(part.block.high[way])) ?? 0;
    for (
      let cell = freeFrom(cellAt.get(textOf(part.block.low[way])) ?? 0);
      cell < last;
      cell = freeFrom(cell)
    ) {
      owner[cell] = part;
      nextFree[cell] = cell + 1;
    }
  }
  return owner.flatMap((part, cell) =>
    part === undefined ? [] : [{ from: ends[cell]!, to: ends[cell + 1]!, part }],
  );
}

/**
 * How high a part is where it ends at a side. Of one that stands across the side its outline tells; one that
 * lies along it counts as its box.
 *
 *        ╭────┐
 *    ╭───╯    │ high at the back,
 *    │        │ low at the front
 *    └────────┘
 */
export function topAt({ block, outline, stance }: StandingPart, side: LevelSide): Length {
  const across: Way = wayOf(side) === 'across' ? 'along' : 'across';
  if (outline === undefined || stance.length !== across || stance.width !== 'up') return block.high.up;
  const { left, right, bottom } = heldBy(boxOf(outline));
  const heights = heightsAt(outline, side === 'front' || side === 'left' ? left : right);
  return heights === undefined ? block.high.up : sum(block.low.up, minus(heights.top.hi, bottom));
}

/** A tile may fall short of its footprint by the slack, so a part that comes so near still reaches its side. */
export function reachesSide(build: Build, { block }: StandingPart, side: LevelSide): boolean {
  const way: Way = wayOf(side) === 'across' ? 'along' : 'across';
  return side === 'front' || side === 'left'
    ? compare(block.low[way], build.slack) <= 0
    : compare(sum(block.high[way], build.slack), build.footprint[way]) >= 0;
}

function distinct(lengths: readonly Length[]): readonly Length[] {
  return [...lengths]
    .sort(compare)
    .filter((it, index, all) => index === 0 || compare(it, all[index - 1]!) !== 0);
}

function textOf({ numerator, denominator }: Length): string {
  return `${numerator}/${denominator}`;
}
