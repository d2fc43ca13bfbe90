import { atSpan, diagnose, fine, type Outcome, refused, type Source } from '../model/index.ts';
import { unseenCharacterIn } from './characters.ts';

/** The most bytes that are read of a file. */
const mostBytes = 1_000_000;

/** The text of a file, strictly UTF-8, without its byte order mark. */
export function decode(path: string, bytes: Uint8Array): Outcome<Source> {
  const place = { kind: 'file', path } as const;
  if (bytes.length > mostBytes) return refused(diagnose('S03', place, { size: grouped(bytes.length) }));
  if (isUtf16(bytes)) return refused(diagnose('S02', place, { what: 'UTF-16', line: 1 }));
  if (bytes.includes(0)) return refused(diagnose('S02', place, { what: 'binary', line: 1 }));
  const text = utf8(bytes);
  if (text === undefined) {
    return refused(diagnose('S02', place, { what: 'other', line: lineOfFault(bytes) }));
  }
  if (text.trim() === '') return refused(diagnose('S04', place, {}));
  const source = { path, text };
  const unseen = unseenCharacterIn(text);
  if (unseen === undefined) return fine(source);
  const at = { source, start: unseen.index, end: unseen.index + 1 };
  return refused(diagnose('S05', atSpan(at), { character: unseen.name }));
}

/** A byte order mark of UTF-16, or a zero in every second byte of the beginning. */
function isUtf16(bytes: Uint8Array): boolean {
  const [a, b, c, d] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) return true;
  return (
    (a === 0 && c === 0 && b !== 0 && d !== 0) ||
    (b === 0 && d === 0 && a !== 0 && c !== 0 && c !== undefined)
  );
}

function utf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** The line, from 1, on which the first byte stands that is not UTF-8. */
function lineOfFault(bytes: Uint8Array): number {
  let line = 1;
  let start = 0;
  for (const [index, byte] of bytes.entries()) {
    if (byte !== 0x0a) continue;
    if (utf8(bytes.subarray(start, index)) === undefined) return line;
    [line, start] = [line + 1, index + 1];
  }
  return line;
}

function grouped(count: number): string {
  return `${count}`.replace(/\B(?=(?:\d{3})+$)/gu, ' ');
}
