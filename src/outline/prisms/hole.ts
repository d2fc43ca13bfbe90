import {
  equal,
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
import { mostOff, piecesOf } from '../flatten.ts';
import { half } from '../vector.ts';
import { outlineIn, type Prism, planeAcross } from './prism.ts';

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
export function stretchIn(
  hole: RoundHole,
  block: Block,
): { readonly low: Length; readonly high: Length } | undefined {
  const own = blockOfHole(hole);
  const [low, high] = [
    ways.map((way) => larger(own.low[way], block.low[way])),
    ways.map((way) => smaller(own.high[way], block.high[way])),
  ];
  if (!ways.every((_, i) => isPositive(minus(high[i]!, low[i]!)))) return undefined; // one for each way
  const index = ways.indexOf(endOfSide[hole.side].way);
  return { low: low[index]!, high: high[index]! }; // one for each way
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

/** True where a part's sizes run as its stance says: nothing about it slopes or bends, so that one can bore into it. */
export function standsSquare({
  block,
  stance,
  size,
}: Pick<StandingPart, 'block' | 'stance' | 'size'>): boolean {
  return (['length', 'width', 'thickness'] as const).every((it) =>
    equal(minus(block.high[stance[it]], block.low[stance[it]]), size[it]),
  );
}

/**
 * The least that an outline leaves round a hole, down to 0.01 mm; below zero where the hole breaks out of it. A hole
 * that comes in at an edge is looked at as it goes in, with the square ends of its box.
 */
export function roomAround(hole: RoundHole, prism: Prism & { readonly outline: Outline }): Length {
  const { way } = endOfSide[hole.side];
  const plane = planeAcross(prism.stance.thickness);
  const outline = outlineIn(prism, plane);
  const isThroughFace = way === prism.stance.thickness;
  const { low, high } = blockOfHole(hole);
  const middle = { x: hole.middle[plane.right], y: hole.middle[plane.up] };
  const radius = scaled(hole.diameter, half);
  // Along its own axis an edge hole is as safe as its middle line: that is looked at point by point.
  const points = isThroughFace ? [middle] : alongAxis(low[way], high[way], middle, way === plane.right);
  const edges = [outline.rim, ...outline.holes].flat().flatMap(piecesOf).map(asLineOrArc);
  const isClear = (wall: Length): boolean =>
    points.every(
      (at) =>
        standingOf(outline, at) === 'inside' && edges.every((it) => isClearOf(it, at, sum(radius, wall))),
    );
  return mostWall(radius, isClear);
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

function alongAxis(
  low: Length,
  high: Length,
  { x, y }: { readonly x: Length; readonly y: Length },
  isToTheRight: boolean,
): readonly { readonly x: Length; readonly y: Length }[] {
  const span = minus(high, low);
  return Array.from({ length: 9 }, (_, i) => {
    const at = sum(low, scaled(span, rational(BigInt(i) + 1n, 10n)));
    return isToTheRight ? { x: at, y } : { x, y: at };
  });
}
