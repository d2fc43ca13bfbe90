import type { Diagnostic } from './diagnostic.ts';

/**
 * What a phase gives back: a value if one could be made, and everything it has to say about it. A phase
 * never throws for what a user can cause.
 */
export interface Outcome<T> {
  readonly value: T | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

export function fine<T>(value: T, diagnostics: readonly Diagnostic[] = []): Outcome<T> {
  return { value, diagnostics };
}

export function refused(...diagnostics: readonly Diagnostic[]): Outcome<never> {
  return { value: undefined, diagnostics };
}

/**
 * Runs the next phase where there is a value to run it on, and keeps what both have to say. Not called
 * `then`: a module with an export of that name is taken for a promise by `import()`, and never arrives.
 */
export function andThen<A, B>(first: Outcome<A>, next: (value: A) => Outcome<B>): Outcome<B> {
  if (first.value === undefined) return { value: undefined, diagnostics: first.diagnostics };
  const second = next(first.value);
  return { value: second.value, diagnostics: [...first.diagnostics, ...second.diagnostics] };
}
