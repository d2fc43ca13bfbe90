import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measurePrefix, readMeasure, toFraction, unitNames } from '../../src/measure/index.ts';
import { nowhere } from '../../src/model/index.ts';
import { accepted } from './accepted.ts';

describe('a measure that is read', () => {
  it.each(accepted)('%j is a %s of %s', (text, kind, worth) => {
    const reading = readMeasure(text);
    expect(reading.kind).toBe(kind);
    if (reading.kind === 'length') expect(toFraction(reading.length)).toBe(worth);
    if (reading.kind === 'bare') expect(toFraction(reading.number)).toBe(worth);
  });

  // Source: the character names of the Unicode database, e.g. VULGAR FRACTION THREE EIGHTHS.
  it.each([
    ['¼½¾', '1/4 1/2 3/4'],
    ['⅐⅑⅒', '1/7 1/9 1/10'],
    ['⅓⅔⅕⅖⅗⅘⅙⅚', '1/3 2/3 1/5 2/5 3/5 4/5 1/6 5/6'],
    ['⅛⅜⅝⅞↉', '1/8 3/8 5/8 7/8 0'],
  ])('each of %s is its fraction', (signs, fractions) => {
    const read = [...signs].map((sign) => readMeasure(sign));
    expect(read.map((it) => (it.kind === 'bare' ? toFraction(it.number) : it.kind))).toEqual(
      fractions.split(' '),
    );
  });

  it('takes every unit in any case, close or spaced, with a full stop or without', () => {
    for (const unit of unitNames) {
      const spelt = [`3 ${unit}`, `3${unit}`, `3 ${unit}.`, `3 ${unit.toUpperCase()}`];
      const worths = spelt.map((text) => {
        const reading = readMeasure(text);
        return reading.kind === 'length' ? toFraction(reading.length) : `${text}: ${reading.kind}`;
      });
      expect(new Set(worths).size, unit).toBe(1);
      expect(worths[0], unit).not.toContain(':');
    }
  });
});

/**
 * Each refused text, the faulty characters under it, the code, and what is offered in its place. Columns
 * are counted in characters of one column each, so texts with wide characters are tried further down.
 */
