import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  inches,
  isMultiple,
  isZero,
  millimetres,
  minus,
  mixedText,
  rational,
  readMeasure,
  rulesFor,
  type Style,
  showExact,
  showLength,
  showMark,
  showOnRuler,
  showRounded,
  sum,
  times,
  toFraction,
  toMixedNumber,
  zero,
} from '../../src/measure/index.ts';
import type { Length, NonEmpty } from '../../src/model/index.ts';

function length(text: string): Length {
  const reading = readMeasure(text);
  if (reading.kind !== 'length') throw new Error(`${text} is no length`);
  return reading.length;
}

function rules(...steps: NonEmpty<string>): NonEmpty<Length> {
  const [first, ...others] = steps;
  return [length(first), ...others.map(length)];
}

const inInches: Style = { units: 'in', firstUnit: 'in', ruler: rules('1/16 in') };
const inMm: Style = { units: 'mm', firstUnit: 'mm', ruler: rules('0.5 mm') };
const inBoth: Style = { units: 'both', firstUnit: 'in', ruler: rules('1/16 in', '0.5 mm') };

describe('a length in inches', () => {
  // Source: by hand from 1 in = 25.4 mm; scant and full are words of the trade, no source.
  it.each([
    ['2 3/8 in', '2 3/8 in', '2 3/8'],
    ['60.325 mm', '2 3/8 in', '2 3/8'],
    ['6/16 in', '3/8 in', '3/8'],
    ['3 in', '3 in', '3'],
    ['0 in', '0 in', '0'],
    ['-2 3/8 in', '-2 3/8 in', '-2 3/8'],
    // 60 mm is 2.36220 in, 2 3/8 in is 60.325 mm
    ['60 mm', '2 3/8 in scant (-0.013)', '2 3/8 scant (-0.013)'],
    // 60.5 mm is 2.38189 in
    ['60.5 mm', '2 3/8 in full (+0.0069)', '2 3/8 full (+0.0069)'],
    ['2 25/64 in', '2 3/8 in full (+1/64)', '2 3/8 full (+1/64)'],
    // A half goes up.
    ['2 13/32 in', '2 7/16 in scant (-1/32)', '2 7/16 scant (-1/32)'],
    // Below zero the rule is held the other way round.
    ['-60 mm', '-2 3/8 in scant (+0.013)', '-2 3/8 scant (+0.013)'],
    // Nearer to zero than to the first mark.
    ['12 thou', '0.012 in', '0.012'],
    ['0.1 mm', '~0.0039 in (+0.000037)', '~0.0039 (+0.000037)'],
  ])('%s on a rule of sixteenths is %j', (exact, text, compact) => {
    const shown = showLength(length(exact), inInches);
    expect(shown).toMatchObject({ text, compact, isRounded: text.includes('(') });
  });

  it('is exact where any of the rules has the mark, else on the first', () => {
    const style = { ...inInches, ruler: rules('1/16 in', '1/10 in', '0.5 mm') };
    expect(showLength(length('2.3 in'), style).text).toBe('2 3/10 in');
    expect(showLength(length('2 1/4 in'), style).text).toBe('2 1/4 in');
    expect(showLength(length('2 25/64 in'), style).text).toBe('2 3/8 in full (+1/64)');
  });

  it('that is next to a mark says so, and no digits that nobody can measure', () => {
    const off = (by: string) => showLength(sum(length('1 1/2 in'), length(by)), inInches).text;
    expect(off('0.0000000000021 in')).toBe('1 1/2 in full (+<0.000001)');
    expect(off('-0.0000000000021 in')).toBe('1 1/2 in scant (-<0.000001)');
    // A millionth is told yet.
    expect(off('0.000001 in')).toBe('1 1/2 in full (+0.000001)');
    expect(off('0.00000099 in')).toBe('1 1/2 in full (+<0.000001)');
  });

  it('is read to sixty-fourths where no inch rule is at hand', () => {
    expect(showLength(length('2 23/64 in'), { ...inInches, ruler: rules('0.5 mm') }).text).toBe('2 23/64 in');
  });

  it('is in feet and inches where asked', () => {
    const style: Style = { ...inInches, feet: 'shown' };
    expect(showLength(length('50 3/8 in'), style).text).toBe(`4' 2 3/8"`);
    expect(showLength(length('-50 3/8 in'), style).text).toBe(`-4' 2 3/8"`);
    expect(showLength(length('4 ft'), style).text).toBe("4'");
    expect(showLength(length('11 3/8 in'), style).text).toBe('11 3/8 in');
    expect(showLength(length('1000 mm'), style).text).toBe(`3' 3 3/8" scant (-0.0049)`);
  });
});

