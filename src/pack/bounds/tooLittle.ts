import { type Job, liesOf } from '../job.ts';
import { areaBound } from './area.ts';
import { dualFeasibleBound } from './dualFeasible.ts';

/**
 * True where a bound shows that the parts can't go onto so many of each sheet: even with all of these for nothing, one
 * sheet more would be needed, had it the length of the longest and the width of the widest.
 *
 * @param available  by kind of sheet; Infinity for as many as needed
 */
export function* holdsTooLittle(
  job: Job,
  available: readonly number[],
  counts: readonly number[],
): Generator<void, boolean> {
  const there = job.sheets.map((sheet, i) => ({ ...sheet, cost: 0, available: available[i]! }));
  const mayLie = (kind: number): number =>
    there.reduce((ways, it, sheet) => ways | (it.available > 0 ? liesOf(job, kind, sheet) : 0), 0);
  if (job.kinds.some((_, kind) => counts[kind]! > 0 && mayLie(kind) === 0)) return true;
  const besides = {
    length: Math.max(...there.map(({ length }) => length)),
    width: Math.max(...there.map(({ width }) => width)),
    available: Number.POSITIVE_INFINITY,
    cost: 1,
  };
  const all = there.length + 1;
  const lies = new Uint8Array(job.kinds.length * all);
  for (const kind of job.kinds.keys()) {
    for (const sheet of there.keys()) lies[kind * all + sheet] = liesOf(job, kind, sheet);
    lies[kind * all + all - 1] = mayLie(kind);
  }
  const beside: Job = { ...job, sheets: [...there, besides], lies };
  if (areaBound(beside, counts).sheets > 0) return true;
  return (yield* dualFeasibleBound(beside, counts)).sheets > 0;
}