const refused = `
1 7/4
^^^^^ M06 2 3/4
3 8/8 in
^^^^^ M06 4 in
2-19/16
^^^^^^^ M06 3 3/16
2⅟1
^^^ M06 3
2 - 3/8
  ^ M07 2 3/8, or (2 - 3/8) in a file
2 -3/8
  ^ M07 2 3/8, or (2 - 3/8) in a file
2- 3/8
 ^ M07 2 3/8, or (2 - 3/8) in a file
2–3/8
 ^ M07 2 3/8, or (2 - 3/8) in a file
2—3/8
 ^ M07 2 3/8, or (2 - 3/8) in a file
2−3/8
 ^ M07 2 3/8, or (2 - 3/8) in a file
2-3
 ^ M07 (2 - 3) in a file
2 in - 1 in
     ^ M07 (2 in - 1 in) in a file
1' - 2"
   ^ M07 1' 2", or (1' - 2") in a file
2,5
^^^ M08 2.5
2,5 mm
^^^ M08 2.5 mm
0,125 in
^^^^^ M08 0.125 in
1,000
^^^^^ M08 1.000, or 1000
1.234,5
^^^^^^^ M08 1234.5
2·5
^^^ M08 2.5
1,234.5
^^^^^^^ M09 1234.5
1,234,567
^^^^^^^^^ M09 1234567
1 000
^^^^^ M09 1000
12 500 mm
^^^^^^ M09 12500 mm
12 500.5 mm
^^^^^^^^ M09 12500.5 mm
1'000 mm
^^^^^ M09 1000 mm
1_000
^^^^^ M09 1000
1.234.567
^^^^^^^^^ M09 1234567
2 3
^^^ M10 one number; a fraction has a slash, as in 3/4 or 2 3/4
2 3 in
^^^ M10 one number; a fraction has a slash, as in 3/4 or 2 3/4
1/2 3/4
^^^^^^^ M11 1 1/4, or (1/2 + 3/4) in a file
⅜⅜
^^ M11 3/4, or (⅜ + ⅜) in a file
2 3/8 1/16 in
  ^^^^^^^^ M11 2 7/16 in, or (2 3/8 + 1/16 in) in a file
2 3/8/2
  ^^^^^ M11 one fraction; a sum stands in round brackets, as in (3/8 + 7/8), in a file
2.5 3/8
^^^^^^^ M12 2 7/8
2.5⅜ in
^^^^ M12 2 7/8 in
2.5/8
^^^^^ M12 5/16
2 3/8.5
  ^^^^^ M12 either decimals or a fraction
1/0
^^^ M13 a fraction with a whole number above zero below its line, as in 1/2
2 1/0 in
  ^^^ M13 a fraction with a whole number above zero below its line, as in 1/2
2 in mm
  ^^^^^ M05 2 in, or 2 mm
2 in 3 mm
  ^^^^^^^ M05 (2 in + 3 mm) in a file
3 ft 2 mm
  ^^^^^^^ M05 (3 ft + 2 mm) in a file
2" 3'
 ^^^^ M05 (2" + 3') in a file
3' 4'
 ^^^^ M05 (3' + 4') in a file
1e3
^^^ M14 1000
1.5E-3 mm
^^^^^^ M14 0.0015 mm
2^3
^^^ M14 the number written out in full, as in 1000 or 0.001
2**3
^^^^ M14 the number written out in full, as in 1000 or 0.001
2³
^^ M14 the number written out in full, as in 1000 or 0.001
1e400
^^^^^ M14 the number written out in full, as in 1000 or 0.001
0x1F
^^^^ M15 31
0b101 mm
^^^^^ M15 5 mm
0o17
^^^^ M15 15
3 mil
  ^^^ M04 3 thou, or 3 mm
30 Mils
   ^^^^ M04 30 thou, or 30 mm
٣ mm
^ M16 3 mm
१२ 3/8 in
^^ M16 12 3/8 in
2³⁄₈
 ^^^ M16 2 3⁄8
Ⅻ
^ M16 the digits 0 to 9, as in 2 3/8
3 in²
  ^^^ M17 3 in
3 in^2
  ^^^^ M17 3 in
3 mm2
  ^^^ M17 3 mm
3 sq in
  ^^^^^ M17 3 in
3 square inches
  ^^^^^^^^^^^^^ M17 3 inches
3 cubic cm
  ^^^^^^^^ M17 3 cm
2' 15"
   ^^^ M19 3' 3"
2' 15 1/2"
   ^^^^^^^ M19 3' 3 1/2"
1'100"
  ^^^^ M19 9' 4"
1 ft 12 in
     ^^^^^ M19 2' 0"
3' 4
   ^ M20 3' 4"
3 ft 4 1/2
     ^^^^^ M20 3 ft 4 1/2 in
⅟
^ M21 digits on both sides of a slash, and behind a point
2⅟
 ^ M21 digits on both sides of a slash, and behind a point
2.
^^ M21 2
2. in
^^ M21 2 in
3/
^^ M21 digits on both sides of a slash, and behind a point
/8
^ M21 digits on both sides of a slash, and behind a point
2 3/
  ^^ M21 digits on both sides of a slash, and behind a point
.
^ M21 digits on both sides of a slash, and behind a point
-
^ M21 digits on both sides of a slash, and behind a point
3 / 8
^^^^^ M22 3/8, or (3 / 8) in a file
3 /8
^^^^ M22 3/8, or (3 / 8) in a file
2 3 / 8 in
  ^^^^^ M22 2 3/8 in
2 + 3
  ^ M23 (2 + 3) in a file
2x3
 ^ M23 (2 x 3) in a file
2 in × 3 in
     ^ M23 (2 in × 3 in) in a file
3 ft and 2 in
     ^^^ M23 3 ft 2 in
(2 + 3)
^^^^^^^ M23 one measure; in a file a sum stands in round brackets
2 3/8 in (wide)
         ^^^^^^ M24 2 3/8 in
2;
 ^ M24 2
3-inch
 ^^^^^ M24 3 inch
3 in 4
     ^ M24 3 in
1 1/2' 3"
^^^^^ M25 1' 9"
1.5 ft 3 in
^^^ M25 1' 9"
+3
^ M26 3
- 3
^^ M26 -3
--3
^^ M26 3, or -3
–3 mm
^ M26 -3 mm
about 3 in
^^^^^^^^^^ M02 3 in
terrace
^^^^^^^ M02 a number, with its unit if there is need, such as 2 3/8 in or 60 mm
in
^^ M02 a number, with its unit if there is need, such as 2 3/8 in or 60 mm
"
^ M02 a number, with its unit if there is need, such as 2 3/8 in or 60 mm
3 furlong
  ^^^^^^^ M03 one of in, ft, thou, mm, cm, m, micron
3 inchs
  ^^^^^ M03 3 inch
3 milimetres
  ^^^^^^^^^^ M03 3 millimetres
2 yd
  ^^ M03 6 ft
-2 yards
   ^^^^^ M03 -6 ft
5 dm
  ^^ M03 50 cm
1234567890123456789012345678901
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ M18 at most 30 digits and 200 characters
`
  .trim()
  .split('\n');

