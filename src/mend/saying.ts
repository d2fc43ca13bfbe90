import { showLength, showThickness } from '../measure/index.ts';
import type { Batch, Diagnostic, FileUnits, Length, TileFit } from '../model/index.ts';
import { mendsOf, type Run } from './mend.ts';
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
    if (fault.misshared !== undefined) return diagnostic;
    const { only, others } = mendsOf(fault, tile, run);
    const { firstUnit } = batch.settings;
    const named = others.map(({ what, right }) => `${what}: ${rightText(right, batch)} closes it`);
    if (only !== undefined) {
      const hints = only.mark === undefined ? [] : [markText(only.mark, fault.slack, firstUnit)];
      return { ...diagnostic, fix: only.fix, hints: [...named, ...diagnostic.hints, ...hints] };
    }
    if (!fault.isOnlyThickness) return { ...diagnostic, hints: [...named, ...diagnostic.hints] };
    const hints = shimsFor(fault, tile.build, batch).map((it) => shimText(it, firstUnit));
    return { ...diagnostic, hints: [...hints, ...diagnostic.hints] };
  });
}

function rightText(right: Length, { settings: { firstUnit, ruler } }: Batch): string {
  return showLength(right, { units: 'both', firstUnit, ruler: ruler.value }).text;
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
