import {
  add,
  compare,
  compareRationals,
  isNegative,
  isPositive,
  larger,
  minus,
  multiply,
  rational,
  scaled,
  smaller,
  sum,
  zero,
} from '../measure/index.ts';
import {
  type Build,
  endOfSide,
  type Fault,
  type Length,
  type StandingFitting,
  type StandingPart,
  type Way,
  ways,
} from '../model/index.ts';
import { blockOfHole, isShaped, roomAround, standsSquare, stretchIn, wallLeft } from '../outline/index.ts';

type Thin = Extract<Fault, { kind: 'thin wall' }>;

/** What is wrong with the holes for fittings, and the least that any of them leaves. */
export interface Holes {
  readonly faults: readonly Fault[];
  readonly thinnestWall: Length | undefined;
}

/**
 * Looks at each hole for a fitting: parts have to be all round it as deep as it goes, each with enough left beside it
 * and behind it, and no other hole may come too near.
 */
export function holesIn(build: Build): Holes {
  const { fittings = [], parts, glueLine } = build;
  if (fittings.length === 0) return { faults: [], thinnestWall: undefined };
  const walls = fittings.flatMap((hole) => wallsOf(hole, parts));
  const faults = [
    ...walls.filter(({ hole, wall }) => compare(wall, hole.leastWall) < 0),
    ...fittings.flatMap((hole) => inTheAir(hole, parts, glueLine)),
    ...meetingHoles(fittings),
  ];
  return { faults, thinnestWall: walls.map(({ wall }) => wall).reduce<Length | undefined>(least, undefined) };
}

function least(a: Length | undefined, b: Length): Length {
  return a === undefined ? b : smaller(a, b);
}

function wallsOf(hole: StandingFitting, parts: readonly StandingPart[]): readonly Thin[] {
  return parts.flatMap((part): readonly Thin[] => {
    if (stretchIn(hole, part.block) === undefined || !holds(part, hole)) return [];
    const inBlock = wallLeft(hole, part.block);
    const wall = isShaped(part) ? smaller(inBlock, roomAround(hole, part)) : inBlock;
    return [{ kind: 'thin wall', hole, part, wall }];
  });
}

/** True where the middle of a hole goes through a part; what it only brushes past is another part's wall. */
function holds({ block }: StandingPart, { side, middle }: StandingFitting): boolean {
  return ways.every(
    (way) =>
      way === endOfSide[side].way ||
      (compare(block.low[way], middle[way]) < 0 && compare(middle[way], block.high[way]) < 0),
  );
}

/** Stretches of a hole, longer than a glue line, that no part is round. */
function inTheAir(
  hole: StandingFitting,
  parts: readonly StandingPart[],
  glueLine: Length,
): readonly Extract<Fault, { kind: 'hole in the air' }>[] {
  const { way, end } = endOfSide[hole.side];
  const own = blockOfHole(hole);
  const depth = (at: Length) => (end === 'low' ? minus(at, own.low[way]) : minus(own.high[way], at));
  const stretches = parts
    .flatMap((part) => {
      const it = holds(part, hole) && standsSquare(part) ? stretchIn(hole, part.block) : undefined;
      if (it === undefined) return [];
      const [a, b] = [depth(it.low), depth(it.high)];
      return [{ from: smaller(a, b), to: larger(a, b) }];
    })
    .sort((a, b) => compare(a.from, b.from));
  let reached = zero;
  for (const { from, to } of [...stretches, { from: hole.deep, to: hole.deep }]) {
    if (compare(minus(from, reached), glueLine) > 0) {
      return [{ kind: 'hole in the air', hole, from: reached, to: from }];
    }
    reached = larger(reached, to);
  }
  return [];
}

function meetingHoles(
  fittings: readonly StandingFitting[],
): readonly Extract<Fault, { kind: 'holes meet' }>[] {
  return fittings.flatMap((hole, index) =>
    fittings
      .slice(index + 1)
      .flatMap((other) => (areTooNear(hole, other) ? [{ kind: 'holes meet', hole, other } as const] : [])),
  );
}

/**
 * True where two holes leave less than the least wall between them. Round ones side by side go by the distance of
 * their middles, those across each other by the boxes round them, which is on the safe side.
 */
function areTooNear(a: StandingFitting, b: StandingFitting): boolean {
  const wall = larger(a.leastWall, b.leastWall);
  const [one, other] = [blockOfHole(a), blockOfHole(b)];
  const apart = (way: Way): Length =>
    larger(minus(one.low[way], other.high[way]), minus(other.low[way], one.high[way]));
  if (ways.some((way) => !isNegative(apart(way)) && compare(apart(way), wall) >= 0)) return false;
  const own = endOfSide[a.side].way;
  if (own !== endOfSide[b.side].way) return true;
  const off = ways.filter((way) => way !== own).map((way) => minus(a.middle[way], b.middle[way]));
  const squared = off.map((it) => multiply(it, it)).reduce(add);
  const clear = sum(scaled(sum(a.diameter, b.diameter), rational(1n, 2n)), wall);
  return isPositive(clear) && compareRationals(squared, multiply(clear, clear)) < 0;
}