describe('a length in millimetres', () => {
  it.each([
    ['60 mm', '60 mm'],
    ['2 3/8 in', '60.325 mm'],
    ['1/64 in', '~0.4 mm (-0.0031)'],
    ['-0.5 mm', '-0.5 mm'],
    // 1/3 in is 8.4666… mm
    ['1/3 in', '~8.5 mm (-0.033)'],
    ['-1/3 in', '~-8.5 mm (+0.033)'],
  ])('%s is %j', (exact, text) => {
    expect(showLength(length(exact), inMm).text).toBe(text);
  });

  it('has the digits of its rule where the decimals do not end', () => {
    expect(showLength(length('1/3 in'), { ...inMm, ruler: rules('1 mm') }).text).toBe('~8 mm (+0.47)');
    expect(showLength(length('1/3 in'), { ...inMm, ruler: rules('1/16 in') }).text).toBe(
      '~8.47 mm (-0.0033)',
    );
  });
});

describe('a length in both units', () => {
  it('has the second unit in square brackets', () => {
    // Source: bracket method of dual dimensioning, second-hand: a guide to drawing.
    expect(showLength(length('2 3/8 in'), inBoth)).toMatchObject({
      text: '2 3/8 in [60.325 mm]',
      compact: '2 3/8 [60.325]',
      isRounded: false,
      error: undefined,
    });
    expect(showLength(length('60 mm'), { ...inBoth, firstUnit: 'mm' }).text).toBe(
      '60 mm [2 3/8 in scant (-0.013)]',
    );
  });

  it('tells the exact error of the rounded one', () => {
    const { error } = showLength(length('60 mm'), inBoth);
    expect(error && toFraction(error)).toBe('-13/40'); // 60 − 60.325 mm
  });
});

describe('a length known only as rounded', () => {
  it('says on which side of the mark the true one lies', () => {
    // The diagonal of 10 in by 12 in is 15.6205 in; 15 5/8 in is 15.625 in.
    const error = length('-4.5 thou');
    expect(showRounded(length('15 5/8 in'), error, inInches).text).toBe('15 5/8 in scant (-0.0045)');
    expect(showRounded(length('15 5/8 in'), zero, inInches).text).toBe('15 5/8 in');
  });
});

describe('a mark', () => {
  const onWhole: Style = { units: 'mm', firstUnit: 'mm', ruler: rules('1 mm') };

  // Computed: 58.37 lies 0.13 below 58.5 and 0.37 above 58; 20.13 lies 0.13 above 20.
  it.each([
    ['58.37 mm', inMm, '58.5 mm scant (-0.13)'],
    ['20.13 mm', inMm, '20 mm full (+0.13)'],
    ['58.5 mm', inMm, '58.5 mm'],
    ['58.37 mm', onWhole, '58 mm full (+0.37)'],
    ['116.74 mm', onWhole, '117 mm scant (-0.26)'],
    // A half goes up.
    ['58.5 mm', onWhole, '59 mm scant (-0.5)'],
    ['1/3 in', inMm, '8.5 mm scant (-0.033)'],
    // Nearer to zero than to the first mark.
    ['0.2 mm', inMm, '0.2 mm'],
    ['60 mm', inInches, '2 3/8 in scant (-0.013)'],
    // 2 3/8 in is 60.325 mm, 0.175 below 60.5.
    ['2 3/8 in', inBoth, '2 3/8 in [60.5 mm scant (-0.175)]'],
  ] as const)('at %s', (exact, style, text) => {
    expect(showMark(length(exact), style).text).toBe(text);
  });

  it('is exact where any rule of its unit has it', () => {
    const style: Style = { ...inMm, ruler: rules('1 mm', '0.5 mm') };
    expect(showMark(length('58.5 mm'), style).text).toBe('58.5 mm');
    expect(showMark(length('58.37 mm'), style).text).toBe('58 mm full (+0.37)');
  });

  it('is read to half millimetres and sixty-fourths where no rule of the unit is at hand', () => {
    const [halves, sixteenths] = [rules('0.5 mm'), rules('1/16 in')];
    expect(showMark(length('58.37 mm'), { ...inMm, ruler: sixteenths }).text).toBe('58.5 mm scant (-0.13)');
    expect(rulesFor('mm', sixteenths)).toEqual(halves);
    expect(rulesFor('in', halves)).toEqual(rules('1/64 in'));
    expect(rulesFor('in', rules('1/16 in', '0.5 mm', '1/32 in'))).toEqual(rules('1/16 in', '1/32 in'));
  });
});

describe('a length on one rule', () => {
  it.each([
    ['60.325 mm', '0.5 mm', '60.5 mm scant (-0.175)'],
    ['60 mm', '1/32 in', '2 3/8 in scant (-0.013)'],
    ['60 mm', '1 mm', '60 mm'],
  ])('%s in steps of %s is %j', (exact, step, text) => {
    expect(showOnRuler(length(exact), length(step)).text).toBe(text);
  });
});

