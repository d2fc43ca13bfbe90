import type { PdfFont, ShapedRun } from './document.ts';
import type { Kerning } from './kerning.ts';

/**
 * Sets most words from the advances of their letters and the kerning of their pairs. Having the font library
 * shape each word anew is by far the most of what a document of many labels would cost.
 *
 *   1 1⁄16 × 3,      letter by letter, and the built-up fraction as one piece that the library shapes once
 *   └ └──┘└ └└└└
 *
 * What may form a ligature, and what is no plain letter, is left to the library.
 */
export function shapeByLetters(font: PdfFont, kerning: Kerning | undefined): void {
  if (kerning === undefined) return;
  const shape = font.layoutRun.bind(font);
  const scale = 1000 / font.font.unitsPerEm;
  const pieces = new Map<string, ShapedRun>();
  const pieceOf = (text: string): ShapedRun => {
    const known = pieces.get(text);
    if (known !== undefined) return known;
    const piece = text.length === 1 ? letterOf(font, text, scale) : shape(text);
    pieces.set(text, piece);
    return piece;
  };
  font.layoutRun = (text, features) => {
    if (features !== undefined || !isPlain.test(text) || mayJoin.test(text)) return shape(text, features);
    return joined(text.match(piece)?.map(pieceOf) ?? [], (left, right) => kerning(left, right) * scale);
  };
}

const isPlain = /^[\x20-\x7e\u00a0\u00b7\u00d7\u2009\u2026\u2044\u2212]*$/u;
/** Letters after an f, and a bar that has no figures on both sides. */
const mayJoin = /f[A-Za-z]|(?<![0-9])\u2044|\u2044(?![0-9])|\u2044[0-9]*\u2044/u;
const piece = /[0-9]+\u2044[0-9]+|./gu;

function letterOf({ font }: PdfFont, letter: string, scale: number): ShapedRun {
  const glyph = font.glyphForCodePoint(letter.charCodeAt(0));
  const advanceWidth = glyph.advanceWidth * scale;
  return {
    glyphs: [glyph],
    positions: [{ xAdvance: advanceWidth, yAdvance: 0, xOffset: 0, yOffset: 0, advanceWidth }],
    advanceWidth,
  };
}

/** Pieces side by side; within a piece the kerning is in it already. */
function joined(pieces: readonly ShapedRun[], kerning: Kerning): ShapedRun {
  const glyphs: ShapedRun['glyphs'][number][] = [];
  const positions: ShapedRun['positions'][number][] = [];
  let advanceWidth = 0;
  for (const [index, piece] of pieces.entries()) {
    const left = piece.glyphs[piece.glyphs.length - 1];
    const right = pieces[index + 1]?.glyphs[0];
    const kern = left === undefined || right === undefined ? 0 : kerning(left.id, right.id);
    glyphs.push(...piece.glyphs);
    for (const [at, place] of piece.positions.entries()) {
      const isLast = at === piece.positions.length - 1;
      positions.push(isLast ? { ...place, xAdvance: place.xAdvance + kern } : place);
    }
    advanceWidth += piece.advanceWidth + kern;
  }
  return { glyphs, positions, advanceWidth };
}
