import { type Job, Lie, liesOf } from '../job.ts';
import { collectParts, type Node } from '../search/tree.ts';

/** A part kind lying on a sheet in one way. */
export interface Lying {
  readonly kind: number;
  readonly width: number;
  readonly height: number;
  readonly turned: boolean;
}

/** A way of filling one sheet; the parts in the tree are kinds, not copies. */
export interface Pattern {
  readonly sheet: number;
  readonly root: Node;
  /** By kind. */
  readonly counts: Int32Array;
}

/** All ways in which the wanted kinds may lie on a kind of sheet. */
export function waysOfLying(job: Job, wanted: readonly number[], sheet: number): Lying[] {
  return wanted.flatMap((kind) => {
    const { length, width } = job.kinds[kind]!;
    const ways = liesOf(job, kind, sheet);
    const lying: Lying[] = [];
    if ((ways & Lie.straight) !== 0) lying.push({ kind, width: length, height: width, turned: false });
    if ((ways & Lie.turned) !== 0 && (length !== width || (ways & Lie.straight) === 0)) {
      lying.push({ kind, width, height: length, turned: true });
    }
    return lying;
  });
}

export function patternOf(job: Job, sheet: number, root: Node): Pattern {
  const kinds: number[] = [];
  collectParts(root, kinds);
  const counts = new Int32Array(job.kinds.length);
  for (const kind of kinds) counts[kind]!++;
  return { sheet, root, counts };
}
