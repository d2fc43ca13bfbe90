import { compare, minus } from '../measure/index.ts';
import type { BoxSide, Enclosure, Length, Loop, Outline, Point, Segment } from '../model/index.ts';
import { radiusOf } from './arc.ts';
import { boxForPlacing } from './cuts/place.ts';
import { offCurves } from './offset.ts';
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

/**
 * One step for each arc, in the order of the rim and then of the holes; what goes on about one centre is one. Arcs
 * that stand for a smooth curve nobody draws by their dozens.
 */
export function compassStepsOf(outline: Outline): readonly CompassStep[] {
  const standing = standingForCurves(outline);
  return [outline.rim, ...outline.holes].flatMap((loop) => {
    const steps: CompassStep[] = [];
    for (const it of loop) {
      if (it.kind !== 'arc' || standing.has(it)) continue;
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

/** Where points may be off as far as arcs in place of a curve are: those of its arcs that follow upon each other. */
export function standingForCurves({ rim, holes, within }: Outline): ReadonlySet<Segment> {
  if (compare(within, offCurves) < 0) return new Set();
  return new Set(
    [rim, ...holes]
      .flatMap(runsOfArcs)
      .filter(({ length }) => length >= leastArcs)
      .flat(),
  );
}

/** A curve of its own is at least two pairs of arcs. */
const leastArcs = 4;

/** Arcs end to end, each run once; the loop may begin in the middle of one. */
function runsOfArcs(loop: Loop): readonly (readonly Segment[])[] {
  const begin = Math.max(
    0,
    loop.findIndex(({ kind }) => kind !== 'arc'),
  );
  const runs: Segment[][] = [[]];
  for (const it of [...loop.slice(begin), ...loop.slice(0, begin)]) {
    if (it.kind === 'arc') runs.at(-1)?.push(it);
    else runs.push([]);
  }
  return runs;
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
