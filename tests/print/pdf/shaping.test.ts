import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { type PdfDocument, startDocument } from '../../../src/print/pdf/document.ts';
import { kerningIn } from '../../../src/print/pdf/kerning.ts';
import { fontInWoff } from '../../../src/print/pdf/woff.ts';

const read = (name: string): Uint8Array =>
  readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url));
const files = { regular: read('IBMPlexSans-Regular.woff'), semibold: read('IBMPlexSans-SemiBold.woff') };
const weights = ['regular', 'semibold'] as const;
const document: PdfDocument = await startDocument({ title: 'words', producer: 'test' }, files);

/** The glyphs of one word and how far each reaches, in units of the font. */
interface Set {
  readonly glyphs: readonly number[];
  readonly reaches: readonly number[];
}

function byUs(text: string, weight: 'regular' | 'semibold'): Set {
  const { glyphs, positions } = document.font(weight)._font.layoutRun(text);
  return { glyphs: glyphs.map(({ id }) => id), reaches: positions.map(({ xAdvance }) => xAdvance) };
}

// Outside check: fontkit's own shaper, from the file as it is.
const fonts: Readonly<Record<'regular' | 'semibold', Font>> = {
  regular: create(files.regular) as Font,
  semibold: create(files.semibold) as Font,
};

function byFontkit(text: string, weight: 'regular' | 'semibold'): Set {
  const { glyphs, positions } = fonts[weight].layout(text);
  return { glyphs: glyphs.map(({ id }) => id), reaches: positions.map(({ xAdvance }) => xAdvance) };
}

describe.each(weights)('words set letter by letter in %s', (weight) => {
  it.each([
    'AVATAR',
    'To',
    'off',
    'office',
    'fjord',
    'first,',
    '1\u20091\u204416',
    '15\u20093\u20444\u00a0×\u00a011\u20093\u20444:',
    '1\u20442\u20443',
    '\u20442',
    '(7\u204464)',
    'Wände',
    '−0.0022',
  ])('%s is what the font library makes of it', (text) => {
    expect(byUs(text, weight)).toEqual(byFontkit(text, weight));
  });

  it('so is any word of plain letters, figures and fractions', () => {
    const letter = fc.constantFrom(
      ...Array.from({ length: 95 }, (_, index) => String.fromCharCode(32 + index)),
      ...[
        '\u00a0',
        '\u2009',
        '·',
        '×',
        '…',
        '−',
        '→',
        '“',
        '”',
        '\u2044',
        '1\u204416',
        '3\u20444',
        '7\u20442',
      ],
    );
    const word = fc.array(letter, { minLength: 1, maxLength: 12 }).map((it) => it.join(''));
    fc.assert(
      fc.property(word, (text) => {
        expect(byUs(text, weight)).toEqual(byFontkit(text, weight));
      }),
      { numRuns: 400, seed: 11 },
    );
  });

  it.each([...'abcdefghijklmnopqrstuvwxyzABCTVW'])('so is f beside %s', (letter) => {
    for (const text of [`f${letter}a`, `ff${letter}`])
      expect(byUs(text, weight)).toEqual(byFontkit(text, weight));
  });

  it('and the kerning is read, not taken for none', () => {
    const kerning = kerningIn(fontInWoff(files[weight]));
    const [left, right] = byFontkit('To', weight).glyphs;
    expect(kerning?.(left!, right!)).toBeLessThan(0);
  });
});
