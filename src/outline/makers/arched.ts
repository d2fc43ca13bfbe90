import {
  compare,
  isNegative,
  millimetres,
  multiply,
  rational,
  scaled,
  subtract,
  zero,
} from '../../measure/index.ts';
import type { Drawn, Length, Loop, OutlineFault } from '../../model/index.ts';
import { arcByRadius, arcByRise } from '../arc.ts';
import { aboveZero, drawn, fault, undrawn } from '../fault.ts';
import { lineTo } from '../loop.ts';
import { exactRoot, nearRoot, snapped } from '../root.ts';
import { half, point } from '../vector.ts';
import { outlineOf } from './outlineOf.ts';

/** Two of the three tell an arch. */
export type ArchSize =
  | { readonly width: Length; readonly rise: Length }
  | { readonly width: Length; readonly radius: Length }
  | { readonly rise: Length; readonly radius: Length };

//   Upright sides, one arc over the whole width. With a rise of half the width the sides run on into it.
//
//          ╭──────╮  ─┬─ rise
//        ╭╯        ╰╮─┴─
//        │          │ sides
//        └──────────┘
//           width
export function arched(size: ArchSize, sides: Length): Drawn {
  const faults = [
    ...Object.entries(size).flatMap(([key, it]) => aboveZero([key, it, ['arched', key]])),
    ...(isNegative(sides) ? aboveZero(['height of the sides', sides, ['arched', 'sides']]) : []),
  ];
  if (faults.length > 0) return undrawn(...faults);
  const misfit = misfitOf(size);
  if (misfit !== undefined) return undrawn(misfit);

  const { width, isExact } = widthOf(size);
  const [left, right] = [point(zero, sides), point(width, sides)];
  const top =
    'rise' in size
      ? arcByRise(right, left, size.rise, 'right')
      : arcByRadius(right, left, size.radius, 'right');
  const [start, end] = [point(zero, zero), point(width, zero)];
  const walls = (loop: Loop): Loop => (sides.numerator === 0n ? [] : loop);
  const rim = [lineTo(start, end), ...walls([lineTo(end, right)]), top.arc, ...walls([lineTo(left, start)])];
  return drawn(outlineOf(rim, { isExact: isExact && top.isExact }));
}

function misfitOf(size: ArchSize): OutlineFault | undefined {
  if ('width' in size) {
    const most = scaled(size.width, half);
    if ('rise' in size && compare(size.rise, most) > 0) {
      return fault('T02', ['arched', 'rise'], (show) => ({
        rise: show(size.rise),
        span: show(size.width),
        half: show(most),
      }));
    }
    if ('radius' in size && compare(size.radius, most) < 0) {
      return fault('T03', ['arched', 'radius'], (show) => ({
        radius: show(size.radius),
        span: show(size.width),
        half: show(most),
      }));
    }
    return undefined;
  }
  // Over its full width an arch of that radius rises by no more than the radius.
  if (compare(size.rise, size.radius) <= 0) return undefined;
  return fault('T02', ['arched', 'rise'], (show) => ({
    rise: show(size.rise),
    span: show(scaled(size.radius, rational(2n))),
    half: show(size.radius),
  }));
}

/** Its width: c = 2√(h(2r − h)), where rise and radius tell it. */
function widthOf(size: ArchSize): { readonly width: Length; readonly isExact: boolean } {
  if ('width' in size) return { width: size.width, isExact: true };
  const { rise, radius } = size;
  const squared = multiply(rise, subtract(multiply(rational(2n), radius), rise));
  const exact = exactRoot(squared);
  const halfWidth = millimetres(exact ?? snapped(nearRoot(squared)));
  return { width: scaled(halfWidth, rational(2n)), isExact: exact !== undefined };
}
