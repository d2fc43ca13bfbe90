/**
 * Can the run go on? `fatal`: no result at all; `error`: there is a result, but it must not be trusted as
 * asked; `warning` and `note`: it can be trusted.
 */
export type Severity = 'fatal' | 'error' | 'warning' | 'note';

/**
 * What one code says. `say` gives the message (lower case after the code, no full stop, the user's own
 * words in double quotes), `hint` what would do, where that follows from the facts alone.
 */
export interface Entry<Facts> {
  readonly severity: Severity;
  readonly title: string;
  readonly say: (facts: Facts) => string;
  readonly hint?: (facts: Facts) => string | undefined;
}

/** Ties an entry's two functions to one type of facts. */
export function entry<Facts>(it: Entry<Facts>): Entry<Facts> {
  return it;
}
