/** Prints that are words and tables alone: one description of each, as text and as pages. */
export { tableDocument, twinDocument } from './documents.ts';
export { composeTables, leastRoom } from './pages.ts';
export { referenceSheet } from './reference.ts';
export { numbers, type PlainTable, type TableColumn, type TableSheet, wordy } from './table.ts';
export { printTables } from './text.ts';
export { type Twin, type TwinTile, type TwinWishes, twinOf, twinSheet, usualClearance } from './twin.ts';
