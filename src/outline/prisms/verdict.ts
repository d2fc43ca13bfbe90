import { millimetres, rational } from '../../measure/index.ts';
import type { Length } from '../../model/index.ts';
import { type Lean, mostOff } from '../flatten.ts';
import type { Answer } from '../sharing.ts';

/** A first, rough look: it tells nearly everything. */
export const rough: Length = millimetres(rational(1n));

/**
 * What is so with edges that surely lie within the curves is so; what is not so even with edges around them is
 * not. Between the two lies 0.01 mm of a curve.
 *
 * @param isExact  true where no curve takes part
 */
export function answered(isExact: boolean, has: (lean: Lean, off: Length) => boolean): Answer {
  if (isExact) return has('inward', mostOff) ? 'yes' : 'no';
  if (has('inward', rough)) return 'yes';
  if (!has('outward', rough)) return 'no';
  if (has('inward', mostOff)) return 'yes';
  return has('outward', mostOff) ? 'within' : 'no';
}
