import { glyphsByCharacter } from './characters.ts';
import { kerningIn } from './kerning.ts';
import { classesAt } from './layoutTable.ts';
import { marksIn } from './marks.ts';
import { type Ligature, ligaturesIn, singlesIn } from './substitutions.ts';
import { type Tables, tablesIn } from './woff.ts';

/** A font as it sets words; all lengths in units of the font. */
export interface Font {
  readonly unitsPerEm: number;
  readonly tables: Tables;
  readonly has: (codePoint: number) => boolean;
  readonly advanceOf: (glyph: number) => number;
  readonly kerning: (left: number, right: number) => number;
  readonly widthOf: (text: string) => number;
  readonly set: (text: string) => readonly SetGlyph[];
}

/** A glyph in its place in a word. */
export interface SetGlyph {
  readonly glyph: number;
  /** The characters that it stands for. */
  readonly text: string;
  /** From its left end to where the next begins. */
  readonly advance: number;
  /** How far it is moved from its place; only accents are. */
  readonly x: number;
  readonly y: number;
}

/**
 * Sets words as the font asks: kerning, built-up fractions around U+2044, the ligatures it always wants, and
 * accents that stand on their letter. Nothing else of what fonts can do is asked of the two that ship; a full
 * shaper sets the same, and takes a quarter of a second to get going.
 *
 *   1 1⁄16        figures beside the bar have glyphs of their own, for above and below
 */
export function fontOf(woff: Uint8Array): Font {
  const tables = tablesIn(woff);
  const need = (tag: string): DataView => {
    const table = tables(tag);
    if (table === undefined) throw new Error(`the font has no table "${tag}"`);
    return table;
  };
  const unitsPerEm = need('head').getUint16(18);
  const hmtx = need('hmtx');
  const lastAdvance = need('hhea').getUint16(34) - 1;
  const advanceOf = (glyph: number): number => hmtx.getUint16(4 * Math.min(glyph, lastAdvance));
  const inCmap = glyphsByCharacter(need('cmap'));
  const glyphOf = cachedByNumber(inCmap);
  const kerning = cachedByPair(kerningIn(tables('GPOS')));
  const toGlyphs = glyphSetter(tables('GSUB'), glyphOf);
  const accents = accentsOf(tables);

  const set = (text: string): readonly SetGlyph[] => {
    const { glyphs, starts } = toGlyphs(text);
    let base = 0;
    return glyphs.map((glyph, index): SetGlyph => {
      const next = glyphs[index + 1];
      const own = text.slice(starts[index], starts[index + 1]);
      const kern = next === undefined ? 0 : kerning(glyph, next);
      if (!accents.isAccent(own, glyph)) {
        base = glyph;
        return { glyph, text: own, advance: advanceOf(glyph) + kern, x: 0, y: 0 };
      }
      const at = accents.placeOn(base, glyph);
      const before = advanceOf(base) + kerning(base, glyph);
      return { glyph, text: own, advance: kern, x: at === undefined ? 0 : at.x - before, y: at?.y ?? 0 };
    });
  };
  return {
    unitsPerEm,
    tables,
    has: (codePoint) => glyphOf(codePoint) !== 0,
    advanceOf,
    kerning,
    set,
    widthOf: (text) => {
      if (mayBeAccented.test(text)) return set(text).reduce((sum, { advance }) => sum + advance, 0);
      const { glyphs } = toGlyphs(text);
      let sum = 0;
      let last = -1;
      for (const glyph of glyphs) {
        if (last >= 0) sum += kerning(last, glyph);
        sum += advanceOf(glyph);
        last = glyph;
      }
      return sum;
    },
  };
}

const mayBeAccented = /\p{M}/u;

interface Glyphs {
  readonly glyphs: readonly number[];
  /** Where in the text the characters of each begin. */
  readonly starts: readonly number[];
}

const bar = 0x2044;

