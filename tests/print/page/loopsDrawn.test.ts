import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Outline } from '../../../src/model/index.ts';
import { flattened } from '../../../src/outline/index.ts';
import { loopsDrawn } from '../../../src/print/page/loopsDrawn.ts';
import type { Point } from '../../../src/print/page/mark.ts';
import { curved, placed, round, star } from '../../outline/anyOutline.ts';
import { float, mm } from '../../outline/drawing.ts';

const finer = 0.001;

/** Straight edges no further than that from the outline, worked out exactly. */
function exactly(outline: Outline): readonly (readonly Point[])[] {
  return flattened(outline, 'along', mm(1, 1000)).map((loop) =>
    loop.map(({ x, y }) => ({ x: float(x), y: float(y) })),
  );
}

function apart(at: Point, loop: readonly Point[]): number {
  return Math.min(...loop.map((from, i) => toEdge(at, from, loop[(i + 1) % loop.length]!)));
}

function toEdge(at: Point, from: Point, to: Point): number {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const share = ((at.x - from.x) * x + (at.y - from.y) * y) / (x * x + y * y || 1);
  const within = Math.min(1, Math.max(0, share));
  return Math.hypot(at.x - from.x - within * x, at.y - from.y - within * y);
}

// Expected: the edges that exact arithmetic finds, 0.001 mm off the curves at most.
describe('a shape as a picture has it', () => {
  it('is nowhere more than 0.05 mm off the shape', () => {
    fc.assert(
      fc.property(placed(fc.oneof(round, star, curved)), (outline) => {
        const exact = exactly(outline);
        for (const [i, loop] of loopsDrawn(outline).entries()) {
          for (const at of loop) expect(apart(at, exact[i]!)).toBeLessThan(finer + 1e-9);
          for (const at of exact[i]!) expect(apart(at, loop)).toBeLessThan(0.05 + finer);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('has every corner, and none twice', () => {
    fc.assert(
      fc.property(fc.oneof(round, star, curved), (outline) => {
        const [rim] = loopsDrawn(outline);
        for (const { from } of outline.rim)
          expect(rim).toContainEqual({ x: float(from.x), y: float(from.y) });
        rim!.forEach((at, i) => {
          const next = rim![(i + 1) % rim!.length]!;
          expect(Math.hypot(at.x - next.x, at.y - next.y)).toBeGreaterThan(1e-6);
        });
      }),
      { numRuns: 300 },
    );
  });
});
