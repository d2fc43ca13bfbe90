import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRationals, minus, zero } from '../../src/measure/index.ts';
import type { Outline, Point } from '../../src/model/index.ts';
import {
  boxOf,
  circle,
  headToTail,
  laid,
  type Pairing,
  polygon,
  rectangle,
  shareArea,
  shiftBy,
  through,
} from '../../src/outline/index.ts';
import { curved, round, star, whole } from './anyOutline.ts';
import { at, float, made, mm, width } from './drawing.ts';

describe('two in one blank, head to tail', () => {
  // Source: two equal right triangles make a rectangle.
  it('needs no more than one box for two wedges cut with a knife', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(0, 20)]));
    const pair = headToTail(wedge, box(60, 20), mm(0));
    expect(pair).toEqual({ along: 'length', first: 'as drawn', shift: { lo: mm(0), hi: mm(0) } });
  });

  // Source: by hand: a kerf across the slope of a 3-4-5 wedge is 5/3 as long measured along the base, and 5/4
  // as long measured up its side: 45 × 30 is less than 40 × 33 3/4.
  it('moves the second on by the kerf, measured along', () => {
    const wedge = made(polygon([at(0, 0), at(40, 0), at(0, 30)]));
    // With its square corner at the other end, the turned one comes first.
    const other = made(polygon([at(0, 0), at(40, 0), at(40, 30)]));
    for (const [outline, first] of [
      [wedge, 'as drawn'],
      [other, 'turned'],
    ] as const) {
      const pair = headToTail(outline, box(40, 30), mm(3))!;
      expect([pair.along, pair.first]).toEqual(['length', first]);
      expect(compareRationals(pair.shift.lo, mm(5))).toBeLessThanOrEqual(0);
      expect(compareRationals(pair.shift.hi, mm(5))).toBeGreaterThanOrEqual(0);
      expect(width(pair.shift)).toBeLessThan(1e-9);
    }
  });

  // Source: by hand: the slope runs 50 along on 20 up, √(50² + 20²) = 53.851648; along the base a kerf of 1
  // takes 53.851648/20 = 2.692582, and the second begins that much beyond 60 − 50 = 10.
  it('measures the kerf square to the slope', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(10, 20), at(0, 20)]));
    const pair = headToTail(wedge, box(60, 20), mm(1))!;
    expect(pair.along).toBe('length');
    expect(float(pair.shift.lo)).toBeCloseTo(12.692582, 6);
    expect(width(pair.shift)).toBeLessThan(1e-9);
  });

  it('gains nothing with rectangles and circles', () => {
    const plain = headToTail(made(rectangle(mm(40), mm(20))), box(40, 20), mm(1));
    expect(plain).toMatchObject({ along: 'length', shift: { hi: mm(41) } });
    expect(float(headToTail(made(circle(mm(40))), box(40, 40), mm(1))!.shift.hi)).toBeCloseTo(41, 1);
  });

  // Source: by hand: a top edge that is its own half-turn leaves 25 + 5 for the two, one above the other.
  it('lays two shoulders one above the other, as near as their curves are known', () => {
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const pair = headToTail(shoulder, box(76.2, 25), mm(0))!;
    expect([pair.along, pair.first]).toEqual(['width', 'as drawn']);
    expect(float(pair.shift.lo)).toBeLessThanOrEqual(5);
    expect(float(pair.shift.hi)).toBeGreaterThanOrEqual(5);
    expect(width(pair.shift)).toBeLessThan(0.05);
  });

  it('never lets the two run into each other', () => {
    fc.assert(
      fc.property(fc.oneof(star, round, curved), whole(0, 2), (outline, kerf) => {
        const { right, top } = boxOf(outline);
        const net = { length: right.hi, width: top.hi };
        const pair = headToTail(outline, net, mm(kerf));
        if (pair === undefined) return;
        const [one, other] = placed(outline, net, pair);
        expect(shareArea(one, other)).not.toBe('yes');
      }),
      { numRuns: 12 },
    );
  });
});

function box(length: number, width: number) {
  return { length: mm(length * 10, 10), width: mm(width * 10, 10) };
}

function placed(
  outline: Outline,
  { length, width }: ReturnType<typeof box>,
  { along, first, shift }: Pairing,
): readonly [Outline, Outline] {
  const turned = laid(outline, {
    move: ({ x, y }: Point): Point => ({ x: minus(length, x), y: minus(width, y) }),
    swapsHands: false,
  });
  const shiftedOn = (it: Outline) =>
    laid(it, shiftBy(along === 'length' ? { x: shift.hi, y: zero } : { x: zero, y: shift.hi }));
  return first === 'as drawn' ? [outline, shiftedOn(turned)] : [turned, shiftedOn(outline)];
}
