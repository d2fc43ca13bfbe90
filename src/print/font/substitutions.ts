import { glyphsAt, lookupsOf, numbersAt } from './layoutTable.ts';

/** Glyphs that are drawn as one: the first, those that follow it, and what stands for them. */
export interface Ligature {
  readonly first: number;
  readonly others: readonly number[];
  readonly glyph: number;
}

const singleType = 1;
const ligatureType = 4;
const extensionType = 7;

/**
 * One glyph for another under a feature, as the numerators' figures are under `numr`.
 *
 * @source OpenType 1.9, "GSUB: Glyph Substitution Table" (lookup types 1 and 7)
 */
export function singlesIn(gsub: DataView | undefined, feature: string): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  if (gsub === undefined) return found;
  for (const { type, at } of (lookupsOf(gsub, feature, extensionType) ?? []).flat()) {
    if (type !== singleType) continue;
    const isByList = gsub.getUint16(at) === 2;
    for (const [glyph, index] of glyphsAt(gsub, at + gsub.getUint16(at + 2))) {
      const by = isByList ? gsub.getUint16(at + 6 + 2 * index) : glyph + gsub.getInt16(at + 4);
      if (!found.has(glyph)) found.set(glyph, by & 0xffff);
    }
  }
  return found;
}

/**
 * All ligatures of a feature; of those that begin alike the one that the font wants first comes first.
 *
 * @source OpenType 1.9, "GSUB: Glyph Substitution Table" (lookup types 4 and 7)
 */
export function ligaturesIn(gsub: DataView | undefined, feature: string): readonly Ligature[] {
  if (gsub === undefined) return [];
  return (lookupsOf(gsub, feature, extensionType) ?? []).flat().flatMap(({ type, at }) => {
    if (type !== ligatureType) return [];
    return [...glyphsAt(gsub, at + gsub.getUint16(at + 2))].flatMap(([first, index]) => {
      const set = at + gsub.getUint16(at + 6 + 2 * index);
      return numbersAt(gsub, set).map((offset): Ligature => {
        const ligature = set + offset;
        // The count stands before the others and counts the first one too.
        const count = gsub.getUint16(ligature + 2) - 1;
        const others = Array.from({ length: count }, (_, other) => gsub.getUint16(ligature + 4 + 2 * other));
        return { first, others, glyph: gsub.getUint16(ligature) };
      });
    });
  });
}
