import { type Catalogue, type Code, catalogue, type Severity } from './catalogue/index.ts';
import { type Position, positionOf } from './position.ts';
import type { Place, Span } from './source.ts';

/** The text edit that would mend a fault: what stands at `span` becomes `text`. */
export interface Fix {
  readonly span: Span;
  readonly text: string;
}

/**
 * One thing that is wrong, or worth knowing, and how to get on from there.
 */
export interface Diagnostic {
  readonly code: Code;
  readonly severity: Severity;
  readonly place: Place;
  readonly message: string;
  /** What would do, one suggestion an entry; each is printed on a line of its own after `try`. */
  readonly hints: readonly string[];
  /** Other places that a reader has to look at, each with what stands there. */
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  readonly fix: Fix | undefined;
}

type Facts<C extends Code> = Parameters<Catalogue[C]['say']>[0];

/** What a caller may add to a diagnostic beside what the catalogue says of its code. */
export interface Beside {
  readonly hints?: readonly string[];
  readonly related?: Diagnostic['related'];
  readonly fix?: Fix;
}

/**
 * Makes the diagnostic of a code. The words come from the catalogue alone.
 *
 * @param facts   what the code's `say` needs: texts ready to be shown, in the user's own unit
 * @param beside  hints that depend on the situation, other places, a fix
 */
export function diagnose<C extends Code>(
  code: C,
  place: Place,
  facts: Facts<C>,
  beside: Beside = {},
): Diagnostic {
  // The catalogue's union of functions can't be called with the facts of a generic code; the signature
  // above has already tied the two together.
  const entry = catalogue[code] as {
    severity: Severity;
    say: (facts: unknown) => string;
    hint?: (facts: unknown) => string | undefined;
  };
  const hint = entry.hint?.(facts);
  return {
    code,
    severity: entry.severity,
    place,
    message: entry.say(facts),
    hints: [...(beside.hints ?? []), ...(hint === undefined ? [] : [hint])],
    related: beside.related ?? [],
    fix: beside.fix,
  };
}

/** True where the run's result must not be trusted as asked. */
export function isError(diagnostic: Diagnostic): boolean {
  return diagnostic.severity === 'fatal' || diagnostic.severity === 'error';
}

/** Sorts by file, place in the file, code; those without a place come last. The same on every run. */
export function inReadingOrder(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const key = ({ place }: Diagnostic): [string, number] => {
    switch (place.kind) {
      case 'span':
        return [place.span.source.path, place.span.start];
      case 'file':
        return [place.path, -1];
      case 'facet':
        return [place.path, place.facet];
      case 'argument':
        return ['\uffff', 0];
      case 'none':
        return ['\uffff', 1];
    }
  };
  const positions = new Map<Span, Position>();
  const at = (span: Span): Position => {
    const position = positions.get(span) ?? positionOf(span);
    positions.set(span, position);
    return position;
  };
  // Lines of standard input are a source each, so what they have in common is how their lines are counted.
  const apart = (a: Span, b: Span): number => {
    if (a.source === b.source) return a.start - b.start;
    const [one, other] = [at(a), at(b)];
    return one.line - other.line || one.column - other.column;
  };
  return [...diagnostics].sort((a, b) => {
    const [fileA, placeA] = key(a);
    const [fileB, placeB] = key(b);
    if (fileA !== fileB) return fileA < fileB ? -1 : 1;
    const areSpans = a.place.kind === 'span' && b.place.kind === 'span';
    const order = areSpans ? apart(a.place.span, b.place.span) : placeA - placeB;
    if (order !== 0) return order;
    return a.code < b.code ? -1 : a.code > b.code ? 1 : 0;
  });
}
