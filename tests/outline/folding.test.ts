import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { rational, toFraction } from '../../src/measure/index.ts';
import type { FoldAngle, FoldMaking, FoldWay, Length, NonEmpty, Rational } from '../../src/model/index.ts';
import {
  areaOf,
  boxOf,
  degreesOf,
  type Fold,
  flattened,
  foldedBlank,
  foldedStrip,
  mitreOf,
  type Strip,
  trayBlank,
  turnOf,
} from '../../src/outline/index.ts';
import { float, made, middle, mm, told, width } from './drawing.ts';

const degrees = (over: number, under = 1): FoldAngle => ({
  kind: 'degrees',
  degrees: rational(BigInt(over), BigInt(under)),
});
const pitch = (rise: number, run: number): FoldAngle => ({
  kind: 'pitch',
  rise: rational(BigInt(rise)),
  run: rational(BigInt(run)),
});
const fold = (angle: FoldAngle, way: FoldWay = 'away', by: Fold['made'] = 'score'): Fold => ({
  angle,
  way,
  made: by,
});
const strip = (panels: readonly number[], folds: readonly Fold[], thickness = 1.5): Strip => ({
  panels: panels.map((it) => mm(it * 2, 2)) as unknown as NonEmpty<Length>, // never without a panel
  folds,
  thickness: mm(thickness * 2, 2),
});
const isKnown = ({ lo, hi }: { lo: Rational; hi: Rational }) => toFraction(lo) === toFraction(hi);
const exact = ({ lo, hi }: { lo: Length; hi: Length }): string =>
  toFraction(lo) === toFraction(hi) ? toFraction(lo) : 'between';

describe('how far a fold turns', () => {
  it('is exact where sine and cosine are rational', () => {
    // Source: Niven, Irrational Numbers (1956), theorem on rational degrees: of these, sine and cosine are both
    // rational at multiples of 90 alone; slopes of Pythagorean triples. From memory.
    for (const [angle, sine, cosine] of [
      [degrees(90), '1', '0'],
      [pitch(3, 4), '3/5', '4/5'],
      [pitch(24, 7), '24/25', '7/25'],
      [pitch(5, -12), '5/13', '-12/13'],
    ] as const) {
      const turn = turnOf(angle);
      expect([turn.sine, turn.cosine].map(({ lo, hi }) => [lo, hi].map(toFraction))).toEqual([
        [sine, sine],
        [cosine, cosine],
      ]);
    }
    expect(toFraction(mitreOf(turnOf(pitch(24, 7))).lo)).toBe('3/4');
    expect(isKnown(turnOf(degrees(60)).sine)).toBe(false);
  });

  it('holds the sine and cosine of any other, within 2^-80', () => {
    // Source: Math.sin and Math.cos of the machine.
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 17_999 }), (hundredths) => {
        const { sine, cosine } = turnOf(degrees(hundredths, 100));
        const radians = (hundredths / 100 / 180) * Math.PI;
        expect(middle(sine)).toBeCloseTo(Math.sin(radians), 13);
        expect(middle(cosine)).toBeCloseTo(Math.cos(radians), 13);
        expect(width(sine)).toBeLessThan(2 ** -80);
        expect(width(cosine)).toBeLessThan(2 ** -80);
        expect(middle(mitreOf({ sine, cosine })) / Math.tan(radians / 2)).toBeCloseTo(1, 11);
      }),
    );
  });

  it('tells a slope in degrees', () => {
    // Source: Math.atan2 of the machine.
    for (const [rise, run] of [
      [3, 4],
      [24, 7],
      [1, 0],
      [2, -3],
    ] as const) {
      expect(middle(degreesOf(pitch(rise, run)))).toBeCloseTo((Math.atan2(rise, run) / Math.PI) * 180, 12);
    }
  });
});

interface Spot {
  readonly x: number;
  readonly y: number;
}

const depths: Readonly<Record<FoldMaking, number>> = { score: 1, crease: 0.5, groove: 0 };

/**
 * Folds a blank as a hand does: stiff slabs, each turned about a hinge that lies so deep under the outer face. In
 * floats, and without a word of the program's.
 *
 * @returns the corners of each slab, [under from, under to, good to, good from]
 */
