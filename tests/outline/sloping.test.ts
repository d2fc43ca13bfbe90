import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compare, multiply, rational, sum, toDrawnMm, toFraction } from '../../src/measure/index.ts';
import type { Length } from '../../src/model/index.ts';
import { areaOf, boxOf, slopedBoard } from '../../src/outline/index.ts';
import { inch, middle, mm } from './drawing.ts';

const board = (run: Length, rise: Length, thickness: Length, ends: 'plumb' | 'square' = 'plumb') =>
  slopedBoard({ run, rise, thickness, ends });

describe('triangles with whole sides', () => {
  // Source: Pythagorean triples (Euclid, Elements X.29, lemma 1); the rest computed: thickness 60 of the run's unit,
  // slope length c, each bevel t·b/a, cut length c ± t·b/a, measured upright t·c/a, gap t·b/c.
  it.each([
    [4n, 3n, 5n],
    [12n, 5n, 13n],
    [15n, 8n, 17n],
    [24n, 7n, 25n],
    [20n, 21n, 29n],
  ])('are exact: run %s, rise %s, slope %s', (a, b, c) => {
    const t = mm(1);
    const [run, rise, slope] = [a, b, c].map((it) => rational(it * 60n));
    const it_ = board(mm(Number(run!.numerator)), mm(Number(rise!.numerator)), t);
    const back = rational(b, a);
    expect(it_.length).toEqual({ lo: add(slope!, back), hi: add(slope!, back) });
    expect(it_.plumb).toEqual({ lo: rational(c, a), hi: rational(c, a) });
    expect(it_.back).toEqual(back);
    expect(it_.profile.within.numerator).toBe(0n);
    expect(it_.height).toEqual(add(rise!, rational(c, a)));
    const square = board(mm(Number(run!.numerator)), mm(Number(rise!.numerator)), t, 'square');
    expect(toFraction(square.length.lo)).toBe(toFraction(add(slope!, rational(-b, a))));
    expect(square.gap).toEqual({ lo: rational(b, c), hi: rational(b, c) });
    expect(square.profile.within.numerator).toBe(0n);
  });
});

// Source: computed in double precision, √(12² + n²) for a rise of n inches on a run of 12, as the first line of a
// roofing square's table gives it to two places: 12.37, 12.65, 13.00, 13.42, 13.89, 14.42, 15.00, 15.62, 16.28, 16.97.
describe('the unit lengths of a roofing square', () => {
  it.each([
    [3, '12.37'],
    [4, '12.65'],
    [5, '13.00'],
    [6, '13.42'],
    [7, '13.89'],
    [8, '14.42'],
    [9, '15.00'],
    [10, '15.62'],
    [11, '16.28'],
    [12, '16.97'],
  ])('%s in 12 is %s', (rise, printed) => {
    const { length, back } = board(inch(12), inch(rise), inch(1, 16));
    const [lo, hi] = [length.lo, length.hi].map((it) => (toDrawnMm(it) - toDrawnMm(back)) / 25.4);
    expect(lo!.toFixed(2)).toBe(printed);
    expect(hi!.toFixed(2)).toBe(printed);
    expect(hi! - lo!).toBeLessThan(1e-12);
  });
});

describe('any slope', () => {
  const quarters = (min: number, max: number) =>
    fc.integer({ min: min * 4, max: max * 4 }).map((it) => mm(it, 4));
  const any = fc.record({ run: quarters(5, 200), rise: quarters(1, 150), thickness: quarters(1, 4) });
  const near = (a: number, b: number, off = 0.002) => expect(Math.abs(a - b)).toBeLessThan(off);

  it('has a profile as large as board of its length is', () => {
    fc.assert(
      fc.property(any, fc.constantFrom('plumb' as const, 'square' as const), (it_, ends) => {
        const { length, profile, back } = board(it_.run, it_.rise, it_.thickness, ends);
        // Plumb ends take as much off below as they leave above, so the section is the mean of its faces by t.
        const faces = toDrawnMm(length.hi) - (ends === 'plumb' ? toDrawnMm(back) : 0);
        if (faces < 1) return;
        const area = middle(areaOf(profile));
        near(area, faces * toDrawnMm(it_.thickness), 0.001 * faces + 0.01);
      }),
      { numRuns: 300 },
    );
  });

  it('fills its run from end to end, and rises as it says', () => {
    fc.assert(
      fc.property(any, fc.constantFrom('plumb' as const, 'square' as const), (it_, ends) => {
        const { profile, height, length } = board(it_.run, it_.rise, it_.thickness, ends);
        if (toDrawnMm(length.lo) < toDrawnMm(it_.thickness)) return;
        const box = boxOf(profile);
        near(toDrawnMm(box.left.lo), 0);
        near(toDrawnMm(box.right.hi), toDrawnMm(it_.run));
        expect(compare(box.bottom.lo, mm(0))).toBe(0);
        expect(compare(box.top.hi, height)).toBe(0);
      }),
      { numRuns: 300 },
    );
  });

  it('has the two faces of a plumb one equally long, its bevels as far back as they are', () => {
    fc.assert(
      fc.property(any, (it_) => {
        const { length, back } = board(it_.run, it_.rise, it_.thickness);
        const squared = sum(multiply(it_.run, it_.run) as Length, multiply(it_.rise, it_.rise) as Length);
        for (const [end, sign] of [
          [length.lo, 1],
          [length.hi, -1],
        ] as const) {
          const face = add(end, rational(-back.numerator, back.denominator));
          expect(compare(multiply(face, face) as Length, squared) * sign).toBeLessThanOrEqual(0);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is held to a thousandth of a millimetre where it is not exact, and never over', () => {
    fc.assert(
      fc.property(any, (it_) => {
        const { height, plumb, profile } = board(it_.run, it_.rise, it_.thickness);
        const true_ = sum(it_.rise, plumb.hi);
        expect(compare(height, true_)).toBeLessThanOrEqual(0);
        near(toDrawnMm(height), toDrawnMm(true_), 0.001);
        expect(toDrawnMm(profile.within)).toBeLessThanOrEqual(0.001);
      }),
      { numRuns: 300 },
    );
  });
});
