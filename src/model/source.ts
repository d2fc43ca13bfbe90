/** A text that was read, as the user named it. A byte order mark is not part of `text`. */
export interface Source {
  /** The path as it is shown in messages; `<stdin>` for standard input. */
  readonly path: string;
  readonly text: string;
}

/** Characters `start` to `end` (UTF-16 offsets, end excluded) of a source's text. */
export interface Span {
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

/** A value and the characters it was written with. */
export interface Placed<T> {
  readonly value: T;
  readonly at: Span;
}

/** An entry of a YAML map: its name, where the name stands, and what it is. */
export interface Named<T> {
  readonly name: string;
  readonly at: Span;
  readonly value: T;
}

/** Where a fault lies. */
export type Place =
  | { readonly kind: 'span'; readonly span: Span }
  | { readonly kind: 'file'; readonly path: string }
  | { readonly kind: 'argument'; readonly argument: string }
  | { readonly kind: 'facet'; readonly path: string; readonly facet: number }
  | { readonly kind: 'none' };

export const nowhere: Place = { kind: 'none' };

export function atSpan(span: Span): Place {
  return { kind: 'span', span };
}
