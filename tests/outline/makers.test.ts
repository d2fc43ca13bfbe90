import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compareRationals, multiply, rational, subtract, toFraction } from '../../src/measure/index.ts';
import type { Curve, Length, Outline } from '../../src/model/index.ts';
import { split } from '../../src/outline/curve.ts';
import {
  arched,
  areaOf,
  boxOf,
  circle,
  compassStepsOf,
  curvedLengthOf,
  heightsAt,
  largerAllRound,
  mirrored,
  ordinatesOf,
  path,
  perimeterOf,
  polygon,
  quarterRound,
  rectangle,
  slot,
  smallerAllRound,
  through,
  turned,
  wholeLess,
  wholeOfHalf,
} from '../../src/outline/index.ts';
import { at, corners, float, inch, made, middle, mm, roundsTo, told } from './drawing.ts';

describe('an arch', () => {
  // Source: r = c²/8h + h/2, by hand: 30²/80 + 5 = 16.25.
  it('is exact by its width and rise', () => {
    const outline = made(arched({ width: mm(30), rise: mm(10) }, mm(20)));
    const [step] = compassStepsOf(outline);
    expect(step).toMatchObject({
      radius: { lo: mm(65, 4), hi: mm(65, 4) },
      centre: { x: mm(15), y: mm(55, 4) },
      from: at(30, 20),
      to: at(0, 20),
    });
    expect(boxOf(outline).top).toEqual({ lo: mm(30), hi: mm(30) });
    expect(outline.within).toEqual(mm(0));
  });

  it('is the same by any two of its three sizes', () => {
    const sizes = [
      { width: mm(30), rise: mm(10) },
      { width: mm(30), radius: mm(65, 4) },
      { rise: mm(10), radius: mm(65, 4) },
    ];
    const [first, ...others] = sizes.map((it) => made(arched(it, mm(5))));
    for (const it of others) expect(it).toEqual(first);
  });

  it('is half a circle where the rise is half the width', () => {
    const outline = made(arched({ width: inch(3), rise: inch(3, 2) }, inch(2)));
    expect(compassStepsOf(outline)[0]?.centre).toEqual({ x: inch(3, 2), y: inch(2) });
  });

  // Source: 20 − √(20² − 15²) = 6.7712…, by hand.
  it('is held to a hair where its rise is not rational', () => {
    const outline = made(arched({ width: mm(30), radius: mm(20) }, mm(5)));
    expect(roundsTo(boxOf(outline).top, '11.7712')).toBe(true);
    expect(compassStepsOf(outline)[0]?.radius).toEqual({ lo: mm(20), hi: mm(20) });
    expect(outline.within.numerator > 0n).toBe(true);
  });

  it.each([
    [
      { width: mm(30), rise: mm(16) },
      'T02 arched.rise: a rise of 16 mm over 30 mm is more than half a circle | a rise of at most 15 mm, half the width',
    ],
    [
      { width: mm(30), radius: mm(14) },
      'T03 arched.radius: an arc of radius 14 mm does not reach over 30 mm | a radius of at least 15 mm, half of that',
    ],
    [
      { rise: mm(21), radius: mm(20) },
      'T02 arched.rise: a rise of 21 mm over 40 mm is more than half a circle | a rise of at most 20 mm, half the width',
    ],
    [{ width: mm(30), rise: mm(0) }, 'T01 arched.rise: the rise is 0 mm, and has to be above 0'],
    [
      { width: mm(-30), rise: mm(0) },
      'T01 arched.width: the width is -30 mm, and has to be above 0;T01 arched.rise: the rise is 0 mm, and has to be above 0',
    ],
  ])('says what would fit: %#', (size, words) => {
    expect(told(arched(size, mm(0))).join(';')).toBe(words);
  });
});

