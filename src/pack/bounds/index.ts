export { areaBound } from './area.ts';
export { dualFeasibleBound } from './dualFeasible.ts';
export type { Bound } from './lowerBound.ts';
export { betterOf } from './lowerBound.ts';
export { holdsTooLittle } from './tooLittle.ts';
