import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { centred, clean, padEnd, padStart, widthOf, wrap } from '../../../src/print/columns/index.ts';

describe('the width of a text', () => {
  // Source: Unicode Standard Annex #11 (East Asian Width) and UTS #51 (emoji), from memory.
  it.each([
    ['retaining wall', 14],
    ['2 3/8 × 1⅜″', 11],
    ['日本', 4],
    ['ｱﾐ', 2],
    ['Ａ', 2],
    ['e\u0301', 1],
    ['ก\u0e49', 1],
    ['한국', 4],
    ['\u1112\u1161\u11ab', 2],
    ['👍🏽', 2],
    ['👩‍👩‍👧', 2],
    ['🇩🇪🇫🇷', 4],
    ['❤\ufe0f', 2],
    ['☐', 1],
    ['━╱┊●', 4],
  ])('%s takes %i columns', (text, columns) => {
    expect(widthOf(text)).toBe(columns);
  });

  it('is the same for a character alone and behind one that makes it be looked at closely', () => {
    const watch = '\u231a';
    for (let code = 0; code <= 0x2fff; code++) {
      const character = String.fromCodePoint(code);
      expect(widthOf(watch + character) - widthOf(watch), code.toString(16)).toBe(widthOf(character));
    }
  });

  it('is reached by padding, on either side or both', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 0, max: 60 }), (text, columns) => {
        const wanted = Math.max(widthOf(text), columns);
        for (const pad of [padEnd, padStart, centred]) expect(widthOf(pad(text, columns))).toBe(wanted);
      }),
    );
  });
});

describe('wrapping', () => {
  it('breaks at spaces and keeps every word', () => {
    expect(wrap('set a stop at 1 1/4, cut 12', 12)).toEqual(['set a stop', 'at 1 1/4,', 'cut 12']);
  });

  it('holds together what a no-break space joins, and prints a space', () => {
    expect(wrap('at 1\u00a01/4', 5)).toEqual(['at', '1 1/4']);
  });

  it('breaks a word only where it is wider than the line, never inside one character', () => {
    expect(wrap('Terrassenmauer', 6)).toEqual(['Terras', 'senmau', 'er']);
    expect(wrap('石垣石垣', 5)).toEqual(['石垣', '石垣']);
  });

  it('never exceeds the columns and loses nothing but spaces', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 2, max: 30 }), (text, columns) => {
        const lines = wrap(clean(text), columns);
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(columns);
        const without = (it: string) => it.replaceAll(/[ \u00a0]/g, '');
        expect(without(lines.join(''))).toBe(without(clean(text)));
      }),
    );
  });
});

describe('cleaning', () => {
  it('lets no control, escape or direction character through', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(clean(text)).not.toMatch(/[\p{Cc}\p{Cs}\u200e\u200f\u202a-\u202e\u2066-\u2069]/u);
      }),
    );
    expect(clean('a\x1b[31mb\u202ec\td')).toBe('a?[31mb?c d');
  });

  it('leaves words of any language as they are', () => {
    for (const text of ['Stützmauer ⅜″', '石垣 (左)', 'e\u0301tage', '👩‍👩‍👧 team'])
      expect(clean(text)).toBe(text);
  });
});
