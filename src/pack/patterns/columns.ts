import { leastSheets } from '../bounds/area.ts';
import { leastCost } from '../bounds/leastCost.ts';
import { type Bound, betterOf } from '../bounds/lowerBound.ts';
import { areaOf, isStrict, type Job, type JobSheet } from '../job.ts';
import { canBeCut } from '../search/cuttable.ts';
import type { Node } from '../search/tree.ts';
import { bareJob } from './bareJob.ts';
import { largestCell, roundedTo } from './largeCells.ts';
import { Master } from './master.ts';
import { type Pattern, patternOf, waysOfLying } from './pattern.ts';
import { goodSheets, mostLimitedWork, mostWork, type Pricer, pricerFor } from './pricer.ts';

/** A mix of patterns, fractions allowed, and what it proves. */
export interface Mix {
  readonly patterns: readonly { readonly pattern: Pattern; readonly level: number }[];
  /** Undefined where the best sheet could not be found exactly. */
  readonly bound: Bound | undefined;
}

/**
 * Column generation: patterns are made one by one, each the best there is at the prices that the mix so far
 * puts on the parts, until none betters the mix. Its work follows the kinds, not the copies.
 *
 *     prices ──best sheet at these prices──→ pattern
 *       ↑                                       │
 *       └───────────── cheapest mix ←───────────┘
 *
 * @source  P. Gilmore, R. Gomory, Multistage cutting stock problems of two and more dimensions, Operations
 *          Research 13 (1965); from memory
 */
export function* generateColumns(job: Job, counts: readonly number[]): Generator<void, Mix> {
  const wanted = counts.flatMap((count, kind) => (count > 0 ? [kind] : []));
  const limited = job.sheets.flatMap((sheet, i) => (Number.isFinite(sheet.available) ? [i] : []));
  const master = new Master(
    wanted.map((kind) => counts[kind]!),
    limited.map((sheet) => job.sheets[sheet]!.available),
    wanted.map((kind) => costLeftOut(job, kind)),
  );
  const patterns = new Map<number, Pattern>();
  const add = (pattern: Pattern) => {
    const column = Float64Array.from([
      ...wanted.map((kind) => pattern.counts[kind]!),
      ...limited.map((sheet) => (sheet === pattern.sheet ? 1 : 0)),
    ]);
    patterns.set(master.add(job.sheets[pattern.sheet]!.cost, column), pattern);
  };

  const pricers: Pricer[] = [];
  for (let sheet = 0; sheet < job.sheets.length; sheet++) {
    pricers.push(yield* pricerFor(job, wanted, sheet));
    yield;
  }
  const all = [...job.sheets.keys()];
  const looks: readonly (readonly ['quick' | 'thorough', readonly number[]])[] = [
    ['quick', all],
    ['thorough', all.filter((sheet) => !limited.includes(sheet))],
    // What there is little of makes up little of the mix: it is looked at last.
    ['thorough', limited],
  ];
  let bound: Bound | undefined;
  let work = 0;
  let quickWork = 0;
  const mostExactWork = isStrict(job.rules) ? mostLimitedWork : mostWork;
  for (let round = 0; round < mostRounds; round++) {
    yield* master.solve();
    yield;
    const prices = master.prices();
    // Whole prices, rounded down: a mix of patterns is judged by them, but a bound is valid at any prices.
    const scale = scaleFor(job, wanted, prices);
    const values = new Float64Array(job.kinds.length);
    wanted.forEach((kind, row) => {
      values[kind] = Math.max(0, Math.floor(prices[row]! * scale));
    });
    let isBetter = false;
    const best: (number | undefined)[] = [];
    for (const [stage, sheets] of looks) {
      if (isBetter) break;
      for (const sheet of sheets) {
        const row = limited.indexOf(sheet);
        const cost = job.sheets[sheet]!.cost - (row < 0 ? 0 : prices[wanted.length + row]!);
        const pricer = pricers[sheet]!;
        const isCuttable = (tree: Node) => canBeCut(tree, job.sheets[sheet]!, job.rules);
        const may = {
          quick: quickWork < mostQuickWork,
          exact: work + (pricer.exact?.work ?? 0) <= mostExactWork,
        };
        if (stage === 'quick')
          quickWork += pricer.quick.reduce((sum, way) => sum + way.work, pricer.few?.work ?? 0);
        const most = Math.min(mostAtOnce, 2 * job.sheets[sheet]!.available);
        const over = cost * scale * (1 + 1e-6);
        const found = yield* goodSheets(pricer, values, over, stage, may, isCuttable, most);
        best[sheet] ??= found.best;
        work += found.work;
        for (const tree of found.trees) add(patternOf(job, sheet, tree));
        if (found.trees.length > 0) isBetter = true;
      }
    }
    const proved = boundAt(job, counts, values, best);
    if (proved !== undefined) bound = bound === undefined ? proved : betterOf(bound, proved);
    const mixed = master.cost();
    const isProved =
      bound !== undefined && (bound.sheets >= leastByMix(job, mixed) || bound.cost >= mixed - 1e-6);
    if (!isBetter || isProved) break;
  }
  const mix = master.mix().flatMap(({ column, level }) => {
    const pattern = patterns.get(column);
    return pattern === undefined ? [] : [{ pattern, level }];
  });
  for (const looser of bound === undefined ? looserJobs(job, wanted) : []) {
    const other = (yield* generateColumns(looser, counts)).bound;
    if (other !== undefined) bound = bound === undefined ? other : betterOf(bound, other);
  }
  return { patterns: mix, bound };
}

