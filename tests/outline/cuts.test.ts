import { describe, expect, it } from 'vitest';
import { zero } from '../../src/measure/index.ts';
import type { BoxSide, Corner, Length } from '../../src/model/index.ts';
import {
  arched,
  areaOf,
  boxOf,
  type Cut,
  circle,
  compassStepsOf,
  marksAlong,
  polygon,
  quarterRound,
  rectangle,
  through,
  withCuts,
  withMarks,
} from '../../src/outline/index.ts';
import { at, corners, float, made, middle, mm, told } from './drawing.ts';

const board = made(rectangle(mm(80), mm(40)));
const each = (...sizes: readonly (readonly [Corner, Length])[]) => new Map(sizes);
const low = (clear: number) => ({ end: 'low', clear: mm(clear) }) as const;
const high = (clear: number) => ({ end: 'high', clear: mm(clear) }) as const;

function notch(
  edge: BoxSide,
  size: readonly [number, number],
  rest: Partial<Extract<Cut, { kind: 'notch' }>> = {},
): Cut {
  return {
    kind: 'notch',
    size: [mm(size[0]), mm(size[1])],
    edge,
    along: undefined,
    repeat: undefined,
    ...rest,
  };
}

describe('corners', () => {
  it('are rounded each by its own radius, the arcs exact', () => {
    const outline = made(
      withCuts(board, [{ kind: 'round', corners: each(['top left', mm(6)], ['bottom right', mm(10)]) }]),
    );
    expect(compassStepsOf(outline)).toMatchObject([
      { centre: at(70, 10), radius: { lo: mm(10), hi: mm(10) }, from: at(70, 0), to: at(80, 10) },
      { centre: at(6, 34), radius: { lo: mm(6), hi: mm(6) }, from: at(6, 40), to: at(0, 34) },
    ]);
    // Source: each corner loses r² (1 − π/4).
    expect(middle(areaOf(outline))).toBeCloseTo(3200 - 136 * (1 - Math.PI / 4), 9);
    expect(outline.within).toEqual(zero);
  });

  it('are all rounded by one measure, up to a slot', () => {
    const outline = made(withCuts(board, [{ kind: 'round', corners: mm(20) }]));
    expect(outline.rim.map(({ kind }) => kind).sort()).toEqual(['arc', 'arc', 'arc', 'arc', 'line', 'line']);
    expect(middle(areaOf(outline))).toBeCloseTo(40 * 40 + 400 * Math.PI, 9);
  });

  it('are clipped straight', () => {
    const outline = made(withCuts(board, [{ kind: 'clip', corners: mm(5) }]));
    expect(corners(outline)).toContainEqual([5, 0]);
    expect(areaOf(outline).lo).toEqual(mm(3200 - 4 * 12.5));
  });

  it('that have no room are refused with what there is', () => {
    expect(
      told(
        withCuts(board, [{ kind: 'round', corners: each(['top left', mm(25)], ['bottom left', mm(16)]) }]),
      ),
    ).toEqual([
      'T10 cuts.0.round: the corners take 41 mm of the left side, which is 40 mm long | corners that come to at most 40 mm together',
    ]);
    expect(told(withCuts(board, [{ kind: 'clip', corners: mm(41) }]))).toEqual([
      'T10 cuts.0.clip: the corners take 82 mm of the bottom side, which is 80 mm long | corners that come to at most 80 mm together',
      'T10 cuts.0.clip: the corners take 82 mm of the right side, which is 40 mm long | corners that come to at most 40 mm together',
      'T10 cuts.0.clip: the corners take 82 mm of the top side, which is 80 mm long | corners that come to at most 80 mm together',
      'T10 cuts.0.clip: the corners take 82 mm of the left side, which is 40 mm long | corners that come to at most 40 mm together',
    ]);
  });

  it('that are not there are refused, and radii of nothing', () => {
    const drain = made(arched({ width: mm(30), rise: mm(10) }, mm(20)));
    expect(told(withCuts(drain, [{ kind: 'round', corners: each(['top left', mm(3)]) }]))).toEqual([
      'T11 cuts.0.round.top left: the outline has no square corner at its top left | round and clip take a square corner of the box around the outline',
    ]);
    expect(told(withCuts(made(circle(mm(9))), [{ kind: 'clip', corners: mm(3) }]))).toEqual([
      'T11 cuts.0.clip: the outline has no square corner | round and clip take a square corner of the box around the outline',
    ]);
    expect(told(withCuts(drain, [{ kind: 'round', corners: each(['bottom left', mm(-3)]) }]))).toEqual([
      'T01 cuts.0.round.bottom left: the radius is -3 mm, and has to be above 0',
    ]);
  });
});

