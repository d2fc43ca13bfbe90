/** A kit in the other units: only a conversion asks, and loads, this of the room. */
export { type Changes, type ConvertedKit, convertKit, type Rounded } from './convertKit.ts';
export { largestDrift, type PartDrift } from './drifts.ts';
export type { BoardWish, ConversionWishes, Reread, Texts } from './wishes.ts';
