import { compare, minus, opposite, sum } from '../measure/index.ts';
import type { Block, Build, Length, LevelSide, StandingPart } from '../model/index.ts';
import {
  bodyOf,
  type EndRange,
  endHeightOf,
  endRangeOf,
  fillsItsBlock,
  type Lean,
  mostOff,
  reachBetween,
  reachFromAbove,
  shapeAlong,
} from '../outline/index.ts';

/** The way in which a side runs, from its left or front end. */
export function wayOf(side: LevelSide): 'across' | 'along' {
  return side === 'front' || side === 'back' ? 'across' : 'along';
}

/** The way from one side to that over against it. */
export function wayThrough(side: LevelSide): 'across' | 'along' {
  return wayOf(side) === 'across' ? 'along' : 'across';
}

/** A tile may fall short of its footprint by the slack, so a part that comes so near still reaches its side. */
export function reachesSide(build: Build, { block }: StandingPart, side: LevelSide): boolean {
  const way = wayThrough(side);
  return isLow(side)
    ? compare(block.low[way], build.slack) <= 0
    : compare(sum(block.high[way], build.slack), build.footprint[way]) >= 0;
}

function isLow(side: LevelSide): boolean {
  return side === 'front' || side === 'left';
}

/** From where up to where a part reaches where it ends at a side, as it is seen from beside; undefined: all its height. */
export function rangeAtSide(part: StandingPart, side: LevelSide): EndRange | undefined {
  const beside = shapeAlong(bodyOf(part), wayOf(side));
  if (beside === undefined) return undefined;
  const plane = { right: wayThrough(side), up: 'up' } as const;
  const end = isLow(side) ? 'left' : 'right';
  if (part.profile?.along === wayOf(side)) return endRangeOf(beside, plane, end);
  const top = endHeightOf(beside, plane, end);
  const bottom = part.block.low.up;
  return top && { bottom: { lo: bottom, hi: bottom }, top };
}

/** Where along a side a part comes up to it, as it is seen from above. */
export function stretchesAtSide(
  build: Build,
  part: StandingPart,
  side: LevelSide,
  lean: Lean,
): readonly (readonly [Length, Length])[] {
  const [way, through] = [wayOf(side), wayThrough(side)];
  const body = bodyOf(part);
  const fromAbove = shapeAlong(body, 'up');
  const near = sum(build.slack, mostOff);
  const far = build.footprint[through];
  const strip = isLow(side) ? ([opposite(far), near] as const) : ([minus(far, near), sum(far, far)] as const);
  const plane = { right: way, up: through };
  if (fromAbove !== undefined) return reachBetween(fromAbove, plane, strip, lean);
  return reachFromAbove(body, plane, strip, lean) ?? [[part.block.low[way], part.block.high[way]]];
}

/**
 * What closes a side of a part that slopes, bends or is bevelled: what of its block comes up to there. Of any other
 * part its block stands for it.
 */
export function blocksAtSide(
  build: Build,
  part: StandingPart,
  side: LevelSide,
  lean: Lean,
): readonly Block[] {
  if (part.profile === undefined || fillsItsBlock(part)) return [part.block];
  const way = wayOf(side);
  const range = rangeAtSide(part, side);
  const { low, high } = part.block;
  const [bottom, top] =
    range === undefined
      ? [low.up, high.up]
      : lean === 'inward'
        ? [range.bottom.hi, range.top.lo]
        : [range.bottom.lo, range.top.hi];
  return stretchesAtSide(build, part, side, lean).map(([from, to]) => ({
    low: { ...low, [way]: from, up: bottom },
    high: { ...high, [way]: to, up: top },
  }));
}
