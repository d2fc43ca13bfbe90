import { compare, minus } from '../measure/index.ts';
import type { BoxSide, Enclosure, Length, Outline, Point } from '../model/index.ts';
import { radiusOf } from './arc.ts';
import { boxForPlacing } from './cuts/place.ts';
import { asLengths } from './root.ts';
import { isSame } from './vector.ts';

/** How to draw one arc by hand: set the point at the centre, open to the radius, from one mark to the other. */
export interface CompassStep {
  readonly centre: Point;
  readonly radius: Enclosure<Length>;
  readonly from: Point;
  readonly to: Point;
  /** True for a whole circle, which has no marks to run between. */
  readonly isWhole: boolean;
}

/** One step for each arc, in the order of the rim and then of the holes; what goes on about one centre is one. */
export function compassStepsOf({ rim, holes }: Outline): readonly CompassStep[] {
  return [rim, ...holes].flatMap((loop) => {
    const steps: CompassStep[] = [];
    for (const it of loop) {
      if (it.kind !== 'arc') continue;
      const last = steps.at(-1);
      const goesOn = last !== undefined && isSame(last.centre, it.centre) && isSame(last.to, it.from);
      const from = goesOn ? last.from : it.from;
      const step = {
        centre: it.centre,
        radius: asLengths(radiusOf(it)),
        from,
        to: it.to,
        isWhole: isSame(from, it.to),
      };
      if (goesOn) steps[steps.length - 1] = step;
      else steps.push(step);
    }
    return steps;
  });
}

/** Points of the rim that lie on a side of its box, measured along that side from its left or bottom end. */
export function marksAlong(outline: Outline, side: BoxSide): readonly Length[] {
  const box = boxForPlacing(outline);
  const isLevel = side === 'bottom' || side === 'top';
  const [axis, across] = isLevel ? (['x', 'y'] as const) : (['y', 'x'] as const);
  const start = isLevel ? box.left : box.bottom;
  const found = outline.rim
    .filter(({ from }) => compare(from[across], box[side]) === 0)
    .map(({ from }) => minus(from[axis], start))
    .sort(compare);
  return found.filter((it, i) => i === 0 || compare(found[i - 1]!, it) < 0);
}
