/** What is added between two glyphs side by side, in units of the font. */
export type Kerning = (left: number, right: number) => number;

/**
 * Reads pair kerning from the GPOS table of a font. Undefined where the font kerns in a way this does not
 * read, or not the same in every script; then only a full shaper may set it.
 *
 * @source OpenType 1.9, "GPOS: Glyph Positioning Table" (lookup types 2 and 9) and "OpenType Layout Common
 *   Table Formats" (coverage, class definition)
 */
export function kerningIn(font: Uint8Array): Kerning | undefined {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const table = tableAt(view, 'GPOS');
  if (table === undefined) return undefined;
  const subtables = kernLookups(view, table)?.map((lookup) => subtablesOf(view, lookup));
  if (subtables === undefined || subtables.flat().includes(undefined)) return undefined;
  return (left, right) => {
    let sum = 0;
    for (const lookup of subtables) {
      // The first subtable of a lookup that knows the pair is the one that counts.
      for (const subtable of lookup) {
        const found = subtable?.(left, right);
        if (found === undefined) continue;
        sum += found;
        break;
      }
    }
    return sum;
  };
}

function tableAt(view: DataView, tag: string): number | undefined {
  const count = view.getUint16(4);
  for (let at = 12; at < 12 + 16 * count; at += 16)
    if (tagAt(view, at) === tag) return view.getUint32(at + 8);
  return undefined;
}

function tagAt(view: DataView, at: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map((letter) => view.getUint8(at + letter)));
}

/** Where the lookups begin that kerning stands for. */
function kernLookups(view: DataView, table: number): readonly number[] | undefined {
  const features = table + view.getUint16(table + 6);
  const lookups = table + view.getUint16(table + 8);
  const sets = new Set<string>();
  for (let index = 0; index < view.getUint16(features); index++) {
    const at = features + 2 + 6 * index;
    if (tagAt(view, at) !== 'kern') continue;
    sets.add(numbersAt(view, features + view.getUint16(at + 4) + 2).join(' '));
  }
  const [only, ...others] = sets;
  if (only === undefined || others.length > 0) return undefined;
  return only.split(' ').map((index) => lookups + view.getUint16(lookups + 2 + 2 * Number(index)));
}

/** A count, then as many numbers. */
function numbersAt(view: DataView, at: number): readonly number[] {
  return Array.from({ length: view.getUint16(at) }, (_, index) => view.getUint16(at + 2 + 2 * index));
}

type Pairs = (left: number, right: number) => number | undefined;

const pairType = 2;
const extensionType = 9;
/** Only the first glyph's advance changes. */
const advanceOnly = 4;

function subtablesOf(view: DataView, lookup: number): readonly (Pairs | undefined)[] {
  const type = view.getUint16(lookup);
  return numbersAt(view, lookup + 4).map((offset) => {
    const at = lookup + offset;
    if (type === pairType) return pairsOf(view, at);
    if (type !== extensionType || view.getUint16(at + 2) !== pairType) return undefined;
    return pairsOf(view, at + view.getUint32(at + 4));
  });
}

function pairsOf(view: DataView, at: number): Pairs | undefined {
  const format = view.getUint16(at);
  const coverage = glyphsAt(view, at + view.getUint16(at + 2));
  if (view.getUint16(at + 4) !== advanceOnly || view.getUint16(at + 6) !== 0) return undefined;
  return format === 1 ? listed(view, at, coverage) : byClass(view, at, coverage);
}

/** Pair after pair: the second glyph and what is added. */
function listed(view: DataView, at: number, coverage: ReadonlyMap<number, number>): Pairs {
  return (left, right) => {
    const index = coverage.get(left);
    if (index === undefined) return undefined;
    const set = at + view.getUint16(at + 10 + 2 * index);
    let [low, high] = [0, view.getUint16(set) - 1];
    while (low <= high) {
      const middle = (low + high) >> 1;
      const glyph = view.getUint16(set + 2 + 4 * middle);
      if (glyph === right) return view.getInt16(set + 4 + 4 * middle);
      if (glyph < right) low = middle + 1;
      else high = middle - 1;
    }
    return undefined;
  };
}

/** A field of classes of first glyphs by classes of second ones. */
function byClass(view: DataView, at: number, coverage: ReadonlyMap<number, number>): Pairs {
  const lefts = classesAt(view, at + view.getUint16(at + 8));
  const rights = classesAt(view, at + view.getUint16(at + 10));
  const count = view.getUint16(at + 14);
  return (left, right) => {
    if (!coverage.has(left)) return undefined;
    return view.getInt16(at + 16 + 2 * ((lefts.get(left) ?? 0) * count + (rights.get(right) ?? 0)));
  };
}

/** The glyphs that a subtable is about, each with its place in the order. */
function glyphsAt(view: DataView, at: number): ReadonlyMap<number, number> {
  const glyphs = new Map<number, number>();
  if (view.getUint16(at) === 1) {
    for (const [index, glyph] of numbersAt(view, at + 2).entries()) glyphs.set(glyph, index);
    return glyphs;
  }
  for (const [first, last, index] of rangesAt(view, at + 2)) {
    for (let glyph = first; glyph <= last; glyph++) glyphs.set(glyph, index + glyph - first);
  }
  return glyphs;
}

function classesAt(view: DataView, at: number): ReadonlyMap<number, number> {
  const classes = new Map<number, number>();
  if (view.getUint16(at) === 1) {
    const first = view.getUint16(at + 2);
    for (const [index, own] of numbersAt(view, at + 4).entries()) classes.set(first + index, own);
    return classes;
  }
  for (const [first, last, own] of rangesAt(view, at + 2)) {
    for (let glyph = first; glyph <= last; glyph++) classes.set(glyph, own);
  }
  return classes;
}

function rangesAt(view: DataView, at: number): readonly (readonly [number, number, number])[] {
  return Array.from({ length: view.getUint16(at) }, (_, index) => {
    const range = at + 2 + 6 * index;
    return [view.getUint16(range), view.getUint16(range + 2), view.getUint16(range + 4)] as const;
  });
}
