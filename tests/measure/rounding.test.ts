import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compare,
  compareRationals,
  diagonal,
  exactDecimal,
  inches,
  isGraduation,
  isMultiple,
  millimetres,
  minus,
  nearestMark,
  ratio,
  rational,
  readMeasure,
  roundedDecimal,
  roundToStep,
  significantDecimal,
  squareRoot,
  toFraction,
  toInches,
} from '../../src/measure/index.ts';
import type { Length, Rational } from '../../src/model/index.ts';
import { fractionTable } from './fractionTable.ts';

function length(text: string): Length {
  const reading = readMeasure(text);
  if (reading.kind !== 'length') throw new Error(`${text} is no length`);
  return reading.length;
}

function number(text: string): Rational {
  const reading = readMeasure(text);
  if (reading.kind !== 'bare') throw new Error(`${text} is no number`);
  return reading.number;
}

/** Half-up on the digits of a written decimal, without any of our arithmetic. */
function halfUpByDigits(text: string, places: number): string {
  const [before = '', after = ''] = text.split('.');
  const kept = BigInt(before + after.padEnd(places, '0').slice(0, places));
  const rounded = `${kept + (Number(after[places] ?? 0) >= 5 ? 1n : 0n)}`.padStart(places + 1, '0');
  return places === 0 ? rounded : `${rounded.slice(0, -places)}.${rounded.slice(-places)}`;
}

describe('decimals', () => {
  it.each([0, 1, 2, 3, 4, 5, 6])('round every sixty-fourth of an inch right at %i places', (places) => {
    for (const { numerator, denominator, mm } of fractionTable) {
      const exact = inches(rational(numerator, denominator));
      expect(roundedDecimal(exact, places)).toBe(halfUpByDigits(mm, places));
    }
  });

  // Source: computed in exact arithmetic: so many n/64 in (n = 1 to 64) where a double's toFixed is not half-up.
  it.each([
    [1, 2],
    [2, 3],
    [3, 6],
    [4, 13],
    [5, 25],
  ])('at %i places differ from toFixed in %i of 64 rows', (places, rows) => {
    const wrong = fractionTable.filter(({ numerator, denominator }) => {
      const float = ((Number(numerator) / Number(denominator)) * 25.4).toFixed(places);
      return float !== roundedDecimal(inches(rational(numerator, denominator)), places);
    });
    expect(wrong.length).toBe(rows);
  });

  // Source: computed in exact arithmetic: so many rows where half-up and half-even differ.
  it.each([
    [1, 1],
    [2, 2],
    [3, 4],
    [4, 8],
    [5, 16],
  ])('at %i places differ by the rule for halves in %i of 64 rows', (places, rows) => {
    const apart = fractionTable.filter(({ numerator, denominator }) => {
      const exact = inches(rational(numerator, denominator));
      return roundedDecimal(exact, places, 'half up') !== roundedDecimal(exact, places, 'half even');
    });
    expect(apart.length).toBe(rows);
  });

  it('round any written decimal as its digits say', () => {
    const written = fc
      .tuple(fc.bigInt({ min: 0n, max: 10n ** 9n }), fc.stringMatching(/^\d{1,9}$/u))
      .map(([before, after]) => `${before}.${after}`);
    fc.assert(
      fc.property(written, fc.integer({ min: 0, max: 10 }), (text, places) => {
        expect(roundedDecimal(number(text), places)).toBe(halfUpByDigits(text, places));
      }),
    );
  });

  it('give 1/32 in = 0.79375 mm, a half at four places, as 0.7938 by both rules', () => {
    // Source: computed; a double's toFixed(4) gives 0.7937.
    expect(roundedDecimal(length('1/32 in'), 4, 'half up')).toBe('0.7938');
    expect(roundedDecimal(length('1/32 in'), 4, 'half even')).toBe('0.7938');
  });

  // Source: NIST SP 811 (2008), B.7.1, second-hand: figures as quoted in public test files.
  it.each([
    ['6.9749515', 3, '6.97'],
    ['6.9749515', 2, '7.0'],
    ['6.9749515', 5, '6.9750'],
    ['6.9749515', 7, '6.974952'],
    ['6.9749505', 7, '6.974950'],
  ])('give %s to %i digits as %s, halves to even', (exact, digits, rounded) => {
    expect(significantDecimal(number(exact), digits, 'half even')).toBe(rounded);
  });

  // Source: by hand.
  it.each([
    ['1', 3, '1.00'],
    ['10', 3, '10.0'],
    ['1000', 2, '1000'],
    ['1250', 2, '1300'],
    ['0.01', 2, '0.010'],
    ['9.96', 2, '10'],
    ['0.0996', 2, '0.10'],
    ['996', 2, '1000'],
    ['-9.96', 2, '-10'],
  ])('give %s to %i digits as %s', (exact, digits, rounded) => {
    expect(significantDecimal(number(exact), digits)).toBe(rounded);
  });

  it('give 36 ft as 11.0 m to three digits', () => {
    // Source: NIST SP 811 (2008), B.7.2, in a reprint: 36 ft = 10.9728 m, given as 11.0 m.
    const metres = ratio(length('36 ft'), length('1 m'));
    expect(exactDecimal(metres)).toBe('10.9728');
    expect(significantDecimal(metres, 3)).toBe('11.0');
  });

  it('give 11.8 × 101 325 to three digits', () => {
    // Source: NIST SP 811 (2008), B.2: 1 195 635 Pa, given as 1.20 MPa.
    expect(significantDecimal(rational(1_195_635n), 3)).toBe('1200000');
    expect(significantDecimal(rational(1_195_635n, 1_000_000n), 3)).toBe('1.20');
  });

  // Source: NIST LC 1137, second-hand: a page that quotes it.
  it.each([
    ['36 in', 2, '91'],
    ['40.1 in', 4, '101.9'],
  ])('give %s to %i digits as %s cm', (inch, digits, cm) => {
    expect(significantDecimal(ratio(length(inch), length('1 cm')), digits)).toBe(cm);
  });

  it('are exact where they end, and undefined where they never do', () => {
    for (const { numerator, denominator, mm } of fractionTable) {
      expect(exactDecimal(inches(rational(numerator, denominator)))).toBe(mm);
    }
    expect(exactDecimal(length('1/3 in'))).toBeUndefined();
    expect(exactDecimal(rational(-1n, 8n))).toBe('-0.125');
  });
});

