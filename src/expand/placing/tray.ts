import { minus, sum, zero } from '../../measure/index.ts';
import {
  type ByWay,
  endOfSide,
  type Length,
  type Outline,
  type Point,
  type StandingPart,
  type Way,
  ways,
} from '../../model/index.ts';
import { polygon } from '../../outline/index.ts';
import type { FoldedBody } from '../folds.ts';

type TrayBody = FoldedBody & Required<Pick<FoldedBody, 'tray'>>;

/** From one place to another, by the part's own three ways: its thickness rises to the good side. */
type Reach = Readonly<Record<'length' | 'width' | 'thickness', readonly [Length, Length]>>;

/**
 * What of a tray its side view leaves out: its short walls, and the tabs behind them.
 *
 *      ┌──────────────────────┐     seen from inside; the long walls and the base
 *      │ │▔tab            tab▔│ │     are what the side view shows
 *      │ │ short wall         │ │
 *      └──────────────────────┘
 */
export function wallsOfTray(piece: StandingPart, body: TrayBody): readonly StandingPart[] {
  const { length, height } = body;
  const { width, tab, thickness: t } = body.tray;
  const up = [zero, minus(height, t)] as const;
  const ends = [
    { wall: [zero, t], behind: [t, sum(t, t)] },
    { wall: [minus(length, t), length], behind: [minus(length, sum(t, t)), minus(length, t)] },
  ] as const;
  const sides = [
    { across: [t, tab], isLow: true },
    { across: [minus(width, tab), minus(width, t)], isLow: false },
  ] as const;
  const walls = ends.map(({ wall }, i) =>
    partOf(piece, `end wall ${i + 1}`, { length: wall, width: [t, minus(width, t)], thickness: up }, body),
  );
  const tabs = ends.flatMap(({ behind }, i) =>
    sides.map(({ across, isLow }, j) => {
      const reach = { length: behind, width: across, thickness: up };
      const it = partOf(piece, `tab ${2 * i + j + 1}`, reach, body);
      const outline = tabSeen(piece, { wide: minus(tab, t), high: minus(height, t), isLow });
      return outline === undefined ? it : { ...it, profile: { along: piece.stance.length, outline } };
    }),
  );
  return [...walls, ...tabs];
}

function partOf(piece: StandingPart, what: string, reach: Reach, { height }: TrayBody): StandingPart {
  const { profile: _, walls: __, stance, block, ...rest } = piece;
  const [low, high] = reach.thickness;
  const thickness = isDown(piece) ? ([minus(height, high), minus(height, low)] as const) : reach.thickness;
  const inWay = (end: 0 | 1): ByWay<Length> => ({
    ...block.low,
    [stance.length]: sum(block.low[stance.length], reach.length[end]),
    [stance.width]: sum(block.low[stance.width], reach.width[end]),
    [stance.thickness]: sum(block.low[stance.thickness], thickness[end]),
  });
  return {
    ...rest,
    name: `${piece.name}, ${what}`,
    isWall: true,
    size: {
      length: minus(reach.length[1], reach.length[0]),
      width: minus(reach.width[1], reach.width[0]),
      thickness: minus(high, low),
    },
    stance,
    block: { low: inWay(0), high: inWay(1) },
    grain: undefined,
    flutes: undefined,
    isFloor: false,
  };
}

/** It runs off at 45 degrees, so that it clears the base. */
function tabSeen(
  piece: StandingPart,
  { wide, high, isLow }: { readonly wide: Length; readonly high: Length; readonly isLow: boolean },
): Outline | undefined {
  const corners: readonly (readonly [Length, Length])[] = [
    [zero, zero],
    [wide, zero],
    [wide, minus(high, wide)],
    [zero, high],
  ];
  const { width, thickness } = piece.stance;
  const isSwapped = order(thickness) < order(width);
  return polygon(
    corners.map(([along, up]): Point => {
      const [x, y] = [isLow ? along : minus(wide, along), isDown(piece) ? minus(high, up) : up];
      return isSwapped ? { x: y, y: x } : { x, y };
    }),
  ).value;
}

function isDown({ facing }: StandingPart): boolean {
  return endOfSide[facing].end === 'low';
}

function order(way: Way): number {
  return ways.indexOf(way);
}
