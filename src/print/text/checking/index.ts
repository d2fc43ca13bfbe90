/** What a check prints, and no more of the room. */
export { printCheck } from '../check.ts';
export { printSensitivity } from '../sensitivity.ts';
