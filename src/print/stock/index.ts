/** What is at hand and what was cut, as text. */
export { printDrawer } from './drawer.ts';
export { printAgain, printJob } from './job.ts';