function glyphSetter(
  gsub: DataView | undefined,
  glyphOf: (codePoint: number) => number,
): (text: string) => Glyphs {
  const above = singlesIn(gsub, 'numr');
  const below = singlesIn(gsub, 'dnom');
  const ligatures = new Map<number, Ligature[]>();
  for (const it of [...ligaturesIn(gsub, 'ccmp'), ...ligaturesIn(gsub, 'liga')]) {
    const beside = ligatures.get(it.first);
    if (beside === undefined) ligatures.set(it.first, [it]);
    else beside.push(it);
  }
  return (text) => {
    const glyphs: number[] = [];
    const starts: number[] = [];
    let mayJoin = false;
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      const isHalf = code >= 0xd800 && code < 0xdc00;
      const glyph = glyphOf(isHalf ? (text.codePointAt(at) ?? 0) : code);
      mayJoin ||= ligatures.has(glyph);
      glyphs.push(glyph);
      starts.push(at);
      if (isHalf) at++;
    }
    const last = text.length;
    if (text.includes('\u2044')) buildFractions(text, glyphs, starts, above, below);
    return mayJoin ? joined({ glyphs, starts: [...starts, last] }, ligatures) : { glyphs, starts };
  };
}

/** Figures before a bar are set above, those behind it below; between two bars they stay below. */
function buildFractions(
  text: string,
  glyphs: number[],
  starts: readonly number[],
  above: ReadonlyMap<number, number>,
  below: ReadonlyMap<number, number>,
): void {
  const codeAt = (index: number): number => text.charCodeAt(starts[index] ?? text.length);
  for (let at = 0; at < glyphs.length; at++) {
    if (codeAt(at) !== bar) continue;
    for (let before = at - 1; before >= 0 && isFigure(codeAt(before)); before--) {
      const plain = glyphs[before] ?? 0;
      glyphs[before] = above.get(plain) ?? plain;
    }
    for (let behind = at + 1; isFigure(codeAt(behind)); behind++) {
      const plain = glyphs[behind] ?? 0;
      glyphs[behind] = below.get(plain) ?? plain;
    }
  }
}

function isFigure(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

function joined({ glyphs, starts }: Glyphs, ligatures: ReadonlyMap<number, readonly Ligature[]>): Glyphs {
  const set: number[] = [];
  const kept: number[] = [];
  for (let at = 0; at < glyphs.length; at++) {
    const glyph = glyphs[at] ?? 0;
    kept.push(starts[at] ?? 0);
    const found = ligatures
      .get(glyph)
      ?.find(({ others }) => others.every((other, beside) => glyphs[at + 1 + beside] === other));
    set.push(found?.glyph ?? glyph);
    at += found?.others.length ?? 0;
  }
  return { glyphs: set, starts: kept };
}

interface Accents {
  readonly isAccent: (text: string, glyph: number) => boolean;
  readonly placeOn: ReturnType<typeof marksIn>;
}

const accentClass = 3;

/** Hardly any text has one: its tables are looked at when the first comes by. */
function accentsOf(tables: Tables): Accents {
  let classes: ReadonlyMap<number, number> | undefined;
  let marks: Accents['placeOn'] | undefined;
  return {
    isAccent: (text, glyph) => {
      if (text.charCodeAt(0) < 0x300) return false;
      const gdef = tables('GDEF');
      classes ??= gdef === undefined ? new Map() : classesAt(gdef, gdef.getUint16(4));
      return classes.get(glyph) === accentClass;
    },
    placeOn: (base, accent) => {
      marks ??= marksIn(tables('GPOS'));
      return marks(base, accent);
    },
  };
}

function cachedByNumber(find: (number: number) => number): (number: number) => number {
  const known = new Map<number, number>();
  return (number) => {
    const found = known.get(number) ?? find(number);
    known.set(number, found);
    return found;
  };
}

function cachedByPair(
  find: (left: number, right: number) => number,
): (left: number, right: number) => number {
  const known = new Map<number, number>();
  return (left, right) => {
    const key = left * 0x10000 + right;
    const before = known.get(key);
    if (before !== undefined) return before;
    const found = find(left, right);
    known.set(key, found);
    return found;
  };
}
