/** A table with its tag of four letters. */
export type Table = readonly [tag: string, bytes: Uint8Array];

/**
 * Puts tables together to a font file (TrueType outlines), in the order of their tags.
 *
 * @source OpenType 1.9, "OpenType Font File": table directory, "Calculating checksums"
 */
export function plainFont(tables: readonly Table[]): Uint8Array {
  const sorted = [...tables].sort(([a], [b]) => (a < b ? -1 : 1));
  const count = sorted.length;
  const size = sorted.reduce((all, [, { length }]) => all + onFour(length), headBytes + entryBytes * count);
  const font = new Uint8Array(size);
  const view = new DataView(font.buffer);
  const power = Math.floor(Math.log2(count));
  view.setUint32(0, 0x00010000);
  view.setUint16(4, count);
  view.setUint16(6, 16 * 2 ** power);
  view.setUint16(8, power);
  view.setUint16(10, 16 * (count - 2 ** power));
  let place = headBytes + entryBytes * count;
  for (const [index, [tag, bytes]] of sorted.entries()) {
    const at = headBytes + index * entryBytes;
    for (let letter = 0; letter < 4; letter++) font[at + letter] = tag.charCodeAt(letter);
    font.set(bytes, place);
    if (tag === 'head') view.setUint32(place + adjustmentAt, 0);
    view.setUint32(at + 4, checksum(view, place, bytes.length));
    view.setUint32(at + 8, place);
    view.setUint32(at + 12, bytes.length);
    place += onFour(bytes.length);
  }
  const head = headBytes + entryBytes * sorted.findIndex(([tag]) => tag === 'head');
  const whole = checksum(view, 0, size);
  view.setUint32(view.getUint32(head + 8) + adjustmentAt, (0xb1b0afba - whole) >>> 0);
  return font;
}

const headBytes = 12;
const entryBytes = 16;
/** Where the table `head` holds what makes the sum over the whole file come out. */
const adjustmentAt = 8;

function checksum(view: DataView, from: number, length: number): number {
  let sum = 0;
  for (let at = from; at < from + length; at += 4) sum = (sum + view.getUint32(at)) >>> 0;
  return sum;
}

/** Tables begin on four-byte borders. */
export function onFour(length: number): number {
  return (length + 3) & ~3;
}
