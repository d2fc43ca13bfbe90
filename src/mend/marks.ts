import { cutToMarks } from '../expand/index.ts';
import { equal } from '../measure/index.ts';
import type { Batch, Marked, Side, TileFit } from '../model/index.ts';

/**
 * The batch as it is cut: of a tile that closes as marked, every size that the first rule doesn't have is the
 * mark that was chosen for it. So what a verdict says of the marks is what the sheets give to cut; a running
 * mark of several such pieces would else fall on whichever graduation is nearest to it.
 */
export function asMarked(batch: Batch, fits: readonly TileFit[]): Batch {
  const marks = new Map(fits.flatMap(chosenMarks));
  if (marks.size === 0) return batch;
  const materials = batch.materials.map((demand) => ({
    ...demand,
    parts: cutToMarks(demand.parts, ({ tile, part: name, standsAs }) => {
      const part = standsAs ?? name;
      const [length, width] = [marks.get(keyOf(tile, part, 'length')), marks.get(keyOf(tile, part, 'width'))];
      return length === undefined && width === undefined ? undefined : { length, width };
    }),
  }));
  return { ...batch, materials };
}

/** Marks to be told; none of a tile that doesn't close, or not as marked. */
function chosenMarks({ build, faults, marks }: TileFit): readonly (readonly [string, Marked])[] {
  if (faults.some(({ kind }) => kind === 'does not close' || kind === 'does not close as marked')) return [];
  return marks.flatMap((it) =>
    it.isChosen || !equal(it.exact, it.mark) ? [[keyOf(build.tile, it.part, it.size), it] as const] : [],
  );
}

function keyOf(tile: string | undefined, part: string, size: Side): string {
  return `${tile ?? ''}\n${part}\n${size}`;
}
