import { toFraction } from '../measure/index.ts';
import type { SheetPlan } from '../model/index.ts';

/** How many different widths have to be set out: a run that needs no cut needs no setting. */
export function settingsOf(sheets: readonly SheetPlan[]): number {
  const widths = new Set<string>();
  for (const step of sheets.flatMap((sheet) => sheet.steps)) {
    if (step.kind !== 'rip' && step.kind !== 'crosscut') continue;
    for (const run of step.runs) if (run.cuts > 0) widths.add(toFraction(run.size));
  }
  return widths.size;
}
