import { roundedDecimal, toFraction } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';

export interface DescribedLength {
  mm: string;
  rounded: number;
}

/** Exact as a fraction, and beside it a number for those who only want to draw. */
export function describeLength(length: Length): DescribedLength {
  return { mm: toFraction(length), rounded: Number(roundedDecimal(length, 3)) };
}

export function lengthOrNull(length: Length | undefined): DescribedLength | null {
  return length === undefined ? null : describeLength(length);
}
