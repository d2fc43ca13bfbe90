/**
 * How many columns of a terminal a text takes, and the cutting and padding that follow from it. Tables of
 * our own, so that a text has the same width under every Node.
 */

// Source: Unicode 15.1, EastAsianWidth.txt (W and F) and emoji-data.txt (Emoji_Presentation), from memory;
// neighbouring ranges are joined where the gap holds no assigned narrow character.
const wide: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x231a, 0x231b],
  [0x2329, 0x232a],
  [0x23e9, 0x23ec],
  [0x23f0, 0x23f0],
  [0x23f3, 0x23f3],
  [0x25fd, 0x25fe],
  [0x2614, 0x2615],
  [0x2648, 0x2653],
  [0x267f, 0x267f],
  [0x2693, 0x2693],
  [0x26a1, 0x26a1],
  [0x26aa, 0x26ab],
  [0x26bd, 0x26be],
  [0x26c4, 0x26c5],
  [0x26ce, 0x26ce],
  [0x26d4, 0x26d4],
  [0x26ea, 0x26ea],
  [0x26f2, 0x26f3],
  [0x26f5, 0x26f5],
  [0x26fa, 0x26fa],
  [0x26fd, 0x26fd],
  [0x2705, 0x2705],
  [0x270a, 0x270b],
  [0x2728, 0x2728],
  [0x274c, 0x274c],
  [0x274e, 0x274e],
  [0x2753, 0x2755],
  [0x2757, 0x2757],
  [0x2795, 0x2797],
  [0x27b0, 0x27b0],
  [0x27bf, 0x27bf],
  [0x2b1b, 0x2b1c],
  [0x2b50, 0x2b50],
  [0x2b55, 0x2b55],
  [0x2e80, 0x303e],
  [0x3041, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x16fe0, 0x18cff],
  [0x1aff0, 0x1b2ff],
  [0x1f004, 0x1f004],
  [0x1f0cf, 0x1f0cf],
  [0x1f18e, 0x1f18e],
  [0x1f191, 0x1f19a],
  [0x1f1e6, 0x1f202],
  [0x1f210, 0x1f320],
  [0x1f32d, 0x1f335],
  [0x1f337, 0x1f37c],
  [0x1f37e, 0x1f393],
  [0x1f3a0, 0x1f3ca],
  [0x1f3cf, 0x1f3d3],
  [0x1f3e0, 0x1f3f0],
  [0x1f3f4, 0x1f3f4],
  [0x1f3f8, 0x1f43e],
  [0x1f440, 0x1f440],
  [0x1f442, 0x1f4fc],
  [0x1f4ff, 0x1f53d],
  [0x1f54b, 0x1f54e],
  [0x1f550, 0x1f567],
  [0x1f57a, 0x1f57a],
  [0x1f595, 0x1f596],
  [0x1f5a4, 0x1f5a4],
  [0x1f5fb, 0x1f64f],
  [0x1f680, 0x1f6c5],
  [0x1f6cc, 0x1f6cc],
  [0x1f6d0, 0x1f6d2],
  [0x1f6d5, 0x1f6d7],
  [0x1f6dc, 0x1f6df],
  [0x1f6eb, 0x1f6ec],
  [0x1f6f4, 0x1f6fc],
  [0x1f7e0, 0x1f7f0],
  [0x1f90c, 0x1f93a],
  [0x1f93c, 0x1f945],
  [0x1f947, 0x1f9ff],
  [0x1fa70, 0x1faff],
  [0x20000, 0x3fffd],
];

const joiner = 0x200d;
const emojiVariant = 0xfe0f;
const [firstRegional, lastRegional] = [0x1f1e6, 0x1f1ff];
const [firstSkinTone, lastSkinTone] = [0x1f3fb, 0x1f3ff];

/** A run of code points that is seen as one character, and the columns it takes. */
export interface Glyph {
  readonly text: string;
  readonly columns: number;
}

export function widthOf(text: string): number {
  if (isPlain(text)) return text.length;
  return glyphsOf(text).reduce((sum, { columns }) => sum + columns, 0);
}

/**
 * True where each character stands alone, in one column: below the first combining mark, and among the dashes, quotes,
 * primes, arrows and lines of boxes that sheets are made of.
 */
