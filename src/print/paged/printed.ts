import type { OpenPage, Pages, Pausing } from '../page/index.ts';

/** How many pages were drawn, and how many there are with those that were not chosen. */
export interface Counted {
  readonly drawn: number;
  readonly of: number;
}

/** What came of drawing pages. */
export interface Printed<Content> extends Counted {
  readonly content: Content;
}

/** Drawing pauses at least once a page, and may be stopped then. */
export type Printing<Content> = Pausing<Printed<Content>>;

/** Draws each page as soon as it is composed, and lets it go. */
export function* eachDrawn(pages: Pages, draw: (page: OpenPage) => void): Pausing<Counted> {
  let drawn = 0;
  for (let step = pages.next(); ; step = pages.next()) {
    if (step.done) return { drawn, of: step.value };
    if (step.value !== undefined) {
      draw(step.value);
      drawn++;
    }
    yield;
  }
}
