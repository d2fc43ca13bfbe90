import { compare, zero } from '../../measure/index.ts';
import type { Drawn, DrawnMark, FoldMaking, Length } from '../../model/index.ts';
import { drawn, undrawn } from '../fault.ts';
import { rectangle } from '../makers/rectangle.ts';
import { hair, middleOf, snapped } from '../root.ts';
import { point } from '../vector.ts';
import type { FoldedStrip, Strip } from './strip.ts';

/**
 * The blank of a folded strip, with its folds marked across it.
 *
 *      ┌──────┬───────────┬──────┐
 *      │      ┊           ┊      │ width
 *      └──────┴───────────┴──────┘
 *                length
 *
 * @param by      how the folds are made
 * @param length  what the blank is cut to: no less than it has to be
 */
export function foldedBlank(
  { folds }: Strip,
  { lines, length: truly }: Pick<FoldedStrip, 'lines' | 'length'>,
  by: FoldMaking,
  { length, width }: { readonly length: Length; readonly width: Length },
): Drawn {
  const plain = rectangle(length, width);
  if (plain.value === undefined) return undrawn(...plain.faults);
  const marks = lines.flatMap((line, i): readonly DrawnMark[] => {
    const fold = folds[i];
    if (fold === undefined) return [];
    const at = snapped(middleOf(line));
    const { way, angle } = fold;
    return [{ kind: 'fold', from: point(at, zero), to: point(at, width), way, angle, by }];
  });
  const isExact = [truly, ...lines].every(({ lo, hi }) => compare(lo, hi) === 0);
  return drawn({ ...plain.value, marks, within: isExact ? zero : hair });
}
