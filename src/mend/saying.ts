import { showThickness } from '../measure/index.ts';
import type { Batch, Diagnostic, FileUnits, TileFit } from '../model/index.ts';
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
    const fix = fault.misshared === undefined ? fixOf(fault, tile, run) : undefined;
    if (fix !== undefined) return { ...diagnostic, fix };
    if (!fault.isOnlyThickness) return diagnostic;
    const { firstUnit } = batch.settings;
    const hints = shimsFor(fault, tile.build, batch).map((it) => shimText(it, firstUnit));
    return { ...diagnostic, hints: [...hints, ...diagnostic.hints] };
  });
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
