import { showThickness } from '../measure/index.ts';
import type { Batch, Diagnostic, FileUnits, Length, TileFit } from '../model/index.ts';
import { fixOf, type Run } from './mend.ts';
import { type OtherLayer, type Shims, shimsFor } from './shims.ts';

/**
 * Adds to the verdicts on a tile what would mend them: the edit where exactly one size does, and shims or
 * another layer where only thicknesses make the sum.
 *
 * @param said  one for each fault of the tile, in their order
 */
export function withMends(
  said: readonly Diagnostic[],
  tile: TileFit,
  batch: Batch,
  run: Run,
): readonly Diagnostic[] {
  return said.map((diagnostic, index) => {
    const fault = tile.faults[index];
    if (fault?.kind !== 'does not close') return diagnostic;
    // A size that closes the row would only hide what is wrong with it.
    const mend = fault.misshared === undefined ? fixOf(fault, tile, run) : undefined;
    const { firstUnit } = batch.settings;
    if (mend !== undefined) {
      const hints = mend.mark === undefined ? [] : [markText(mend.mark, fault.slack, firstUnit)];
      return { ...diagnostic, fix: mend.fix, hints: [...diagnostic.hints, ...hints] };
    }
    if (!fault.isOnlyThickness) return diagnostic;
    const hints = shimsFor(fault, tile.build, batch).map((it) => shimText(it, firstUnit));
    return { ...diagnostic, hints: [...hints, ...diagnostic.hints] };
  });
}

/** Why another size is written than the one that is named as right. */
function markText(mark: Length, slack: Length, unit: FileUnits): string {
  return (
    `${showThickness(mark, unit)} is the mark of your rule next to that, ` +
    `and within the slack of ${showThickness(slack, unit)}`
  );
}

function shimText(it: Shims | OtherLayer, unit: FileUnits): string {
  if (it.kind === 'other layer') {
    return `${it.part} of ${it.material}, ${showThickness(it.thickness, unit)} thick, closes it`;
  }
  const pieces = it.pieces.map(
    ({ material, count, thickness }) => `${count} of ${material}, ${showThickness(thickness, unit)} each`,
  );
  return `shims close it: ${pieces.join(' and ')}`;
}
