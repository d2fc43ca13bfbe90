import type { PdfFont, ShapedRun } from './document.ts';
import type { Kerning } from './kerning.ts';

/**
 * Sets most words from the advances of their letters and the kerning of their pairs. Having the font library
 * shape each word anew is by far the most of what a document of many labels would cost.
 *
 *   1 1⁄16 × 3,      letter by letter; the figures of a built-up fraction have glyphs of their own, which
 *                    the library shows once, in a fraction that holds all of them
 *
 * What may form a ligature, and what is no plain letter, is left to the library.
 */
export function shapeByLetters(font: PdfFont, kerning: Kerning | undefined): void {
  if (kerning === undefined) return;
  const shape = font.layoutRun.bind(font);
  const scale = 1000 / font.font.unitsPerEm;
  const letters = new Map<string, Glyph>();
  const letterOf = (letter: string): Glyph => {
    const glyph = letters.get(letter) ?? font.font.glyphForCodePoint(letter.charCodeAt(0));
    letters.set(letter, glyph);
    return glyph;
  };
  let built: readonly Glyph[] | undefined;
  font.layoutRun = (text, features) => {
    if (features !== undefined || !isPlain.test(text) || mayJoin.test(text)) return shape(text, features);
    if (!text.includes('\u2044')) return run(Array.from(text, letterOf), kerning, scale);
    built ??= shape(allFigures).glyphs;
    if (built.length !== allFigures.length) return shape(text);
    return run(withFractions(text, letterOf, built), kerning, scale);
  };
}

type Glyph = ShapedRun['glyphs'][number];

const isPlain = /^[\x20-\x7e\u00a0\u00b7\u00d7\u2009\u201c\u201d\u2026\u2044\u2190-\u2193\u2212]*$/u;
/** Letters that may be drawn as one with an f, and a fraction bar that has no figures on both sides. */
const mayJoin = /f[bfhijklt]|(?<![0-9])\u2044|\u2044(?![0-9])|\u2044[0-9]+\u2044/u;

const allFigures = '0123456789\u20440123456789';
const bar = 10;

/** @param built the glyphs of `allFigures` */
function withFractions(
  text: string,
  letterOf: (letter: string) => Glyph,
  built: readonly Glyph[],
): readonly Glyph[] {
  const glyphs: Glyph[] = [];
  // Odd ones are the fractions.
  for (const [index, part] of text.split(/([0-9]+\u2044[0-9]+)/u).entries()) {
    let below = 0;
    for (const letter of part) {
      const isBar = letter === '\u2044';
      if (isBar) below = bar + 1;
      const glyph = index % 2 === 0 ? letterOf(letter) : built[isBar ? bar : below + Number(letter)];
      glyphs.push(glyph ?? letterOf(letter));
    }
  }
  return glyphs;
}

function run(glyphs: readonly Glyph[], kerning: Kerning, scale: number): ShapedRun {
  let sum = 0;
  const positions = glyphs.map((glyph, index) => {
    const next = glyphs[index + 1];
    const advanceWidth = glyph.advanceWidth * scale;
    const xAdvance = advanceWidth + (next === undefined ? 0 : kerning(glyph.id, next.id) * scale);
    sum += xAdvance;
    return { xAdvance, yAdvance: 0, xOffset: 0, yOffset: 0, advanceWidth };
  });
  return { glyphs, positions, advanceWidth: sum };
}
