import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import type { Bevel, DrawnSide, Rebate } from '../../src/model/index.ts';
import { edgesKey } from '../../src/outline/index.ts';
import { edgeRows, edgesBriefly } from '../../src/print/edgeWords.ts';
import { mm } from '../outline/drawing.ts';

const style = { brief: toFraction, fine: toFraction };

function bevel(side: DrawnSide, back: number, more: Partial<Bevel> = {}): Bevel {
  return { side, longFace: 'good', back: { lo: mm(back), hi: mm(back) }, thickness: mm(12), ...more };
}

const rebate = (side: DrawnSide, longFace: Rebate['longFace']): Rebate => ({
  side,
  longFace,
  wide: mm(5),
  stays: mm(1),
});

describe('bevels in a list', () => {
  it('say at which ends, how steep and which face is long', () => {
    const mitred = { bevels: [bevel('left', 12), bevel('right', 12)] };
    expect(edgesBriefly(mitred, false, style)).toEqual(['bevel both ends 45 degrees, long face up']);
    const under = { bevels: [bevel('right', 12, { longFace: 'other' })] };
    expect(edgesBriefly(under, false, style)).toEqual(['bevel its right end 45 degrees, long face down']);
  });

  it('name the sides as they lie, where a length is laid along the width', () => {
    const sides = (['left', 'bottom', 'right', 'top'] as const).map(
      (side) => edgesBriefly({ bevels: [bevel(side, 12)] }, true, style)[0],
    );
    expect(sides).toEqual([
      'bevel its bottom edge 45 degrees, long face up',
      'bevel its right end 45 degrees, long face up',
      'bevel its top edge 45 degrees, long face up',
      'bevel its left end 45 degrees, long face up',
    ]);
  });

  // Source: computed: atan(5/12) 22.62 degrees, atan(9/12) 36.87 degrees, atan(35/12) 71.08 degrees, as a roofing square has them.
  it.each([
    [5, '5 in 12 (about 22.6 degrees)'],
    [9, '3 in 4 (about 36.9 degrees)'],
    [35, '35 in 12 (about 71.1 degrees)'],
  ])('give %d back on 12 as a slope, with its angle', (back, words) => {
    expect(edgesBriefly({ bevels: [bevel('left', back)] }, false, style)).toEqual([
      `bevel its left end ${words}, long face up`,
    ]);
  });

  it('stand apart where both ends slant the same way', () => {
    const bevels = [bevel('left', 12), bevel('right', 12, { longFace: 'other' })];
    expect(edgesBriefly({ bevels }, false, style)).toEqual([
      'bevel its left end 45 degrees, long face up',
      'bevel its right end 45 degrees, long face down',
    ]);
  });
});

describe('the order of work', () => {
  const alone = { isShared: false, isBegun: false };

  it('goes on where it was begun with the outline', () => {
    const begun = { ...alone, isBegun: true };
    const bevels = [bevel('left', 12)];
    expect(edgeRows({ bevels }, begun, style)[0]).toBe('After that, what is not square:');
    expect(edgeRows({ bevels }, { ...begun, isShared: true }, style)[0]).toBe(
      'The bevel that two share is cut with their blank; what else is not square, after that.',
    );
  });

  it('is the full size first, then each slant with both its faces', () => {
    const bevels = [bevel('left', 12), bevel('right', 12)];
    expect(edgeRows({ bevels }, alone, style)).toEqual([
      'First cut it square, to its full size.',
      'Bevel both ends, 45 degrees off square: the face that lies up keeps its size, the face below ends 12 further in.',
    ]);
  });

  it('tells a rebate by its width and what stays', () => {
    expect(edgeRows({ rebates: [rebate('left', 'good')] }, alone, style)[1]).toBe(
      'Rebate its left end from the face below: take it off over 5, down to the last 1 of the face that lies up.',
    );
    expect(edgesBriefly({ rebates: [rebate('left', 'other')] }, false, style)).toEqual([
      'rebate its left end 5 wide, down to 1, from above',
    ]);
  });

  it('leaves to their blank what two share', () => {
    const [first] = edgeRows({ bevels: [bevel('left', 12)] }, { ...alone, isShared: true }, style);
    expect(first).toMatch(/^The bevel that two share is cut with their blank\./);
  });

  it('is silent of square edges', () => {
    expect(edgeRows({}, alone, style)).toEqual([]);
    expect(edgesBriefly({}, false, style)).toEqual([]);
  });
});

it('tells edges apart by side, face, slant and thickness', () => {
  const all = [
    {},
    { bevels: [bevel('left', 12)] },
    { bevels: [bevel('right', 12)] },
    { bevels: [bevel('left', 12, { longFace: 'other' })] },
    { bevels: [bevel('left', 9)] },
    { bevels: [bevel('left', 12, { thickness: mm(9) })] },
    { rebates: [rebate('left', 'good')] },
  ];
  expect(new Set(all.map(edgesKey)).size).toBe(all.length);
});
