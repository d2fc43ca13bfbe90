import {
  add,
  ceiling,
  floor,
  millimetres,
  multiply,
  nearestHalfUp,
  rational,
  squareRoot,
} from '../measure/index.ts';
import type { Enclosure, Length, Point, Rational } from '../model/index.ts';
import { point, type Vector } from './vector.ts';

/** Points that have no rational form are held to so many parts of a millimetre. */
const parts = 2n ** 40n;

/** More than the rounding of one such point comes to. */
export const hair: Length = millimetres(rational(1n, 2n ** 36n));

/** How short figures are kept: those of points, in parts of a millimetre, and those of ratios and directions. */
export interface Figures {
  readonly points: bigint;
  readonly ratios: bigint;
}

export const fine: Figures = { points: parts, ratios: 2n ** 60n };

/** For what stands for a curve, and may be off it a thousand times as far. */
export const coarse: Figures = { points: 2n ** 24n, ratios: 2n ** 32n };

/** More than the rounding of a few coarse points comes to. */
export const coarseHair: Length = millimetres(rational(1n, 2n ** 20n));

/** The square root where it is rational. */
export function exactRoot({ numerator, denominator }: Rational): Rational | undefined {
  if (!mayBeSquare(denominator) || !mayBeSquare(numerator)) return undefined;
  const [over, under] = [squareRoot(numerator), squareRoot(denominator)];
  return over * over === numerator && under * under === denominator ? rational(over, under) : undefined;
}

/** False for 14 of 15 numbers that are no squares, at the cost of one division. */
function mayBeSquare(n: bigint): boolean {
  const rests = 720; // 2^4·3^2·5
  restsOfSquares ??= new Set(Array.from({ length: rests / 2 + 1 }, (_, i) => (i * i) % rests));
  return restsOfSquares.has(Number(n % BigInt(rests)));
}

let restsOfSquares: ReadonlySet<number> | undefined;

/** @param square at least 0; the two differ by less than 2^-80, and are equal where the root is rational */
export function rootOf(square: Rational): Enclosure {
  const exact = exactRoot(square);
  if (exact !== undefined) return { lo: exact, hi: exact };
  const bits = 80n;
  const lo = squareRoot((square.numerator << (2n * bits)) / square.denominator);
  return { lo: rational(lo, 1n << bits), hi: rational(lo + 1n, 1n << bits) };
}

/** The root itself where it is rational, else a rational next to it (2^-80). */
export function nearRoot(square: Rational): Rational {
  return rootOf(square).lo;
}

export function snapped(a: Rational, to: bigint = parts): Rational {
  return a.denominator <= to ? a : rational(nearestHalfUp(multiply(a, rational(to))), to);
}

/** A point near by whose figures stay short. */
export function snappedPoint(at: Vector, to: bigint = parts): Point {
  return point(snapped(at.x, to), snapped(at.y, to));
}

/** Widened to short figures. */
export function widened({ lo, hi }: Enclosure, to: bigint = 2n ** 64n): Enclosure {
  const short = (a: Rational): boolean => a.denominator <= to;
  return {
    lo: short(lo) ? lo : rational(floor(multiply(lo, rational(to))), to),
    hi: short(hi) ? hi : rational(ceiling(multiply(hi, rational(to))), to),
  };
}

/** As lengths, of values that are millimetres. */
export function asLengths({ lo, hi }: Enclosure): Enclosure<Length> {
  return { lo: millimetres(lo), hi: millimetres(hi) };
}

/** Halfway between the two ends of an enclosure. */
export function middleOf({ lo, hi }: Enclosure): Rational {
  return multiply(add(lo, hi), rational(1n, 2n));
}
