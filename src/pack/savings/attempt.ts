import { compareRationals } from '../../measure/index.ts';
import type { Change, MaterialDemand, MaterialLayouts, Saving, SearchProgress } from '../../model/index.ts';
import { atHandAlone } from '../atHand.ts';
import { areaBound, dualFeasibleBound } from '../bounds/index.ts';
import { gridOf } from '../grid.ts';
import { liesOf } from '../job.ts';
import { pack } from '../pack.ts';
import { pose } from '../pose.ts';
import { type Bill, billOf, costsMore } from './bill.ts';
import { changed } from './changed.ts';

/** Steps of the search for each changed demand: enough to find what is not hidden deep. */
export const stepsEach = 1000;

/** The search for what saves a sheet of one material. */
export interface Attempts {
  readonly packed: MaterialLayouts;
  readonly now: Bill;
  /** Effort that is left: a turn for each report of a running search, and one or more for each bound. */
  turns: number;
  /** Changed demands that were packed. */
  packings: number;
}

/** The saving that a change makes; undefined where it makes none, or none was seen before the turns ran out. */
export function* attempt(change: Change, attempts: Attempts): Generator<SearchProgress, Saving | undefined> {
  const { now } = attempts;
  const layouts = yield* packWith([change], attempts);
  if (layouts === undefined) return undefined;
  const bill = billOf(layouts);
  if (bill.sheets >= now.sheets || costsMore(bill, now)) return undefined;
  // Fewer sheets that are larger save nothing, unless less has to be bought.
  if (change.kind === 'other sheet' && compareRationals(bill.area, now.area) >= 0) return undefined;
  return { change, sheets: bill.sheets, isLeast: true };
}

/** True where all the changes together save a sheet: if not, none of them is worth a try by itself. */
export function* saveTogether(
  changes: readonly Change[],
  attempts: Attempts,
): Generator<SearchProgress, boolean> {
  const layouts = yield* packWith(changes, attempts);
  return layouts !== undefined && billOf(layouts).sheets < attempts.now.sheets;
}

function* packWith(
  changes: readonly Change[],
  attempts: Attempts,
): Generator<SearchProgress, MaterialLayouts | undefined> {
  const { packed, now } = attempts;
  let demand: MaterialDemand | undefined = packed.demand;
  for (const change of changes) demand = demand && changed(demand, change);
  if (demand === undefined) return undefined;
  // Whoever stops here is told of the layouts there are, not of those of a changed demand.
  const progress: SearchProgress = {
    material: packed.demand.material.name,
    step: packed.steps,
    sheets: now.sheets,
    bound: packed.bound.sheets,
  };
  yield progress;
  if (yield* isHopeless(demand, attempts, progress)) return undefined;
  attempts.packings++;
  // What is at hand comes first here too: its whole sheets alone, each dear, before anything is bought.
  const isDrawerFirst = demand.sheets.some(({ isUncut }) => isUncut);
  for (const sheets of isDrawerFirst ? [atHandAlone(demand).sheets, demand.sheets] : [demand.sheets]) {
    const run = pack({ ...demand, sheets }, stepsEach);
    let next = run.next();
    while (!next.done) {
      attempts.turns--;
      if (attempts.turns <= 0) return undefined;
      yield progress;
      next = run.next();
    }
    const layouts = next.value.value;
    if (layouts?.unplaced.length === 0) return { ...layouts, demand };
  }
  return undefined;
}

/** True where even the bound says that a sheet fewer can't do, or where a part fits none. */
function* isHopeless(
  demand: MaterialDemand,
  attempts: Attempts,
  progress: SearchProgress,
): Generator<SearchProgress, boolean> {
  const goal = attempts.now.sheets - 1;
  attempts.turns--;
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') return true;
  const job = pose(demand, measured.grid);
  const hasPlace = (kind: number) => job.sheets.some((_, sheet) => liesOf(job, kind, sheet) !== 0);
  if (!job.kinds.every((_, kind) => hasPlace(kind))) return true;
  const counts = demand.parts.map(({ count }) => count);
  if (areaBound(job, counts).sheets > goal) return true;
  attempts.turns -= demand.parts.length >> 3;
  const bounding = dualFeasibleBound(job, counts);
  let next = bounding.next();
  while (!next.done) {
    yield progress;
    next = bounding.next();
  }
  return next.value.sheets > goal;
}
