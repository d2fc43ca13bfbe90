import { closeSync, fsyncSync, openSync, renameSync, unlinkSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** A file that is there whole, or as it was before. */
export function replace(target: string, bytes: Uint8Array, mode: number): void {
  const beside = join(dirname(target), `.${shortName(target)}.${process.pid}.part`);
  // A run that was killed under the same process id may have left one behind.
  try {
    unlinkSync(beside);
  } catch {}
  try {
    writeAll(beside, 'wx', bytes, mode & 0o777);
    renameSync(beside, target);
  } catch (error) {
    try {
      unlinkSync(beside);
    } catch {}
    throw error;
  }
}

/** So much of a file's name goes into the names of what lies beside it for a moment. */
export function shortName(path: string): string {
  return basename(path).slice(0, 100);
}

export function writeAll(path: string, flags: string, bytes: Uint8Array, mode = 0o666): void {
  const descriptor = openSync(path, flags, mode);
  try {
    for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
    if (flags === 'wx') fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
