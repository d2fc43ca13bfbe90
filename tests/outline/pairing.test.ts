import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minus, zero } from '../../src/measure/index.ts';
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
import { at, float, made, mm } from './drawing.ts';

describe('two in one blank, head to tail', () => {
  // Source: two equal right triangles make a rectangle.
  it('needs no more than one box for two wedges cut with a knife', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(0, 20)]));
    const ways = headToTail(wedge, box(60, 20), mm(0));
    expect(shiftOf(ways, 'length', 'as drawn')).toEqual(mm(0));
    expect(shiftOf(ways, 'width', 'as drawn')).toEqual(mm(0));
    // Square corner to square corner, they are as far apart as two rectangles.
    expect(shiftOf(ways, 'length', 'turned')).toEqual(mm(60));
  });

  // Source: by hand: a kerf across the slope of a 3-4-5 wedge is 5/3 as long measured along the base, and 5/4
  // as long measured up its side.
  it('moves the second on by the kerf, measured along', () => {
    const wedge = made(polygon([at(0, 0), at(40, 0), at(0, 30)]));
    const ways = headToTail(wedge, box(40, 30), mm(3));
    expect(shiftOf(ways, 'length', 'as drawn')).toEqual(mm(5));
    expect(shiftOf(ways, 'width', 'as drawn')).toEqual(mm(15, 4));
  });

  // Source: by hand: the slope runs 50 along on 20 up, √(50² + 20²) = 53.851648; along the base a kerf of 1
  // takes 53.851648/20 = 2.692582, and the second begins that much beyond 60 − 50 = 10.
  it('measures the kerf square to the slope', () => {
    const wedge = made(polygon([at(0, 0), at(60, 0), at(10, 20), at(0, 20)]));
    const ways = headToTail(wedge, box(60, 20), mm(1));
    expect(float(shiftOf(ways, 'length', 'as drawn')!)).toBeCloseTo(12.692582, 6);
  });

  it('gains nothing with rectangles and circles', () => {
    for (const { shift } of headToTail(made(rectangle(mm(40), mm(20))), box(40, 20), mm(1))) {
      expect([21, 41]).toContain(float(shift));
    }
    for (const { shift } of headToTail(made(circle(mm(40))), box(40, 40), mm(1))) {
      expect(float(shift)).toBeCloseTo(41, 1);
    }
  });

  // Source: by hand: a top edge that is its own half-turn leaves 25 + 5 for the two, one above the other.
  it('lays two shoulders one above the other', () => {
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const ways = headToTail(shoulder, box(76.2, 25), mm(0));
    expect(float(shiftOf(ways, 'width', 'as drawn')!)).toBeCloseTo(5, 1);
  });

  it('never lets the two run into each other', () => {
    fc.assert(
      fc.property(fc.oneof(star, round, curved), whole(0, 2), (outline, kerf) => {
        const { right, top } = boxOf(outline);
        for (const way of headToTail(outline, { length: right.hi, width: top.hi }, mm(kerf))) {
          const [one, other] = placed(outline, { length: right.hi, width: top.hi }, way);
          expect(shareArea(one, other)).not.toBe('yes');
        }
      }),
      { numRuns: 8 },
    );
  });
});

function box(length: number, width: number) {
  return { length: mm(length * 10, 10), width: mm(width * 10, 10) };
}

function shiftOf(ways: readonly Pairing[], along: Pairing['along'], first: Pairing['first']) {
  return ways.find((it) => it.along === along && it.first === first)?.shift;
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
    laid(it, shiftBy(along === 'length' ? { x: shift, y: zero } : { x: zero, y: shift }));
  return first === 'as drawn' ? [outline, shiftedOn(turned)] : [turned, shiftedOn(outline)];
}
