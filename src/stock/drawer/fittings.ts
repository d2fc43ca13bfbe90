import type { ListedFittings } from '../../model/index.ts';
import type { Splice } from './splicing.ts';

/** So many of a fitting were used, of which packs that were missing had been bought. */
export interface FittingsUsed {
  readonly name: string;
  readonly count: number;
  /** So many are sold together. */
  readonly pack: number;
}

/** How many of a fitting lie in the drawer before and after some were used. */
export interface FittingsChange {
  readonly listed: ListedFittings;
  readonly count: number;
  /** So many of these were bought. */
  readonly bought: number;
}

/** What using these does to a drawer; of what it does not list nothing is known. */
export function fittingsAfter(
  used: readonly FittingsUsed[],
  listed: readonly ListedFittings[],
): readonly FittingsChange[] {
  return used.flatMap(({ name, count, pack }): readonly FittingsChange[] => {
    const it = listed.find((entry) => entry.name === name);
    if (it === undefined) return [];
    const bought = Math.ceil(Math.max(0, count - it.count) / pack) * pack;
    return [{ listed: it, count: it.count + bought - count, bought }];
  });
}

/** The new count in place of the one that is written; undefined where none is. */
export function recounting({ listed: { countAt }, count }: FittingsChange): readonly Splice[] | undefined {
  return countAt && [{ start: countAt.start, end: countAt.end, text: `${count}` }];
}
