/** The drawer and the job: what is at hand, what was cut, what is left. */
export {
  type Change,
  isLike,
  type NotMade,
  type OpenDrawer,
  openDrawer,
  withChanges,
} from './drawer/changing.ts';
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
