/** The types that cross rooms, and the closed catalogue of codes. */
export type * from './batch.ts';
export * from './build.ts';
export type { Catalogue, Code, Entry, Severity } from './catalogue/index.ts';
export { catalogue } from './catalogue/index.ts';
export * from './diagnostic.ts';
export type * from './layout.ts';
export type * from './made.ts';
export * from './nearest.ts';
export * from './outcome.ts';
export type * from './plan.ts';
export * from './position.ts';
export type * from './rational.ts';
export type * from './rowSpec.ts';
export type * from './saving.ts';
export type * from './settings.ts';
export * from './source.ts';
export type * from './spec.ts';
export type * from './verdict.ts';
