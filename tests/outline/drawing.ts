import { expect } from 'vitest';
import { divide, inches, millimetres, rational, toDrawnMm } from '../../src/measure/index.ts';
import type { Drawn, Enclosure, Length, Outline, Point, Rational } from '../../src/model/index.ts';
import { inWords, showIn } from '../../src/outline/index.ts';

/** What the tests of outlines draw with. */

export function mm(over: number, under = 1): Length {
  return millimetres(rational(BigInt(over), BigInt(under)));
}

export function inch(over: number, under = 1): Length {
  return inches(rational(BigInt(over), BigInt(under)));
}

/** A point by thousandths of a millimetre at the finest, so that what is typed is exact. */
export function at(x: number, y: number): Point {
  return { x: mm(Math.round(x * 1000), 1000), y: mm(Math.round(y * 1000), 1000) };
}

export function made<T = Outline>({ value, faults }: Drawn<T>): T {
  expect(faults.map(({ code }) => code)).toEqual([]);
  if (value === undefined) throw new Error('not drawn');
  return value;
}

/** As a float, for what only a reference in floats is at hand. */
export function float(value: Rational): number {
  return toDrawnMm(value as Length); // a number of whatever unit; only shown
}

export function middle({ lo, hi }: Enclosure): number {
  return (float(lo) + float(hi)) / 2;
}

export function width({ lo, hi }: Enclosure): number {
  return float(hi) - float(lo);
}

/** True for a printed figure: the value rounds to it, so it differs by no more than half of its last place. */
export function roundsTo({ lo, hi }: Enclosure, printed: string): boolean {
  const places = printed.split('.')[1]?.length ?? 0;
  const half = 0.5 * 10 ** -places * 1.0000001;
  return float(lo) >= Number(printed) - half && float(hi) <= Number(printed) + half;
}

export function inSquareInches({ lo, hi }: Enclosure): Enclosure {
  const unit = rational(127n * 127n, 25n);
  return { lo: divide(lo, unit), hi: divide(hi, unit) };
}

/** Each fault as `code facet: message`. */
export function told({ faults }: Drawn<unknown>, unit: 'in' | 'mm' = 'mm'): readonly string[] {
  return faults.map((it) => {
    const { message, hint } = inWords(it, showIn(unit));
    return `${it.code} ${it.facet.join('.')}: ${message}${hint === undefined ? '' : ` | ${hint}`}`;
  });
}

/** The rim's corners, as floats. */
export function corners({ rim }: Outline): readonly (readonly [number, number])[] {
  return rim.map(({ from }) => [float(from.x), float(from.y)] as const);
}
