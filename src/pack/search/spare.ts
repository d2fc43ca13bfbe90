import { areaOf, type Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { asFilling } from '../patterns/rounding.ts';
import { construct, recipesFor } from './construct.ts';
import { copiesOf } from './copies.ts';
import { copiesIn, type FilledSheet } from './search.ts';
import { Placer, Score } from './sheet.ts';
import { inStrips, mostInStrips, sheetsInOrder, stripWays } from './strips.ts';
import { countsOf } from './tidy.ts';
import { collectParts } from './tree.ts';

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
    const [only] = spared;
    const laid =
      spared.length === 1 && copiesIn(counts) > mostLaidAnew
        ? yield* intoGaps(job, best, only!)
        : yield* laidOn(job, counts, fewer);
    if (laid === undefined) continue;
    best = laid;
    kinds = fewer;
  }
  return best;
}

/**
 * Puts what lies on one offcut into the gaps of the other sheets, which stay as they are otherwise: all parts
 * laid anew for each offcut takes too long where there are many.
 *
 * @returns  undefined where some part finds no gap
 */
function* intoGaps(
  job: Job,
  sheets: readonly FilledSheet[],
  offcut: number,
): Generator<void, FilledSheet[] | undefined> {
  const each = sheets.flatMap((sheet) => new Array<FilledSheet>(sheet.times).fill({ ...sheet, times: 1 }));
  const { copies, filling } = asFilling(
    job,
    each,
    job.kinds.map(() => 0),
  );
  const spared = filling.sheets.findIndex(({ kind }) => kind === offcut);
  const moving: number[] = [];
  collectParts(filling.sheets[spared]!.root!, moving);
  const open = filling.sheets.filter((_, i) => i !== spared).map((sheet) => ({ ...sheet }));
  const placer = new Placer(job, copies);
  for (const part of moving.sort((a, b) => copies.area[b]! - copies.area[a]! || a - b)) {
    if (!placer.bestFit(part, open, Score.shorterRest)) return undefined;
    yield;
  }
  return open.map(({ kind, root }) => ({ kind, root: root!, kindOf: copies.kindOf, times: 1 }));
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

/** So many parts are laid anew on the other sheets, for each offcut that may be spared. */
const mostLaidAnew = 400;
/** An offcut is no great matter: the first few recipes find most of what there is to find. */
const fewRecipes = 3;
