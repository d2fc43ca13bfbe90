import {
  equal,
  isNegative,
  isPositive,
  larger,
  millimetres,
  minus,
  rational,
  scaled,
  smaller,
  sum,
} from '../../measure/index.ts';
import {
  type Arc,
  type Block,
  type ByWay,
  endOfSide,
  type Length,
  type Line,
  type Outline,
  type Segment,
  type StandingPart,
  type TileSide,
  ways,
} from '../../model/index.ts';
import { standingOf } from '../contains.ts';
import { isClearOf } from '../distance.ts';
import { flattened, mostOff, piecesOf } from '../flatten.ts';
import { areaOutside } from '../slabs.ts';
import { half } from '../vector.ts';
import { type Body, shapesOf } from './body.ts';
import { stretchesAt } from './patches.ts';
import { outlineIn, type Plane, planeAcross, type Shaped } from './prism.ts';

/** A round hole, square to the side that it opens to. */
export interface RoundHole {
  readonly side: TileSide;
  /** Of its opening. */
  readonly middle: ByWay<Length>;
  readonly diameter: Length;
  readonly deep: Length;
}

/** The box round a hole. */
export function blockOfHole({ side, middle, diameter, deep }: RoundHole): Block {
  const { way, end } = endOfSide[side];
  const radius = scaled(diameter, half);
  const [low, high] = [{ ...middle }, { ...middle }];
  for (const it of ways) {
    if (it === way) {
      if (end === 'low') high[it] = sum(middle[it], deep);
      else low[it] = minus(middle[it], deep);
    } else {
      low[it] = minus(middle[it], radius);
      high[it] = sum(middle[it], radius);
    }
  }
  return { low, high };
}

/**
 * How far a hole goes through a block, along its own way; undefined where it doesn't come near it.
 *
 *      ┌─────┬────────┐
 *    ══╪═════╪══╡     │    from 0 to 2 in the first, from 2 to 3 in the second
 *      └─────┴────────┘
 */
export function stretchIn(hole: RoundHole, block: Block): Stretch | undefined {
  const own = blockOfHole(hole);
  const [low, high] = [
    ways.map((way) => larger(own.low[way], block.low[way])),
    ways.map((way) => smaller(own.high[way], block.high[way])),
  ];
  if (!ways.every((_, i) => isPositive(minus(high[i]!, low[i]!)))) return undefined; // one for each way
  const index = ways.indexOf(endOfSide[hole.side].way);
  return { low: low[index]!, high: high[index]! }; // one for each way
}

interface Stretch {
  readonly low: Length;
  readonly high: Length;
}

/**
 * Where the middle line of a hole goes through a body, within its block. What is cut out of it, or bevelled off, is air.
 *
 *      ┌─────╮  ╭─┐
 *    ══╪═════╡  ╞═╪══
 *      └─────╯  ╰─┘
 */
export function middleThrough(hole: RoundHole, body: Body): readonly Stretch[] {
  const { way } = endOfSide[hole.side];
  const whole = stretchIn(hole, body[0].block);
  return shapesOf(body).reduce<readonly Stretch[]>(
    (all, shape) => {
      const { thickness } = shape.stance;
      if (thickness === way) {
        const { right, up } = planeAcross(way);
        const middle = { x: hole.middle[right], y: hole.middle[up] };
        return standingOf(outlineIn(shape, { right, up }), middle) === 'outside' ? [] : all;
      }
      const across = ways.find((it) => it !== way && it !== thickness) ?? way;
      const there = stretchesAt(shape, { right: across, up: way }, hole.middle[across], 'below');
      return all.flatMap((one) =>
        there.flatMap(([from, to]): readonly Stretch[] => {
          const [low, high] = [larger(one.low, from), smaller(one.high, to)];
          return isPositive(minus(high, low)) ? [{ low, high }] : [];
        }),
      );
    },
    whole === undefined ? [] : [whole],
  );
}

/** The least that a block leaves beside a hole, or behind it where it ends in it; below zero where it breaks out. */
export function wallLeft(hole: RoundHole, block: Block): Length {
  const own = blockOfHole(hole);
  const { way, end } = endOfSide[hole.side];
  const beside = ways
    .filter((it) => it !== way)
    .flatMap((it) => [minus(own.low[it], block.low[it]), minus(block.high[it], own.high[it])]);
  const behind = end === 'low' ? minus(block.high[way], own.high[way]) : minus(own.low[way], block.low[way]);
  // Where it goes on into the next part, or comes out right at the back, nothing is to stay there.
  const all = isPositive(behind) ? [...beside, behind] : beside;
  return all.reduce(smaller);
}

/** True where a part's sizes run as its stance says: nothing of it slopes, bends or is folded, so that one can bore into it. */
export function standsSquare({
  block,
  stance,
  size,
  isFolded,
}: Pick<StandingPart, 'block' | 'stance' | 'size' | 'isFolded'>): boolean {
  if (isFolded === true) return false;
  return (['length', 'width', 'thickness'] as const).every((it) =>
    equal(minus(block.high[stance[it]], block.low[stance[it]]), size[it]),
  );
}

