import { areaOf, type Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { construct, recipesFor } from './construct.ts';
import { copiesOf } from './copies.ts';
import { copiesIn, type FilledSheet } from './search.ts';
import { inStrips, mostInStrips, sheetsInOrder, stripWays } from './strips.ts';
import { countsOf } from './tidy.ts';

/**
 * Spares the offcuts that save nothing: where the same parts go onto the other sheets alone, an offcut is
 * worth more whole. The largest is spared first, so that the smallest sufficient one is what gets cut.
 *
 *   offcut  sheet  sheet         offcut  sheet  sheet
 *    ┌▒┐    ┌▒▒▒┐  ┌▒▒ ┐    →     ┌ ┐    ┌▒▒▒┐  ┌▒▒▒┐
 *    └▒┘    └▒▒▒┘  └▒  ┘          └ ┘    └▒▒▒┘  └▒▒ ┘
 */
export function* withoutIdleOffcuts(
  job: Job,
  sheets: readonly FilledSheet[],
): Generator<void, readonly FilledSheet[]> {
  const counts = countsOf(job, sheets);
  if (copiesIn(counts) > mostInStrips) return sheets;
  let best = sheets;
  let kinds = sheetsInOrder(job, sheets);
  const isOffcut = (kind: number) => job.sheets[kind]!.cost === 0;
  const offcuts = kinds
    .filter(isOffcut)
    .sort((a, b) => areaOf(job.sheets[b]!) - areaOf(job.sheets[a]!) || a - b);
  // All at once first: mostly it is all or none.
  for (const spared of [offcuts, ...offcuts.map((kind) => [kind])]) {
    const fewer = without(kinds, spared);
    if (fewer === undefined || fewer.length === 0 || fewer.length === kinds.length) continue;
    const laid = yield* laidOn(job, counts, fewer);
    if (laid === undefined) continue;
    best = laid;
    kinds = fewer;
  }
  return best;
}

/** @returns  undefined where some of `taken` are not there (any more) */
function without(kinds: readonly number[], taken: readonly number[]): number[] | undefined {
  const rest = [...kinds];
  for (const kind of taken) {
    const at = rest.indexOf(kind);
    if (at < 0) return undefined;
    rest.splice(at, 1);
  }
  return rest;
}

/** Lays all parts on these sheets in one of the quick ways. @returns  undefined where none does */
function* laidOn(
  job: Job,
  counts: readonly number[],
  kinds: readonly number[],
): Generator<void, FilledSheet[] | undefined> {
  const area = kinds.reduce((sum, kind) => sum + areaOf(job.sheets[kind]!), 0);
  if (counts.reduce((sum, count, kind) => sum + count * areaOf(job.kinds[kind]!), 0) > area) return undefined;
  const pace = new Pace();
  for (const way of stripWays) {
    const laid = yield* inStrips(job, counts, kinds, way, pace);
    if (laid !== undefined) return laid;
    yield;
  }
  const available = job.sheets.map((_, sheet) => kinds.filter((kind) => kind === sheet).length);
  const limited: Job = { ...job, sheets: job.sheets.map((it, i) => ({ ...it, available: available[i]! })) };
  const stock = [...new Set(kinds)];
  const copies = copiesOf(job, counts);
  for (const recipe of recipesFor(job).slice(0, fewRecipes)) {
    const { sheets, leftOut } = yield* construct(limited, copies, recipe, stock, pace);
    if (leftOut.length > 0) continue;
    return sheets.flatMap(({ kind, root }) =>
      root === null ? [] : [{ kind, root, kindOf: copies.kindOf, times: 1 }],
    );
  }
  return undefined;
}

/** An offcut is no great matter: the first few recipes find most of what there is to find. */
const fewRecipes = 3;
