export { printCheck } from './check.ts';
export { printCount } from './count.ts';
export { type Showing, showingOf } from './lengths.ts';
export { printSensitivity } from './sensitivity.ts';
export { printText } from './sheets.ts';
export { printWhy } from './why.ts';
