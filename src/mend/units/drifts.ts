import { absolute, larger, minus, zero } from '../../measure/index.ts';
import type { Batch, Length } from '../../model/index.ts';

/** A part before and after, and by how much each of its sizes has changed. */
export interface PartDrift {
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
  readonly before: { readonly length: Length; readonly width: Length };
  readonly after: { readonly length: Length; readonly width: Length };
  readonly drift: { readonly length: Length; readonly width: Length };
}

/** Every part of two batches of the same tiles, in the order of the first. */
export function partDrifts(before: Batch, after: Batch): readonly PartDrift[] {
  const then = new Map(sizesIn(after).map((it) => [keyOf(it), it]));
  return sizesIn(before).flatMap(({ tile, part, length, width }): readonly PartDrift[] => {
    const now = then.get(keyOf({ tile, part }));
    if (now === undefined) return [];
    const drift = { length: minus(now.length, length), width: minus(now.width, width) };
    return [{ tile, part, before: { length, width }, after: now, drift }];
  });
}

/** The largest of some drifts, either way; zero of none. */
export function largestDrift(drifts: readonly PartDrift[]): Length {
  const all = drifts.flatMap(({ drift }) => [drift.length, drift.width]);
  return all.map(absolute).reduce(larger, zero);
}

interface Sized {
  readonly tile: string | undefined;
  readonly part: string;
  readonly length: Length;
  readonly width: Length;
}

/** Net sizes, as the parts are written. */
function sizesIn({ materials }: Batch): readonly Sized[] {
  return materials.flatMap(({ parts }) =>
    parts.flatMap(({ length, width, members }) =>
      members.map(({ tile, part, isTurned, drawn }): Sized => {
        const own = isTurned ? { length: width, width: length } : { length, width };
        return { tile, part, ...(drawn?.net ?? own) };
      }),
    ),
  );
}

function keyOf({ tile, part }: Pick<Sized, 'tile' | 'part'>): string {
  return `${tile ?? ''}\n${part}`;
}
