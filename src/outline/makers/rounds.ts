import { compare, scaled, subtract, zero } from '../../measure/index.ts';
import type { Drawn, Length, Loop } from '../../model/index.ts';
import { arcRound } from '../arc.ts';
import { aboveZero, drawn, undrawn } from '../fault.ts';
import { lineTo } from '../loop.ts';
import { half, point } from '../vector.ts';
import { outlineOf } from './outlineOf.ts';
import { turnedOnce } from './turned.ts';

/** `{ circle: D }`: two halves, from its left to its right and back. */
export function circle(diameter: Length): Drawn {
  const faults = aboveZero(['diameter', diameter, ['circle']]);
  if (faults.length > 0) return undrawn(...faults);
  const radius = scaled(diameter, half);
  const [left, right, centre] = [point(zero, radius), point(diameter, radius), point(radius, radius)];
  return drawn(
    outlineOf([arcRound(left, right, centre, 'left', radius), arcRound(right, left, centre, 'left', radius)]),
  );
}

/** `{ half round: D }`: it lies on its straight side. */
export function halfRound(diameter: Length): Drawn {
  const faults = aboveZero(['diameter', diameter, ['half round']]);
  if (faults.length > 0) return undrawn(...faults);
  const radius = scaled(diameter, half);
  const [left, right] = [point(zero, zero), point(diameter, zero)];
  return drawn(outlineOf([lineTo(left, right), arcRound(right, left, point(radius, zero), 'left', radius)]));
}

/** `{ quarter round: R }`: its square corner is at the datum. */
export function quarterRound(radius: Length): Drawn {
  const faults = aboveZero(['radius', radius, ['quarter round']]);
  if (faults.length > 0) return undrawn(...faults);
  const [corner, right, top] = [point(zero, zero), point(radius, zero), point(zero, radius)];
  return drawn(
    outlineOf([lineTo(corner, right), arcRound(right, top, corner, 'left', radius), lineTo(top, corner)]),
  );
}

//   `{ slot: [length, width] }`: half round at both ends of the longer way.
//
//      ╭───────────╮
//      (           )
//      ╰───────────╯
export function slot(length: Length, width: Length): Drawn {
  const faults = aboveZero(['length', length, ['slot', 0]], ['width', width, ['slot', 1]]);
  if (faults.length > 0) return undrawn(...faults);
  if (compare(length, width) < 0) {
    const lying = slot(width, length).value;
    return lying === undefined ? undrawn() : drawn(turnedOnce(lying));
  }
  if (compare(length, width) === 0) return circle(width);
  const radius = scaled(width, half);
  const far = subtract(length, radius);
  const rim: Loop = [
    lineTo(point(radius, zero), point(far, zero)),
    arcRound(point(far, zero), point(far, width), point(far, radius), 'left', radius),
    lineTo(point(far, width), point(radius, width)),
    arcRound(point(radius, width), point(radius, zero), point(radius, radius), 'left', radius),
  ];
  return drawn(outlineOf(rim));
}
