export { changed } from './changed.ts';
export { findSavings } from './findSavings.ts';