describe('notches', () => {
  it.each([
    [
      'bottom',
      [
        [30, 0],
        [30, 5],
        [50, 5],
        [50, 0],
      ],
    ],
    [
      'top',
      [
        [30, 40],
        [30, 35],
        [50, 35],
        [50, 40],
      ],
    ],
    [
      'left',
      [
        [0, 10],
        [5, 10],
        [5, 30],
        [0, 30],
      ],
    ],
    [
      'right',
      [
        [80, 10],
        [75, 10],
        [75, 30],
        [80, 30],
      ],
    ],
  ] as const)('at the %s lie in its middle, unless told', (edge, expected) => {
    const outline = made(withCuts(board, [notch(edge, [20, 5])]));
    for (const corner of expected) expect(corners(outline)).toContainEqual(corner);
    expect(areaOf(outline).lo).toEqual(mm(3100));
  });

  it('lie clear of the end that is told, and repeat from there', () => {
    const repeat = { times: 3, every: mm(15) };
    const fromLeft = made(withCuts(board, [notch('top', [10, 5], { along: low(4), repeat })]));
    expect(marksAlong(fromLeft, 'top').map(float)).toEqual([0, 4, 14, 19, 29, 34, 44, 80]);
    const fromRight = made(
      withCuts(board, [notch('top', [10, 5], { along: high(0), repeat: { times: 2, apart: mm(5) } })]),
    );
    expect(marksAlong(fromRight, 'top').map(float)).toEqual([0, 55, 65, 70]);
    const centred = made(withCuts(board, [notch('bottom', [10, 5], { repeat })]));
    expect(marksAlong(centred, 'bottom').map(float)).toEqual([0, 20, 30, 35, 45, 50, 60, 80]);
  });

  it('are refused where they sever the part, and say how', () => {
    expect(told(withCuts(board, [notch('top', [10, 40])]))).toEqual([
      'T20 cuts.0.notch.size: the notch is 40 mm deep, and the part only 40 mm | less than 40 mm',
    ]);
    const both = [notch('top', [10, 25]), notch('bottom', [10, 20])];
    expect(told(withCuts(board, both))).toEqual([
      'T13 cuts.1.notch.size: the notch, 20 mm deep, severs the part into 2 pieces | less than 15 mm deep, another place for it, or two parts',
    ]);
    // 40 mm less 27/64 in is 29.284375 mm, and what is less deep than the rest leaves it whole: computed.
    const odd: Cut[] = [
      { kind: 'notch', edge: 'top', along: undefined, repeat: undefined, size: [mm(10), mm(29284375, 1e6)] },
      notch('bottom', [10, 20]),
    ];
    expect(told(withCuts(board, odd), 'in')).toEqual([
      'T13 cuts.1.notch.size: the notch, 100/127 in deep, severs the part into 2 pieces | less than 27/64 in deep, another place for it, or two parts',
    ]);
    // As deep as the board is high between them, they meet along a whole edge.
    const touching = [notch('top', [10, 25]), notch('bottom', [10, 15])];
    expect(told(withCuts(board, touching))[0]).toContain('less than 15 mm deep');
    expect(told(withCuts(board, [notch('top', [10, 25]), notch('bottom', [10, 14])]))).toEqual([]);
  });

  it('are refused where they do not fit their edge, all in one run', () => {
    const cuts = [
      notch('top', [81, 5]),
      notch('left', [20, 5], { along: low(25) }),
      notch('bottom', [10, 5], { repeat: { times: 3, every: mm(10) } }),
      notch('bottom', [0, -5]),
    ];
    expect(told(withCuts(board, cuts))).toEqual([
      'T12 cuts.0.notch.size: the notch takes 81 mm along the top edge, which is 80 mm long | at most 80 mm in all',
      'T12 cuts.1.notch.size: the notch takes 45 mm along the left edge, which is 40 mm long | at most 40 mm in all',
      'T17 cuts.2.every: the notch is 10 mm wide and is repeated every 10 mm | every more than 10 mm',
      'T01 cuts.3.notch.size.0: the length of the notch is 0 mm, and has to be above 0',
      'T01 cuts.3.notch.size.1: the depth of the notch is -5 mm, and has to be above 0',
    ]);
  });

  it('warn where there is nothing to take away', () => {
    const l = made(polygon([at(0, 0), at(80, 0), at(80, 10), at(10, 10), at(10, 40), at(0, 40)]));
    const { value, faults } = withCuts(l, [notch('top', [20, 10], { along: high(5) })]);
    expect(told({ value, faults })).toEqual(['T19 cuts.0.notch.size: the notch takes nothing away']);
    expect(value).toEqual(l);
  });

  it('go into a curved top as into a straight one', () => {
    const shoulder = made(through([at(0, 10), at(40, 20), at(80, 40)], ['flat', 'flat']));
    const outline = made(
      withCuts(shoulder, [notch('bottom', [10, 5]), notch('right', [10, 5], { along: low(5) })]),
    );
    expect(middle(areaOf(shoulder)) - middle(areaOf(outline))).toBeCloseTo(100, 9);
    expect(outline.within).toEqual(zero);
  });
});

