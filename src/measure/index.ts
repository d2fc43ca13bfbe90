export * from './length.ts';
export * from './mixedNumber.ts';
export * from './rational.ts';
export * from './reading.ts';
export { unitNames } from './units.ts';