/**
 * The least that an outline leaves round a hole, down to 0.01 mm; below zero where the hole breaks out of it.
 */
export function roomAround(hole: RoundHole, prism: Shaped): Length {
  const { way } = endOfSide[hole.side];
  const plane = planeAcross(prism.stance.thickness);
  const outline = outlineIn(prism, plane);
  const radius = scaled(hole.diameter, half);
  const edges = [outline.rim, ...outline.holes].flat().flatMap(piecesOf).map(asLineOrArc);
  if (way !== prism.stance.thickness) {
    const bore = boreSeen(hole, prism, plane);
    return bore === undefined
      ? radius
      : mostWall(radius, (wall) => isClearBeside(bore, outline, edges, wall));
  }
  const middle = { x: hole.middle[plane.right], y: hole.middle[plane.up] };
  const isInside = standingOf(outline, middle) === 'inside';
  return mostWall(
    radius,
    (wall) => isInside && edges.every((it) => isClearOf(it, middle, sum(radius, wall))),
  );
}

/** A hole that comes in at an edge, as it is seen from beside: as deep as it is within the block. */
interface Bore {
  /** The way of the plane that it goes along, and from where to where. */
  readonly axis: 'x' | 'y';
  readonly from: Length;
  readonly to: Length;
  /** Which of those two are its end: where it comes in, or goes on, it has none. */
  readonly ends: readonly Length[];
  readonly middle: Length;
  readonly radius: Length;
}

function boreSeen(hole: RoundHole, { block }: Shaped, plane: Plane): Bore | undefined {
  const { way } = endOfSide[hole.side];
  const stretch = stretchIn(hole, block);
  if (stretch === undefined) return undefined;
  const isAlong = way === plane.right;
  const ends = [stretch.low, stretch.high].filter(
    (at) => !equal(at, block.low[way]) && !equal(at, block.high[way]),
  );
  return {
    axis: isAlong ? 'x' : 'y',
    from: stretch.low,
    to: stretch.high,
    ends,
    middle: hole.middle[isAlong ? plane.up : plane.right],
    radius: scaled(hole.diameter, half),
  };
}

/**
 * True where so much is left on both sides of a hole and behind it; below zero: where all of it but so much is within.
 *
 *      ┌──────┬───────┐
 *      │ wall ├────┐  │ wall
 *      ┄┄┄┄┄┄┄┄┄┄┄┄┘  │       where it comes in there is nothing to be left
 *      │      ├────┘  │
 *      └──────┴───────┘
 */
function isClearBeside(bore: Bore, outline: Outline, edges: readonly (Line | Arc)[], wall: Length): boolean {
  const isWhole = !isNegative(wall);
  const wide = isWhole ? bore.radius : sum(bore.radius, wall);
  if (!isPositive(wide)) return false;
  const at = (along: Length, across: Length) =>
    bore.axis === 'x' ? { x: along, y: across } : { x: across, y: along };
  const [low, high] = [minus(bore.middle, wide), sum(bore.middle, wide)];
  const corners = [at(bore.from, low), at(bore.to, low), at(bore.to, high), at(bore.from, high)] as const;
  const around = bore.axis === 'x' ? corners : [...corners].reverse();
  if (areaOutside([around], flattened(outline, 'inward')).numerator > 0n) return false;
  if (!isWhole) return true;
  const [a, b, c, d] = corners;
  const sides: readonly Line[] = [
    { kind: 'line', from: a, to: b },
    { kind: 'line', from: d, to: c },
    ...bore.ends.map((end): Line => ({ kind: 'line', from: at(end, low), to: at(end, high) })),
  ];
  const isOpening = ({ from, to }: Line | Arc) =>
    [bore.from, bore.to].some(
      (end) => !bore.ends.includes(end) && equal(from[bore.axis], end) && equal(to[bore.axis], end),
    );
  return edges
    .filter((it) => it.kind === 'arc' || !isOpening(it))
    .every(
      (edge) =>
        corners.every((it) => isClearOf(edge, it, wall)) &&
        sides.every((side) => [edge.from, edge.to].every((it) => isClearOf(side, it, wall))),
    );
}

/** A piece of a curve goes by its chord, which is nowhere further off than 0.01 mm. */
function asLineOrArc(it: Segment): Line | Arc {
  return it.kind === 'curve' ? { kind: 'line', from: it.from, to: it.to } : it;
}

/** In hundredths of a millimetre, by halving. */
function mostWall(radius: Length, isClear: (wall: Length) => boolean): Length {
  const least = minus(millimetres(rational(0n)), radius);
  let [clear, unclear] = [-1n, 1_000_000n];
  const wallAt = (steps: bigint) => sum(least, scaled(mostOff, rational(steps)));
  while (unclear - clear > 1n) {
    const middle = (clear + unclear) >> 1n;
    if (isClear(wallAt(middle))) clear = middle;
    else unclear = middle;
  }
  return clear < 0n ? least : wallAt(clear);
}
