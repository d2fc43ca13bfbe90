import { compare, equal, minus, subtract, zero } from '../measure/index.ts';
import type { Enclosure, Length, Outline, Point } from '../model/index.ts';
import {
  boxOf,
  type CompassStep,
  compassStepsOf,
  heightsAt,
  heldBy,
  ordinatesOf,
  type Stretch,
  standingForCurves,
} from '../outline/index.ts';
import { isWithin, tellsApart } from './tinyEdges.ts';

/** How high the outline begins and ends over one place of its base. */
export interface Ordinate {
  readonly along: Length;
  readonly bottom: Enclosure<Length>;
  readonly top: Enclosure<Length>;
  /** True where the outline turns there, so that it is needed whatever the pitch. */
  readonly isCorner: boolean;
}

/**
 * At every pitch and at every point where the rim turns.
 *
 * @param datum where along and up begin; its own left bottom corner where none is named
 * @param stretches of the base that the pitch is for; all of it where none are named
 */
export function offsetsOf(
  outline: Outline,
  pitch: Length,
  datum = cornerOf(outline),
  stretches?: readonly Stretch[],
): readonly Ordinate[] {
  const standing = standingForCurves(outline);
  const corners = outline.rim
    .filter((it, i) => !standing.has(it) || !standing.has(outline.rim.at(i - 1) ?? it))
    .flatMap(({ from }) => heightsAt(outline, from.x) ?? []);
  const isCorner = (along: Length): boolean => corners.some((it) => equal(it.along, along));
  const all = [...ordinatesOf(outline, pitch, stretches), ...corners].sort((a, b) =>
    compare(a.along, b.along),
  );
  const over = ({ lo, hi }: Enclosure<Length>): Enclosure<Length> => ({
    lo: minus(lo, datum.y),
    hi: minus(hi, datum.y),
  });
  return all
    .filter((it, i) => i === 0 || !equal(all[i - 1]!.along, it.along)) // i is above 0
    .map((it) => ({
      along: minus(it.along, datum.x),
      bottom: over(it.bottom),
      top: over(it.top),
      isCorner: isCorner(it.along),
    }));
}

/**
 * One row for corners that no rule of this step tells apart, and for a corner and a place beside it: the one over
 * which the outline is highest, since there is where an edge stands upright.
 */
export function apartOnRule(offsets: readonly Ordinate[], step: Length): readonly Ordinate[] {
  const least = tellsApart(step);
  const kept: Ordinate[] = [];
  let begins = zero;
  for (const it of offsets) {
    const last = kept.at(-1);
    const isOne =
      last !== undefined && (it.isCorner || last.isCorner) && isWithin(minus(it.along, begins), least);
    if (!isOne) {
      kept.push(it);
      begins = it.along;
    } else if (isRather(it, last)) kept[kept.length - 1] = it;
  }
  return kept;
}

function isRather(one: Ordinate, other: Ordinate): boolean {
  if (one.isCorner !== other.isCorner) return one.isCorner;
  const height = ({ top, bottom }: Ordinate): Length => minus(top.hi, bottom.lo);
  return compare(height(one), height(other)) > 0;
}

function cornerOf(outline: Outline): Point {
  const { left, bottom } = heldBy(boxOf(outline));
  return { x: left, y: bottom };
}

/** So many rows a table of offsets at this pitch has at most. */
export function rowsOf(outline: Outline, pitch: Length): number {
  const { left, right } = heldBy(boxOf(outline));
  const span = subtract(right, left);
  const steps = (span.numerator * pitch.denominator) / (span.denominator * pitch.numerator);
  return Number(steps) + 2 + outline.rim.length;
}

/** Its arcs, to be drawn with a compass; from the left bottom corner. */
export function compassOf(outline: Outline): readonly CompassStep[] {
  const corner = cornerOf(outline);
  const place = ({ x, y }: Point): Point => ({ x: minus(x, corner.x), y: minus(y, corner.y) });
  return compassStepsOf(outline).map((it) => ({
    ...it,
    centre: place(it.centre),
    from: place(it.from),
    to: place(it.to),
  }));
}

/** True where it has a smooth curve, which no compass draws. */
export function hasCurve(outline: Outline): boolean {
  const standing = standingForCurves(outline);
  return [outline.rim, ...outline.holes].some((loop) =>
    loop.some((it) => it.kind === 'curve' || standing.has(it)),
  );
}

/** True where every ordinate begins on the base, so that it need not be said. */
export function standsOnItsBase(offsets: readonly Ordinate[]): boolean {
  return offsets.every(({ bottom }) => compare(bottom.hi, zero) === 0);
}
