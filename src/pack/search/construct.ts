import { areaOf, type Job, Lie, liesOf } from '../job.ts';
import { Pace } from '../pace.ts';
import type { Filling } from './filling.ts';
import { keysOf, sortedBy } from './orders.ts';
import { type Copies, type OpenSheet, Placer, Score } from './sheet.ts';

/** One way of filling sheets part by part. */
export interface Recipe {
  readonly order: number;
  readonly score: Score;
  readonly firstFit: boolean;
}

/**
 * No recipe wins alone. These sixteen were picked one after the other, each for what it adds to those before
 * it on drawn instances (`tests/bench/recipe.mjs`, seeds 1 and 2, parts fixed and turning).
 */
export const recipes: readonly Recipe[] = [
  { order: 3, score: Score.wasted, firstFit: true },
  { order: 2, score: Score.shorterRest, firstFit: false },
  { order: 1, score: Score.mixedWaste, firstFit: false },
  { order: 0, score: Score.shorterRest, firstFit: false },
  { order: 2, score: Score.rest, firstFit: true },
  { order: 0, score: Score.rest, firstFit: false },
  { order: 2, score: Score.mixedWaste, firstFit: false },
  { order: 3, score: Score.shorterRest, firstFit: false },
  { order: 3, score: Score.allWaste, firstFit: false },
  { order: 1, score: Score.wasteTwice, firstFit: false },
  { order: 4, score: Score.smallerWaste, firstFit: false },
  { order: 6, score: Score.wasted, firstFit: true },
  { order: 0, score: Score.smallerWaste, firstFit: false },
  { order: 0, score: Score.allWaste, firstFit: false },
  { order: 0, score: Score.wasteTwice, firstFit: false },
  { order: 1, score: Score.smallerWaste, firstFit: false },
];

/** Parts that may not turn have half as many places, so there is time for some more (seeds 1 to 3, parts fixed). */
const moreRecipesFixed: readonly Recipe[] = [
  { order: 4, score: Score.rest, firstFit: false },
  { order: 1, score: Score.mismatch, firstFit: false },
  { order: 3, score: Score.wasted, firstFit: false },
  { order: 1, score: Score.smallerWaste, firstFit: true },
  { order: 6, score: Score.rest, firstFit: false },
  { order: 3, score: Score.wasteTwice, firstFit: true },
  { order: 4, score: Score.wasted, firstFit: false },
  { order: 5, score: Score.rest, firstFit: false },
];

export function recipesFor(job: Job): readonly Recipe[] {
  const both = Lie.straight | Lie.turned;
  return job.lies.some((ways) => ways === both) ? recipes : [...recipes, ...moreRecipesFixed];
}

/**
 * Lays the parts one by one, opening a sheet whenever none will take one. Yields after every few parts.
 *
 * @param pace  shared by those who construct again and again
 */
export function* construct(
  job: Job,
  copies: Copies,
  recipe: Recipe,
  stock: StockOrder,
  pace = new Pace(),
): Generator<void, Filling> {
  const placer = new Placer(job, copies);
  const sheets: OpenSheet[] = [];
  const used = new Int32Array(job.sheets.length);
  const leftOut: number[] = [];
  let done = 0;
  for (const part of sortedBy(keysOf(copies, recipe.order))) {
    const laid = recipe.firstFit
      ? placer.firstFit(part, sheets, recipe.score)
      : placer.bestFit(part, sheets, recipe.score);
    if (!laid && !openFor(part)) leftOut.push(part);
    if (pace.isDue(placer.work - done)) yield;
    done = placer.work;
  }
  return { sheets, leftOut };

  function openFor(part: number): boolean {
    for (const kind of stock) {
      if (used[kind]! >= job.sheets[kind]!.available || liesOf(job, copies.kindOf[part]!, kind) === 0)
        continue;
      const sheet: OpenSheet = { kind, root: null, filled: 0 };
      if (!placer.firstFit(part, [sheet], recipe.score)) continue;
      used[kind]!++;
      sheets.push(sheet);
      return true;
    }
    return false;
  }
}

/** Kinds of sheets in the order in which they are opened. */
export type StockOrder = readonly number[];

/**
 * Offcuts first, the smallest first; then the sheets with one kind in front, the others by what a cell of
 * them costs.
 */
export function stockOrders(job: Job): StockOrder[] {
  const all = job.sheets.map((_, kind) => kind);
  const area = (kind: number) => areaOf(job.sheets[kind]!);
  const offcuts = all.filter((kind) => job.sheets[kind]!.cost === 0);
  offcuts.sort((a, b) => area(a) - area(b) || a - b);
  const sheets = all.filter((kind) => job.sheets[kind]!.cost > 0);
  const dearness = (kind: number) => job.sheets[kind]!.cost / area(kind);
  sheets.sort((a, b) => dearness(a) - dearness(b) || area(b) - area(a) || a - b);
  if (sheets.length === 0) return [offcuts];
  return sheets.map((first) => [...offcuts, first, ...sheets.filter((kind) => kind !== first)]);
}
