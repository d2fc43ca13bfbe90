import { bytesOf, type Font, outlinesOf, packedFont, type Table } from '../font/index.ts';

/**
 * The font as far as these texts need it: their characters, outlines, kerning, and what builds fractions up. The
 * glyphs keep their numbers, so GSUB is carried as it is.
 *
 * @source OpenType 1.9: "cmap" (format 12), "kern" (format 0), "post" (version 3)
 */
export function carriedFont(font: Font, texts: readonly string[]): Uint8Array {
  const set = texts.map((text) => font.set(text));
  const glyphs = new Set(set.flat().map(({ glyph }) => glyph));
  const characters = new Map<number, number>();
  for (const letter of new Set(texts.join(''))) {
    const [plain] = font.set(letter);
    if (plain === undefined) continue;
    characters.set(letter.codePointAt(0) ?? 0, plain.glyph);
    glyphs.add(plain.glyph);
  }
  const kept = ['hhea', 'maxp', 'hmtx', 'cvt ', 'fpgm', 'prep', 'OS/2', 'name', 'GSUB', 'GDEF'].flatMap(
    (tag): readonly Table[] => {
      const table = font.tables(tag);
      return table === undefined ? [] : [[tag, bytesOf(table)]];
    },
  );
  const pairs = pairsIn(
    font,
    set.map((word) => word.map(({ glyph }) => glyph)),
  );
  return packedFont([
    ...kept,
    ...outlinesOf(font.tables, glyphs),
    ['cmap', cmapOf(characters)],
    ['post', postOf()],
    ...(pairs.length === 0 ? [] : [['kern', kernOf(pairs)] as const]),
  ]);
}

interface Pair {
  readonly left: number;
  readonly right: number;
  readonly by: number;
}

function pairsIn(font: Font, words: readonly (readonly number[])[]): readonly Pair[] {
  const pairs = new Map<number, Pair>();
  for (const word of words) {
    for (const [index, left] of word.entries()) {
      const right = word[index + 1];
      if (right === undefined) continue;
      const by = font.kerning(left, right);
      if (by !== 0) pairs.set(left * 0x10000 + right, { left, right, by });
    }
  }
  return [...pairs].sort(([a], [b]) => a - b).map(([, pair]) => pair);
}

/** Runs of one character each; few texts hold many. */
function cmapOf(characters: ReadonlyMap<number, number>): Uint8Array {
  const sorted = [...characters].sort(([a], [b]) => a - b);
  const view = new DataView(new ArrayBuffer(12 + 16 + 12 * sorted.length));
  view.setUint16(2, 1);
  view.setUint16(4, 3);
  view.setUint16(6, 10);
  view.setUint32(8, 12);
  view.setUint16(12, 12);
  view.setUint32(16, 16 + 12 * sorted.length);
  view.setUint32(24, sorted.length);
  for (const [index, [character, glyph]] of sorted.entries()) {
    const at = 28 + 12 * index;
    view.setUint32(at, character);
    view.setUint32(at + 4, character);
    view.setUint32(at + 8, glyph);
  }
  return new Uint8Array(view.buffer);
}

function kernOf(pairs: readonly Pair[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(4 + 14 + 6 * pairs.length));
  const power = Math.floor(Math.log2(pairs.length));
  view.setUint16(2, 1);
  view.setUint16(6, 14 + 6 * pairs.length);
  view.setUint16(8, 1);
  view.setUint16(10, pairs.length);
  view.setUint16(12, 6 * 2 ** power);
  view.setUint16(14, power);
  view.setUint16(16, 6 * (pairs.length - 2 ** power));
  for (const [index, { left, right, by }] of pairs.entries()) {
    const at = 18 + 6 * index;
    view.setUint16(at, left);
    view.setUint16(at + 2, right);
    view.setInt16(at + 4, by);
  }
  return new Uint8Array(view.buffer);
}

/** Without the names of glyphs. */
function postOf(): Uint8Array {
  const view = new DataView(new ArrayBuffer(32));
  view.setUint32(0, 0x00030000);
  return new Uint8Array(view.buffer);
}
