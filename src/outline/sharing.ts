import { add, compareRationals, multiply, rational } from '../measure/index.ts';
import type { Enclosure, Outline } from '../model/index.ts';
import { boxOf, heldBy } from './box.ts';
import { nothing } from './enclosure.ts';
import { flattened } from './flatten.ts';
import { perimeterOf } from './perimeter.ts';
import { widened } from './root.ts';
import { areaOutside, hasAny, type Slice, sharedArea, slices } from './slabs.ts';

/** `within`: yes or no hangs on less than 0.01 mm of a curve. Between straight-sided outlines it never comes. */
export type Answer = 'yes' | 'no' | 'within';

/** Do they have an area in common? Edges that only touch have none. */
export function shareArea(a: Outline, b: Outline): Answer {
  if (areApart(a, b)) return 'no';
  const isShared = (it: Slice) => it.isInFirst && it.isInSecond;
  return answered(
    () => isMoreThanOff(slices(flattened(a, 'inward'), flattened(b, 'inward')), isShared, a, b),
    () => hasAny(slices(flattened(a, 'outward'), flattened(b, 'outward')), isShared),
    isStraight(a) && isStraight(b),
  );
}

/** Does one lie wholly in the other? Edges may touch. */
export function liesIn(inner: Outline, outer: Outline): Answer {
  const isOutside = (it: Slice) => it.isInFirst && !it.isInSecond;
  const sticksOut = answered(
    () =>
      isMoreThanOff(slices(flattened(inner, 'inward'), flattened(outer, 'outward')), isOutside, inner, outer),
    () => hasAny(slices(flattened(inner, 'outward'), flattened(outer, 'inward')), isOutside),
    isStraight(inner) && isStraight(outer),
  );
  return sticksOut === 'yes' ? 'no' : sticksOut === 'no' ? 'yes' : 'within';
}

function answered(isSure: () => boolean, isPossible: () => boolean, isExact: boolean): Answer {
  if (isSure()) return 'yes';
  return !isExact && isPossible() ? 'within' : 'no';
}

/** More than a border as wide as points of the two may be off; any at all, where all are exact. */
function isMoreThanOff(all: Iterable<Slice>, is: (it: Slice) => boolean, a: Outline, b: Outline): boolean {
  const off = add(a.within, b.within);
  if (off.numerator === 0n) return hasAny(all, is);
  const most = multiply(off, add(perimeterOf(a).hi, perimeterOf(b).hi));
  let area = rational(0n);
  for (const it of all) {
    if (!is(it)) continue;
    area = add(area, it.area);
    if (compareRationals(area, most) > 0) return true;
  }
  return false;
}

/** The area, in mm², that two outlines have in common: the contact of two faces. Exact for straight sides. */
export function sharedAreaOf(a: Outline, b: Outline): Enclosure {
  if (areApart(a, b)) return nothing;
  const lo = sharedArea(flattened(a, 'inward'), flattened(b, 'inward'));
  if (isStraight(a) && isStraight(b)) return { lo, hi: lo };
  return widened({ lo, hi: sharedArea(flattened(a, 'outward'), flattened(b, 'outward')) });
}

/** The area, in mm², of the first that the second leaves bare. */
export function bareAreaOf(a: Outline, b: Outline): Enclosure {
  const lo = areaOutside(flattened(a, 'inward'), flattened(b, 'outward'));
  if (isStraight(a) && isStraight(b)) return { lo, hi: lo };
  return widened({ lo, hi: areaOutside(flattened(a, 'outward'), flattened(b, 'inward')) });
}

/** True for an outline whose points are all exact and whose edges are all straight: nothing is rounded then. */
export function isStraight({ rim, holes, within }: Outline): boolean {
  return within.numerator === 0n && [rim, ...holes].flat().every(({ kind }) => kind === 'line');
}

function areApart(a: Outline, b: Outline): boolean {
  const [one, other] = [heldBy(boxOf(a)), heldBy(boxOf(b))];
  return (
    compareRationals(one.right, other.left) <= 0 ||
    compareRationals(other.right, one.left) <= 0 ||
    compareRationals(one.top, other.bottom) <= 0 ||
    compareRationals(other.top, one.bottom) <= 0
  );
}
