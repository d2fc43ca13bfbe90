export { printCheck } from './check.ts';
export { printCount } from './count.ts';
export { printSensitivity } from './sensitivity.ts';
export { printText } from './sheets.ts';
export type { Look } from './signs.ts';
export { printWhy } from './why.ts';
export { clean, glyphsOf, padEnd, padStart, widthOf, wrap } from './width.ts';
