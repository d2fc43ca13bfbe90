import { atSpan, type Beside, diagnose, didYouMean, nearest, type Place, type Span } from '../model/index.ts';

import type { Faults } from './faults.ts';
import type { Definition } from './sight.ts';

/**
 * The one meaning of a name; more than one is a fault at the place where the name is used.
 *
 * @param sort  what the name stands for, e.g. `a material`
 */
export function theOne<T>(
  meanings: readonly Definition<T>[],
  used: Place,
  sort: (value: T) => string,
  faults: Faults,
): Definition<T> | undefined {
  const [first, ...others] = meanings;
  if (first === undefined || others.length === 0) return first;
  const places = meanings.map(({ at, value }) => ({ at, sort: sort(value) }));
  reportTwoMeanings(first.name, used, places, faults);
  return undefined;
}

export function reportTwoMeanings(
  name: string,
  used: Place,
  places: readonly { readonly at: Span; readonly sort: string }[],
  faults: Faults,
): void {
  const related = places.map(({ at, sort }) => ({ place: atSpan(at), message: `${sort} called "${name}"` }));
  faults.report(diagnose('E02', used, { name }, { related }));
}

/** What there is to say about a name that nothing has: what may have been meant, and what there is. */
export function unknown(
  name: string,
  place: Place,
  known: readonly string[],
): {
  readonly facts: { readonly name: string; readonly meant: string; readonly known: readonly string[] };
  readonly beside: Beside;
} {
  const meant = nearest(name, known);
  return {
    facts: { name, meant: didYouMean(name, known), known },
    beside: meant === undefined || place.kind !== 'span' ? {} : { fix: { span: place.span, text: meant } },
  };
}