/**
 * Jobs that have a bound where there are too many sizes to look at all: with limits that are as fine as the
 * sizes, with sizes as they are without the kerf, or without a least strip. All that can be cut in this job can
 * be in each of them.
 */
function looserJobs(job: Job, wanted: readonly number[]): Job[] {
  const { rules } = job;
  if (rules.leastStrip === 0) return [];
  const cell = largestCell(
    job.sheets,
    job.sheets.flatMap((_, sheet) => waysOfLying(job, wanted, sheet)),
    rules,
  );
  const rounded = roundedTo(cell, rules, 'looser');
  const isNew = rounded.leastStrip < rules.leastStrip || rounded.longestCut > rules.longestCut;
  if (isNew) return [{ ...job, rules: rounded }];
  const bare = bareJob(job, wanted);
  const free = { ...job, rules: { ...rules, leastStrip: 0 } };
  return bare === undefined ? [free] : [bare, free];
}

/**
 * At whole values of the parts, no sheet of a kind holds more than the best one: an area argument with
 * values in place of areas. Exact, whatever the values are.
 */
function boundAt(
  job: Job,
  counts: readonly number[],
  values: Float64Array,
  best: readonly (number | undefined)[],
): Bound | undefined {
  if (job.sheets.some((_, sheet) => best[sheet] === undefined)) return undefined;
  const total = counts.reduce((sum, count, kind) => sum + BigInt(count) * BigInt(values[kind]!), 0n);
  const held = new Map(job.sheets.map((sheet, i) => [sheet, BigInt(best[i]!)]));
  const heldBy = (sheet: JobSheet) => held.get(sheet)!;
  const sheets = leastSheets(job.sheets, total, heldBy);
  const cost = leastCost(job.sheets, total, heldBy);
  return { sheets, cost, argument: 'even a mix of the best possible sheets, in fractions, takes more' };
}

/**
 * So many sheets at least are in any whole mix, if no pattern betters this one: a bound that says the same
 * can't be bettered. Where sheets differ in cost nothing so simple holds.
 */
function leastByMix(job: Job, cost: number): number {
  const costs = job.sheets.flatMap((sheet) => (sheet.cost > 0 ? [sheet.cost] : []));
  const isOneCost = costs.every((it) => it === costs[0]);
  return isOneCost && costs[0] !== undefined ? Math.ceil(cost / costs[0] - 1e-6) : Number.POSITIVE_INFINITY;
}

/** Dearer than any sheet that could hold the part, so that it is left out only where sheets run out. */
function costLeftOut(job: Job, kind: number): number {
  const dearest = Math.max(1, ...job.sheets.map((sheet) => sheet.cost));
  const largest = Math.max(...job.sheets.map(areaOf));
  return dearest * (10 + (100 * areaOf(job.kinds[kind]!)) / largest);
}

/** What prices are multiplied by before they are rounded: six digits, but no sheet may be worth 2^30. */
function scaleFor(job: Job, wanted: readonly number[], prices: Float64Array): number {
  const dearest = Math.max(1, ...job.sheets.map((sheet) => sheet.cost));
  const perCell = Math.max(...wanted.map((kind, row) => prices[row]! / areaOf(job.kinds[kind]!)));
  const most = perCell * Math.max(...job.sheets.map(areaOf));
  return Math.min(0x100000 / dearest, 0x40000000 / Math.max(most, 1e-9));
}

const mostRounds = 400;
/** Patterns taken over from one run; fewer where there are few such sheets to use them on. */
const mostAtOnce = 12;
/** Additions of all quick runs together. */
const mostQuickWork = 800_000_000;
