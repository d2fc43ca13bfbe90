import { minus } from '../measure/index.ts';
import type { Bore, Length } from '../model/index.ts';

/** A hole for a fitting in the other hand of a part of that length: swapped left for right. */
export function boreOfOtherHand(bore: Bore, length: Length): Bore {
  const { into } = bore;
  if (into.kind === 'face') {
    return { ...bore, into: { ...into, at: { ...into.at, x: minus(length, into.at.x) } } };
  }
  if (into.side === 'bottom' || into.side === 'top') {
    return { ...bore, into: { ...into, along: minus(length, into.along) } };
  }
  return { ...bore, into: { ...into, side: into.side === 'left' ? 'right' : 'left' } };
}
