import { add, millimetres, multiply, negate } from '../../measure/index.ts';
import type { DrawnMark, Outline } from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { isExact } from '../enclosure.ts';
import { type Motion, mirrorAt, moved, shiftBy } from '../loop.ts';
import { hair, middleOf, snapped } from '../root.ts';
import { half, leftOf, point } from '../vector.ts';

/** Swapped left for right within its own box: the other hand. */
export function mirrored(outline: Outline): Outline {
  const { left, right } = boxOf(outline);
  return heldTo(laid(outline, mirrorOf(outline)), isExact(left) && isExact(right));
}

export function mirrorOf(outline: Outline): Motion {
  const { left, right } = boxOf(outline);
  const [from, to] = [snapped(middleOf(left)), snapped(middleOf(right))];
  return mirrorAt(millimetres(multiply(add(from, to), half)));
}

/** Turned to the left, then put back on the datum. */
export function turned(outline: Outline, by: 90 | 180 | 270): Outline {
  const once = turnedOnce(outline);
  if (by === 90) return once;
  return by === 180 ? turnedOnce(once) : turnedOnce(turnedOnce(once));
}

export function turnedOnce(outline: Outline): Outline {
  return onDatum(laid(outline, { move: leftOf, swapsHands: false }));
}

/** Shifted so that its box begins at the datum. */
export function onDatum(outline: Outline): Outline {
  const { left, bottom } = boxOf(outline);
  return heldTo(laid(outline, shiftToDatum(outline)), isExact(left) && isExact(bottom));
}

export function shiftToDatum(outline: Outline): Motion {
  const { left, bottom } = boxOf(outline);
  return shiftBy(point(negate(snapped(left.lo)), negate(snapped(bottom.lo))));
}

export function laid(outline: Outline, motion: Motion): Outline {
  return {
    ...outline,
    rim: moved(outline.rim, motion),
    holes: outline.holes.map((it) => moved(it, motion)),
    marks: outline.marks.map((it) => movedMark(it, motion)),
  };
}

function movedMark(it: DrawnMark, { move }: Motion): DrawnMark {
  return it.kind === 'cross' ? { ...it, at: move(it.at) } : { ...it, from: move(it.from), to: move(it.to) };
}

function heldTo(outline: Outline, isExactly: boolean): Outline {
  if (isExactly || outline.within.numerator > 0n) return outline;
  return { ...outline, within: hair };
}
