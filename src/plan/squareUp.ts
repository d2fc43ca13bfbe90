import { diagonal, millimetres, minus, rational, sum, zero } from '../measure/index.ts';
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

// So fine that the error still has two right digits where a mark all but hits the diagonal.
const nanometre = millimetres(rational(1n, 10n ** 6n));

/**
 * The diagonal to check a rectangle's squareness by, to the nearest graduation of a rule.
 *
 * @param step  the graduation, above 0
 * @source      Pythagoras; equal diagonals as the sign of a square corner are common practice, no source
 */
export function diagonalOf({ length, width }: Pick<Box, 'length' | 'width'>, step: Length): RoundedDiagonal {
  const onRule = diagonal(length, width, step);
  const isExact = onRule.rest === 0;
  const fine = diagonal(length, width, nanometre);
  return { length: onRule.length, isExact, error: isExact ? zero : minus(fine.length, onRule.length) };
}