describe('a top edge through points', () => {
  const whole = (min: number, max: number) => fc.integer({ min, max });
  const points = fc
    .array(fc.tuple(whole(1, 40), whole(1, 60)), { minLength: 2, maxLength: 8 })
    .map((steps) => {
      let x = 0;
      return steps.map(([run, y]) => {
        x += run;
        return at(x, y);
      });
    });
  const end = fc.constantFrom('flat' as const, 'free' as const);
  const curvesOf = ({ rim }: Outline) => rim.filter((it): it is Curve => it.kind === 'curve').reverse();

  // Source: a quadratic in Bernstein form, d₀ (1−t)² + 2 d₁ t(1−t) + d₂ t², is nowhere below 0 exactly where d₀ and
  // d₂ are not, and d₁ is not or d₁² ≤ d₀·d₂; the slope of a cubic is one.
  it('rises where the points rise and falls where they fall, so it never passes them', () => {
    fc.assert(
      fc.property(points, end, end, (given, first, last) => {
        const outline = made(through(given, [first, last]));
        for (const { from, leaving, arriving, to } of curvesOf(outline)) {
          const rises = compareRationals(from.y, to.y) <= 0;
          const steps = [from, leaving, arriving, to].map(({ y }) => y);
          const slope = steps
            .slice(1)
            .map((y, i) => (rises ? subtract(y, steps[i]!) : subtract(steps[i]!, y)));
          const [a, b, c] = [slope[0]!, slope[1]!, slope[2]!];
          const [isUp, neverDown] = [
            [a, c].every(({ numerator }) => numerator >= 0n),
            b.numerator >= 0n || compareRationals(multiply(b, b), multiply(a, c)) <= 0,
          ];
          expect(isUp && neverDown).toBe(true);
          if (toFraction(from.y) === toFraction(to.y))
            expect([a, b, c].map(toFraction)).toEqual(['0', '0', '0']);
        }
      }),
    );
  });

  it('is as smooth at a point from either side, and goes through it exactly', () => {
    fc.assert(
      fc.property(points, end, end, (given, first, last) => {
        const outline = made(through(given, [first, last]));
        const curves = curvesOf(outline);
        curves.slice(1).forEach((right, i) => {
          const left = curves[i]!;
          // Drawn from right to left: the right piece comes to the point, the left one leaves it.
          expect(right.to).toEqual(left.from);
          const slope = (a: { x: Length; y: Length }, b: { x: Length; y: Length }) =>
            [subtract(b.y, a.y), subtract(b.x, a.x)] as const;
          const [dy, dx] = slope(right.arriving, right.to);
          const [ey, ex] = slope(left.from, left.leaving);
          expect(multiply(dy, ex)).toEqual(multiply(ey, dx));
        });
        for (const point of given)
          expect(heightsAt(outline, point.x)?.top).toEqual({ lo: point.y, hi: point.y });
      }),
    );
  });

  // Source: scipy 1.17.1, scipy.interpolate.PchipInterpolator (the same slopes inside), at the points below; its
  // ends are drawn by another rule, so only the pieces between inner points are compared.
  it.each([
    [25, 10.341614625450477],
    [30, 14.39169424454728],
    [45, 27.954391735016767],
    [60, 31.418781725888326],
  ])('agrees with an independent library at %s mm', (along, expected) => {
    const outline = made(
      through([at(0, 5), at(20, 8), at(50, 30), at(70, 32), at(90, 10)], ['free', 'free']),
    );
    expect(middle(heightsAt(outline, mm(along))!.top)).toBeCloseTo(expected, 9);
  });

  // Source: de Casteljau's construction; from memory.
  it('is as high as its two parts begin where it is parted there, to the last figure', () => {
    fc.assert(
      fc.property(points, end, end, fc.integer({ min: 1, max: 96 }), (given, first, last, of97) => {
        const outline = made(through(given, [first, last]));
        const share = rational(BigInt(of97), 97n);
        for (const piece of outline.rim.filter((it) => it.kind === 'curve')) {
          const { x, y } = split(piece, share)[0].to;
          expect(heightsAt(outline, x)?.top).toEqual({ lo: y, hi: y });
        }
      }),
    );
  });

  it('is straight through points on a straight line', () => {
    const outline = made(through([at(0, 10), at(10, 15), at(40, 30)], ['free', 'free']));
    expect(areaOf(outline).lo).toEqual(mm(800));
    for (const { top, along } of ordinatesOf(outline, mm(7))) {
      expect(top.lo).toEqual(add(mm(10), multiply(along, rational(1n, 2n))));
    }
  });

  // Source: Simpson's rule is exact on cubics; three ordinates of each piece.
  it('has the area that Simpson finds for it', () => {
    fc.assert(
      fc.property(points, end, end, (given, first, last) => {
        const outline = made(through(given, [first, last]));
        let sum = rational(0n);
        given.slice(1).forEach((to, i) => {
          const from = given[i]!;
          const half = multiply(add(from.x, to.x), rational(1n, 2n)) as Length;
          const ordinate = heightsAt(outline, half)!.top.lo;
          const six = add(add(from.y, to.y), multiply(rational(4n), ordinate));
          sum = add(sum, multiply(subtract(to.x, from.x), multiply(six, rational(1n, 6n))));
        });
        expect(areaOf(outline)).toEqual({ lo: sum, hi: sum });
      }),
    );
  });

  it('may end on its base as a wedge does, and nowhere else', () => {
    expect(corners(made(through([at(0, 0), at(60, 20)], ['flat', 'flat'])))).toEqual([
      [0, 0],
      [60, 0],
      [60, 20],
    ]);
    expect(told(through([at(0, 5), at(20, 0), at(40, 5)], ['free', 'free']))).toEqual([
      'T07 through.1: the top edge is 0 mm high at point 2, so nothing is left there | heights above 0; only the first or the last may be 0',
    ]);
  });

  it('refuses points out of order, all of them in one run', () => {
    expect(told(through([at(0, 5), at(20, 6), at(20, 7), at(15, 5)], ['free', 'free']))).toEqual([
      'T06 through.2: point 3 lies 20 mm along, not to the right of the one before it at 20 mm | give the points from left to right',
      'T06 through.3: point 4 lies 15 mm along, not to the right of the one before it at 20 mm | give the points from left to right',
    ]);
    expect(told(through([at(0, 5)], ['free', 'free']))).toEqual([
      'T04 through: 1 point, where at least 2 are needed',
    ]);
  });
});

