import { glyphsAt, lookupsOf } from './layoutTable.ts';

/** Where a mark stands on the glyph before it, from that glyph's own left end and baseline. */
export type Marks = (base: number, mark: number) => { readonly x: number; readonly y: number } | undefined;

const markToBaseType = 4;
const extensionType = 9;

/**
 * Reads where accents that have no letter of their own are put.
 *
 * @source OpenType 1.9, "GPOS: Glyph Positioning Table" (lookup type 4)
 */
export function marksIn(gpos: DataView | undefined): Marks {
  const lookups = gpos === undefined ? undefined : lookupsOf(gpos, 'mark', extensionType);
  if (gpos === undefined || lookups === undefined) return () => undefined;
  const subtables = lookups.flat().filter(({ type }) => type === markToBaseType);
  return (base, mark) => {
    for (const { at } of subtables) {
      const own = glyphsAt(gpos, at + gpos.getUint16(at + 2)).get(mark);
      const under = glyphsAt(gpos, at + gpos.getUint16(at + 4)).get(base);
      if (own === undefined || under === undefined) continue;
      const classes = gpos.getUint16(at + 6);
      const markArray = at + gpos.getUint16(at + 8);
      const baseArray = at + gpos.getUint16(at + 10);
      const record = markArray + 2 + 4 * own;
      const anchor = gpos.getUint16(baseArray + 2 + 2 * (under * classes + gpos.getUint16(record)));
      if (anchor === 0) continue;
      const [on, of] = [baseArray + anchor, markArray + gpos.getUint16(record + 2)];
      return {
        x: gpos.getInt16(on + 2) - gpos.getInt16(of + 2),
        y: gpos.getInt16(on + 4) - gpos.getInt16(of + 4),
      };
    }
    return undefined;
  };
}
