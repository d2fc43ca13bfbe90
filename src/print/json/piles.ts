import type { Batch } from '../../model/index.ts';
import { pilesOf } from '../piles.ts';
import { describeLength } from './length.ts';

/** What the slips say, where they are asked for. */
export function describePiles(batch: Batch) {
  if (batch.settings.slips?.value !== true) return null;
  return pilesOf(batch).map(({ tile, letters, name, count, evening, note, groups, fittings }) => ({
    tile: tile ?? null,
    letters: letters ?? null,
    name,
    note: note ?? null,
    count: count ?? null,
    evening: evening === undefined ? null : { ...evening },
    pieces: groups.flatMap(({ material, pieces }) =>
      pieces.map((it) => ({
        material,
        label: it.label,
        note: it.note ?? null,
        length: describeLength(it.length),
        width: describeLength(it.width),
        count: it.count,
        spares: it.spares,
      })),
    ),
    fittings: fittings.map(({ label, count: pieces, spares }) => ({ label, count: pieces, spares })),
  }));
}