describe('a path', () => {
  it('takes lines, arcs and curves, and closes itself', () => {
    const outline = made(
      path({ x: inch(0), y: inch(0) }, [
        { kind: 'line', to: { x: inch(3), y: inch(0) } },
        { kind: 'arc', to: { x: inch(3), y: inch(1) }, rise: inch(1, 4), swells: 'right' },
        {
          kind: 'curve',
          through: [
            { x: inch(2), y: inch(3, 2) },
            { x: inch(0), y: inch(2) },
          ],
        },
      ]),
    );
    expect(outline.rim.map(({ kind }) => kind)).toEqual(['line', 'arc', 'curve', 'curve', 'line']);
    expect(boxOf(outline).right).toEqual({ lo: inch(13, 4), hi: inch(13, 4) });
  });

  // Source: an ogee of two quarter circles that swell to either side: its area is that of its half square, by
  // symmetry; its length is half a circle's.
  // Source: computed: r = c²/8h + h/2 = 17/16, and the segment is (r²(θ − sin θ))/2 with θ = 2π − 2 asin(c/2r).
  it('draws more than half a circle where the rise is above half the chord, wider than the chord', () => {
    const outline = made(
      path(at(0, 0), [
        { kind: 'line', to: at(3, 0) },
        { kind: 'line', to: at(3, 1) },
        { kind: 'arc', to: at(2, 1), rise: mm(2), swells: 'right' },
        { kind: 'line', to: at(0, 1) },
      ]),
    );
    const { left, right, bottom, top } = boxOf(outline);
    expect([left.lo, right.hi, bottom.lo, top.hi]).toEqual([mm(0), mm(57, 16), mm(0), mm(3)]);
    const [radius, turn] = [17 / 16, 2 * Math.PI - 2 * Math.asin(8 / 17)];
    const area = 3 + (radius ** 2 * (turn - Math.sin(turn))) / 2;
    expect(middle(areaOf(outline))).toBeCloseTo(area, 9);
  });

  it('draws an ogee by two arcs', () => {
    const outline = made(
      path(at(0, 0), [
        { kind: 'line', to: at(20, 0) },
        { kind: 'arc', to: at(10, 10), radius: mm(10), swells: 'left' },
        { kind: 'arc', to: at(0, 20), radius: mm(10), swells: 'right' },
      ]),
    );
    expect(middle(areaOf(outline))).toBeCloseTo(200, 10);
    expect(roundsTo(curvedLengthOf(outline), '31.4159265')).toBe(true);
    expect(compassStepsOf(outline).map(({ centre }) => centre)).toEqual([at(20, 10), at(0, 10)]);
    expect(outline.within).toEqual(mm(0));
  });

  it('is the same whichever way round it is drawn', () => {
    const there = made(
      path(at(0, 0), [
        { kind: 'line', to: at(20, 0) },
        { kind: 'arc', to: at(20, 10), rise: mm(2), swells: 'right' },
        { kind: 'line', to: at(0, 10) },
      ]),
    );
    const back = made(
      path(at(0, 0), [
        { kind: 'line', to: at(0, 10) },
        { kind: 'line', to: at(20, 10) },
        { kind: 'arc', to: at(20, 0), rise: mm(2), swells: 'left' },
      ]),
    );
    expect(areaOf(back)).toEqual(areaOf(there));
    expect(boxOf(back)).toEqual(boxOf(there));
  });

  it.each([
    [
      'a radius that does not reach',
      [
        { kind: 'line', to: at(20, 0) },
        { kind: 'arc', to: at(20, 10), radius: mm(4), swells: 'right' },
      ],
      [
        'T03 path.2.radius: an arc of radius 4 mm does not reach over 10 mm | a radius of at least 5 mm, half of that',
      ],
    ],
    [
      'a rise of nothing',
      [
        { kind: 'line', to: at(20, 0) },
        { kind: 'arc', to: at(20, 10), rise: mm(0), swells: 'right' },
      ],
      ['T01 path.2.rise: the rise is 0 mm, and has to be above 0'],
    ],
    [
      'a point given twice',
      [
        { kind: 'line', to: at(20, 0) },
        { kind: 'line', to: at(20, 0) },
        { kind: 'line', to: at(0, 9) },
      ],
      ['T05 path.2: point 3, [20 mm, 0 mm], is where point 2 is | leave one of the two out'],
    ],
    [
      'a loop',
      [
        { kind: 'line', to: at(20, 10) },
        { kind: 'line', to: at(20, 0) },
        { kind: 'line', to: at(0, 10) },
      ],
      [
        'T08 path: the outline crosses itself near [10 mm, 5 mm], where its pieces 1 and 3 meet | take the points in the order in which the edge runs',
      ],
    ],
    [
      'a curve that runs over another edge',
      [
        { kind: 'line', to: at(20, 0) },
        { kind: 'curve', through: [at(10, -5), at(5, 0), at(0, 10)] },
      ],
      [
        'T08 path: the outline crosses itself near [5 mm, 0 mm], where its pieces 1 and 3 meet | take the points in the order in which the edge runs',
      ],
    ],
  ] as const)('refuses %s', (_, steps, words) => {
    expect(told(path(at(0, 0), steps))).toEqual(words);
  });

  it('shows a span that is not rational rounded up', () => {
    const steps = [
      { kind: 'line', to: at(20, 0) },
      { kind: 'arc', to: at(30, 10), radius: mm(4), swells: 'right' },
    ] as const;
    // Source: √200 = 14.1421…, its half 7.0710…
    expect(told(path(at(0, 0), steps))).toEqual([
      'T03 path.2.radius: an arc of radius 4 mm does not reach over 14.15 mm | a radius of at least 7.08 mm, half of that',
    ]);
  });
});

