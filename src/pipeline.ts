import { expand } from './expand/index.ts';
import { fit, verdictsSaid } from './fit/index.ts';
import { withMends } from './mend/index.ts';
import type { Made, MaterialLayouts, Outcome, Overrides, SearchProgress, Spec } from './model/index.ts';
import { pack } from './pack/index.ts';
import { plan } from './plan/index.ts';

/**
 * Start reading here.
 *
 *   texts ─readSpec→ Spec ─expand→ Batch ─pack→ MaterialLayouts ─plan→ MaterialPlan ─print→ bytes
 *                                    └──fit→ TileFits, what is wrong with them ─mend→ and what would do
 *
 * Reading texts is the caller's, since `uses` asks for further files. The search is the one slow arrow: it
 * yields its progress, so that whoever drives it can show it or stop it.
 */
export function* pipeline(spec: Spec, overrides: Overrides): Generator<SearchProgress, Outcome<Made>> {
  const { value: batch, diagnostics } = expand(spec, overrides);
  if (batch === undefined) return { value: undefined, diagnostics };

  const { units, firstUnit, ruler } = batch.settings;
  const bench = { ruler: ruler.value, wander: batch.wander };
  const fits = batch.builds.map((build) => fit(build, bench));
  const style = { units: units.value, firstUnit, ruler: ruler.value };
  const run = { spec, overrides, bench, fits };
  const said = [...diagnostics, ...fits.flatMap((it) => withMends(verdictsSaid(it, style), it, batch, run))];

  const layouts: MaterialLayouts[] = [];
  for (const demand of batch.materials) {
    const packed = yield* pack(demand, batch.settings.effort.value.steps);
    if (packed.value !== undefined) layouts.push(packed.value);
    said.push(...packed.diagnostics);
  }
  const plans = plan(layouts, batch.settings);
  return { value: { spec, batch, fits, layouts, plans }, diagnostics: said };
}

/** Drives a search to its end without looking at its progress. */
export function runToEnd<T>(search: Generator<SearchProgress, T>): T {
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}
