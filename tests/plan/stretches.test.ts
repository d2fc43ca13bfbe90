import { beforeAll, expect, it } from 'vitest';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { pack } from '../../src/pack/index.ts';
import { Dice } from '../../src/pack/search/random.ts';
import { runToEnd } from '../../src/pipeline.ts';
import type * as Room from '../../src/plan/index.ts';
import { type Counted, counted, stretchesOf } from '../pack/counted.ts';
import { demandOf, type PartLine } from '../pack/demand.ts';
import { settings } from './byHand.ts';

// As for the packer (`tests/pack/stretches.test.ts`): what is done between two pauses, in rounds and calls.
const mostBetweenPauses = 500_000;

let room: Counted<typeof Room>;
beforeAll(async () => {
  room = await counted('plan/index.ts');
}, 180_000);

/** @param tiles  each part belongs to one of so many */
function laidOut(
  kinds: number,
  total: number,
  tiles: number,
  [least, most]: readonly number[],
): MaterialLayouts {
  const dice = new Dice(kinds);
  const side = () => least! + dice.below(most! - least! + 1);
  const parts = Array.from(
    { length: kinds },
    (): PartLine => ({
      size: [side(), side()],
      count: Math.ceil(total / kinds),
    }),
  );
  const demand = demandOf(parts, [{ size: [1000, 700] }], { kerf: 1 });
  const ofTiles = demand.parts.map((kind, k) => {
    const among = Math.min(tiles, kind.count);
    const members = Array.from({ length: among }, (_, i) => ({
      ...kind.members[0],
      label: `part ${k} of ${i}`,
      tile: `tile ${i}`,
      count: Math.floor((kind.count + i) / among),
    }));
    return { ...kind, members };
  }) as unknown as typeof demand.parts; // as many as before
  return runToEnd(pack({ ...demand, parts: ofTiles }, 0)).value!;
}

it.each([
  ['10 000 parts of 8 kinds', 8, 10_000, 40, [60, 400]],
  ['5 000 parts of 50 kinds', 50, 5000, 20, [40, 300]],
  ['1 800 parts of 900 kinds', 900, 1800, 2, [40, 300]],
  ['hundreds of parts on a sheet', 400, 4000, 10, [10, 50]],
] as const)(
  'pauses often enough: %s',
  (_, kinds, total, tiles, sides) => {
    const { first, later } = stretchesOf(room.plan([laidOut(kinds, total, tiles, sides)], settings), room);
    expect(Math.max(first, later)).toBeLessThanOrEqual(mostBetweenPauses);
    // A count that counts nothing would pass, too.
    expect(later).toBeGreaterThan(10_000);
  },
  120_000,
);
