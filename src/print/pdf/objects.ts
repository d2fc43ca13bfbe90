import { deflate } from '../deflate.ts';

/** A reference to an object of the file, as it is written where it is meant. */
export type Reference = `${number} 0 R`;

/** A PDF being put together, object by object. */
export interface PdfFile {
  /** A number for an object that is told later: others may refer to it before. */
  readonly reserve: () => Reference;
  /** @param body as it stands between `obj` and `endobj` */
  readonly put: (at: Reference, body: string) => void;
  readonly add: (body: string) => Reference;
  /** @param entries of its dictionary, besides length and filter */
  readonly addStream: (entries: string, bytes: Uint8Array) => Reference;
  readonly bytes: (trailer: {
    readonly root: Reference;
    readonly info: Reference;
    readonly id: string;
  }) => Uint8Array;
}

/**
 * @source ISO 32000-1:2008, 7.3 (objects), 7.5 (file structure: header, body, cross-reference table, trailer)
 */
export function startFile(): PdfFile {
  const chunks: Uint8Array[] = [];
  let length = 0;
  const offsets: number[] = [];
  const write = (bytes: Uint8Array): void => {
    chunks.push(bytes);
    length += bytes.length;
  };
  // The second line tells programs that move files that this one is not text.
  write(latin1('%PDF-1.7\n%\u00ff\u00ff\u00ff\u00ff\n'));
  const reserve = (): Reference => `${offsets.push(0)} 0 R`;
  const begin = (at: Reference): void => {
    const number = Number.parseInt(at, 10);
    offsets[number - 1] = length;
    write(latin1(`${number} 0 obj\n`));
  };
  const put = (at: Reference, body: string): void => {
    begin(at);
    write(latin1(`${body}\nendobj\n`));
  };
  return {
    reserve,
    put,
    add: (body) => {
      const at = reserve();
      put(at, body);
      return at;
    },
    addStream: (entries, bytes) => {
      const at = reserve();
      const packed = deflate(bytes);
      begin(at);
      write(latin1(`<<${entries} /Length ${packed.length} /Filter /FlateDecode>>\nstream\n`));
      write(packed);
      write(latin1('\nendstream\nendobj\n'));
      return at;
    },
    bytes: ({ root, info, id }) => {
      const start = length;
      const rows = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`);
      const size = offsets.length + 1;
      const both = `${hexOf(id)} ${hexOf(id)}`;
      write(latin1(`xref\n0 ${size}\n0000000000 65535 f \n${rows.join('')}`));
      write(latin1(`trailer\n<</Size ${size} /Root ${root} /Info ${info} /ID [${both}]>>\n`));
      write(latin1(`startxref\n${start}\n%%EOF\n`));
      return joined(chunks, length);
    },
  };
}

/** Text that people read: UTF-16 with its mark in front (ISO 32000-1, 7.9.2.2). */
export function textString(text: string): string {
  let hex = 'FEFF';
  for (let at = 0; at < text.length; at++) hex += hexOfNumber(text.charCodeAt(at));
  return `<${hex}>`;
}

/** Four hex digits. */
export function hexOfNumber(number: number): string {
  return number.toString(16).toUpperCase().padStart(4, '0');
}

function hexOf(ascii: string): string {
  const bytes = Array.from(ascii, (letter) => letter.charCodeAt(0).toString(16).padStart(2, '0'));
  return `<${bytes.join('')}>`;
}

/** Each character as one byte; there are none above U+00FF. */
export function latin1(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
  return bytes;
}

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
