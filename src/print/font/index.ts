/** The fonts that ship: how they set words, and what of them a file has to carry. */

export { packedFont } from './packedFont.ts';
export { plainFont, type Table } from './plainFont.ts';
export { type Font, fontOf, type SetGlyph } from './shaping.ts';
export { bytesOf, outlinesOf } from './subset.ts';
export { type Fonts, type ReadFont, readFonts, typefaceOf } from './typeface.ts';
export { type Tables, tablesIn, tagsIn } from './woff.ts';
