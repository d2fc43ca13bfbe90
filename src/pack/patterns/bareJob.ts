import type { Job } from '../job.ts';
import { commonDivisor } from './largeCells.ts';

/**
 * A job in which all can be cut that can be in this one, in cells as large as the sizes in life allow. Every
 * piece, its kerf behind it, is taken down to the marks at or before its edges:
 *
 *     ├─────┼─────┼─────┼─────┼─────┼      a part of 2 cells and a kerf spans 2 marks or 3, and the same
 *        ├─── part ──┤▒├── next ──┤▒│      where it was shaved; a strip that can be held, as many as fit in it
 *
 * So a part may lie in a piece that is a cell larger, in place of the kerf.
 *
 * @returns  undefined where that is no job of its own, or limits count the cuts or their lengths
 */
export function bareJob(job: Job, wanted: readonly number[]): Job | undefined {
  const { kerf, leastStrip, longestCut, rounds } = job.rules;
  const sizes = wanted.flatMap((kind) => [job.kinds[kind]!.length, job.kinds[kind]!.width]);
  const cell = sizes.map((size) => size - kerf).reduce(commonDivisor);
  const play = Math.ceil((2 * kerf) / cell);
  const strip = Math.floor((kerf + leastStrip) / cell);
  if (kerf === 0 || cell <= 1 || strip <= play) return undefined;
  if (Number.isFinite(longestCut) || Number.isFinite(rounds)) return undefined;
  return {
    ...job,
    kinds: job.kinds.map((it) => ({
      ...it,
      length: Math.floor((it.length - kerf) / cell),
      width: Math.floor((it.width - kerf) / cell),
    })),
    sheets: job.sheets.map((it) => ({
      ...it,
      length: Math.floor(it.length / cell),
      width: Math.floor(it.width / cell),
    })),
    rules: { ...job.rules, kerf: play, leastStrip: strip - play },
  };
}
