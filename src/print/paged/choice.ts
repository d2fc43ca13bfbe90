import type { OpenPage, Pages } from '../page/index.ts';
import type { Composed } from './compose.ts';

/** Which pages of a print are wanted: runs of their numbers, each from one to another or to the end, or by what they are. */
export type PageChoice = readonly (PageRun | 'slips')[];

export interface PageRun {
  readonly first: number;
  /** Undefined: to the end. */
  readonly last: number | undefined;
}

/** The same print with only the pages that a choice names, each once and in their order. */
export function choosePages(composed: Composed, choice: PageChoice): Composed {
  return { ...composed, isWhole: false, pages: () => chosenOf(composed.pages(), choice) };
}

function* chosenOf(pages: Pages, choice: PageChoice): Pages {
  for (let step = pages.next(); ; step = pages.next()) {
    if (step.done) return step.value;
    const page = step.value;
    const isChosen = page !== undefined && choice.some((it) => isIn(page, it));
    yield isChosen ? page : undefined;
  }
}

function isIn({ number, part }: OpenPage, chosen: PageChoice[number]): boolean {
  if (chosen === 'slips') return part === chosen;
  const { first, last = number } = chosen;
  return number >= first && number <= last;
}
