import { areaOf, type Job } from '../job.ts';
import type { Copies, OpenSheet } from './sheet.ts';

/** A way of filling sheets: what the search makes and betters. */
export interface Filling {
  readonly sheets: readonly OpenSheet[];
  /** Parts that found no place. */
  readonly leftOut: readonly number[];
}

/** What a filling is judged by, the first difference decides; all the lower the better. */
export interface Merit {
  readonly leftOutArea: number;
  readonly cost: number;
  /** Area of all sheets used. */
  readonly sheetArea: number;
}

export function meritOf(job: Job, copies: Copies, { sheets, leftOut }: Filling): Merit {
  return {
    leftOutArea: leftOut.reduce((sum, part) => sum + copies.area[part]!, 0),
    cost: sheets.reduce((sum, { kind }) => sum + job.sheets[kind]!.cost, 0),
    sheetArea: sheets.reduce((sum, { kind }) => sum + areaOf(job.sheets[kind]!), 0),
  };
}

export function isBetter(a: Merit, b: Merit): boolean {
  if (a.leftOutArea !== b.leftOutArea) return a.leftOutArea < b.leftOutArea;
  if (a.cost !== b.cost) return a.cost < b.cost;
  return a.sheetArea < b.sheetArea;
}