describe('arches', () => {
  const arch: Cut = {
    kind: 'arch',
    size: { width: mm(20), rise: mm(10) },
    sides: mm(3),
    edge: 'bottom',
    along: undefined,
    repeat: undefined,
  };

  it('are open at their edge', () => {
    const outline = made(withCuts(board, [arch]));
    expect(compassStepsOf(outline)).toMatchObject([{ centre: at(40, 3), from: at(30, 3), to: at(50, 3) }]);
    expect(middle(areaOf(outline))).toBeCloseTo(3200 - 60 - 50 * Math.PI, 9);
    expect(marksAlong(outline, 'bottom').map(float)).toEqual([0, 30, 50, 80]);
  });

  it('may spring from the edge itself', () => {
    const outline = made(withCuts(board, [{ ...arch, sides: zero, edge: 'right' }]));
    expect(compassStepsOf(outline)).toMatchObject([{ centre: at(80, 20), from: at(80, 10), to: at(80, 30) }]);
  });

  it('are refused as arched outlines are, at the place of the cut', () => {
    expect(told(withCuts(board, [{ ...arch, size: { width: mm(20), rise: mm(11) } }]))).toEqual([
      'T02 cuts.0.arch.rise: a rise of 11 mm over 20 mm is more than half a circle | a rise of at most 10 mm, half the width',
    ]);
    expect(told(withCuts(board, [{ ...arch, size: { width: mm(90), rise: mm(11) } }]))).toEqual([
      'T12 cuts.0.arch: the arch takes 90 mm along the bottom edge, which is 80 mm long | at most 80 mm in all',
    ]);
    expect(told(withCuts(board, [{ ...arch, sides: mm(30) }]))).toEqual([
      'T20 cuts.0.arch: the arch is 40 mm deep, and the part only 40 mm | less than 40 mm',
    ]);
  });
});