const cases = refused.flatMap((text, index) =>
  index % 2 === 0 ? [[text, refused[index + 1] ?? ''] as const] : [],
);

function carets(text: string): string {
  const reading = readMeasure(text);
  if (reading.kind !== 'refused') return `read as a ${reading.kind}`;
  const { code, hints } = reading.toDiagnostic(nowhere);
  return `${' '.repeat(reading.start)}${'^'.repeat(reading.end - reading.start)} ${code} ${hints.join('; ')}`;
}

describe('a measure that is refused', () => {
  it.each(cases)('%j', (text, expected) => {
    expect(carets(text)).toBe(expected);
  });

  it.each([
    ['', 0, 0, 'M01'],
    ['   ', 0, 3, 'M01'],
    ['２ 3/8', 0, 1, 'M16'],
    ['٣٫٥ mm', 0, 1, 'M16'],
    // Digits outside the first 65 536 characters have two UTF-16 units each.
    ['\u{1d7d0} mm', 0, 2, 'M16'],
    ['2\u200b3/8', 1, 5, 'M24'],
    ['2\ufeff3/8', 1, 5, 'M24'],
    ['2\ufeff', 1, 2, 'M24'],
    ['\u202e12', 0, 3, 'M02'],
    [`${'1 '.repeat(101)}`, 0, 202, 'M18'],
    ['x'.repeat(201), 0, 201, 'M18'],
  ])('%j from %i to %i is %s', (text, start, end, code) => {
    const reading = readMeasure(text);
    expect(reading).toMatchObject({ kind: 'refused', start, end });
    expect(reading.kind === 'refused' && reading.toDiagnostic(nowhere).code).toBe(code);
  });

  it('offers the point for the Arabic decimal separator', () => {
    const reading = readMeasure('٣٫٥ mm');
    expect(reading.kind === 'refused' && reading.toDiagnostic(nowhere).hints).toEqual(['3.5 mm']);
  });

  it('shows characters that cannot be seen by their number', () => {
    const reading = readMeasure('2\u200b3/8');
    expect(reading.kind === 'refused' && reading.toDiagnostic(nowhere).message).toContain('"U+200B3/8"');
  });

  it('has each code but M27 in the table above', () => {
    const tried = new Set([...cases.map(([, expected]) => /M\d\d/.exec(expected)?.[0]), 'M01']);
    const codes = Array.from({ length: 26 }, (_, index) => `M${`${index + 1}`.padStart(2, '0')}`);
    expect(codes.filter((code) => !tried.has(code))).toEqual([]);
  });
});