describe('a polygon', () => {
  it.each([
    ['two points', [at(0, 0), at(1, 1)], 'T04 polygon: 2 points, where at least 3 are needed'],
    [
      'coincident points',
      [at(0, 0), at(9, 0), at(9, 0), at(0, 9)],
      'T05 polygon.2: point 3, [9 mm, 0 mm], is where point 2 is | leave one of the two out',
    ],
    [
      'an end on its start',
      [at(0, 0), at(9, 0), at(0, 9), at(0, 0)],
      'T05 polygon.3: point 4, [0 mm, 0 mm], is where point 1 is | leave one of the two out',
    ],
    [
      'a crossing',
      [at(0, 0), at(10, 10), at(10, 0), at(0, 10)],
      'T08 polygon: the outline crosses itself near [5 mm, 5 mm], where its pieces 1 and 3 meet | take the points in the order in which the edge runs',
    ],
    [
      'a way back over itself',
      [at(0, 0), at(10, 0), at(5, 0), at(5, 5)],
      'T08 polygon: the outline crosses itself near [5 mm, 0 mm], where its pieces 1 and 2 meet | take the points in the order in which the edge runs',
    ],
    ['a line', [at(0, 0), at(10, 10), at(5, 5)], 'T09 polygon: all points of the outline lie on one line'],
  ])('of %s is refused', (_, points, words) => {
    expect(told(polygon(points))).toEqual([words]);
  });
});

