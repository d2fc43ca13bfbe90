import type { Drawn, Outline, OutlineFault } from '../../model/index.ts';
import { within } from '../fault.ts';
import { type Corners, cornered } from './corners.ts';
import { type Arch, archCut, type Notch, notched } from './edgeCut.ts';
import { type Hole, holed } from './hole.ts';

export type Cut = Corners | Notch | Arch | Hole;

/**
 * Makes cuts one after the other. One that can't be made is left out and told, so that all that are wrong are
 * told in one run. Sides and corners are those of the box as it is when a cut's turn comes.
 */
export function withCuts(part: Outline, cuts: readonly Cut[]): Drawn {
  const faults: OutlineFault[] = [];
  let outline = part;
  for (const [i, cut] of cuts.entries()) {
    const made = cutOnce(outline, cut);
    outline = made.value ?? outline;
    faults.push(...within(['cuts', i], made.faults));
  }
  return { value: outline, faults };
}

function cutOnce(part: Outline, cut: Cut): Drawn {
  switch (cut.kind) {
    case 'round':
    case 'clip':
      return cornered(part, cut);
    case 'notch':
      return notched(part, cut);
    case 'arch':
      return archCut(part, cut);
    case 'hole':
      return holed(part, cut);
  }
}
