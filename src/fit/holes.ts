import {
  add,
  compare,
  compareRationals,
  isNegative,
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
  type HolePair,
  type Length,
  type Span,
  type StandingFitting,
  type StandingPart,
  type Way,
  ways,
} from '../model/index.ts';
import {
  asLengths,
  blockOfHole,
  bodyOf,
  middleThrough,
  roomAround,
  rootOf,
  shapesOf,
  standsSquare,
  stretchIn,
  wallLeft,
} from '../outline/index.ts';

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
    // Of what is not square to it, it is told that no hole goes into that.
    if (!standsSquare(part) || !holds(part, hole)) return [];
    const body = bodyOf(part);
    if (middleThrough(hole, body).length === 0) return [];
    const wall = shapesOf(body).reduce(
      (all, shape) => smaller(all, roomAround(hole, shape)),
      wallLeft(hole, part.block),
    );
    return [{ kind: 'thin wall', hole, part, wall }];
  });
}

/** True where the middle of a hole goes through a part's block; what it only brushes past is another part's wall. */
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
    .filter((part) => standsSquare(part) && holds(part, hole))
    .flatMap((part) => middleThrough(hole, bodyOf(part)))
    .map((it) => {
      const [a, b] = [depth(it.low), depth(it.high)];
      return { from: smaller(a, b), to: larger(a, b) };
    })
    .sort((a, b) => compare(a.from, b.from));
  let reached = zero;
  for (const { from, to } of [...stretches, { from: hole.deep, to: hole.deep }]) {
    if (compare(minus(from, reached), glueLine) > 0) {
      const isThere = (part: StandingPart) => holds(part, hole) && stretchIn(hole, part.block) !== undefined;
      const slanting = parts.find((it) => isThere(it) && !standsSquare(it));
      const square = [...new Set(parts.filter(standsSquare).map(({ part }) => part))];
      return [{ kind: 'hole in the air', hole, from: reached, to: from, slanting, square }];
    }
    reached = larger(reached, to);
  }
  return [];
}

/** Pairs that come too near each other, put together by the place of the text that says the first of them. */
function meetingHoles(
  fittings: readonly StandingFitting[],
): readonly Extract<Fault, { kind: 'holes meet' }>[] {
  const byPlace = new Map<Span, HolePair[]>();
  for (const [index, hole] of fittings.entries()) {
    for (const other of fittings.slice(index + 1)) {
      const pair = tooNear(hole, other);
      if (pair === undefined) continue;
      const known = byPlace.get(hole.at);
      if (known === undefined) byPlace.set(hole.at, [pair]);
      else known.push(pair);
    }
  }
  return [...byPlace].map(([at, pairs]) => ({ kind: 'holes meet', at, pairs }));
}

/**
 * Two holes that leave less than the least wall between them; undefined for others. Round ones side by side go by the
 * distance of their middles, those across each other by the boxes round them, which is on the safe side.
 */
function tooNear(hole: StandingFitting, other: StandingFitting): HolePair | undefined {
  const least = larger(hole.leastWall, other.leastWall);
  const [one, two] = [blockOfHole(hole), blockOfHole(other)];
  const apart = (way: Way): Length =>
    larger(minus(one.low[way], two.high[way]), minus(two.low[way], one.high[way]));
  const most = ways.map(apart).reduce(larger);
  if (!isNegative(most) && compare(most, least) >= 0) return undefined;
  const own = endOfSide[hole.side].way;
  if (own !== endOfSide[other.side].way) return { hole, other, left: { lo: most, hi: most }, least };
  const off = ways.filter((way) => way !== own).map((way) => minus(hole.middle[way], other.middle[way]));
  const squared = off.map((it) => multiply(it, it)).reduce(add);
  const radii = scaled(sum(hole.diameter, other.diameter), rational(1n, 2n));
  const clear = sum(radii, least);
  if (compareRationals(squared, multiply(clear, clear)) >= 0) return undefined;
  const beside = asLengths(rootOf(squared));
  // Where they come from opposite sides, how far they are apart in depth is between them, too; or how far they share it.
  const depths = hole.side === other.side ? [] : [apart(own)];
  const [lo, hi] = [beside.lo, beside.hi].map((it) => depths.reduce(larger, minus(it, radii))) as [
    Length,
    Length,
  ]; // two of two
  return { hole, other, left: { lo, hi }, least };
}