function isPlain(text: string): boolean {
  return /^[\0-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u22ff\u2500-\u25fc\u2600-\u2613]*$/.test(text);
}

/** Marks, joined emoji, skin tones and the second half of a flag go with what stands before them. */
export function glyphsOf(text: string): readonly Glyph[] {
  if (isPlain(text)) return Array.from(text, (character) => ({ text: character, columns: 1 }));
  const glyphs: Glyph[] = [];
  let joins = false;
  let flagHalf = false;
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    const before = glyphs[glyphs.length - 1];
    const isRegional = code >= firstRegional && code <= lastRegional;
    const isSkinTone = code >= firstSkinTone && code <= lastSkinTone;
    const goesWith = joins || isCombining(code, character) || isSkinTone || (isRegional && flagHalf);
    if (before !== undefined && goesWith) {
      const columns = code === emojiVariant ? Math.max(2, before.columns) : before.columns;
      glyphs[glyphs.length - 1] = { text: before.text + character, columns };
    } else {
      glyphs.push({ text: character, columns: isCombining(code, character) ? 0 : isWide(code) ? 2 : 1 });
    }
    joins = code === joiner;
    flagHalf = isRegional && !flagHalf;
  }
  return glyphs;
}

function isCombining(code: number, character: string): boolean {
  if (code === joiner || code === emojiVariant) return true;
  // Jamo vowels and finals stack on the syllable before them.
  if (code >= 0x1160 && code <= 0x11ff) return true;
  return code > 0x2ff && /^[\p{Mn}\p{Me}\p{Cf}]$/u.test(character);
}

function isWide(code: number): boolean {
  let [low, high] = [0, wide.length - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const [from, to] = wide[middle]!;
    if (code < from) high = middle - 1;
    else if (code > to) low = middle + 1;
    else return true;
  }
  return false;
}

export function padEnd(text: string, columns: number): string {
  return text + ' '.repeat(Math.max(0, columns - widthOf(text)));
}

export function padStart(text: string, columns: number): string {
  return ' '.repeat(Math.max(0, columns - widthOf(text))) + text;
}

export function centred(text: string, columns: number): string {
  const space = Math.max(0, columns - widthOf(text));
  return ' '.repeat(space >> 1) + text + ' '.repeat(space - (space >> 1));
}

/**
 * Breaks a text at its spaces into lines of at most `columns`; a word that is wider than a line is broken
 * where the line ends. A no-break space holds its neighbours together as long as they fit a line, and is
 * printed as a space.
 */
export function wrap(text: string, columns: number): readonly string[] {
  if (widthOf(text) <= columns && !/^ | $| {2}/.test(text)) return [text.replaceAll('\u00a0', ' ')];
  const lines: string[] = [];
  let line = '';
  const isEven = isPlain(text);
  for (const word of wordsOf(text, columns)) {
    const joined = line === '' ? word : `${line} ${word}`;
    if ((isEven ? joined.length : widthOf(joined)) <= columns) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    const broken = breakWord(word, columns);
    lines.push(...broken.slice(0, -1));
    line = broken[broken.length - 1] ?? '';
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines.map((it) => it.replaceAll('\u00a0', ' '));
}

function wordsOf(text: string, columns: number): readonly string[] {
  return text
    .split(' ')
    .flatMap((held) => (widthOf(held) <= columns ? [held] : held.split('\u00a0')))
    .filter((word) => word !== '');
}

function breakWord(word: string, columns: number): readonly string[] {
  if (widthOf(word) <= columns) return [word];
  const pieces: string[] = [];
  let piece = '';
  let used = 0;
  for (const glyph of glyphsOf(word)) {
    if (used + glyph.columns > columns && piece !== '') {
      pieces.push(piece);
      [piece, used] = ['', 0];
    }
    piece += glyph.text;
    used += glyph.columns;
  }
  return [...pieces, piece];
}

/**
 * The user's words as they may be printed: what would move the cursor, turn the writing about or start a
 * command to the terminal becomes a question mark.
 */
export function clean(text: string): string {
  return text
    .replace(/[\t\n\r\u2028\u2029]+/g, ' ')
    .replace(/[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g, '?')
    .replace(/\p{Surrogate}/gu, '?');
}
