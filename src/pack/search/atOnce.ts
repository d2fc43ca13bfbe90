import type { Bound } from '../bounds/index.ts';
import type { Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { copiesIn, type FilledSheet } from './search.ts';
import { inStockOrder, inStrips, mostInStrips, stripWays } from './strips.ts';

/**
 * An ordinary evening needs no search: if strips fill no more sheets than the bound says must be bought, none
 * can need fewer. Tried without offcuts first, since one that saves no sheet is worth more whole.
 *
 * @returns  undefined where strips need more, or where sheets of several sizes could be bought
 */
export function* stripsAtOnce(
  job: Job,
  counts: readonly number[],
  bound: Bound,
): Generator<void, FilledSheet[] | undefined> {
  const all = [...job.sheets.keys()];
  const bought = all.filter((kind) => job.sheets[kind]!.cost > 0);
  const [only] = bought;
  if (bought.length > 1 || copiesIn(counts) > mostInStrips) return undefined;
  if (bound.sheets > 0 && (only === undefined || job.sheets[only]!.available < bound.sheets))
    return undefined;
  if (bound.sheets > mostSheetsAtOnce) return undefined;

  const sheets = only === undefined ? [] : new Array<number>(bound.sheets).fill(only);
  const offcuts = all
    .filter((kind) => job.sheets[kind]!.cost === 0)
    .flatMap((kind) => new Array<number>(Math.min(job.sheets[kind]!.available, mostSheetsAtOnce)).fill(kind));
  const pace = new Pace();
  for (const kinds of offcuts.length === 0
    ? [sheets]
    : [sheets, inStockOrder(job, [...offcuts, ...sheets])]) {
    if (kinds.length === 0) continue;
    for (const way of stripWays) {
      const filled = yield* inStrips(job, counts, kinds, way, pace);
      if (filled !== undefined) return filled;
      yield;
    }
  }
  return undefined;
}

/** Beyond so many sheets the ways of strips take longer than is worth waiting for. */
const mostSheetsAtOnce = 60;
