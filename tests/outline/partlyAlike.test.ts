import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Length, Outline } from '../../src/model/index.ts';
import {
  type Body,
  boxOf,
  difference,
  halfRound,
  laid,
  onDatum,
  rectangle,
  sharedSpace,
  shiftBy,
  through,
  touchesOf,
} from '../../src/outline/index.ts';
import { curved, round, whole } from './anyOutline.ts';
import { at, made, middle, mm } from './drawing.ts';

/** Plates in one plane, as their drawings lie. */
function plate(outline: Outline, thickness = mm(2)): Body {
  const { left, right, bottom, top } = boxOf(outline);
  return [
    {
      block: {
        low: { across: left.lo, along: mm(0), up: bottom.lo },
        high: { across: right.hi, along: thickness, up: top.hi },
      },
      stance: { length: 'across', width: 'up', thickness: 'along' },
      outline: onDatum(outline),
    },
  ];
}

const board = (x: number, y: number, length: number, width: number): Outline =>
  laid(made(rectangle(mm(length), mm(width))), shiftBy(at(x, y)));
const raised = (outline: Outline, by: Length): Outline => laid(outline, shiftBy({ x: mm(0), y: by }));
const answer = (a: Outline, b: Outline) => sharedSpace(plate(a), plate(b)).answer;

const shoulder = made(through([at(0, 5), at(20, 9), at(60, 20)], ['flat', 'flat']));
const drain = made(halfRound(mm(40)));
/** What is left of a board above: along some of the curve, cut off where it has no rational height. */
const overShoulder = difference(board(13, 0, 29, 30), shoulder)[0]!;
const overDrain = difference(board(7, 0, 20, 30), drain)[0]!;

describe('plates that lie against each other along some of a curve', () => {
  // Expected: what was cut away of a shape has nothing of it.
  it('share nothing, wherever the one ends on the curve of the other', () => {
    let found = 0;
    fc.assert(
      fc.property(
        fc.oneof(round, curved),
        whole(0, 30),
        whole(0, 20),
        whole(7, 60),
        whole(7, 60),
        (shape, x, y, length, width) => {
          for (const rest of difference(board(x, y, length, width), shape)) {
            if (!rest.rim.some(({ kind }) => kind !== 'line')) continue;
            found++;
            expect(answer(shape, rest)).toBe('no');
            expect(answer(rest, shape)).toBe('no');
          }
        },
      ),
      { numRuns: 80 },
    );
    expect(found).toBeGreaterThan(25);
  });

  it.each([
    ['shoulder', shoulder, overShoulder],
    ['drain', drain, overDrain],
  ] as const)('are told to overlap, to be clear, or that less than 0.01 mm tells: %s', (_, one, other) => {
    expect(answer(one, raised(other, mm(-1, 50)))).toBe('yes');
    expect(answer(one, raised(other, mm(1, 50)))).toBe('no');
    expect(answer(one, raised(other, mm(1, 1000)))).toBe('within');
  });

  // Source: by hand: the board reaches from 7 to 27 over a half round of radius 20 about 20.
  it('touch along all that they have in common', () => {
    const touches = touchesOf(plate(drain), plate(overDrain), mm(0));
    const angle = Math.acos(-13 / 20) - Math.acos(7 / 20);
    expect(touches).toHaveLength(1);
    expect(middle(touches[0]!.area())).toBeCloseTo(20 * angle * 2, 6);
    const over = touchesOf(plate(shoulder), plate(overShoulder), mm(0));
    expect(over.length).toBeGreaterThan(0);
  });
});
