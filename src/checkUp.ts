import { blanksFor, ownBlanks } from './blank/index.ts';
import { expand } from './expand/index.ts';
import { idleLets, judge, unmetBy, verdictsSaid } from './fit/index.ts';
import { asMarked, type Sensitivity, sensitivities, withMends } from './mend/index.ts';
import {
  type Batch,
  type Diagnostic,
  isError,
  type Made,
  type Outcome,
  type Overrides,
  type Pause,
  type Spec,
  type TileFit,
} from './model/index.ts';
import { fitsSomehow } from './pack/possible/index.ts';

/**
 * As much of the pipeline as tells whether a batch is sound. It stands apart so that a check, which is asked for
 * again and again, loads nothing of what lays out and prints.
 */

/** What a check looks at: the batch, and how its tiles stand. */
export type Checked = Pick<Made, 'batch' | 'fits'>;

/** As much of the picture as tells whether a batch is sound and can be cut: nothing is laid out for cutting. */
export function* checkUp(spec: Spec, overrides: Overrides): Generator<Pause, Outcome<Checked>> {
  const { value: batch, diagnostics } = expand(spec, overrides);
  if (batch === undefined) return { value: undefined, diagnostics };
  const stood = judged(spec, overrides, batch);
  const said = [...diagnostics, ...stood.diagnostics, ...idleSaid(spec, batch, stood.fits, diagnostics)];
  const { effort, ruler } = batch.settings;
  for (const demand of asMarked(batch, stood.fits).materials) {
    const otherWays = () => blanksFor(demand, ruler.value[0]);
    said.push(...(yield* fitsSomehow(ownBlanks(demand), otherWays, effort.value.steps)));
  }
  return { value: { batch, fits: stood.fits }, diagnostics: said };
}

/** How far each material of a batch may be off before a tile stops closing. */
export function howSensitive(
  spec: Spec,
  overrides: Overrides,
  { batch, fits }: Checked,
): readonly Sensitivity[] {
  const bench = { ruler: batch.settings.ruler.value, wander: batch.wander };
  return sensitivities(batch, { spec, overrides, bench, fits });
}

/** How the tiles stand, and what would mend those that don't. */
export function judged(
  spec: Spec,
  overrides: Overrides,
  batch: Batch,
): { readonly fits: readonly TileFit[]; readonly diagnostics: readonly Diagnostic[] } {
  const { units, firstUnit, ruler } = batch.settings;
  const bench = { ruler: ruler.value, wander: batch.wander };
  const unmet = unmetBy(batch.builds);
  const fits = batch.builds.map((build) => judge(build, bench, unmet.get(build.tile)));
  const style = { units: units.value, firstUnit, ruler: ruler.value };
  const run = { spec, overrides, bench, fits };
  return { fits, diagnostics: fits.flatMap((it) => withMends(verdictsSaid(it, style), it, batch, run)) };
}

/** What parts let pass for nothing: only where every tile is made, since one that is not may need it. */
export function idleSaid(
  { files }: Spec,
  { tiles }: Batch,
  fits: readonly TileFit[],
  diagnostics: readonly Diagnostic[],
): readonly Diagnostic[] {
  const all = new Set(files);
  for (const file of all) for (const used of file.uses) all.add(used);
  const made = new Set(tiles.map(({ name }) => name));
  const isWhole = [...all].every((file) => file.tiles.every(({ name }) => made.has(name)));
  return isWhole && !diagnostics.some(isError) ? idleLets(fits) : [];
}
