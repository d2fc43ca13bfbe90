import { opposite } from '../../measure/index.ts';
import type { Drawn, Length, Outline } from '../../model/index.ts';
import { aboveZero, drawn, fault, undrawn } from '../fault.ts';
import { offset } from '../offset.ts';

/** `larger all round: M` */
export function largerAllRound(outline: Outline, by: Length): Drawn {
  const faults = aboveZero(['measure', by, ['larger all round']]);
  return faults.length > 0 ? undrawn(...faults) : onePiece(outline, by, 'larger all round', by);
}

/** `smaller all round: M`: an infill is its hole, smaller all round by the clearance. */
export function smallerAllRound(outline: Outline, by: Length): Drawn {
  const faults = aboveZero(['measure', by, ['smaller all round']]);
  return faults.length > 0 ? undrawn(...faults) : onePiece(outline, opposite(by), 'smaller all round', by);
}

function onePiece(
  outline: Outline,
  by: Length,
  key: 'larger all round' | 'smaller all round',
  shown: Length,
): Drawn {
  const [made, ...others] = offset(outline, by);
  if (made === undefined) {
    return undrawn(fault('T15', [key], (show) => ({ why: `when it is ${show(shown)} ${key}` })));
  }
  if (others.length > 0) {
    const pieces = others.length + 1;
    return undrawn(fault('T16', [key], (show) => ({ pieces, why: `when it is ${show(shown)} ${key}` })));
  }
  return drawn(made);
}
