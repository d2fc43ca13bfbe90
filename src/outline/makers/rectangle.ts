import { zero } from '../../measure/index.ts';
import type { Drawn, Length } from '../../model/index.ts';
import { aboveZero, drawn, undrawn } from '../fault.ts';
import { loopThrough } from '../loop.ts';
import { point } from '../vector.ts';
import { outlineOf } from './outlineOf.ts';

/** `{ rectangle: [length, width] }` */
export function rectangle(length: Length, width: Length): Drawn {
  const faults = aboveZero(['length', length, ['rectangle', 0]], ['width', width, ['rectangle', 1]]);
  if (faults.length > 0) return undrawn(...faults);
  const corners = [point(zero, zero), point(length, zero), point(length, width), point(zero, width)];
  return drawn(outlineOf(loopThrough(corners)));
}
