import type { Job } from '../job.ts';
import type { Copies } from './sheet.ts';

/** @param counts  how many of each kind; kinds in order, copies of one kind in a row */
export function copiesOf(job: Job, counts: readonly number[]): Copies {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const copies = {
    kindOf: new Int32Array(total),
    length: new Int32Array(total),
    width: new Int32Array(total),
    area: new Float64Array(total),
  };
  let at = 0;
  counts.forEach((count, kind) => {
    const { length, width } = job.kinds[kind]!;
    copies.kindOf.fill(kind, at, at + count);
    copies.length.fill(length, at, at + count);
    copies.width.fill(width, at, at + count);
    copies.area.fill(length * width, at, at + count);
    at += count;
  });
  return copies;
}
