import { commonDivisor } from '../patterns/largeCells.ts';
import type { Lying } from '../patterns/pattern.ts';
import { rasterPoints } from '../patterns/raster.ts';
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
  const [long, high] = [length, width].map((side) => reached(side, [first.width, first.height]) / unit);
  const area = long! * high!;
  return Math.floor((area - Math.max(wasteOfBars(long!, high!, a), wasteOfBars(long!, high!, b))) / (a * b));
}

/** The largest sum of the sizes that is no more than the side; for far more of them than count, nearly so. */
function reached(side: number, sizes: readonly number[]): number {
  const unit = sizes.reduce(commonDivisor);
  return rasterPoints(side, sizes, mostSums)?.at(-1) ?? Math.floor(side / unit) * unit;
}

const mostSums = 2000;

function wasteOfBars(length: number, width: number, bar: number): number {
  const [r, s] = [length % bar, width % bar];
  return Math.min(r * s, (bar - r) * (bar - s));
}