describe('what is made of an outline', () => {
  const l = made(polygon([at(0, 0), at(40, 0), at(40, 10), at(10, 10), at(10, 30), at(0, 30)]));

  it('is its other hand', () => {
    expect(corners(mirrored(l))).toContainEqual([40, 30]);
    expect(corners(mirrored(l))).not.toContainEqual([0, 30]);
    expect(areaOf(mirrored(l))).toEqual(areaOf(l));
    expect(corners(mirrored(mirrored(l))).length).toBe(6);
    expect(boxOf(mirrored(l))).toEqual(boxOf(l));
  });

  it('is turned to the left and put back on the datum', () => {
    expect(corners(turned(l, 90))).toEqual([
      [30, 0],
      [30, 40],
      [20, 40],
      [20, 10],
      [0, 10],
      [0, 0],
    ]);
    expect(turned(turned(l, 90), 270)).toEqual(l);
    expect(turned(turned(l, 180), 180)).toEqual(l);
    expect(made(slot(mm(10), mm(30)))).toEqual(turned(made(slot(mm(30), mm(10))), 90));
  });

  it('is whole, given half', () => {
    const half = made(polygon([at(0, 0), at(20, 0), at(20, 30), at(10, 30)]));
    const whole = made(wholeOfHalf(half));
    expect([...corners(whole)].sort()).toEqual([
      [0, 0],
      [10, 30],
      [30, 30],
      [40, 0],
    ]);
    expect(middle(areaOf(made(wholeOfHalf(mirrored(made(quarterRound(mm(10))))))))).toBeCloseTo(
      (100 * Math.PI) / 2,
      9,
    );
  });

  it('refuses a half without an edge to join on', () => {
    expect(told(wholeOfHalf(made(quarterRound(mm(10)))))).toEqual([
      'T18 half: the half has no edge on its right side, where its mirror image joins on | let the half end in a straight edge on its right',
    ]);
  });

  // Source: by hand: two circles that touch in a point are two pieces.
  it.each([
    ['a circle', circle(mm(20))],
    ['a slot', slot(mm(30), mm(10))],
    ['a point', polygon([at(0, 0), at(10, 5), at(0, 10)])],
  ])('is refused where the two halves would only touch in a point: %s', (_, half) => {
    expect(told(wholeOfHalf(made(half)))).toHaveLength(1);
  });

  it('is an infill: its hole, smaller all round', () => {
    const hole = made(arched({ width: mm(30), rise: mm(15) }, mm(20)));
    const infill = made(smallerAllRound(hole, mm(1, 2)));
    expect(boxOf(infill).left.lo).toEqual(mm(1, 2));
    expect(boxOf(infill).top).toEqual({ lo: mm(69, 2), hi: mm(69, 2) });
    expect(compassStepsOf(infill)[0]?.radius.lo).toEqual(mm(29, 2));
    expect(infill.within).toEqual(mm(0));
    expect(told(smallerAllRound(hole, mm(15)))).toEqual([
      'T15 smaller all round: nothing is left of the outline when it is 15 mm smaller all round',
    ]);
    expect(told(largerAllRound(hole, mm(0)))).toEqual([
      'T01 larger all round: the measure is 0 mm, and has to be above 0',
    ]);
  });

  it('falls apart where its neck is too narrow', () => {
    const dumbbell = made(
      polygon([
        at(0, 0),
        at(20, 0),
        at(20, 8),
        at(40, 8),
        at(40, 0),
        at(60, 0),
        at(60, 20),
        at(40, 20),
        at(40, 12),
        at(20, 12),
        at(20, 20),
        at(0, 20),
      ]),
    );
    expect(told(smallerAllRound(dumbbell, mm(3)))).toEqual([
      'T16 smaller all round: the outline falls into 2 pieces when it is 3 mm smaller all round',
    ]);
  });

  it('has another cut away, with clearance all round', () => {
    const left = made(
      wholeLess(made(rectangle(mm(60), mm(40))), made(rectangle(mm(10), mm(10))), undefined, mm(1)),
    );
    expect(areaOf(left).lo).toEqual(mm(60 * 40 - 12 * 12));
    expect(left.holes.length).toBe(1);
    const atCorner = made(
      wholeLess(made(rectangle(mm(60), mm(40))), made(circle(mm(20))), at(-10, -10), mm(2)),
    );
    expect(middle(areaOf(atCorner))).toBeCloseTo(2400 - 36 * Math.PI, 8);
  });

  it('says what cutting away leaves nothing of, or nothing changed', () => {
    const [big, small] = [made(rectangle(mm(60), mm(40))), made(rectangle(mm(10), mm(10)))];
    expect(told(wholeLess(small, big, undefined, mm(0)))).toEqual([
      'T15 cut away: nothing is left of the outline when the other is cut away',
    ]);
    expect(told(wholeLess(big, made(rectangle(mm(10), mm(40))), at(20, 0), mm(0)))).toEqual([
      'T16 cut away: the outline falls into 2 pieces when the other is cut away',
    ]);
    expect(told(wholeLess(big, small, at(70, 0), mm(0)))).toEqual([
      'T19 cut away: the outline cut away takes nothing away',
    ]);
  });
});

describe('turning, mirroring and scaling', () => {
  const shapes = [
    made(arched({ width: mm(30), rise: mm(8) }, mm(20))),
    made(through([at(0, 20), at(20, 35), at(50, 30), at(90, 5)], ['flat', 'free'])),
    made(slot(mm(40), mm(12))),
  ];

  it.each(shapes.map((it, i) => [i, it] as const))('change no area and no perimeter of shape %s', (_, it) => {
    for (const other of [mirrored(it), turned(it, 90), turned(it, 180), turned(it, 270)]) {
      expect(areaOf(other)).toEqual(areaOf(it));
      expect(Math.abs(float(perimeterOf(other).lo) - float(perimeterOf(it).lo))).toBeLessThan(1e-12);
    }
  });
});
