import type { Diagnostic, MaterialDemand, SearchProgress } from '../model/index.ts';
import { noSheets, sheetsUsedUp, tooFine } from './faults.ts';
import { fillerFaults } from './filling/fillerFaults.ts';
import { gridOf } from './grid.ts';
import { type Job, liesOf } from './job.ts';
import { pose } from './pose.ts';
import { saidOf } from './progress.ts';
import { search } from './search/search.ts';
import { isNonEmpty, setAside } from './setAside.ts';

/**
 * Whether the parts of one material can all be cut from its sheets, and a filler from any; `pack` says how. Where
 * sheets can be had as needed, that is seen part by part; only what counted sheets must hold has to be searched for.
 *
 * @param steps  the most steps of that search, if one is needed
 * @returns      what can't be cut, and why; empty where everything fits
 */
export function* fits(
  demand: MaterialDemand,
  steps: number,
): Generator<SearchProgress, readonly Diagnostic[]> {
  const { sheets } = demand;
  if (!isNonEmpty(sheets)) return [noSheets(demand)];
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') return [tooFine(demand, measured.odd, measured.longest)];
  const job = pose(demand, measured.grid);
  const { counts, diagnostics: ofParts } = setAside(demand, sheets, job);
  const diagnostics = [...ofParts, ...fillerFaults(demand).faults];
  if (counts.every((count, kind) => count === 0 || isEndless(job, kind))) return diagnostics;

  // The first layouts are mostly enough to tell; a search is worth it only before parts are called left out.
  let leftOut: readonly number[] = [];
  for (const most of new Set([0, steps])) {
    const found = yield* saidOf(demand.material.name, search(job, counts, { steps: most }));
    leftOut = found.leftOut;
    if (leftOut.every((count) => count === 0)) return diagnostics;
  }
  return [...diagnostics, sheetsUsedUp(demand, leftOut)];
}

/** True where as many sheets as needed can be had that hold the part. */
function isEndless(job: Job, kind: number): boolean {
  return job.sheets.some(
    ({ available }, sheet) => available === Number.POSITIVE_INFINITY && liesOf(job, kind, sheet) !== 0,
  );
}
