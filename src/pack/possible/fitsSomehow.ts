import type { Blanks, Diagnostic, MaterialDemand, SearchProgress } from '../../model/index.ts';
import { fits } from '../fits.ts';

/**
 * Whether the parts can be cut from blanks of some way of forming them; the others are formed only where the
 * first can't be. What is wrong is told of the first.
 */
export function* fitsSomehow(
  own: MaterialDemand,
  shared: () => Blanks,
  steps: number,
): Generator<SearchProgress, readonly Diagnostic[]> {
  const faults = yield* fits(own, steps);
  if (faults.length === 0) return faults;
  const { first, others } = shared();
  for (const form of [() => first, ...others.map((it) => it.form)]) {
    const way = form();
    if (way !== undefined && way !== own && (yield* fits(way, steps)).length === 0) return [];
  }
  return faults;
}
