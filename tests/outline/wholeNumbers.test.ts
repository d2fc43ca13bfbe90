import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { rational, toFraction } from '../../src/measure/index.ts';
import type { Rational } from '../../src/model/index.ts';
import { cubicOf, overOne, split } from '../../src/outline/curve.ts';
import { exactRoot } from '../../src/outline/root.ts';
import { type Edge, heightAt, slabs } from '../../src/outline/slabs.ts';
import { cross, point, sideOf, signOf, turnTo } from '../../src/outline/vector.ts';

// What is decided in whole numbers, without bringing fractions to lowest terms on the way.
// Source: fraction.js, a general-purpose library of rational numbers, as an independent calculator.
const theirs = ({ numerator, denominator }: Rational): Fraction => new Fraction(numerator, denominator);

const long = fc
  .tuple(fc.bigInt({ min: -(2n ** 90n), max: 2n ** 90n }), fc.bigInt({ min: 1n, max: 2n ** 80n }))
  .map(([numerator, denominator]) => rational(numerator, denominator));
const ruled = fc
  .tuple(fc.integer({ min: -40, max: 40 }), fc.constantFrom(1n, 2n, 5n, 16n, 2n ** 40n))
  .map(([numerator, denominator]) => rational(BigInt(numerator), denominator));
const number = fc.oneof(ruled, long);
const anyPoint = fc.tuple(number, number).map(([x, y]) => point(x, y));

describe('sides and turns', () => {
  it('are the signs of what fraction.js makes of the same points', () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, (from, to, at) => {
        const way = [theirs(to.x).sub(theirs(from.x)), theirs(to.y).sub(theirs(from.y))] as const;
        const there = [theirs(at.x).sub(theirs(from.x)), theirs(at.y).sub(theirs(from.y))] as const;
        const turn = way[0].mul(there[1]).sub(way[1].mul(there[0]));
        expect(sideOf(from, to, at)).toBe(Math.sign(turn.compare(0)) + 0);
        expect(turnTo(to, at)).toBe(signOf(cross(to, at)));
      }),
    );
  });

  it('see a point on a line, however long its fractions are', () => {
    fc.assert(
      fc.property(anyPoint, anyPoint, number, (from, to, share) => {
        const on = (a: Rational, b: Rational) => {
          const { n, d, s } = theirs(a).add(theirs(share).mul(theirs(b).sub(theirs(a))));
          return rational(s * n, d);
        };
        expect(sideOf(from, to, point(on(from.x, to.x), on(from.y, to.y)))).toBe(0);
      }),
    );
  });
});

describe('the height of an edge', () => {
  it('is what fraction.js says, at its ends and between them', () => {
    const share = fc.bigInt({ min: 0n, max: 64n }).map((it) => rational(it, 64n));
    fc.assert(
      fc.property(anyPoint, anyPoint, share, (a, b, along) => {
        fc.pre(theirs(a.x).compare(theirs(b.x)) !== 0);
        const [left, right] = theirs(a.x).compare(theirs(b.x)) < 0 ? [a, b] : [b, a];
        const edge: Edge = { left, right, turns: 1, of: 0 };
        const { n, d, s } = theirs(left.x).add(theirs(along).mul(theirs(right.x).sub(theirs(left.x))));
        const rise = theirs(along).mul(theirs(right.y).sub(theirs(left.y)));
        expect(toFraction(heightAt(edge, rational(s * n, d)))).toBe(theirs(left.y).add(rise).toFraction());
      }),
    );
  });

  it('is 0 between edges that run along each other, and they are told as empty', () => {
    // Source: by hand. A triangle, and a line that is gone along forth and back.
    const at = (x: bigint, y: bigint) => point(rational(x), rational(y));
    const [one] = slabs([[[at(0n, 0n), at(4n, 0n), at(4n, 3n)]]]);
    expect(one?.layers.map(({ isEmpty, height }) => [isEmpty, toFraction(height)])).toEqual([[false, '3/2']]);
    const [flat] = slabs([[[at(0n, 0n), at(4n, 2n)]]]);
    expect(flat?.layers.map(({ isEmpty, height }) => [isEmpty, toFraction(height)])).toEqual([[true, '0']]);
  });
});

describe('exact roots', () => {
  it('are found of all squares, and of nothing else', () => {
    fc.assert(
      fc.property(long, (a) => {
        const { n, d } = theirs(a).mul(theirs(a));
        expect(exactRoot(rational(n, d))).toEqual(rational(theirs(a).n, theirs(a).d));
        if (a.numerator !== 0n) expect(exactRoot(rational(n * d + 1n, d * d))).toBeUndefined();
      }),
    );
    expect(exactRoot(rational(-4n))).toBeUndefined();
    expect(exactRoot(rational(0n))).toEqual(rational(0n));
  });
});

describe('a cubic over one denominator', () => {
  it('is the point that halving by de Casteljau gives', () => {
    const share = fc.bigInt({ min: 0n, max: 2n ** 16n });
    fc.assert(
      fc.property(anyPoint, anyPoint, anyPoint, anyPoint, share, (from, leaving, arriving, to, p) => {
        const q = 2n ** 16n;
        const { over, under } = overOne([from.x, leaving.x, arriving.x, to.x]);
        const [before] = split({ kind: 'curve', from, leaving, arriving, to }, rational(p, q));
        expect(rational(cubicOf(over, p, q), under * q ** 3n)).toEqual({ ...before.to.x });
      }),
    );
  });
});
