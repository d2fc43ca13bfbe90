import { readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { fontInWoff } from '../../../src/print/pdf/woff.ts';

const files = ['IBMPlexSans-Regular.woff', 'IBMPlexSans-SemiBold.woff'];
const read = (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url));

describe.each(files)('%s unpacked', (name) => {
  const packed = read(name);
  const plain = fontInWoff(packed);

  it('has the checksum of each table that the font itself states', () => {
    // Source: OpenType 1.9, "Calculating checksums": the sum of a table's uint32s, modulo 2^32; that of
    // `head` leaves its own field checkSumAdjustment (bytes 8 to 11) out.
    const view = new DataView(plain.buffer);
    const count = view.getUint16(4);
    expect(count).toBeGreaterThan(9);
    for (let table = 0; table < count; table++) {
      const at = 12 + table * 16;
      const tag = Buffer.from(plain.subarray(at, at + 4)).toString('latin1');
      const [offset, length] = [view.getUint32(at + 8), view.getUint32(at + 12)];
      let sum = 0;
      for (let place = 0; place < length; place += 4) {
        if (tag === 'head' && place === 8) continue;
        sum = (sum + view.getUint32(offset + place)) >>> 0;
      }
      expect(sum, tag).toBe(view.getUint32(at + 4));
    }
  });

  it('sets every text as wide as the packed font does', () => {
    const fonts = [packed, plain].map((bytes) => create(bytes) as Font);
    for (const text of ['RW face', '2\u200913\u204416', 'AVAToy', 'стена 3 × 1½']) {
      const [a, b] = fonts.map((font) => font.layout(text).advanceWidth);
      expect(a).toBe(b);
    }
  });
});