describe('holes', () => {
  const drill = made(circle(mm(10)));
  const hole = (rest: Partial<Extract<Cut, { kind: 'hole' }>> = {}): Cut => ({
    kind: 'hole',
    outline: drill,
    place: { along: undefined, up: undefined },
    repeat: undefined,
    ...rest,
  });

  it('lie in the middle, clear of sides, or by their own middle', () => {
    const centres = (cut: Cut) => made(withCuts(board, [cut])).marks;
    expect(centres(hole())).toEqual([{ kind: 'cross', at: at(40, 20) }]);
    expect(centres(hole({ place: { along: low(4), up: high(2) } }))).toEqual([
      { kind: 'cross', at: at(9, 33) },
    ]);
    expect(centres(hole({ place: { centre: at(30, 12) }, repeat: { times: 3, every: mm(15) } }))).toEqual(
      [30, 45, 60].map((x) => ({ kind: 'cross', at: at(x, 12) })),
    );
  });

  it('take their area, whatever their outline', () => {
    const outline = made(
      withCuts(board, [
        hole(),
        hole({ outline: made(quarterRound(mm(10))), place: { along: low(5), up: low(5) } }),
      ]),
    );
    expect(middle(areaOf(outline))).toBeCloseTo(3200 - 25 * Math.PI - 25 * Math.PI, 9);
    expect(boxOf(outline)).toEqual(boxOf(board));
  });

  it('of which a repeat is not inside are told which it is, and how many are', () => {
    const repeat = { times: 6, every: mm(15) };
    const [fromLeft] = told(withCuts(board, [hole({ place: { along: low(4), up: undefined }, repeat })]));
    // The sixth of six, 10 wide, begins at 4 + 5 x 15 = 79 of 80: computed.
    expect(fromLeft).toMatch(
      /^T14 cuts\.0\.times: hole 6 of 6 runs over the edge of the part, or touches it: it takes 79 mm to 89 mm along .*\| times: 5, or keep clear/,
    );
    // In the middle together they reach from -2.5 on, and fewer would lie elsewhere.
    const [centred] = told(withCuts(board, [hole({ repeat })]));
    expect(centred).toMatch(/^T14 cuts\.0\.hole: hole 1 of 6 runs over the edge of the part.*\| keep clear/);
  });

  it('are refused outside, over the edge and over each other', () => {
    const cuts = [
      hole({ place: { centre: at(90, 50) } }),
      hole({ place: { along: low(0), up: undefined } }),
      hole({ place: { centre: at(78, 20) } }),
      hole(),
      hole({ place: { centre: at(45, 20) } }),
      hole({ outline: made(circle(mm(30))) }),
      hole({ outline: made(circle(mm(3))) }),
      hole({ place: { along: low(20), up: undefined }, repeat: { times: 2, every: mm(9) } }),
    ];
    expect(told(withCuts(board, cuts))).toEqual([
      'T14 cuts.0.hole: the hole lies outside the part: it takes 85 mm to 95 mm along and 45 mm to 55 mm up | keep clear of the edges of the part, which is 80 mm × 40 mm; a notch or an arch is open at its edge',
      'T14 cuts.1.hole: the hole runs over the edge of the part, or touches it: it takes 0 mm to 10 mm along and 15 mm to 25 mm up | keep clear of the edges of the part, which is 80 mm × 40 mm; a notch or an arch is open at its edge',
      'T14 cuts.2.hole: the hole runs over the edge of the part, or touches it: it takes 73 mm to 83 mm along and 15 mm to 25 mm up | keep clear of the edges of the part, which is 80 mm × 40 mm; a notch or an arch is open at its edge',
      'T14 cuts.4.hole: the hole runs into another hole, or touches it: it takes 40 mm to 50 mm along and 15 mm to 25 mm up',
      'T14 cuts.5.hole: the hole runs into another hole, or touches it: it takes 25 mm to 55 mm along and 5 mm to 35 mm up',
      'T14 cuts.6.hole: the hole runs into another hole, or touches it: it takes 38.5 mm to 41.5 mm along and 18.5 mm to 21.5 mm up',
      'T17 cuts.7.every: the hole is 10 mm wide and is repeated every 9 mm | every more than 10 mm',
    ]);
  });
});

describe('marks', () => {
  it('are drawn on the outline and cut nothing', () => {
    const outline = withMarks(board, [
      { kind: 'centre line', runs: 'length' },
      { kind: 'centre line', runs: 'width' },
      { kind: 'line', from: at(0, 10), to: at(80, 10) },
      { kind: 'cross', at: at(15, 15) },
    ]);
    expect(outline.marks).toEqual([
      { kind: 'centre line', from: at(0, 20), to: at(80, 20) },
      { kind: 'centre line', from: at(40, 0), to: at(40, 40) },
      { kind: 'line', from: at(0, 10), to: at(80, 10) },
      { kind: 'cross', at: at(15, 15) },
    ]);
    expect(outline.rim).toEqual(board.rim);
  });
});
