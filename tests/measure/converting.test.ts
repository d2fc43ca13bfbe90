import fc from 'fast-check';
import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import {
  type ConvertOptions,
  conversionLines,
  conversionRecord,
  convertArguments,
  convertLine,
  convertMeasure,
  convertToOne,
  inches,
  joinArguments,
  rational,
  readMeasure,
  showExact,
  toDrawnMm,
  toFraction,
  toInches,
} from '../../src/measure/index.ts';
import type { Length } from '../../src/model/index.ts';
import { fractionTable } from './fractionTable.ts';

const usual: ConvertOptions = { ruler: [] };

function length(text: string): Length {
  const reading = readMeasure(text);
  if (reading.kind !== 'length') throw new Error(`${text} is no length`);
  return reading.length;
}

describe('inches to millimetres', () => {
  it('has all 64 rows of the table', () => {
    expect(fractionTable.length).toBe(64);
  });

  it.each(fractionTable)(
    '$inches in is $mm mm',
    ({ inches: text, decimalInches, numerator, denominator, mm }) => {
      const exact = length(`${text} in`);
      expect(showExact(exact, 'mm')).toBe(`${mm} mm`);
      expect(toFraction(exact)).toBe(toFraction(inches(rational(numerator, denominator))));
      expect(toFraction(length(`${decimalInches} in`))).toBe(toFraction(exact));
      expect(showExact(length(`${mm} mm`), 'in')).toBe(`${text} in`);
    },
  );
});

describe('any measure', () => {
  // Source: js-quantities, a general-purpose library of units, as an independent converter. It counts in
  // doubles, so the two agree to about fifteen digits.
  const units = [
    ['in', 'in'],
    ['ft', 'ft'],
    ['thou', 'mil'],
    ['mm', 'mm'],
    ['cm', 'cm'],
    ['m', 'm'],
    ['micron', 'um'],
  ] as const;

  it('is converted as js-quantities does', () => {
    const wholes = fc.integer({ min: 0, max: 10_000 });
    const bottoms = fc.constantFrom(2, 3, 4, 5, 8, 10, 16, 32, 64, 127);
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        wholes,
        wholes,
        bottoms,
        ([ours, theirs], whole, part, bottom) => {
          const top = part % bottom;
          const exact = length(top === 0 ? `${whole} ${ours}` : `${whole} ${top}/${bottom} ${ours}`);
          const value = new Qty(whole + top / bottom, theirs);
          const [mm, inch] = [value.to('mm').scalar, value.to('in').scalar];
          expect(Math.abs(toDrawnMm(exact) - mm)).toBeLessThanOrEqual(1e-13 * Math.abs(mm));
          const ourInch = toInches(exact);
          const drawnInch = Number(ourInch.numerator) / Number(ourInch.denominator);
          expect(Math.abs(drawnInch - inch)).toBeLessThanOrEqual(1e-13 * Math.abs(inch));
        },
      ),
      { numRuns: 500 },
    );
  });

  it('is converted to the other unit, unless one is asked for', () => {
    const toWhich = (text: string, options: ConvertOptions = usual): string => {
      const conversion = convertMeasure(text, options);
      return conversion.kind === 'refused'
        ? 'refused'
        : conversion.answers.map(({ exact }) => exact).join(' | ');
    };
    expect(toWhich('2 3/8"')).toBe('60.325 mm');
    expect(toWhich('1 ft')).toBe('304.8 mm');
    expect(toWhich('12 thou')).toBe('0.3048 mm');
    expect(toWhich('63.5 mm')).toBe('2 1/2 in');
    expect(toWhich('2.54 cm')).toBe('1 in');
    expect(toWhich('1 m', { ...usual, to: 'mm' })).toBe('1000 mm');
    expect(toWhich('60 mm', { ...usual, to: 'in' })).toBe('2 46/127 in');
    expect(toWhich('2 3/8', { ...usual, from: 'in' })).toBe('60.325 mm');
    expect(toWhich('-2 3/8 in')).toBe('-60.325 mm');
  });

  it('without a unit is answered both ways, and refused where one answer is wanted', () => {
    const both = convertMeasure('2 1/2', usual);
    expect(both.kind === 'converted' && both.answers.map(({ takenAs, exact }) => [takenAs, exact])).toEqual([
      ['in', '63.5 mm'],
      ['mm', '25/254 in'],
    ]);
    const one = convertToOne('2 1/2', usual);
    expect(one.kind === 'refused' && one.diagnostic.code).toBe('M27');
    expect(convertToOne('2 1/2', { ...usual, from: 'mm' }).kind).toBe('converted');
  });

  it('is placed by the caller where it is refused', () => {
    const seen: number[][] = [];
    convertMeasure('12,5 mm', usual, (start, end) => {
      seen.push([start, end]);
      return { kind: 'none' };
    });
    expect(seen).toEqual([[0, 4]]);
  });
});

