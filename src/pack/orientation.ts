import type { PartKind, SheetKind, Side } from '../model/index.ts';
import { Lie } from './job.ts';

/**
 * The ways in which a part may lie on a sheet as far as grain and flutes go, as bits of `Lie`. Both facts
 * have to agree at once.
 *
 *   grain of the sheet: length          part of grain: length      part of grain: width
 *   ┌───────────────────────────┐       ┌───────────┐              ┌───┐
 *   │  ═════════════════════    │       │ ═════════ │ straight     │ ║ │ turned: its width
 *   │  ═════════════════════    │       └───────────┘              │ ║ │ lies along the length
 *   └───────────────────────────┘                                  └───┘
 */
export function liesByGrain(part: PartKind, sheet: SheetKind): number {
  return liesByFact(part.grain, sheet.grain) & liesByFact(part.flutes, sheet.flutes);
}

const bothWays = Lie.straight | Lie.turned;

function liesByFact(wanted: Side | 'any', runs: Side | 'unknown' | 'none'): number {
  if (wanted === 'any' || runs === 'none') return bothWays;
  if (runs === 'unknown') return 0;
  return wanted === runs ? Lie.straight : Lie.turned;
}
