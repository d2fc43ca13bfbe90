import { unzlibSync, zlibSync } from 'fflate';

/**
 * Compressed as a PDF stream wants it (RFC 1950). Written in plain JavaScript, so that the same stream gives
 * the same bytes on every machine: what Node's own zlib gives differs between versions of Node. Pages repeat
 * what is near: little memory finds as much as plenty, and fills its tables sooner.
 */
export function deflate(bytes: Uint8Array): Uint8Array {
  return zlibSync(bytes, { level: 4, mem: 4 });
}

export function inflate(bytes: Uint8Array): Uint8Array {
  return unzlibSync(bytes);
}