function slabsOf(
  lines: readonly number[],
  length: number,
  thickness: number,
  folds: readonly { readonly turn: number; readonly depth: number }[],
): readonly (readonly Spot[])[] {
  let heading = 0;
  let origin: Spot = { x: 0, y: 0 };
  const ends = [...lines, length];
  let before = 0;
  return ends.map((end, i) => {
    const onward = { x: Math.cos(heading), y: Math.sin(heading) };
    const at = (along: number, up: number): Spot => ({
      x: origin.x + along * onward.x - up * onward.y,
      y: origin.y + along * onward.y + up * onward.x,
    });
    const long = end - before;
    before = end;
    const corners = [at(0, 0), at(long, 0), at(long, thickness), at(0, thickness)];
    const next = folds[i];
    if (next !== undefined) {
      // Away from the good side, the outer face is the good one.
      const up = next.turn < 0 ? thickness * (1 - next.depth) : thickness * next.depth;
      const hinge = at(long, up);
      heading += next.turn;
      origin = { x: hinge.x + up * Math.sin(heading), y: hinge.y - up * Math.cos(heading) };
    }
    return corners;
  });
}

/** Where two lines cross. */
function crossing([a, b]: readonly [Spot, Spot], [c, d]: readonly [Spot, Spot]): Spot {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const share = ((c.x - a.x) * vy - (c.y - a.y) * vx) / (ux * vy - uy * vx);
  return { x: a.x + ux * share, y: a.y + uy * share };
}

const apart = (a: Spot, b: Spot) => Math.hypot(a.x - b.x, a.y - b.y);

const makings: readonly FoldMaking[] = ['score', 'crease', 'groove'];
const anyAngle = fc.oneof(
  fc.constant(degrees(90)),
  fc.integer({ min: 20, max: 1300 }).map((it) => degrees(it, 10)),
  fc.tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: -10, max: 20 })).map(([a, b]) => pitch(a, b)),
);
/** Strips with room for their folds; some run into themselves. */
const anyStrip = fc.integer({ min: 1, max: 5 }).chain((count) =>
  fc
    .record({
      panels: fc.array(fc.integer({ min: 20, max: 90 }), { minLength: count + 1, maxLength: count + 1 }),
      folds: fc.array(fc.tuple(anyAngle, fc.constantFrom<FoldWay>('away', 'toward')), {
        minLength: count,
        maxLength: count,
      }),
      by: fc.constantFrom(...makings),
      thickness: fc.constantFrom(0.5, 1, 1.5),
    })
    .map(({ panels, folds, by, thickness }) => ({
      by,
      strip: strip(
        panels,
        folds.map(([angle, way]) => fold(angle, way, by)),
        thickness,
      ),
    })),
);

function turnsOf({ folds }: Strip, by: FoldMaking) {
  return folds.map(({ angle, way }) => {
    const turn = (middle(degreesOf(angle)) / 180) * Math.PI;
    return { turn: way === 'away' ? -turn : turn, depth: depths[by] };
  });
}

