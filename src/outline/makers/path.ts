import { add, compare, isPositive, millimetres, multiply, rational } from '../../measure/index.ts';
import type {
  Drawn,
  Length,
  OutlineFacet,
  OutlineFault,
  Point,
  Rational,
  Segment,
} from '../../model/index.ts';
import { arcByRadius, arcByRise, type DrawnArc, type Swell } from '../arc.ts';
import { isNear } from '../crossing.ts';
import { curveBySlopes } from '../curve.ts';
import { aboveZero, drawn, fault, showPoint, undrawn } from '../fault.ts';
import { lineTo } from '../loop.ts';
import { nearRoot, rootOf, snapped } from '../root.ts';
import { half, less, square } from '../vector.ts';
import { loopFaults } from '../wellFormed.ts';
import { outlineOf } from './outlineOf.ts';
import { slopesThrough } from './slopes.ts';

/** One step of a path, from where the one before it ended. */
export type PathStep =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'arc'; readonly to: Point; readonly rise: Length; readonly swells: Swell }
  | { readonly kind: 'arc'; readonly to: Point; readonly radius: Length; readonly swells: Swell }
  | { readonly kind: 'curve'; readonly through: readonly Point[] };

/**
 * `{ path: [[0, 0], [3, 0], { arc: [3, 1], rise: 1/4, swells: right }, { curve: [[2, 1 1/2], [0, 2]] }] }`:
 * from point to point, and back to the start by a straight line. An ogee is two arcs that swell to either side.
 */
export function path(start: Point, steps: readonly PathStep[]): Drawn {
  const rim: Segment[] = [];
  const faults: OutlineFault[] = [];
  let [here, isExact] = [start, true];
  for (const [i, step] of steps.entries()) {
    // The start is place 0 of the list.
    const made = taken(here, step, ['path', i + 1]);
    if (made.value === undefined) faults.push(...made.faults);
    else {
      rim.push(...made.value.segments);
      isExact &&= made.value.isExact;
    }
    here = endOf(step) ?? here;
  }
  if (!isNear(here, start)) rim.push(lineTo(here, start));
  if (faults.length > 0) return undrawn(...faults);
  if (rim.length < 2) return undrawn(fault('T04', ['path'], () => ({ found: rim.length, least: 3 })));
  const crossed = loopFaults(rim, ['path']);
  return crossed.length > 0 ? undrawn(...crossed) : drawn(outlineOf(rim, { isExact }));
}

interface Taken {
  readonly segments: readonly Segment[];
  readonly isExact: boolean;
}

function endOf(step: PathStep): Point | undefined {
  return step.kind === 'curve' ? step.through.at(-1) : step.to;
}

function taken(from: Point, step: PathStep, facet: OutlineFacet): Drawn<Taken> {
  if (step.kind === 'curve') return curved([from, ...step.through], [...facet, 'curve']);
  const number = Number(facet.at(-1)) + 1;
  if (isNear(from, step.to)) {
    const at = step.kind === 'arc' ? [...facet, 'arc'] : facet;
    return undrawn(
      fault('T05', at, (show) => ({ point: showPoint(step.to, show), number, other: number - 1 })),
    );
  }
  if (step.kind === 'line') return drawn({ segments: [lineTo(from, step.to)], isExact: true });
  const made = swung(from, step, facet);
  return made.value === undefined
    ? undrawn(...made.faults)
    : drawn({ segments: [made.value.arc], isExact: made.value.isExact });
}

function swung(from: Point, step: PathStep & { readonly kind: 'arc' }, facet: OutlineFacet): Drawn<DrawnArc> {
  const key = 'rise' in step ? 'rise' : 'radius';
  const size = 'rise' in step ? step.rise : step.radius;
  const none = aboveZero([key, size, [...facet, key]]);
  if (none.length > 0) return undrawn(...none);
  if ('rise' in step) return drawn(arcByRise(from, step.to, step.rise, step.swells));
  const chord = square(less(step.to, from));
  const reach = multiply(multiply(step.radius, step.radius), rational(4n));
  if (compare(millimetres(reach), millimetres(chord)) >= 0) {
    return drawn(arcByRadius(from, step.to, step.radius, step.swells));
  }
  const span = millimetres(rootOf(chord).hi);
  return undrawn(
    fault('T03', [...facet, 'radius'], (show) => ({
      radius: show(step.radius),
      span: show(span, 'up'),
      half: show(millimetres(multiply(span, half)), 'up'),
    })),
  );
}

/**
 * A smooth curve through points that may run any way: across and up apart are drawn as a top edge is, over the
 * length of the way from point to point, so neither ever leaves what lies between two neighbours.
 */
function curved(points: readonly Point[], facet: OutlineFacet): Drawn<Taken> {
  if (points.length < 2) return undrawn(fault('T04', facet, () => ({ found: 0, least: 1 })));
  const twice = points.flatMap((it, i) => {
    const before = points[i - 1];
    if (before === undefined || !isNear(before, it)) return [];
    return [
      fault('T05', [...facet, i - 1], (show) => ({ point: showPoint(it, show), number: i + 1, other: i })),
    ];
  });
  if (twice.length > 0) return undrawn(...twice);
  const runs = points.slice(1).map((it, i) => roughLength(it, points[i]!));
  const at: Rational[] = [rational(0n)];
  for (const run of runs) at.push(add(at.at(-1)!, run));
  const slopes = (axis: 'x' | 'y') =>
    slopesThrough(
      at,
      points.map((it) => it[axis]),
      ['free', 'free'],
    );
  const [across, up] = [slopes('x'), slopes('y')];
  const slope = (i: number) => ({ x: across[i]!, y: up[i]! });
  return drawn({
    segments: runs.map((run, i) => curveBySlopes(points[i]!, slope(i), points[i + 1]!, slope(i + 1), run)),
    isExact: true,
  });
}

/** To the hundredth of a millimetre or so: any lengths would do, and these keep the figures short. */
function roughLength(a: Point, b: Point): Rational {
  const length = snapped(nearRoot(square(less(a, b))), 128n);
  return isPositive(length) ? length : rational(1n, 128n);
}
