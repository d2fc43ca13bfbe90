import { describe, expect, it } from 'vitest';
import {
  arched,
  circle,
  laid,
  mirrored,
  outlineKey,
  polygon,
  rectangle,
  shiftBy,
  slot,
  tellsHands,
  through,
  turned,
  withCuts,
  withMarks,
} from '../../src/outline/index.ts';
import { at, made, mm } from './drawing.ts';

describe('two hands', () => {
  const board = made(rectangle(mm(60), mm(40)));
  const shoulder = made(through([at(0, 5), at(30, 12), at(60, 40)], ['flat', 'flat']));

  it.each([
    ['a board', board],
    ['a circle', made(circle(mm(30)))],
    ['a slot', made(slot(mm(40), mm(12)))],
    ['an arch', made(arched({ width: mm(30), rise: mm(8) }, mm(20)))],
    [
      'a notch in the middle',
      made(
        withCuts(board, [
          { kind: 'notch', size: [mm(10), mm(5)], edge: 'top', along: undefined, repeat: undefined },
        ]),
      ),
    ],
    [
      'a notch at the middle of one end, turned end for end',
      made(
        withCuts(board, [
          { kind: 'notch', size: [mm(10), mm(5)], edge: 'left', along: undefined, repeat: undefined },
        ]),
      ),
    ],
  ])('are one for %s', (_, outline) => {
    expect(tellsHands(outline)).toBe(false);
  });

  it.each([
    ['a shoulder', shoulder],
    ['a wedge', made(polygon([at(0, 0), at(60, 0), at(0, 20)]))],
    ['a parallelogram', made(polygon([at(0, 0), at(50, 0), at(60, 20), at(10, 20)]))],
    ['a mark off the middle', withMarks(board, [{ kind: 'cross', at: at(10, 10) }])],
  ])('are two for %s', (_, outline) => {
    expect(tellsHands(outline)).toBe(true);
  });

  it('have one name wherever they lie and whichever way they were begun', () => {
    expect(outlineKey(laid(shoulder, shiftBy(at(7, 9))))).toBe(outlineKey(shoulder));
    expect(outlineKey(turned(turned(shoulder, 180), 180))).toBe(outlineKey(shoulder));
    expect(outlineKey(mirrored(mirrored(shoulder)))).toBe(outlineKey(shoulder));
    expect(outlineKey(mirrored(shoulder))).not.toBe(outlineKey(shoulder));
    const backwards = made(polygon([at(0, 20), at(60, 0), at(0, 0)]));
    expect(outlineKey(backwards)).toBe(outlineKey(made(polygon([at(0, 0), at(60, 0), at(0, 20)]))));
  });
});