describe('rounding to a step', () => {
  // Source: by hand: 2 3/8 in is 38/16; 37/32 lies half-way between 18/16 and 19/16.
  it.each([
    ['37/32 in', '1/16 in', 'up', '19/16'],
    ['37/32 in', '1/16 in', 'down', '9/8'],
    ['37/32 in', '1/16 in', 'half up', '19/16'],
    ['37/32 in', '1/16 in', 'half even', '9/8'],
    ['39/32 in', '1/16 in', 'half even', '5/4'],
    ['2 3/8 in', '1/16 in', 'up', '19/8'],
    ['-37/32 in', '1/16 in', 'half up', '-9/8'],
    ['-37/32 in', '1/16 in', 'down', '-19/16'],
  ] as const)('%s to %s, %s, is %s in', (exact, step, way, expected) => {
    expect(toFraction(toInches(roundToStep(length(exact), length(step), way)))).toBe(expected);
  });

  const anyLength = fc
    .tuple(fc.bigInt({ min: -100_000n, max: 100_000n }), fc.bigInt({ min: 1n, max: 1000n }))
    .map(([numerator, denominator]) => millimetres(rational(numerator, denominator)));
  const anyStep = fc.constantFrom('1/16 in', '1/32 in', '1/3 in', '0.5 mm', '1 mm', '0.3 mm').map(length);

  it('gives a multiple of the step, less than a step away on the side asked for', () => {
    fc.assert(
      fc.property(anyLength, anyStep, (exact, step) => {
        const [up, down] = [roundToStep(exact, step, 'up'), roundToStep(exact, step, 'down')];
        expect(isMultiple(up, step) && isMultiple(down, step)).toBe(true);
        expect(compare(down, exact) <= 0 && compare(exact, up) <= 0).toBe(true);
        expect(compare(minus(up, down), step)).toBe(isMultiple(exact, step) ? -1 : 0);
      }),
    );
  });

  it('leaves mark plus error equal to the length, and error within half a step', () => {
    fc.assert(
      fc.property(anyLength, anyStep, (exact, step) => {
        const { mark, error, tendency } = nearestMark(exact, step);
        expect(compare(minus(exact, mark), error)).toBe(0);
        expect(compareRationals(ratio(error, step), rational(1n, 2n))).toBeLessThan(0);
        expect(compareRationals(ratio(error, step), rational(-1n, 2n))).toBeGreaterThanOrEqual(0);
        expect(tendency === undefined).toBe(isMultiple(exact, step));
      }),
    );
  });

  it.each([
    ['1/16 in', true],
    ['1 in', true],
    ['1/10 in', true],
    ['0.5 mm', true],
    ['1 mm', true],
    ['3/16 in', false],
    ['2 in', false],
    ['0.3 mm', false],
    ['0 mm', false],
    ['-1 mm', false],
  ])('%s as a graduation of a rule: %s', (step, expected) => {
    expect(isGraduation(length(step))).toBe(expected);
  });
});

