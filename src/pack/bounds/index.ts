export { type Bound, lowerBound } from './lowerBound.ts';
