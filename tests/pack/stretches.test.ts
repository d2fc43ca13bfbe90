import { beforeAll, expect, it } from 'vitest';
import type * as Room from '../../src/pack/index.ts';
import { Dice } from '../../src/pack/search/random.ts';
import { type Counted, counted, stretchesOf } from './counted.ts';
import { demandOf, type PartLine, type RuleLine, type SheetLine } from './demand.ts';

// Between two pauses nobody looks whether the person wants to stop. How long that takes depends on the machine,
// so the work is counted instead: at 50 to 100 million rounds and calls a second, common on computers of the
// last ten years (measured here, no source), or a fifth of that before they are compiled for speed, this is a
// fraction of the 100 ms within which Ctrl-C is answered. Before its first pause a run is broken off instead.
const mostLater = 1_500_000;
const mostAtFirst = 4_000_000;

let room: Counted<typeof Room>;
beforeAll(async () => {
  room = await counted('pack/index.ts');
}, 180_000);

function drawn(kinds: number, total: number, seed: number): PartLine[] {
  const dice = new Dice(seed);
  const between = (low: number, high: number) => low + dice.below(high - low + 1);
  return Array.from({ length: kinds }, () => ({
    size: [between(30, 400), between(20, 250)] as const,
    count: Math.ceil(total / kinds),
    grain: between(0, 1) === 1 ? ('any' as const) : ('length' as const),
  }));
}

const sheet: SheetLine = { size: [1000, 700] };
const priced: SheetLine[] = [
  { size: [1000, 700], price: 9 },
  { size: [800, 600], price: 5 },
  { size: [500, 300], isOffcut: true, available: 3 },
];
const batches: readonly [string, PartLine[], SheetLine[], RuleLine][] = [
  ['100 000 parts of 8 kinds', drawn(8, 100_000, 1), [sheet], { kerf: 1 }],
  ['5 000 parts of 50 kinds', drawn(50, 5000, 3), [sheet], { kerf: 1 }],
  ['1 800 parts of 900 kinds', drawn(900, 1800, 6), [sheet], { kerf: 1 }],
  ['sheets at two prices, offcuts first', drawn(12, 2000, 7), priced, { kerf: 1 }],
  ['a least strip', drawn(20, 3000, 4), [sheet], { kerf: 1, leastStrip: 10 }],
  ['three rounds', drawn(20, 3000, 5), [sheet], { kerf: 1, rounds: 3 }],
  ['a longest cut', drawn(20, 3000, 8), [sheet], { kerf: 1, longestCut: 800 }],
  [
    'thousands of parts on a sheet',
    [
      { size: [20, 16], count: 9000 },
      { size: [14, 10], count: 900 },
    ],
    [sheet],
    {},
  ],
];

it.each(batches)(
  'pauses often enough: %s',
  (_, parts, sheets, rules) => {
    const { first, later } = stretchesOf(room.pack(demandOf(parts, sheets, rules), 200), room);
    expect(first).toBeLessThanOrEqual(mostAtFirst);
    expect(later).toBeLessThanOrEqual(mostLater);
    // A count that counts nothing would pass, too.
    expect(later).toBeGreaterThan(10_000);
  },
  180_000,
);