/** Pieces that measures are made of, and pieces that they are not. */
const pieces = [
  ...['2', '12', '3/8', '⅜', '.5', '1.25', '0', '7/4', '1/0', '⅟', '000', '٣', '³'],
  ...[' ', '\u00a0', '-', '–', '−', '/', '⁄', '.', ',', '_', '+', 'x', '(', '^', '²', '\u200b', '\ufeff'],
  ...['in', 'ft', 'mm', 'MM.', 'mil', 'yd', 'foo', 'e3', "'", '"', '″', '’', 'sq', '\u{1d7d0}'],
];
const scribble = fc.array(fc.constantFrom(...pieces), { maxLength: 9 }).map((it) => it.join(''));

describe('whatever is written', () => {
  it('is read, or refused at characters within it, with a hint', () => {
    fc.assert(
      fc.property(fc.oneof(scribble, fc.string({ unit: 'binary' })), (text) => {
        const reading = readMeasure(text);
        if (reading.kind !== 'refused') return;
        const { message, hints } = reading.toDiagnostic(nowhere);
        expect(reading.start).toBeGreaterThanOrEqual(0);
        expect(reading.end).toBeLessThanOrEqual(text.length);
        if (text.trim() !== '') expect(reading.end).toBeGreaterThan(reading.start);
        expect(message).not.toBe('');
        expect(hints.length).toBe(1);
      }),
      { numRuns: 1000 },
    );
  });

  it('gives a measure prefix within the text, and one that ends where it is read again', () => {
    fc.assert(
      fc.property(scribble, (text) => {
        const length = measurePrefix(text, 0);
        expect(length).toBeLessThanOrEqual(text.length);
        expect(measurePrefix(text.slice(0, length), 0)).toBe(length);
      }),
      { numRuns: 1000 },
    );
  });

  it('is done with, however long and repetitive', () => {
    const long = [
      '1 '.repeat(99),
      '1-'.repeat(99),
      "1'".repeat(99),
      ' '.repeat(199),
      '½'.repeat(199),
      'a'.repeat(199),
    ];
    // A pattern that tries everything twice over would not come to an end here.
    for (const text of long) {
      expect(readMeasure(text).kind).toBe('refused');
      expect(measurePrefix(text, 0)).toBeLessThanOrEqual(text.length);
    }
  });
});

describe('a measure at the beginning of a sum', () => {
  it.each([
    ['2 - 3/8', '2'],
    ['2 3/8 in - 1', '2 3/8 in'],
    ['2-3/8', '2-3/8'],
    ['2 x 3/4 in', '2'],
    ['4 down to 1/8', '4'],
    ["3' 4 + 1", "3' 4"],
    [`1'-2" x 3`, `1'-2"`],
    ['1 ft 2 in + 3', '1 ft 2 in'],
    ['2 3/8)', '2 3/8'],
    ['⅜ + 1', '⅜'],
    ['.5 in)', '.5 in'],
    ['2 m x 3', '2 m'],
    ['2 square', '2'],
    ['5 of', '5'],
    ['3 / 8', '3'],
    ['3/terrace', '3'],
    ['2-terrace', '2'],
    ['2, 3', '2'],
    // Taken whole, since they are refused with a reason.
    ['1 7/4 + 2', '1 7/4'],
    ['2,5 + 1', '2,5'],
    ['2-3 + 1', '2-3'],
    ['3 mil', '3 mil'],
    ['1e3 + 2', '1e3'],
    ['0x1F', '0x1F'],
    ['1/2/3', '1/2/3'],
    ['3 sq in', '3 sq in'],
    ['3 in² - 1', '3 in²'],
    ['2. in', '2. in'],
    ['2x3', '2x3'],
    ['٣ mm', '٣ mm'],
    // No measure begins here.
    ['terrace', ''],
    ['-2', ''],
    ['(2)', ''],
    ['', ''],
  ])('of %j it is %j', (text, prefix) => {
    expect(text.slice(0, measurePrefix(text, 0))).toBe(prefix);
    expect(measurePrefix(`(${text}`, 1)).toBe(prefix.length);
  });

  it('takes every measure that is read whole', () => {
    for (const [text] of accepted) {
      const plain = text.trim().replace(/^[-\u2212]/u, '');
      expect(measurePrefix(`${plain} + 1`, 0), text).toBe(plain.length);
    }
  });
});
