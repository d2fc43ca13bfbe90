import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spread } from '../../../src/print/page/datum.ts';
import { hatch } from '../../../src/print/page/patterns.ts';
import { emptyRoom } from '../../../src/print/page/room.ts';
import { settable, shortened, wrapped } from '../../../src/print/page/type.ts';
import { face } from './face.ts';

describe('spread', () => {
  const things = fc.array(
    fc.record({
      at: fc.double({ min: 0, max: 100, noNaN: true }),
      size: fc.double({ min: 0.5, max: 9, noNaN: true }),
    }),
    { maxLength: 10 },
  );

  it('keeps all between the ends, none on another, in their order', () => {
    fc.assert(
      fc.property(things, (all) => {
        const places = spread(
          all.map(({ at }) => at),
          all.map(({ size }) => size),
          0,
          100,
        );
        const placed = (places ?? []).map((place, index) => ({ ...all[index]!, place }));
        const sorted = [...placed].sort((a, b) => a.place - b.place);
        sorted.forEach(({ place, size }, index) => {
          expect(place - size / 2).toBeGreaterThan(-1e-9);
          expect(place + size / 2).toBeLessThan(100 + 1e-9);
          const next = sorted[index + 1];
          if (next === undefined) return;
          expect(next.place - next.size / 2).toBeGreaterThan(place + size / 2 - 1e-9);
          expect(next.at).toBeGreaterThanOrEqual(sorted[index]!.at);
        });
      }),
    );
  });

  it('leaves alone what does not touch, and gives up when there is no room', () => {
    expect(spread([10, 40], [4, 4], 0, 100)).toEqual([10, 40]);
    expect(spread([10, 10], [60, 60], 0, 100)).toBeUndefined();
  });
});

describe('hatch', () => {
  it('fills a box with lines at 45°, none of which leaves it', () => {
    const box = { left: 10, right: 45, top: 20, bottom: 32 };
    for (const way of ['rising', 'falling'] as const) {
      const paths = hatch('scrap hatch', box, 2, way).flatMap((mark) =>
        mark.kind === 'stroke' ? mark.paths : [],
      );
      // Lines 2 mm apart cross a diagonal band of (35 + 12) / √2 mm. Computed.
      expect(paths).toHaveLength(Math.ceil((35 + 12) / (2 * Math.SQRT2)) - 1);
      for (const { points } of paths) {
        const [from, to] = points;
        const slope = (to!.y - from.y) / (to!.x - from.x);
        expect(slope).toBeCloseTo(way === 'rising' ? -1 : 1, 9);
        for (const { x, y } of points) {
          expect(x).toBeGreaterThanOrEqual(box.left - 1e-9);
          expect(x).toBeLessThanOrEqual(box.right + 1e-9);
          expect(y).toBeGreaterThanOrEqual(box.top - 1e-9);
          expect(y).toBeLessThanOrEqual(box.bottom + 1e-9);
        }
      }
    }
  });
});

describe('room', () => {
  it('knows what is taken, and that touching is not overlapping', () => {
    const room = emptyRoom();
    room.take({ left: 0, right: 10, top: 0, bottom: 10 });
    expect(room.isFree({ left: 9, right: 20, top: 9, bottom: 20 })).toBe(false);
    expect(room.isFree({ left: 10, right: 20, top: 0, bottom: 10 })).toBe(true);
  });
});

describe('texts', () => {
  const word = fc.string({ minLength: 1, maxLength: 30 });

  it('are wrapped without a row too wide and without losing a letter', () => {
    fc.assert(
      fc.property(
        fc.array(word, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 12, max: 90 }),
        (all, width) => {
          const text = settable(face, all.join(' '));
          const rows = wrapped(face, 'text', text, width);
          expect(rows.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
          for (const row of rows) expect(face.widthMm(row, 'regular', 11)).toBeLessThan(width + 1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are shortened in the middle, so that both ends still tell them apart', () => {
    const name = 'retaining wall, the long one with the arched drain';
    const short = shortened(face, 'text', name, 40)!;
    expect(short).toMatch(/^retaining.*….*drain$/);
    expect(face.widthMm(short, 'regular', 11)).toBeLessThanOrEqual(40);
    expect(shortened(face, 'text', name, 6)).toBeUndefined();
    expect(shortened(face, 'text', 'wall', 40)).toBe('wall');
  });
});
