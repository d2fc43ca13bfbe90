import type { Bound } from '../bounds/index.ts';
import type { Job } from '../job.ts';
import { construct, recipes, stockOrders } from './construct.ts';
import { copiesOf } from './copies.ts';
import { type Filling, isBetter, meritOf } from './filling.ts';
import { improve } from './proposals.ts';
import { repeatGoodSheets } from './repeat.ts';
import type { Copies } from './sheet.ts';
import type { Node } from './tree.ts';

/** One way of filling a sheet, how often, and of which kind the parts in its tree are. */
export interface FilledSheet {
  readonly kind: number;
  readonly root: Node;
  readonly kindOf: Int32Array;
  readonly times: number;
}

export interface Found {
  readonly sheets: readonly FilledSheet[];
  /** By kind. */
  readonly leftOut: readonly number[];
  readonly steps: number;
}

export interface Progress {
  readonly step: number;
  /** Sheets that cost something, in the best result so far. */
  readonly sheets: number;
}

/** So many copies are searched one by one; beyond that, good sheets are repeated first. */
const mostCopies = 400;

/**
 * Looks for the cheapest sheets that hold all parts.
 *
 *   many copies ─repeat good sheets→ few copies ─16 quick ways→ a filling ─ruin and recreate→ a better one
 *
 * @param counts  how many of each kind are wanted (0 for those set aside)
 * @param steps   the most steps of ruin and recreate
 * @param bound   the search ends where it needs no more sheets than this
 */
export function* search(
  job: Job,
  counts: readonly number[],
  steps: number,
  bound: Bound,
): Generator<Progress, Found> {
  const repeated = yield* repeatGoodSheets(job, counts, mostCopies);
  const before = repeated.sheets.reduce(
    (sum, { kind, times }) => sum + (job.sheets[kind]!.cost > 0 ? times : 0),
    0,
  );
  const copies = copiesOf(job, repeated.rest);
  const rest: Job = {
    ...job,
    sheets: job.sheets.map((sheet, i) => ({ ...sheet, available: repeated.available[i]! })),
  };

  let best = yield* bestConstructed(rest, copies, before);
  const bettered = yield* improve(rest, copies, best, steps, bound.sheets - before, before);
  best = bettered.filling;
  const found: FilledSheet[] = [...repeated.sheets];
  for (const { kind, root } of best.sheets) {
    if (root !== null) found.push({ kind, root, kindOf: copies.kindOf, times: 1 });
  }
  const leftOut = job.kinds.map(() => 0);
  for (const part of best.leftOut) leftOut[copies.kindOf[part]!]!++;
  return { sheets: found, leftOut, steps: bettered.steps };
}

function* bestConstructed(job: Job, copies: Copies, before: number): Generator<Progress, Filling> {
  let best: Filling = { sheets: [], leftOut: [...copies.area.keys()] };
  for (const stock of stockOrders(job)) {
    for (const recipe of recipes) {
      const filling = yield* withProgress(construct(job, copies, recipe, stock), () => ({
        step: 0,
        sheets: before + boughtIn(job, best),
      }));
      if (isBetter(meritOf(job, copies, filling), meritOf(job, copies, best))) best = filling;
    }
  }
  return best;
}

/** Sheets of a filling that are no offcuts. */
export function boughtIn(job: Job, { sheets }: Filling): number {
  return sheets.filter(({ kind }) => job.sheets[kind]!.cost > 0).length;
}

export function* withProgress<T>(run: Generator<void, T>, say: () => Progress): Generator<Progress, T> {
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
    yield say();
  }
}