describe('the whole root', () => {
  it('is the largest whole number whose square is not above', () => {
    const any = fc.oneof(fc.bigInt({ min: 0n, max: 10n ** 6n }), fc.bigInt({ min: 0n, max: 2n ** 1100n }));
    // Where a float can't tell a square from its neighbours.
    const byASquare = fc
      .tuple(fc.bigInt({ min: 1n, max: 2n ** 540n }), fc.constantFrom(-1n, 0n, 1n))
      .map(([root, by]) => root * root + by);
    fc.assert(
      fc.property(fc.oneof(any, byASquare), (n) => {
        const root = squareRoot(n);
        expect(root * root <= n && n < (root + 1n) ** 2n).toBe(true);
      }),
    );
  });
});

describe('the diagonal of a rectangle', () => {
  // Source: Pythagorean triples; common knowledge.
  it.each([
    ['3 in', '4 in', '1/2 in', '5 in'],
    ['5 mm', '12 mm', '1 mm', '13 mm'],
    ['20 mm', '21 mm', '0.5 mm', '29 mm'],
    ['1 1/2 in', '2 in', '1/16 in', '2 1/2 in'],
  ])('%s by %s in steps of %s is %s', (a, b, step, c) => {
    expect(diagonal(length(a), length(b), length(step))).toEqual({
      length: length(c),
      rest: 0,
    });
  });

  it('is the nearest multiple of the step, with the sign of the rest', () => {
    const side = fc
      .tuple(fc.bigInt({ min: 1n, max: 4000n }), fc.constantFrom(1n, 2n, 16n, 64n, 5n))
      .map(([numerator, denominator]) => millimetres(rational(numerator, denominator)));
    const anyStep = fc.constantFrom('1/16 in', '1/64 in', '0.5 mm', '1 mm').map(length);
    const squared = (it: Length): Rational => rational(it.numerator ** 2n, it.denominator ** 2n);
    fc.assert(
      fc.property(side, side, anyStep, (a, b, step) => {
        const { length: shown, rest } = diagonal(a, b, step);
        const square = rational(
          a.numerator ** 2n * b.denominator ** 2n + b.numerator ** 2n * a.denominator ** 2n,
          (a.denominator * b.denominator) ** 2n,
        );
        const half = millimetres(rational(step.numerator, 2n * step.denominator));
        const [below, above] = [minus(shown, half), minus(shown, minus(millimetres(rational(0n)), half))];
        expect(isMultiple(shown, step)).toBe(true);
        // Squares keep the order of lengths above zero.
        if (below.numerator > 0n) expect(compareRationals(squared(below), square)).toBeLessThanOrEqual(0);
        expect(compareRationals(square, squared(above))).toBeLessThan(0);
        expect(rest).toBe(compareRationals(square, squared(shown)));
      }),
    );
  });
});
