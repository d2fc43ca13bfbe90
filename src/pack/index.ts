/** The room of layouts: whole cells, a search, lower bounds, and a checker that shares nothing with them. */
export { packAtHand } from './atHand.ts';
export { fillLeftovers } from './filling/fillLeftovers.ts';
export { fittedNotes, type MoreOf, withFitted } from './filling/inBatch.ts';
export { Pace } from './pace.ts';
export { pack } from './pack.ts';
export { changed, findSavings } from './savings/index.ts';
export { type Flaw, verify } from './verify.ts';
export { fillingFlaws } from './verifyFilling.ts';
export { isWorthKeeping } from './worthKeeping.ts';
