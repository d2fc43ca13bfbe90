import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import {
  add,
  ceiling,
  compareRationals,
  differenceOfProducts,
  divide,
  floor,
  greatestCommonDivisor,
  mixed,
  multiply,
  nearestHalfEven,
  nearestHalfUp,
  negate,
  rational,
  subtract,
  sumOfProducts,
  toFraction,
  whole,
} from '../../src/measure/index.ts';
import type { Rational } from '../../src/model/index.ts';

// Source: fraction.js, a general-purpose library of rational numbers, as an independent calculator.
const theirs = ({ numerator, denominator }: Rational): Fraction => new Fraction(numerator, denominator);

const anyRational = fc
  .tuple(fc.bigInt({ min: -(10n ** 20n), max: 10n ** 20n }), fc.bigInt({ min: 1n, max: 10n ** 12n }))
  .map(([numerator, denominator]) => rational(numerator, denominator));
const ruled = fc
  .tuple(fc.bigInt({ min: -6400n, max: 6400n }), fc.constantFrom(1n, 2n, 4n, 8n, 16n, 32n, 64n, 5n, 127n))
  .map(([numerator, denominator]) => rational(numerator, denominator));
const number = fc.oneof(anyRational, ruled);

describe('rational arithmetic', () => {
  it('agrees with fraction.js on sums, differences, products and order', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        expect(toFraction(add(a, b))).toBe(theirs(a).add(theirs(b)).toFraction());
        expect(toFraction(subtract(a, b))).toBe(theirs(a).sub(theirs(b)).toFraction());
        expect(toFraction(multiply(a, b))).toBe(theirs(a).mul(theirs(b)).toFraction());
        expect(Math.sign(compareRationals(a, b))).toBe(Math.sign(theirs(a).compare(theirs(b))));
      }),
    );
  });

  it('agrees with fraction.js on sums and differences of products', () => {
    fc.assert(
      fc.property(number, number, number, number, (a, b, c, d) => {
        const [one, other] = [theirs(a).mul(theirs(b)), theirs(c).mul(theirs(d))];
        expect(toFraction(sumOfProducts(a, b, c, d))).toBe(one.add(other).toFraction());
        expect(toFraction(differenceOfProducts(a, b, c, d))).toBe(one.sub(other).toFraction());
      }),
    );
  });

  it('agrees with fraction.js on what lies on the way from one to another', () => {
    fc.assert(
      fc.property(number, number, number, (a, b, share) => {
        const there = theirs(a).add(theirs(b).sub(theirs(a)).mul(theirs(share)));
        expect(toFraction(mixed(a, b, share))).toBe(there.toFraction());
      }),
    );
  });

  it('finds the same divisor of short numbers, of long ones, and where the one ends and the other begins', () => {
    const edge = fc.bigInt({ min: -4n, max: 4n }).map((it) => 2n ** 31n + it);
    const any = fc.oneof(
      edge,
      fc.bigInt({ min: -(2n ** 33n), max: 2n ** 33n }),
      fc.bigInt({ min: 0n, max: 2n ** 90n }),
    );
    fc.assert(
      fc.property(any, any, fc.constantFrom(1n, 6n, 2n ** 20n, 3n ** 25n), (a, b, by) => {
        fc.pre(b !== 0n);
        // Source: fraction.js brings a·by/b·by to lowest terms, so its denominator tells the divisor.
        const { d } = new Fraction(a * by, b * by);
        const size = b < 0n ? -b * by : b * by;
        expect(greatestCommonDivisor(a * by, b * by)).toBe(size / d);
      }),
    );
  });

  it('agrees with fraction.js on quotients', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        fc.pre(b.numerator !== 0n);
        expect(toFraction(divide(a, b))).toBe(theirs(a).div(theirs(b)).toFraction());
      }),
    );
  });

  it('agrees with fraction.js on the whole numbers below and above', () => {
    fc.assert(
      fc.property(number, (a) => {
        expect(`${floor(a)}`).toBe(theirs(a).floor().toFraction());
        expect(`${ceiling(a)}`).toBe(theirs(a).ceil().toFraction());
      }),
    );
  });

  it('keeps every result in lowest terms over a denominator above zero', () => {
    fc.assert(
      fc.property(number, number, (a, b) => {
        for (const it of [add(a, b), subtract(a, b), multiply(a, b), negate(a)]) {
          expect(it.denominator > 0n).toBe(true);
          expect(toFraction(it)).toBe(theirs(it).toFraction());
        }
      }),
    );
  });

  it('rounds halves up, and halves to even', () => {
    // Source: by hand from the two rules.
    const halves = [-3n, -1n, 1n, 3n, 5n].map((it) => rational(it, 2n));
    expect(halves.map(nearestHalfUp)).toEqual([-1n, 0n, 1n, 2n, 3n]);
    expect(halves.map(nearestHalfEven)).toEqual([-2n, 0n, 0n, 2n, 2n]);
  });

  it('never rounds further than a half, and both rules differ at halves alone', () => {
    fc.assert(
      fc.property(number, (a) => {
        for (const nearest of [nearestHalfUp(a), nearestHalfEven(a)]) {
          const off = subtract(a, rational(nearest));
          expect(compareRationals(off, rational(1n, 2n))).toBeLessThanOrEqual(0);
          expect(compareRationals(off, rational(-1n, 2n))).toBeGreaterThanOrEqual(0);
        }
        const isHalf = multiply(a, rational(2n)).denominator === 1n && a.denominator !== 1n;
        if (!isHalf) expect(nearestHalfUp(a)).toBe(nearestHalfEven(a));
      }),
    );
  });

  it('takes no number that is not whole', () => {
    expect(() => whole(0.1)).toThrow(RangeError);
    expect(() => rational(1n, 0n)).toThrow(RangeError);
  });
});