describe('the blank of a folded strip', () => {
  it('folds up to the outer sizes that were asked for, wherever its folds hinge', () => {
    fc.assert(
      fc.property(anyStrip, ({ strip: asked, by }) => {
        const { value: folded } = foldedStrip(asked);
        if (folded === undefined) return;
        const turns = turnsOf(asked, by);
        const slabs = slabsOf(folded.lines.map(middle), middle(folded.length), float(asked.thickness), turns);
        // The outer face of a fold is that which opens: the good side where it folds away.
        const outer = (i: number, away: boolean): readonly [Spot, Spot] => {
          const [a, b, c, d] = slabs[i] as [Spot, Spot, Spot, Spot]; // a slab has four corners
          return away ? [d, c] : [a, b];
        };
        for (const [i, panel] of asked.panels.entries()) {
          const [from, to] = [asked.folds[i - 1], asked.folds[i]];
          const corner = (at: number, one: Fold): Spot =>
            crossing(outer(at, one.way === 'away'), outer(at + 1, one.way === 'away'));
          const slab = slabs[i] as readonly Spot[];
          const [a, b] = [slab[0] as Spot, slab[1] as Spot];
          const along = { x: (b.x - a.x) / apart(a, b), y: (b.y - a.y) / apart(a, b) };
          const place = ({ x, y }: Spot) => x * along.x + y * along.y;
          const start = from === undefined ? place(a) : place(corner(i - 1, from));
          const end = to === undefined ? place(b) : place(corner(i, to));
          expect(end - start).toBeCloseTo(float(panel), 6);
        }
      }),
    );
  });

  it('is short by a known share of the thickness at a square fold', () => {
    // Source: computed. Two faces of a square corner differ by a thickness each: twice that where the hinge is
    // the inner face, once in the middle, nothing at the outer face.
    const folded = (by: Fold['made']) =>
      made(foldedStrip(strip([12, 30, 12], [fold(degrees(90), 'away', by), fold(degrees(90), 'away', by)])));
    expect(makings.map((by) => exact(folded(by).length))).toEqual(['48', '51', '54']);
    expect(folded('score').lines.map(exact)).toEqual(['21/2', '75/2']);
    expect(exact(folded({ allowance: mm(2) }).length)).toBe('50');
  });

  it('is exact for roofs of 3 in 4', () => {
    // Source: the triangle of 3, 4 and 5: a slope of 25 goes 20 level and 15 up; the mitre of a ridge of twice
    // that angle goes back 3/4 of the thickness.
    const gable = made(foldedStrip(strip([25, 25], [fold(pitch(24, 7))])));
    expect(exact(gable.length)).toBe(toFraction(mm(191, 4)));
    expect(gable.base).toBeUndefined();
    expect(toFraction(gable.box.length)).toBe('40');
    // 15 up to the ridge from the outer edge of the eaves, and their thickness there: 1.5 · 4/5.
    expect(toFraction(gable.box.height)).toBe(toFraction(mm(162, 10)));
    expect(float(gable.body.within)).toBe(0);
    const shed = made(foldedStrip(strip([5, 25], [fold(pitch(3, 4))]), 0));
    expect(toFraction(shed.box.length)).toBe('25');
  });

  it('is no shorter than it truly has to be where that is not rational', () => {
    const { length } = made(foldedStrip(strip([20, 20], [fold(degrees(45))])));
    // Source: computed. tan 22.5° = √2 − 1.
    expect(middle(length)).toBeCloseTo(40 - 3 * (Math.SQRT2 - 1), 12);
    expect(isKnown(length)).toBe(false);
    expect(width(length)).toBeLessThan(2 ** -60);
  });

  it('has its folds marked from edge to edge', () => {
    const asked = strip([12, 30, 12], [fold(degrees(90)), fold(degrees(90), 'toward')]);
    const folded = made(foldedStrip(asked));
    const blank = made(foldedBlank(asked, folded, 'score', { length: folded.length.hi, width: mm(40) }));
    expect(
      blank.marks.map((it) => (it.kind === 'fold' ? [it.way, float(it.from.x), float(it.to.y)] : [])),
    ).toEqual([
      ['away', 10.5, 40],
      ['toward', 37.5, 40],
    ]);
  });
});

