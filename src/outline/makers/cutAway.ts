import type { Drawn, Length, Outline, Point } from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { takenOut } from '../combine.ts';
import { aboveZero, drawn, fault, undrawn, within } from '../fault.ts';
import { shiftBy } from '../loop.ts';
import { middleOf, snapped } from '../root.ts';
import { less, middle, point } from '../vector.ts';
import { largerAllRound } from './allRound.ts';
import { laid } from './turned.ts';

/**
 * `{ whole: OUTLINE, cut away: OUTLINE, at: [M, M], clearance: M }`: the second taken out of the first, with
 * clearance all round it.
 *
 * @param at  where the second's datum lies; undefined: middle on middle
 */
export function wholeLess(whole: Outline, away: Outline, at: Point | undefined, clearance: Length): Drawn {
  const faults = clearance.numerator < 0n ? aboveZero(['clearance', clearance, ['clearance']]) : [];
  if (faults.length > 0) return undrawn(...faults);
  const grown = clearance.numerator === 0n ? drawn(away) : largerAllRound(away, clearance);
  if (grown.value === undefined) return undrawn(...within(['cut away'], grown.faults));
  const placed = laid(grown.value, shiftBy(at ?? less(middleOfBox(whole), middleOfBox(away))));
  const { left: pieces, takesAny } = takenOut(whole, placed);
  const [left, ...others] = pieces;
  if (left === undefined) {
    return undrawn(fault('T15', ['cut away'], () => ({ why: 'when the other is cut away' })));
  }
  if (others.length > 0) {
    const pieces = others.length + 1;
    return undrawn(fault('T16', ['cut away'], () => ({ pieces, why: 'when the other is cut away' })));
  }
  return drawn(left, takesAny ? [] : [fault('T19', ['cut away'], () => ({ cut: 'outline cut away' }))]);
}

function middleOfBox(outline: Outline): Point {
  const { left, right, bottom, top } = boxOf(outline);
  const low = point(snapped(middleOf(left)), snapped(middleOf(bottom)));
  const high = point(snapped(middleOf(right)), snapped(middleOf(top)));
  return middle(low, high);
}
