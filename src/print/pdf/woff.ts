import { inflate } from './deflate.ts';

/**
 * Unpacks a WOFF file into the plain font inside, table by table, once. (The font library would unpack the
 * table of all outlines again for every glyph it looks at.)
 *
 * @source W3C Recommendation "WOFF File Format 1.0" (2012), sections 3 and 4; OpenType 1.9, table directory
 */
export function fontInWoff(woff: Uint8Array): Uint8Array {
  const from = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  const count = from.getUint16(12);
  const entries = Array.from({ length: count }, (_, index) => {
    const at = woffHead + index * woffEntry;
    return {
      tag: from.getUint32(at),
      offset: from.getUint32(at + 4),
      packed: from.getUint32(at + 8),
      length: from.getUint32(at + 12),
      checksum: from.getUint32(at + 16),
    };
  });
  const size = entries.reduce((all, { length }) => all + onFour(length), plainHead + plainEntry * count);
  const font = new Uint8Array(size);
  const to = new DataView(font.buffer);
  to.setUint32(0, from.getUint32(4));
  to.setUint16(4, count);
  const power = Math.floor(Math.log2(count));
  to.setUint16(6, 16 * 2 ** power);
  to.setUint16(8, power);
  to.setUint16(10, 16 * (count - 2 ** power));

  let place = plainHead + plainEntry * count;
  for (const [index, { tag, offset, packed, length, checksum }] of entries.entries()) {
    const at = plainHead + index * plainEntry;
    to.setUint32(at, tag);
    to.setUint32(at + 4, checksum);
    to.setUint32(at + 8, place);
    to.setUint32(at + 12, length);
    const bytes = woff.subarray(offset, offset + packed);
    font.set(packed < length ? inflate(bytes) : bytes, place);
    place += onFour(length);
  }
  return font;
}

const woffHead = 44;
const woffEntry = 20;
const plainHead = 12;
const plainEntry = 16;

/** Tables begin on four-byte borders. */
function onFour(length: number): number {
  return (length + 3) & ~3;
}