const anyLength = fc
  .tuple(fc.bigInt({ min: -(10n ** 9n), max: 10n ** 9n }), fc.bigInt({ min: 1n, max: 10n ** 5n }))
  .map(([numerator, denominator]) => millimetres(rational(numerator, denominator)));
const anyStyle: fc.Arbitrary<Style> = fc.record(
  {
    units: fc.constantFrom('in', 'mm', 'both'),
    firstUnit: fc.constantFrom('in', 'mm'),
    ruler: fc.constantFrom(
      rules('1/16 in'),
      rules('1/32 in', '0.5 mm'),
      rules('1 mm'),
      rules('1/10 in', '1/64 in'),
    ),
    feet: fc.constant('shown' as const),
  },
  { requiredKeys: ['units', 'firstUnit', 'ruler'] },
);

describe('any length', () => {
  it('is the same again when what is shown exactly is read', () => {
    fc.assert(
      fc.property(anyLength, fc.constantFrom('in', 'mm'), (exact, unit) => {
        const reading = readMeasure(showExact(exact, unit));
        expect(reading.kind === 'length' && toFraction(reading.length)).toBe(toFraction(exact));
      }),
    );
  });

  it('is the number read back plus the error told', () => {
    fc.assert(
      fc.property(anyLength, anyStyle, (exact, style) => {
        fc.pre(style.units !== 'both');
        const { text, error = zero, isRounded } = showLength(exact, style);
        const number = text.replace(/^~/u, '').replace(/ (?:scant|full)?\s?\(.*\)$/u, '');
        const reading = readMeasure(number);
        if (reading.kind !== 'length') throw new Error(`${number} is not read`);
        expect(toFraction(minus(exact, reading.length))).toBe(toFraction(error));
        expect(isRounded).toBe(!isZero(error));
      }),
    );
  });

  it('carries a mark and a signed error wherever a number is rounded, and nowhere else', () => {
    fc.assert(
      fc.property(anyLength, anyStyle, (exact, style) => {
        const { text, compact, isRounded } = showLength(exact, style);
        for (const it of [text, compact]) {
          expect(/\([+-][\d./ ]+\)/u.test(it)).toBe(isRounded);
          expect(/~|scant|full/u.test(it)).toBe(isRounded);
        }
      }),
    );
  });

  it('is made of the parts it is set from', () => {
    fc.assert(
      fc.property(anyLength, anyStyle, (exact, style) => {
        const { text, parts, compact, compactParts } = showLength(exact, style);
        expect(parts.map((part) => part.text).join('')).toBe(text);
        expect(compactParts.map((part) => part.text).join('')).toBe(compact);
        for (const part of parts) {
          if (part.kind !== 'mixed') continue;
          const { negative, whole, numerator, denominator } = part.value;
          const size = rational(whole * denominator + numerator, denominator);
          expect(mixedText(negative ? rational(-size.numerator, size.denominator) : size)).toBe(part.text);
        }
      }),
    );
  });

  it('on a mark of a rule is shown without rounding', () => {
    const marks = fc.bigInt({ min: -10_000n, max: 10_000n }).map((it) => inches(rational(it, 16n)));
    fc.assert(
      fc.property(marks, (exact) => {
        expect(isMultiple(exact, length('1/16 in'))).toBe(true);
        expect(showLength(exact, inBoth).isRounded).toBe(false);
      }),
    );
  });
});

describe('a mixed number', () => {
  it('is in lowest terms with a fraction below 1', () => {
    expect(toMixedNumber(rational(-38n, 16n))).toEqual({
      negative: true,
      whole: 2n,
      numerator: 3n,
      denominator: 8n,
    });
    fc.assert(
      fc.property(anyLength, (number) => {
        const { negative, whole, numerator, denominator } = toMixedNumber(number);
        expect(numerator >= 0n && numerator < denominator).toBe(true);
        const size = rational(whole * denominator + numerator, denominator);
        expect(toFraction(size)).toBe(toFraction(number).replace('-', ''));
        expect(negative).toBe(number.numerator < 0n);
        expect(size.denominator).toBe(denominator);
      }),
    );
  });

  // Source: common practice, no source: sums as they are done at the bench.
  it.each([
    ['2 3/8', '1/16', 2, '2 1/2'],
    ['3', '-1/16', 2, '2 7/8'],
    ['1 1/4', '1 1/4', 11, '15'],
    ['3/4', '3/32', 3, '1 1/32'],
  ])('of %s in with %s in added %d times is %s in', (start, step, count, result) => {
    const total = sum(length(`${start} in`), times(length(`${step} in`), count));
    expect(showExact(total, 'in')).toBe(`${result} in`);
  });
});
