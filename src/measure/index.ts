export * from './length.ts';
export * from './rational.ts';
