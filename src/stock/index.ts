/** The drawer and the job: what is at hand, what was cut, what is left. */
export { type AsMany, asManyAsAtHand, withAtHand } from './atHand/asMany.ts';
export {
  type Change,
  isLike,
  type NotMade,
  type OpenDrawer,
  openDrawer,
  withChanges,
  withListed,
} from './drawer/changing.ts';
export type { FittingsChange, FittingsUsed, NewFittings } from './drawer/fittings.ts';
export {
  type Digest,
  entryFor,
  type JobSheetName,
  type JournalEntry,
  lastToUndo,
  nextNumber,
  readJournal,
  settled,
  takenBack,
  writeJournal,
} from './drawer/journal.ts';
export { spliced } from './drawer/splicing.ts';
export { strayEvent } from './job/events.ts';
export { type FrozenJob, frozenJob, thawedJob } from './job/freezing.ts';
export { type JobAbout, jobPicture, jobPlanOf, picturesOf } from './job/making.ts';
export { type PuttingAway, puttingAway } from './job/puttingAway.ts';
export { lastNumber, type Recut, recut, renumbered } from './job/recutting.ts';
export { type Remaining, remaining, resumed } from './job/resuming.ts';
export { keyOf, type SheetState, sheetsMeant, sheetsOf } from './job/state.ts';