describe('arguments that a shell took apart', () => {
  it.each([
    ['2 3/8 in', '2 3/8 in*'],
    ['2 3/8', '2 3/8*'],
    ['2 3/8"', '2 3/8"*'],
    ['2 ⅜ in', '2 ⅜ in*'],
    ['-2 3/8 in', '-2 3/8 in*'],
    ['2 3/8 60mm', '2 3/8* | 60mm'],
    ['60 mm 2 in', '60 mm* | 2 in*'],
    ['½ in', '½ in*'],
    ['1 ft 2 3/8 in', '1 ft 2 3/8 in*'],
    // Refused afterwards, with a guess at what was meant.
    ['1 7/4', '1 7/4*'],
    ['2,5 mm', '2,5 mm*'],
    // Measures of their own.
    ['1ft 2in', '1ft | 2in'],
    ['3 4', '3 | 4'],
    ['1/2 3/4', '1/2 | 3/4'],
    ['2in 3/8', '2in | 3/8'],
    ['2" in', '2" | in'],
  ])('%s is %s', (typed, joined) => {
    const texts = joinArguments(typed.split(' ')).map(
      ({ text, isJoined }) => `${text}${isJoined ? '*' : ''}`,
    );
    expect(texts.join(' | ')).toBe(joined);
  });

  it('stay apart where spaces were kept together', () => {
    expect(joinArguments(['2 3/8 in', '3/4 in']).map(({ text }) => text)).toEqual(['2 3/8 in', '3/4 in']);
  });
});

describe('what a person reads', () => {
  it('names the rounding rule, the reading and the error', () => {
    const lines = conversionLines(convertArguments(['2', '3/8', 'in', '60 mm'], usual, 'all'));
    expect(lines).toEqual([
      '2 3/8 in = 60.325 mm',
      // Computed: 60 / 25.4 = 2.36220472…
      '60 mm = 2 46/127 in = ~2.3622 in (+0.0000047)',
      '(2 3/8 in is read as one measure)',
      '',
      'to the nearest mark, half up; in brackets the true length less that mark',
      '  2 3/8 in on a 0.5 mm rule: 60.5 mm scant (-0.175)',
      '  60 mm on a 1/16 in rule: 2 3/8 in scant (-0.013)',
    ]);
  });

  it('has no heading where nothing is rounded', () => {
    expect(conversionLines(convertArguments(['63.5 mm'], usual, 'all'))).toEqual([
      '63.5 mm = 2 1/2 in',
      '',
      '  63.5 mm on a 1/16 in rule: 2 1/2 in, exactly',
    ]);
  });

  it('has a line for each rule of the unit', () => {
    const ruler = ['1/16 in', '1/64 in', '1 mm'].map(length);
    expect(conversionLines(convertArguments(['60 mm'], { ruler }, 'all')).slice(3)).toEqual([
      '  60 mm on a 1/16 in rule: 2 3/8 in scant (-0.013)',
      '  60 mm on a 1/64 in rule: 2 23/64 in full (+0.0028)',
    ]);
  });

  it.each([
    ['5/64 in', '1/32 in', 'a rule of 1/32 in does not divide a millimetre: the usual 0.5 mm is taken'],
    ['60 mm', '0.5 mm', 'a rule of 0.5 mm does not divide an inch: the usual 1/16 in is taken'],
  ])('of %s tells that a rule of %s is of no use', (text, step, words) => {
    const ruler = [length(step)];
    expect(conversionLines(convertArguments([text], { ruler }, 'all'))).toContain(words);
    const both = [...ruler, length('1/16 in'), length('1 mm')];
    expect(conversionLines(convertArguments([text], { ruler: both }, 'all')).join()).not.toContain('divide');
  });

  it('has the decimal beside a fraction that no rule has, exactly where it ends', () => {
    const first = (text: string) => conversionLines(convertArguments([text], usual, 'all'))[0];
    // Computed: 0.3048 mm is 0.012 in; 1/3 in is 8.46666… mm.
    expect(first('0.3048 mm')).toBe('0.3048 mm = 3/250 in = 0.012 in');
    expect(first('1/3 in')).toBe('1/3 in = 8 7/15 mm = ~8.4667 mm (-0.000033)');
  });
});

describe('one line after the other', () => {
  it('gives JSON with nothing added', () => {
    expect(convertLine('2 3/8"', usual, 'json').output).toBe(
      '{"input":"2 3/8\\"","mm":"2413/40","text":"60.325 mm"}',
    );
    const { output, diagnostic } = convertLine('2,5', usual, 'json');
    const { input, error } = JSON.parse(output ?? '');
    expect(input).toBe('2,5');
    expect(Object.keys(error)).toEqual(['code', 'message', 'hint']);
    expect(error.code).toBe('M08');
    expect(diagnostic?.code).toBe('M08');
  });

  it('takes a line end of either kind', () => {
    expect(convertLine('60 mm\r', usual, 'json').output).toBe(
      '{"input":"60 mm","mm":"60","text":"2 3/8 in scant (-0.013)"}',
    );
  });

  it('refuses a bare number in JSON alone', () => {
    expect(convertLine('2 1/2', usual, 'json').diagnostic?.code).toBe('M27');
    expect(convertLine('2 1/2', usual, 'text').output).toBe(
      '2 1/2 = 63.5 mm if in, 1/8 in scant (-0.027) if mm',
    );
  });

  it('refuses an empty line, so that none is lost', () => {
    expect(convertLine('', usual, 'text')).toMatchObject({ output: undefined, diagnostic: { code: 'M01' } });
  });
});

describe('the JSON record of one measure', () => {
  it('has the exact length, each rule, and whether the rule has the mark', () => {
    expect(conversionRecord(convertToOne('60 mm', usual), usual)).toEqual({
      input: '60 mm',
      mm: '60',
      text: '2 3/8 in scant (-0.013)',
      to: 'in',
      exact: '2 46/127 in',
      onRuler: [
        // 1/16 in is 127/80 mm, 2 3/8 in is 2413/40 mm.
        {
          stepMm: '127/80',
          mm: '2413/40',
          errorMm: '-13/40',
          isExact: false,
          text: '2 3/8 in scant (-0.013)',
        },
      ],
    });
  });
});
