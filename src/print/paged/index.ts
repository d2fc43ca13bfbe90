/** The pages of a session, composed as they are drawn and chosen from, for whatever draws them. */

export { choosePages, type PageChoice, type PageRun } from './choice.ts';
export { type Composed, compose, type Program } from './compose.ts';
export { type Counted, eachDrawn, type Printed, type Printing } from './printed.ts';
