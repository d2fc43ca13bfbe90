export { printCheck } from './check.ts';
export { printConversion } from './conversion.ts';
export { printCount } from './count.ts';
export { countSheet } from './countTables.ts';
export { type Showing, showingOf } from './lengths.ts';
export { printSensitivity } from './sensitivity.ts';
export { printText } from './sheets.ts';
export { printWhy } from './why.ts';
