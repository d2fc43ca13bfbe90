/** Masters at full size: pages to cut and keep, and what is said of them in text and JSON. */

export { rowsOf } from '../offsets.ts';
export { chosen, composeMasters, type MasterChoice } from './compose.ts';
export { type Bars, barLength, trueBars } from './correction.ts';
export { type MastersAsked, mastersDocument } from './document.ts';
export { printMasters } from './text.ts';
export type { Traced, TracedMaster } from './tracing.ts';
