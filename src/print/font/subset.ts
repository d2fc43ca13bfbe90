import type { Table } from './plainFont.ts';
import type { Tables } from './woff.ts';

/**
 * The tables of outlines with those glyphs only. Glyphs keep their numbers, so that other tables of the font
 * stay true; what is not used is empty.
 *
 * @param glyphs  parts of glyphs that are put together of others are added by themselves
 * @source OpenType 1.9, "glyf: Glyph Data" (composite glyphs), "loca: Index to Location", "head"
 */
export function outlinesOf(tables: Tables, glyphs: Iterable<number>): readonly Table[] {
  const [glyf, loca, head] = [tables('glyf'), tables('loca'), tables('head')];
  if (glyf === undefined || loca === undefined || head === undefined) throw new Error('no outlines');
  const isLong = head.getInt16(indexFormatAt) === 1;
  const placeOf = (glyph: number): number =>
    isLong ? loca.getUint32(4 * glyph) : 2 * loca.getUint16(2 * glyph);
  const count = loca.byteLength / (isLong ? 4 : 2) - 1;

  // Glyph 0 stands for what is missing; every font has it.
  const wanted = new Set([0]);
  const want = (glyph: number): void => {
    if (wanted.has(glyph) || glyph >= count) return;
    wanted.add(glyph);
    if (placeOf(glyph + 1) > placeOf(glyph)) for (const it of partsAt(glyf, placeOf(glyph))) want(it);
  };
  for (const glyph of glyphs) want(glyph);

  const kept = [...wanted].sort((a, b) => a - b);
  const size = kept.reduce((sum, glyph) => sum + placeOf(glyph + 1) - placeOf(glyph), 0);
  // Some readers look for the box of an empty glyph too, even behind the last one.
  const outlines = new Uint8Array(size + boxBytes);
  const places = new DataView(new ArrayBuffer(4 * (count + 1)));
  let at = 0;
  for (let glyph = 0; glyph < count; glyph++) {
    places.setUint32(4 * glyph, at);
    if (!wanted.has(glyph)) continue;
    const [from, to] = [placeOf(glyph), placeOf(glyph + 1)];
    outlines.set(new Uint8Array(glyf.buffer, glyf.byteOffset + from, to - from), at);
    at += to - from;
  }
  places.setUint32(4 * count, at);
  const longHead = bytesOf(head).slice();
  longHead[indexFormatAt + 1] = 1;
  return [
    ['glyf', outlines],
    ['loca', new Uint8Array(places.buffer)],
    ['head', longHead],
  ];
}

/** How many outlines a glyph has, and its box. */
const boxBytes = 10;
/** Where `head` says whether the places in `loca` are of four bytes. */
const indexFormatAt = 50;

const hasWords = 0x0001;
const hasScale = 0x0008;
const goesOn = 0x0020;
const hasTwoScales = 0x0040;
const hasMatrix = 0x0080;

/** The glyphs that one is put together of. */
function partsAt(glyf: DataView, at: number): readonly number[] {
  if (glyf.getInt16(at) >= 0) return [];
  const parts: number[] = [];
  for (let place = at + 10, flags = goesOn; (flags & goesOn) !== 0; ) {
    flags = glyf.getUint16(place);
    parts.push(glyf.getUint16(place + 2));
    place += 4 + ((flags & hasWords) !== 0 ? 4 : 2);
    if ((flags & hasScale) !== 0) place += 2;
    else if ((flags & hasTwoScales) !== 0) place += 4;
    else if ((flags & hasMatrix) !== 0) place += 8;
  }
  return parts;
}

export function bytesOf({ buffer, byteOffset, byteLength }: DataView): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength);
}
