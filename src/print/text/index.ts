export { printText } from './sheets.ts';
export type { Look } from './signs.ts';
