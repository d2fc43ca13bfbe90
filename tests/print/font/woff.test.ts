import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import {
  bytesOf,
  fontOf,
  outlinesOf,
  plainFont,
  type Table,
  tablesIn,
  tagsIn,
} from '../../../src/print/font/index.ts';

const files = ['IBMPlexSans-Regular.woff', 'IBMPlexSans-SemiBold.woff'];
const read = (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url));

describe.each(files)('%s unpacked', (name) => {
  const packed = read(name);
  const tables = tablesIn(packed);
  const all = tagsIn(packed).map((tag): Table => [tag, bytesOf(tables(tag)!)]);
  const plain = plainFont(all);

  it('has the checksum of each table that the packed file states', () => {
    // Source: OpenType 1.9, "Calculating checksums": the sum of a table's uint32s, modulo 2^32; that of
    // `head` leaves its own field checkSumAdjustment (bytes 8 to 11) out. WOFF 1.0, section 4: the fifth field
    // of an entry is that sum.
    const woff = new DataView(packed.buffer, packed.byteOffset);
    const stated = new Map(all.map(([tag], index) => [tag, woff.getUint32(44 + 20 * index + 16)] as const));
    const view = new DataView(plain.buffer);
    expect(view.getUint16(4)).toBe(all.length);
    for (let table = 0; table < all.length; table++) {
      const at = 12 + table * 16;
      const tag = Buffer.from(plain.subarray(at, at + 4)).toString('latin1');
      const [offset, length] = [view.getUint32(at + 8), view.getUint32(at + 12)];
      let sum = 0;
      for (let place = 0; place < length; place += 4) {
        if (tag === 'head' && place === 8) continue;
        sum = (sum + view.getUint32(offset + place)) >>> 0;
      }
      expect(sum, tag).toBe(stated.get(tag));
      expect(view.getUint32(at + 4), tag).toBe(sum);
    }
  });

  it('sums up to what OpenType asks of a whole file', () => {
    // Source: OpenType 1.9, `head`, checkSumAdjustment: the whole sums to 0xB1B0AFBA.
    const view = new DataView(plain.buffer);
    let sum = 0;
    for (let at = 0; at < plain.length; at += 4) sum = (sum + view.getUint32(at)) >>> 0;
    expect(sum).toBe(0xb1b0afba);
  });

  it('sets every text as wide as the packed font does', () => {
    const fonts = [packed, plain].map((bytes) => create(bytes) as Font);
    for (const text of ['RW face', '2\u200913\u204416', 'AVAToy', 'стена 3 × 1½']) {
      const [a, b] = fonts.map((font) => font.layout(text).advanceWidth);
      expect(a).toBe(b);
    }
  });

  it('keeps the outlines of the glyphs that are asked for, and of their parts, and no others', () => {
    const font = fontOf(packed);
    const wanted = font.set('Äfi½').map(({ glyph }) => glyph);
    const few = outlinesOf(tables, wanted);
    const kept = all.filter(([tag]) => !few.some(([other]) => other === tag));
    const subset = plainFont([...kept, ...few]);
    const [whole, small] = [packed, subset].map((bytes) => create(bytes) as Font);
    for (const glyph of wanted) {
      const outline = whole!.getGlyph(glyph).path.toSVG();
      expect(outline.length).toBeGreaterThan(20);
      expect(small!.getGlyph(glyph).path.toSVG()).toBe(outline);
    }
    const [other] = font.set('Q').map(({ glyph }) => glyph);
    expect(small!.getGlyph(other!).path.toSVG()).toBe('');
    expect(subset.length).toBeLessThan(plain.length / 2);
  });
});
