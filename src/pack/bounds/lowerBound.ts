import type { Job } from '../job.ts';
import { areaBound } from './area.ts';
import { dualFeasibleBound } from './dualFeasible.ts';

/** So many sheets at least have to be bought, beside all the offcuts there are. */
export interface Bound {
  readonly sheets: number;
  /** A sentence without a full stop. */
  readonly argument: string;
}

/** The best of all bounds; the simplest argument wins a tie. */
export function lowerBound(job: Job, counts: readonly number[]): Bound {
  const area = areaBound(job, counts);
  const scaled = dualFeasibleBound(job, counts);
  return scaled.sheets > area.sheets ? scaled : area;
}
