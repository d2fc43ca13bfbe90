import { add, multiply, rational, subtract } from '../measure/index.ts';
import type { Enclosure, Loop, Outline, Rational, Segment } from '../model/index.ts';
import { radiusSquare, sweepOf } from './arc.ts';
import { addUp, exactly, timesExact } from './enclosure.ts';
import { perimeterOfLoop } from './perimeter.ts';
import { widened } from './root.ts';
import { cross, less } from './vector.ts';

/** In mm². Exact where no arc takes part; it holds what rounded points may be off by. */
export function areaOf({ rim, holes, within }: Outline): Enclosure {
  const area = addUp(...[rim, ...holes].map(areaWithin));
  if (within.numerator === 0n) return widened(area);
  const round = addUp(...[rim, ...holes].map(perimeterOfLoop)).hi;
  // A border as wide as the points may be off, and its corners.
  const off = multiply(within, add(round, multiply(rational(8n), within)));
  return widened({ lo: subtract(area.lo, off), hi: add(area.hi, off) });
}

/**
 * The area to the left of a loop, below 0 for a loop that runs with the clock. By Green's theorem it is half
 * the sum of what each segment sweeps as seen from the datum.
 */
export function areaWithin(loop: Loop): Enclosure {
  return timesExact(addUp(...loop.map(twiceSwept)), rational(1n, 2n));
}

function twiceSwept(it: Segment): Enclosure {
  switch (it.kind) {
    case 'line':
      return exactly(cross(it.from, it.to));
    case 'arc': {
      //  The chord's triangle is seen from the centre, and the sector r²θ/2 is added or taken off.
      const sector = timesExact(sweepOf(it), radiusSquare(it));
      const triangle = exactly(cross(it.centre, less(it.to, it.from)));
      return addUp(triangle, it.turn === 'left' ? sector : timesExact(sector, rational(-1n)));
    }
    case 'curve':
      return exactly(twiceSweptByCurve(it.from, it.leaving, it.arriving, it.to));
  }
}

/** @source ∫ x dy − y dx over a cubic in Bernstein form, worked out from the products of its polynomials */
function twiceSweptByCurve(...[a, b, c, d]: readonly [V, V, V, V]): Rational {
  const terms: readonly (readonly [V, V, bigint])[] = [
    [a, b, 6n],
    [a, c, 3n],
    [a, d, 1n],
    [b, c, 3n],
    [b, d, 3n],
    [c, d, 6n],
  ];
  const tenths = terms.reduce(
    (sum, [one, other, weight]) => add(sum, multiply(cross(one, other), rational(weight))),
    rational(0n),
  );
  return multiply(tenths, rational(1n, 10n));
}

type V = { readonly x: Rational; readonly y: Rational };
