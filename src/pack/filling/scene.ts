import { zero } from '../../measure/index.ts';
import type { CutRules, MaterialDemand, NonEmpty, PartKind, SheetKind } from '../../model/index.ts';
import { type Grid, gridOf } from '../grid.ts';
import { type Job, liesOf } from '../job.ts';
import { type Lying, waysOfLying } from '../patterns/pattern.ts';
import { pose } from '../pose.ts';
import { Shape } from '../search/tree.ts';
import type { Leftover } from './leftovers.ts';
import type { Work } from './solving.ts';

/** What is asked of a leftover. */
export interface Task {
  readonly kind: PartKind;
  /** Its number in the layouts' demand. */
  readonly part: number;
  readonly leftover: Leftover;
  readonly demand: MaterialDemand;
  readonly sheet: SheetKind;
  readonly work: Work;
}

/** A leftover as a sheet of its own, in whole cells. */
export interface Scene {
  readonly job: Job;
  readonly grid: Grid;
  readonly ways: readonly Lying[];
  readonly part: number;
}

/** @returns  undefined where not one goes in */
export function sceneOf(
  { kind, part, leftover: { length, width }, demand, sheet }: Task,
  rounds: number | undefined,
): Scene | undefined {
  const asSheet: SheetKind = { ...sheet, length, width, trim: noTrim, available: 'as needed' };
  const alone: MaterialDemand = {
    ...demand,
    rules: { ...demand.rules, rounds },
    parts: [{ ...kind, count: 1 }],
    sheets: [asSheet],
  };
  const measured = gridOf(alone);
  if (measured.kind === 'too fine') return undefined;
  const job = pose(alone, measured.grid);
  if (liesOf(job, 0, 0) === 0) return undefined;
  return { job, grid: measured.grid, ways: waysOfLying(job, [0], 0), part };
}

const noTrim: SheetKind['trim'] = { left: zero, right: zero, bottom: zero, top: zero };

/** One more round is left where the first cuts go the way of the last one: they are of its round. */
export function roundsLeft(
  { rounds: before, last }: Leftover,
  { rounds }: CutRules,
): NonEmpty<{ readonly rounds: number | undefined; readonly first: Shape | undefined }> {
  if (rounds === undefined) return [{ rounds, first: undefined }];
  const left = rounds - before;
  const along = last === 'crosscut' ? Shape.row : Shape.column;
  return [{ rounds: left + 1, first: along }, ...(left > 0 ? [{ rounds: left, first: undefined }] : [])];
}
