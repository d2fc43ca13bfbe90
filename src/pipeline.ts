import { expand } from './expand/index.ts';
import type {
  Batch,
  Made,
  MaterialLayouts,
  Outcome,
  Overrides,
  SearchProgress,
  Spec,
} from './model/index.ts';
import { findSavings, fits, pack } from './pack/index.ts';
import { plan } from './plan/index.ts';

/**
 * Start reading here.
 *
 *   texts ─readSpec→ Spec ─expand→ Batch ─pack→ MaterialLayouts ─plan→ MaterialPlan ─print→ bytes
 *                                                    └─findSavings→ Savings, where asked why ─┘
 *
 * Reading texts is the caller's, since `uses` asks for further files. The searches are the slow arrows: they
 * yield their progress, so that whoever drives them can show it or stop it.
 */
export function* pipeline(
  spec: Spec,
  overrides: Overrides,
  wishes: Wishes = {},
): Generator<SearchProgress, Outcome<Made>> {
  const { value: batch, diagnostics } = expand(spec, overrides);
  if (batch === undefined) return { value: undefined, diagnostics };

  const layouts: MaterialLayouts[] = [];
  const said = [...diagnostics];
  for (const demand of batch.materials) {
    const packed = yield* pack(demand, batch.settings.effort.value.steps);
    if (packed.value !== undefined) layouts.push(packed.value);
    said.push(...packed.diagnostics);
  }
  const plans = plan(layouts, batch.settings);
  const made: Made = { spec, batch, layouts, plans };
  const value = wishes.why
    ? { ...made, savings: yield* findSavings(layouts, batch.settings.ruler.value[0]) }
    : made;
  return { value, diagnostics: said };
}

/** As much of the picture as tells whether a batch is sound and can be cut: nothing is laid out for cutting. */
export function* checkUp(spec: Spec, overrides: Overrides): Generator<SearchProgress, Outcome<Batch>> {
  const { value: batch, diagnostics } = expand(spec, overrides);
  if (batch === undefined) return { value: undefined, diagnostics };
  const said = [...diagnostics];
  for (const demand of batch.materials)
    said.push(...(yield* fits(demand, batch.settings.effort.value.steps)));
  return { value: batch, diagnostics: said };
}

/** What a caller may want beside the sheets. */
export interface Wishes {
  /** Why it takes so many sheets, and what would save one. */
  readonly why?: boolean;
}

/** Drives a search to its end without looking at its progress. */
export function runToEnd<T>(search: Generator<SearchProgress, T>): T {
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}
