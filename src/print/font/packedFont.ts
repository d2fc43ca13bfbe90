import { deflate } from '../deflate.ts';
import { onFour, plainFont, type Table } from './plainFont.ts';

/**
 * Tables as a WOFF file, each packed where that makes it smaller.
 *
 * @source W3C Recommendation "WOFF File Format 1.0" (2012), sections 3 to 5
 */
export function packedFont(tables: readonly Table[]): Uint8Array {
  const plain = plainFont(tables);
  const from = new DataView(plain.buffer);
  const count = from.getUint16(4);
  const bodies: Uint8Array[] = [];
  const head = new DataView(new ArrayBuffer(headBytes + entryBytes * count));
  let place = head.byteLength;
  for (let table = 0; table < count; table++) {
    const entry = 12 + 16 * table;
    const [offset, length] = [from.getUint32(entry + 8), from.getUint32(entry + 12)];
    const whole = plain.subarray(offset, offset + length);
    const packed = deflate(whole);
    const body = packed.length < length ? packed : whole;
    const at = headBytes + entryBytes * table;
    head.setUint32(at, from.getUint32(entry));
    head.setUint32(at + 4, place);
    head.setUint32(at + 8, body.length);
    head.setUint32(at + 12, length);
    head.setUint32(at + 16, from.getUint32(entry + 4));
    bodies.push(body);
    place += onFour(body.length);
  }
  head.setUint32(0, 0x774f4646);
  head.setUint32(4, from.getUint32(0));
  head.setUint32(8, place);
  head.setUint16(12, count);
  head.setUint32(16, plain.length);
  head.setUint16(20, 1);
  return together(new Uint8Array(head.buffer), bodies, place);
}

const headBytes = 44;
const entryBytes = 20;

function together(head: Uint8Array, bodies: readonly Uint8Array[], size: number): Uint8Array {
  const font = new Uint8Array(size);
  font.set(head);
  let at = head.length;
  for (const body of bodies) {
    font.set(body, at);
    at += onFour(body.length);
  }
  return font;
}
