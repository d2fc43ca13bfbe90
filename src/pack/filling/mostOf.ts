import { commonDivisor } from '../patterns/largeCells.ts';
import type { Lying } from '../patterns/pattern.ts';
import type { Piece } from './fewBlocks.ts';

/**
 * No piece holds more of a part than this, whatever the limits are. Where parts lie one way only, a block of them is
 * the most. Else their area has to go into what sums of their sides can reach, without the waste that bars cut from
 * them would have:
 *
 *   r = length mod p, s = width mod p      bars of p × 1, either way round, waste min(r·s, (p − r)·(p − s)) at least
 *
 * A part of a × b is b bars of a × 1, and a bars of b × 1, so it holds for p = a and for p = b.
 *
 * @source  F. Barnes, Packing the maximum number of m × n tiles in a large p × q rectangle, Discrete Math. 26 (1979);
 *          from memory. Tested against every way of cutting
 */
export function mostOf({ length, width }: Piece, ways: readonly Lying[]): number {
  const [first, other] = ways;
  if (first === undefined) return 0;
  if (other === undefined) return Math.floor(length / first.width) * Math.floor(width / first.height);
  const unit = commonDivisor(first.width, first.height);
  const [a, b] = [first.width / unit, first.height / unit];
  const [long, high] = [length, width].map((side) => reached(side, first.width, first.height) / unit);
  const area = long! * high!;
  return Math.floor((area - Math.max(wasteOfBars(long!, high!, a), wasteOfBars(long!, high!, b))) / (a * b));
}

/** The largest sum of two sizes that is no more than the side. */
function reached(side: number, a: number, b: number): number {
  const unit = commonDivisor(a, b);
  // So many of the larger are as long as a number of the smaller.
  const [small, large] = [Math.min(a, b), Math.max(a, b)];
  const most = Math.min(Math.floor(side / large), small / unit - 1);
  const whole = Math.floor(side / unit) * unit;
  if (most > mostTried) return whole;
  let longest = 0;
  for (let count = 0; count <= most && longest < whole; count++) {
    const sum = count * large;
    longest = Math.max(longest, sum + Math.floor((side - sum) / small) * small);
  }
  return longest;
}

/** Where as many as these may be of use, nearly every length is a sum. */
const mostTried = 2000;

function wasteOfBars(length: number, width: number, bar: number): number {
  const [r, s] = [length % bar, width % bar];
  return Math.min(r * s, (bar - r) * (bar - s));
}
