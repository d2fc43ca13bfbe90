export { printConversion } from './conversion.ts';
export { printCount } from './count.ts';
export { countSheet } from './countTables.ts';
export { type Showing, showingOf } from './lengths.ts';
export { printText } from './sheets.ts';
export { printWhy } from './why.ts';