describe('a folded strip', () => {
  it('is the same seen from its other side, and begun from its other end', () => {
    fc.assert(
      fc.property(anyStrip, ({ strip: asked }) => {
        const one = foldedStrip(asked, 0);
        const other = foldedStrip(
          {
            ...asked,
            folds: asked.folds.map((it) => ({ ...it, way: it.way === 'away' ? 'toward' : 'away' })),
          },
          0,
        );
        const last = asked.panels.length - 1;
        const back = foldedStrip(
          { ...asked, panels: [...asked.panels].reverse() as never, folds: [...asked.folds].reverse() },
          last,
        );
        expect(other.faults.map(({ code }) => code)).toEqual(one.faults.map(({ code }) => code));
        if (one.value === undefined || other.value === undefined || back.value === undefined) return;
        for (const it of [other.value, back.value]) {
          expect(middle(it.length)).toBeCloseTo(middle(one.value.length), 9);
          expect(float(it.box.height)).toBeCloseTo(float(one.value.box.height), 9);
          expect(float(it.box.length)).toBeCloseTo(float(one.value.box.length), 9);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('lies on its longest panel, or stands the same to both sides', () => {
    const base = (panels: readonly number[], folds: readonly Fold[], said?: number) =>
      made(foldedStrip(strip(panels, folds), said)).base?.panel;
    const square = fold(degrees(90));
    expect(base([12, 30, 12], [square, square])).toBe(1);
    expect(base([30, 12, 30], [square, square])).toBe(1);
    expect(base([30, 12, 29], [square, square])).toBe(0);
    expect(base([25, 25], [square])).toBeUndefined();
    expect(base([25, 25], [square], 1)).toBe(1);
  });

  it('closes to a tube with a hole, where its tab lies against its first panel', () => {
    const square = fold(degrees(90));
    const tube = made(foldedStrip(strip([20, 10, 20, 8.5, 6], [square, square, square, square])));
    expect(tube.body.holes).toHaveLength(1);
    expect([tube.box.length, tube.box.height].map(toFraction)).toEqual(['20', '10']);
    // Source: computed. The outside less the inside, and the tab within it, mitred at its corner.
    expect(middle(areaOf(tube.body))).toBeCloseTo(20 * 10 - 17 * 7 + 4.5 * 1.5, 9);
  });

  it('is refused where its panels are too short, or run into each other', () => {
    const square = fold(degrees(90));
    expect(told(foldedStrip(strip([20, 3, 20], [square, square])))).toEqual([
      'T30 panels.1: panel 2 is 3 mm on its outside, and the folds beside it take 3 mm of that, in material 1.5 mm thick' +
        ' | more than 3 mm, or a thinner material',
    ]);
    expect(told(foldedStrip(strip([20, 10, 20, 10], [square, square, square])))).toEqual([
      'T31 panels.3: folded, panel 4 runs into panel 1: they share 1.5 mm by 1.5 mm' +
        ' | a shorter panel before it, or a smaller angle; what is glued inside is shorter by a thickness',
    ]);
  });
});

// Source of what is expected: manifold-3d 3.5.4, an independent solid kernel in binary floats.
describe('what a folded strip fills, against an independent kernel', async () => {
  const kernel = await initManifold();
  kernel.setup();
  const long = 40;
  const pulled = (loops: readonly (readonly Spot[])[]) =>
    new kernel.CrossSection(
      loops.map((loop) => loop.map(({ x, y }): [number, number] => [x, y])),
      'Positive',
    ).extrude(long);
  const solidOf = (outline: Parameters<typeof flattened>[0]) =>
    pulled(
      flattened(outline, 'along', mm(1, 2000)).map((loop) =>
        loop.map(({ x, y }) => ({ x: float(x), y: float(y) })),
      ),
    );

  it('is its blank, but for what opens or is cut out at its folds', () => {
    fc.assert(
      fc.property(anyStrip, ({ strip: asked, by }) => {
        const { value: folded } = foldedStrip(asked);
        // Where panels touch, the kernel may join them or not.
        if (folded === undefined || folded.body.holes.length > 0) return;
        const thickness = float(asked.thickness);
        const blank = middle(folded.length) * thickness * long;
        const opened = asked.folds.reduce(
          (all, { angle }) => all + thickness ** 2 * middle(mitreOf(turnOf(angle))) * long,
          0,
        );
        const more = { score: opened, crease: 0, groove: -opened }[by];
        expect(solidOf(folded.body).volume()).toBeCloseTo(blank + more, 1);
      }),
      { numRuns: 80 },
    );
  });

  it('holds every slab that a hand folds of a scored blank', () => {
    fc.assert(
      fc.property(
        anyStrip.filter(({ by }) => by === 'score'),
        ({ strip: asked, by }) => {
          const { value: folded } = foldedStrip(asked, 0);
          if (folded === undefined) return;
          const slabs = slabsOf(
            folded.lines.map(middle),
            middle(folded.length),
            float(asked.thickness),
            turnsOf(asked, by),
          );
          const low = {
            x: Math.min(...slabs.flat().map(({ x }) => x)),
            y: Math.min(...slabs.flat().map(({ y }) => y)),
          };
          // The outer corner of a scored fold is empty, so the slabs may begin further in than the body.
          const body = solidOf(folded.body);
          const first = slabs[0] as readonly Spot[];
          const start = folded.base?.height ?? mm(0);
          const shift = { x: 0, y: float(start) - (first[0] as Spot).y };
          const left = leftOf(asked, folded);
          const hand = slabs.map((slab) =>
            pulled([slab.map(({ x, y }) => ({ x: x + left, y: y + shift.y }))]),
          );
          for (const it of hand) expect(it.subtract(body).volume()).toBeLessThan(1e-3);
          expect(low.x + left).toBeGreaterThan(-1e-6);
        },
      ),
      { numRuns: 60 },
    );
  });
});

/** Where the first panel's end lies, in the box of the body: its panel lies level, at the height of the base. */
function leftOf(
  { thickness }: Strip,
  folded: ReturnType<typeof made<NonNullable<ReturnType<typeof foldedStrip>['value']>>>,
): number {
  const height = float(folded.base?.height ?? mm(0));
  const ends = folded.body.rim.filter(
    ({ from, to }) =>
      Math.abs(float(from.x) - float(to.x)) < 1e-9 &&
      Math.abs(Math.min(float(from.y), float(to.y)) - height) < 1e-9 &&
      Math.abs(Math.abs(float(from.y) - float(to.y)) - float(thickness)) < 1e-9,
  );
  return Math.min(...ends.map(({ from }) => float(from.x)));
}

describe('the blank of a tray', () => {
  const tray = (length: number, across: number, high: number, tab: number, by: FoldMaking = 'score') =>
    trayBlank({
      length: mm(length),
      width: mm(across),
      high: mm(high),
      tab: mm(tab),
      thickness: mm(3, 2),
      made: by,
      by,
    });

  it('is its base and two walls each way, less what its folds take', () => {
    // Source: computed. 60 + 2 · 12 − 4 · 1.5 for scores, each of two folds taking two thicknesses.
    const sizes = makings.map((by) => {
      const { right, top } = boxOf(made(tray(60, 40, 12, 8, by)));
      return [exact(right), exact(top)];
    });
    expect(sizes).toEqual([
      ['78', '58'],
      ['81', '61'],
      ['84', '64'],
    ]);
  });

  it('has its tabs clear of the base and of each other', () => {
    const { rim, marks } = made(tray(60, 40, 12, 8));
    expect(rim).toHaveLength(16);
    const folds = marks.flatMap((it) => (it.kind === 'fold' ? [[it.from, it.to]] : []));
    expect(folds).toHaveLength(8);
    // Source: computed. A base of 57, a wall of 10.5, a tab that folds 1.5 further in.
    expect(folds.map(([from]) => float(from!.x)).sort((a, b) => a - b)).toEqual([
      10.5, 12, 12, 12, 12, 66, 66, 67.5,
    ]);
  });

  it('is refused where walls or tabs have no room', () => {
    expect(told(tray(60, 40, 12, 12))).toEqual([
      'T38 tab: the tab of the tray is 12 mm; it has to be less than 12 mm | less than 12 mm: shorter than its walls are high and than half its width',
    ]);
    expect(told(tray(60, 14, 12, 8))).toEqual([
      'T38 tab: the tab of the tray is 8 mm; it has to be less than 7 mm | less than 7 mm: shorter than its walls are high and than half its width',
    ]);
    expect(told(tray(60, 40, 12, 3))).toEqual([
      'T38 tab: the tab of the tray is 3 mm; it has to be more than 3 mm | more than 3 mm: a fold on it, and a thickness beside that',
    ]);
    // A tab may be as long as the walls allow, and these are not right yet.
    expect(told(tray(60, 40, 3, 2))).toEqual([
      'T38 high: the height of the tray is 3 mm; it has to be more than 3 mm | more than 3 mm, or a thinner material',
    ]);
  });
});
