/** The room of blanks: what is cut from the sheet edge to edge, for the parts to be cut out of. */
export { blanksFor, ownBlanks } from './blanks.ts';
export { type PairFlaw, pairFlaws } from './checkPair.ts';
