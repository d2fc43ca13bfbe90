import { describe, expect, it } from 'vitest';
import { flawsOf, type Placed } from './edgeToEdge.ts';

// Source: Z. Moroń, Przegląd mat.-fiz. 3 (1925): a rectangle of 33 × 32 made of nine different squares. Sides
// as listed at squaring.net; the places were computed from them and tile the rectangle exactly.
const moron = [
  [0, 0, 18],
  [18, 0, 15],
  [18, 15, 7],
  [25, 15, 8],
  [0, 18, 14],
  [14, 18, 4],
  [14, 22, 10],
  [24, 22, 1],
  [24, 23, 9],
].map(([x, y, side]): Placed => ({ x: x!, y: y!, width: side!, height: side! }));

// Source: computed; four 1 × 2 around one 1 × 1, the smallest layout that can't be cut edge to edge.
const pinwheel: Placed[] = [
  { x: 0, y: 0, width: 2, height: 1 },
  { x: 2, y: 0, width: 1, height: 2 },
  { x: 1, y: 2, width: 2, height: 1 },
  { x: 0, y: 1, width: 1, height: 2 },
  { x: 1, y: 1, width: 1, height: 1 },
];

const uncuttable = ['no row of cuts from edge to edge frees all'];

describe('the checker of free placements', () => {
  it('refuses the squared rectangle of Moroń, which no cut goes through', () => {
    expect(moron.reduce((sum, { width }) => sum + width * width, 0)).toBe(33 * 32);
    expect(flawsOf(moron, { width: 33, height: 32 })).toEqual(uncuttable);
  });

  it('refuses the pinwheel, and accepts it once a blade is gone', () => {
    expect(flawsOf(pinwheel, { width: 3, height: 3 })).toEqual(uncuttable);
    expect(flawsOf(pinwheel.slice(1), { width: 3, height: 3 })).toEqual([]);
  });

  it('refuses overlaps and parts that leave the sheet', () => {
    const one = { x: 0, y: 0, width: 2, height: 2 };
    expect(flawsOf([one, { ...one, x: 1 }], { width: 4, height: 4 })).toEqual(['0 and 1 overlap']);
    expect(flawsOf([one], { width: 1, height: 4 })).toEqual(['0 leaves the sheet']);
  });
});
