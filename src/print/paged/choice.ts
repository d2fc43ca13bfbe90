import type { Composed } from './compose.ts';

/** Which pages of a print are wanted: runs of their numbers, each from one to another or to the end. */
export type PageChoice = readonly PageRun[];

export interface PageRun {
  readonly first: number;
  /** Undefined: to the end. */
  readonly last: number | undefined;
}

/** The same print with only the pages that a choice names, each once and in their order. */
export function choosePages(composed: Composed, choice: PageChoice): Composed {
  const pages = composed.pages.filter(({ number }) =>
    choice.some(({ first, last = number }) => number >= first && number <= last),
  );
  return { ...composed, pages };
}

/** The first page of each run that a print has not. */
export function pagesBeyond({ of }: Composed, choice: PageChoice): readonly number[] {
  return choice.flatMap(({ first, last = first }) => (last > of ? Math.max(first, of + 1) : []));
}
