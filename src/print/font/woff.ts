import { inflate } from '../deflate.ts';

/** The tables of a font, by tag; undefined for one it does not have. */
export type Tables = (tag: string) => DataView | undefined;

/**
 * The tables in a WOFF file, each unpacked when it is first asked for: measuring words needs none of the
 * outlines, which are most of the file. The files that ship hold their tables as they are, so that there is nothing
 * to unpack.
 *
 * @source W3C Recommendation "WOFF File Format 1.0" (2012), sections 3 and 4
 */
export function tablesIn(woff: Uint8Array): Tables {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  const known = new Map<string, DataView>();
  return (tag) => {
    const at = entryOf(view, tag);
    if (at === undefined) return undefined;
    const table = known.get(tag) ?? unpacked(woff, view, at);
    known.set(tag, table);
    return table;
  };
}

/** The tags of all its tables, in its order. */
export function tagsIn(woff: Uint8Array): readonly string[] {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  return entriesOf(view).map((at) => tagAt(view, at));
}

export function tagAt(view: DataView, at: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map((letter) => view.getUint8(at + letter)));
}

const headBytes = 44;
const entryBytes = 20;

function entriesOf(view: DataView): readonly number[] {
  return Array.from({ length: view.getUint16(12) }, (_, index) => headBytes + index * entryBytes);
}

function entryOf(view: DataView, tag: string): number | undefined {
  return entriesOf(view).find((at) => tagAt(view, at) === tag);
}

function unpacked(woff: Uint8Array, view: DataView, at: number): DataView {
  const [offset, packed, length] = [4, 8, 12].map((field) => view.getUint32(at + field));
  const bytes = woff.subarray(offset, (offset ?? 0) + (packed ?? 0));
  const plain = (packed ?? 0) < (length ?? 0) ? inflate(bytes) : bytes;
  return new DataView(plain.buffer, plain.byteOffset, plain.byteLength);
}
