import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sum } from '../../src/measure/index.ts';
import {
  areaOf,
  boxOf,
  circle,
  headToTail,
  laid,
  polygon,
  rectangle,
  shareArea,
  shiftBy,
  through,
  turned,
} from '../../src/outline/index.ts';
import { curved, round, star, whole } from './anyOutline.ts';
import { at, float, made, mm, width } from './drawing.ts';

describe('two in one blank, head to tail', () => {
  // Source: two equal right triangles make a rectangle.
  it('takes no more than one blank for two wedges cut with a knife', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(0, 20)]));
    expect(headToTail(wedge, mm(0), mm(1))).toEqual({
      shift: { lo: mm(0), hi: mm(0) },
      length: mm(60),
      saved: mm(60),
    });
  });

  // Source: by hand: a kerf across the slope of a 3-4-5 wedge is 5/3 as long measured along the base.
  it('moves the second on by the kerf, measured along', () => {
    const wedge = made(polygon([at(0, 0), at(40, 0), at(0, 30)]));
    const pair = headToTail(wedge, mm(3), mm(1));
    expect(pair?.shift).toEqual({ lo: mm(5), hi: mm(5) });
    expect(pair).toMatchObject({ length: mm(45), saved: mm(38) });
  });

  it('rounds the blank up to a step', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(10, 20), at(0, 20)]));
    // Source: by hand: the slope runs 50 along on 20 up, √(50² + 20²) = 53.851648; along the base a kerf of 1
    // takes 53.851648/20 = 2.692582, and the second begins that much beyond 60 − 50 = 10.
    const pair = headToTail(wedge, mm(1), mm(1, 2));
    expect(float(pair!.shift.lo)).toBeCloseTo(12.692582, 6);
    expect(width(pair!.shift)).toBeLessThan(1e-9);
    expect(pair).toMatchObject({ length: mm(73), saved: mm(48) });
  });

  it('saves nothing with rectangles and circles', () => {
    expect(headToTail(made(rectangle(mm(40), mm(20))), mm(1), mm(1))).toBeUndefined();
    const disc = headToTail(made(circle(mm(40))), mm(1), mm(1));
    expect(disc).toBeUndefined();
  });

  it('nests a shoulder with its half-turn within the tolerance of its curve', () => {
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const pair = headToTail(shoulder, mm(0), mm(1, 2));
    expect(pair).toBeDefined();
    expect(width(pair!.shift)).toBeLessThan(0.3);
    const [own] = [boxOf(shoulder)];
    const second = turned(shoulder, 180);
    const at1 = laid(second, shiftBy({ x: sum(pair!.shift.hi, own.left.lo), y: mm(0) }));
    expect(shareArea(shoulder, at1)).not.toBe('yes');
  });

  it('never lets the two run into each other, nor leaves more than a step to spare', () => {
    fc.assert(
      fc.property(fc.oneof(star, round, curved), whole(0, 2), (outline, kerf) => {
        const pair = headToTail(outline, mm(kerf), mm(1, 4));
        if (pair === undefined) return;
        const { left, right, bottom } = boxOf(outline);
        const turnedHalf = laid(turned(outline, 180), shiftBy({ x: left.lo, y: bottom.lo }));
        const second = laid(turnedHalf, shiftBy({ x: pair.shift.hi, y: mm(0) }));
        expect(shareArea(outline, second)).not.toBe('yes');
        expect(float(pair.length)).toBeGreaterThanOrEqual(
          float(right.hi) - float(left.lo) + float(pair.shift.hi) - 1e-9,
        );
        expect(float(pair.saved)).toBeGreaterThan(0);
        // The two areas fit in the blank.
        const { top } = boxOf(outline);
        const blank = float(pair.length) * (float(top.hi) - float(bottom.lo));
        expect(2 * float(areaOf(outline).lo)).toBeLessThanOrEqual(blank + 0.01);
      }),
      { numRuns: 12 },
    );
  });
});
