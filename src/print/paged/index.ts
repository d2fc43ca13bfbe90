/** The pages of a session, composed once and chosen from, for whatever draws them. */

export { choosePages, type PageChoice, type PageRun, pagesBeyond } from './choice.ts';
export { type Composed, compose, type NumberedPage, type Program } from './compose.ts';
