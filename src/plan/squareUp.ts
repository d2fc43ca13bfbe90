import { divide, equal, millimetres, minus, multiply, rational, sum, times, zero } from '../measure/index.ts';
import type { Box, Length, RoundedDiagonal, SheetKind } from '../model/index.ts';

/** What trim leaves of a sheet, in the sheet as bought. */
export function squaredSheet({ length, width, trim }: SheetKind): Box {
  return {
    left: trim.left,
    bottom: trim.bottom,
    length: minus(length, sum(trim.left, trim.right)),
    width: minus(width, sum(trim.bottom, trim.top)),
  };
}

/**
 * The diagonal to check a rectangle's squareness by, to the nearest graduation; halves go up.
 *
 * @param step  the graduation, above 0
 * @source      Pythagoras; equal diagonals as the sign of a square corner are common practice, no source
 */
export function diagonalOf({ length, width }: Pick<Box, 'length' | 'width'>, step: Length): RoundedDiagonal {
  const square = sum(squared(length), squared(width));
  const onRule = nearestRoot(square, step);
  const isExact = equal(squared(onRule), square);
  const fine = nearestRoot(square, millimetres(rational(1n, 100n)));
  return { length: onRule, isExact, error: isExact ? zero : minus(onRule, fine) };
}

// Areas are carried in the same type: the number of square millimetres.
function squared(length: Length): Length {
  return millimetres(multiply(length, length));
}

/** √square to the nearest multiple of `step`: ⌊x + 1/2⌋ = ⌊(⌊2x⌋ + 1) / 2⌋ for x = √square / step. */
function nearestRoot(square: Length, step: Length): Length {
  const q = divide(square, squared(step));
  const doubled = wholeRoot((4n * q.numerator) / q.denominator);
  return times(step, Number((doubled + 1n) / 2n));
}

/** The largest whole number whose square is not above n ≥ 0, by Newton's method from above. */
function wholeRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let root = 1n << BigInt((n.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (root + n / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}
