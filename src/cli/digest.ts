import { createHash } from 'node:crypto';

/** Tells two texts apart: the same on every machine. */
export function digest(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
