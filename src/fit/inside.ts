import { compare, minus, opposite, sum, zero } from '../measure/index.ts';
import {
  type Build,
  type Fault,
  type Length,
  type StandingPart,
  type TileSide,
  type Way,
  ways,
} from '../model/index.ts';
import { sidesOf } from './faces.ts';

type SticksOut = Extract<Fault, { kind: 'sticks out' }>;

/**
 * What reaches out of the envelope: the footprint, what the tile allows beyond it, and the height. Where a
 * sum has already been told as too long, what sticks out of the tile because of it is not told again.
 *
 * @param toldWays  directions in which a sum doesn't come out
 */
export function stickingOut(build: Build, toldWays: readonly Way[]): readonly SticksOut[] {
  const worst = new Map<string, SticksOut>();
  for (const part of build.parts) {
    for (const fault of ways.flatMap((way) => outIn(build, part, way, toldWays.includes(way)))) {
      // Equal pieces share one fault, the worst.
      const key = `${fault.part.part}\n${fault.side}`;
      const known = worst.get(key);
      if (known === undefined || compare(fault.by, known.by) > 0) worst.set(key, fault);
    }
  }
  return [...worst.values()];
}

function outIn(build: Build, part: StandingPart, way: Way, isTold: boolean): readonly SticksOut[] {
  const { low, high } = envelope(build, way);
  const { block } = part;
  const faults: SticksOut[] = [];
  const hasToldLow = isTold && compare(block.low[way], build.row.block.low[way]) >= 0;
  if (!hasToldLow && compare(block.low[way], low) < 0) {
    faults.push({
      kind: 'sticks out',
      part,
      side: sidesOf[way].low,
      by: minus(low, block.low[way]),
      limit: low,
    });
  }
  const hasToldHigh = isTold && compare(block.high[way], build.row.block.high[way]) <= 0;
  if (high !== undefined && !hasToldHigh && compare(block.high[way], high) > 0) {
    const side: TileSide = sidesOf[way].high;
    faults.push({ kind: 'sticks out', part, side, by: minus(block.high[way], high), limit: high });
  }
  return faults;
}

/** From where to where a piece may reach; no limit upward where neither tile nor grid states one. */
function envelope(build: Build, way: Way): { readonly low: Length; readonly high: Length | undefined } {
  const { beyond, footprint, height, tallest } = build;
  switch (way) {
    case 'across':
      return { low: opposite(beyond.left), high: sum(footprint.across, beyond.right) };
    case 'along':
      return { low: opposite(beyond.front), high: sum(footprint.along, beyond.back) };
    case 'up':
      return { low: zero, high: height?.value ?? tallest };
  }
}
