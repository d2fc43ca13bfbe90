import type { Bound } from '../bounds/index.ts';
import { areaOf, type Job } from '../job.ts';
import type { FilledSheet } from './search.ts';
import { inStrips, stripWays } from './strips.ts';

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
  if (bought.length > 1 || counts.reduce((sum, count) => sum + count, 0) > mostAtOnce) return undefined;
  if (bound.sheets > 0 && (only === undefined || job.sheets[only]!.available < bound.sheets))
    return undefined;
  if (bound.sheets > mostSheetsAtOnce) return undefined;

  const sheets = only === undefined ? [] : new Array<number>(bound.sheets).fill(only);
  const offcuts = all
    .filter((kind) => job.sheets[kind]!.cost === 0)
    .sort((a, b) => areaOf(job.sheets[a]!) - areaOf(job.sheets[b]!) || a - b)
    .flatMap((kind) => new Array<number>(Math.min(job.sheets[kind]!.available, mostSheetsAtOnce)).fill(kind));
  for (const kinds of offcuts.length === 0 ? [sheets] : [sheets, [...offcuts, ...sheets]]) {
    if (kinds.length === 0) continue;
    for (const way of stripWays) {
      const filled = inStrips(job, counts, kinds, way);
      if (filled !== undefined) return filled;
      yield;
    }
  }
  return undefined;
}

/** Parts and sheets beyond which the ways of strips take longer than is worth waiting for. */
const mostAtOnce = 2000;
const mostSheetsAtOnce = 60;
