import { tagAt } from './woff.ts';

/**
 * What GPOS and GSUB have in common: features that stand for lookups, subtables of lookups, sets of glyphs.
 *
 * @source OpenType 1.9, "OpenType Layout Common Table Formats"
 */

/** Where a subtable begins, and its lookup's type; wrapped ones are unwrapped. */
export interface Subtable {
  readonly type: number;
  readonly at: number;
}

/**
 * The lookups that a feature stands for, each as its subtables. Undefined where the font has none, or not the
 * same in every script.
 *
 * @param extension the type of lookup that only points to another (9 in GPOS, 7 in GSUB)
 */
export function lookupsOf(
  view: DataView,
  feature: string,
  extension: number,
): readonly (readonly Subtable[])[] | undefined {
  const features = view.getUint16(6);
  const lookups = view.getUint16(8);
  const sets = new Set<string>();
  for (let index = 0; index < view.getUint16(features); index++) {
    const at = features + 2 + 6 * index;
    if (tagAt(view, at) !== feature) continue;
    sets.add(numbersAt(view, features + view.getUint16(at + 4) + 2).join(' '));
  }
  const [only, ...others] = sets;
  if (only === undefined || others.length > 0) return undefined;
  return only
    .split(' ')
    .map((index) => subtablesOf(view, lookups + view.getUint16(lookups + 2 + 2 * Number(index)), extension));
}

function subtablesOf(view: DataView, lookup: number, extension: number): readonly Subtable[] {
  const type = view.getUint16(lookup);
  return numbersAt(view, lookup + 4).map((offset) => {
    const at = lookup + offset;
    if (type !== extension) return { type, at };
    return { type: view.getUint16(at + 2), at: at + view.getUint32(at + 4) };
  });
}

/** A count, then as many numbers. */
export function numbersAt(view: DataView, at: number): readonly number[] {
  return Array.from({ length: view.getUint16(at) }, (_, index) => view.getUint16(at + 2 + 2 * index));
}

/** The glyphs that a subtable is about, each with its place in the order. */
export function glyphsAt(view: DataView, at: number): ReadonlyMap<number, number> {
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

/** The class of each glyph that has one other than 0. */
export function classesAt(view: DataView, at: number): ReadonlyMap<number, number> {
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
