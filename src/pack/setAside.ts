import type { Diagnostic, MaterialDemand, NonEmpty, SheetKind } from '../model/index.ts';
import { kerfTooWide, whyNowhere } from './faults.ts';
import { type Job, liesOf } from './job.ts';

/** Parts that no sheet can give are told, and left out of the search. */
export function setAside(
  demand: MaterialDemand,
  sheets: NonEmpty<SheetKind>,
  job: Job,
): { counts: number[]; diagnostics: Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  let unsquared = 0;
  const counts = demand.parts.map((part, kind) => {
    const kerfFault = kerfTooWide(part, demand.rules);
    const hasPlace = sheets.some((_, sheet) => liesOf(job, kind, sheet) !== 0);
    const fault = kerfFault ?? (hasPlace ? undefined : whyNowhere(part, sheets, demand));
    if (fault === undefined) return part.count;
    // What keeps a sheet from being squared up is told once, not for every part that it is for.
    if (fault.code !== 'P10' || unsquared++ === 0) diagnostics.push(fault);
    return 0;
  });
  return { counts, diagnostics };
}

export function isNonEmpty<T>(list: readonly T[]): list is NonEmpty<T> {
  return list.length > 0;
}
