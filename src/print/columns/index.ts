/** Text in the columns of a terminal: how wide it is, how it is broken and set side by side, our own signs. */
export { beside, type Column, indented, type Lines, paragraph, table } from './lines.ts';
export { counted, keyOf, type Look, type Signs, signsOf } from './signs.ts';
export { centred, clean, type Glyph, glyphsOf, padEnd, padStart, widthOf, wrap } from './width.ts';
