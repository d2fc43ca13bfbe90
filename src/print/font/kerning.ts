import { classesAt, glyphsAt, lookupsOf, type Subtable } from './layoutTable.ts';

/** What is added between two glyphs side by side, in units of the font. */
export type Kerning = (left: number, right: number) => number;

/**
 * Reads pair kerning from the table GPOS. No kerning where the font has none, or one that this does not read.
 *
 * @source OpenType 1.9, "GPOS: Glyph Positioning Table" (lookup types 2 and 9)
 */
export function kerningIn(gpos: DataView | undefined): Kerning {
  const lookups = gpos === undefined ? undefined : lookupsOf(gpos, 'kern', extensionType);
  if (gpos === undefined || lookups === undefined) return () => 0;
  const pairs = lookups.map((subtables) => subtables.map((it) => pairsOf(gpos, it)));
  return (left, right) => {
    let sum = 0;
    for (const lookup of pairs) {
      // The first subtable of a lookup that knows the pair is the one that counts.
      for (const subtable of lookup) {
        const found = subtable(left, right);
        if (found === undefined) continue;
        sum += found;
        break;
      }
    }
    return sum;
  };
}

type Pairs = (left: number, right: number) => number | undefined;

const pairType = 2;
const extensionType = 9;
/** Only the first glyph's advance changes. */
const advanceOnly = 4;

function pairsOf(view: DataView, { type, at }: Subtable): Pairs {
  if (type !== pairType || view.getUint16(at + 4) !== advanceOnly || view.getUint16(at + 6) !== 0) {
    return () => undefined;
  }
  const coverage = glyphsAt(view, at + view.getUint16(at + 2));
  return view.getUint16(at) === 1 ? listed(view, at, coverage) : byClass(view, at, coverage);
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
