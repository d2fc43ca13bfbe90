import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { fontOf } from '../../../src/print/font/index.ts';

const read = (name: string): Uint8Array =>
  readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url));
const files = { regular: read('IBMPlexSans-Regular.woff'), semibold: read('IBMPlexSans-SemiBold.woff') };
const weights = ['regular', 'semibold'] as const;
const ours = { regular: fontOf(files.regular), semibold: fontOf(files.semibold) };

/** The glyphs of a text, how far each reaches and how far it is moved, in units of the font. */
interface Set {
  readonly glyphs: readonly number[];
  readonly reaches: readonly number[];
  readonly moved: readonly (readonly [number, number])[];
}

function byUs(text: string, weight: 'regular' | 'semibold'): Set {
  const set = ours[weight].set(text);
  return {
    glyphs: set.map(({ glyph }) => glyph),
    reaches: set.map(({ advance }) => advance),
    moved: set.map(({ x, y }) => [x, y]),
  };
}

// Outside check: fontkit's own shaper, from the file as it is.
const fonts: Readonly<Record<'regular' | 'semibold', Font>> = {
  regular: create(files.regular) as Font,
  semibold: create(files.semibold) as Font,
};

function byFontkit(text: string, weight: 'regular' | 'semibold'): Set {
  const { glyphs, positions } = fonts[weight].layout(text);
  return {
    glyphs: glyphs.map(({ id }) => id),
    reaches: positions.map(({ xAdvance }) => xAdvance),
    moved: positions.map(({ xOffset, yOffset }) => [xOffset, yOffset]),
  };
}

describe.each(weights)('words set in %s', (weight) => {
  it.each([
    '',
    'AVATAR',
    'To',
    'off',
    'office',
    'fjord',
    'first, affine',
    '1\u20091\u204416',
    '15\u20093\u20444\u00a0×\u00a011\u20093\u20444:',
    '1\u20442\u20443',
    '\u20442',
    '3\u2044',
    '(7\u204464)',
    'Wände',
    '−0.0022',
    'стена 3 × 1½',
    'τείχος',
    'x\u0302 and X\u0302y',
  ])('%s is what the font library makes of it', (text) => {
    expect(byUs(text, weight)).toEqual(byFontkit(text, weight));
  });

  it('so is every character that the font has, beside a letter and beside a figure', () => {
    // What can't be seen never comes here (`settable`); accents have a test of their own above.
    const all = Array.from({ length: 0xfb10 }, (_, code) => code).filter(
      (code) => ours[weight].has(code) && !/[\p{M}\p{Cf}\p{Co}]/u.test(String.fromCodePoint(code)),
    );
    expect(all.length).toBeGreaterThan(800);
    for (const code of all) {
      expect(fonts[weight].hasGlyphForCodePoint(code)).toBe(true);
      const text = `A${String.fromCodePoint(code)}o${String.fromCodePoint(code)}1`;
      expect(byUs(text, weight), text).toEqual(byFontkit(text, weight));
    }
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
        const set = byUs(text, weight);
        expect(set).toEqual(byFontkit(text, weight));
        expect(ours[weight].widthOf(text)).toBe(set.reaches.reduce((sum, it) => sum + it, 0));
      }),
      { numRuns: 400, seed: 11 },
    );
  });

  it('says of each glyph what it stands for, and loses no letter', () => {
    for (const text of ['affine', '2\u200913\u204416 × 3', 'x\u0302y', 'стена'])
      expect(
        ours[weight]
          .set(text)
          .map((it) => it.text)
          .join(''),
      ).toBe(text);
  });

  it('and the kerning is read, not taken for none', () => {
    const [left, right] = byFontkit('To', weight).glyphs;
    expect(ours[weight].kerning(left!, right!)).toBeLessThan(0);
  });
});
