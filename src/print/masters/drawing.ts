import { equal, millimetres, minus, rational, scaled, smaller, sum, toDrawnMm } from '../../measure/index.ts';
import type { Point as ExactPoint, Length, Outline } from '../../model/index.ts';
import { type Box, boxOf, compassStepsOf, flattened, heldBy } from '../../outline/index.ts';
import { type Area, crossOfHole, drawnMarksOf, type Path, type Point, type Stroke } from '../page/index.ts';

/** How far straight edges may be off the curves that they are drawn for; half of what is promised of a master. */
export const drawnWithin: Length = millimetres(rational(1n, 200n));

/** An outline in drawn millimetres, from the left top corner of its box; y runs down. */
export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  /** The rim and the holes. */
  readonly edges: Stroke;
  /** What is drawn on it and not cut, and the centres of its holes. */
  readonly drawn: readonly Stroke[];
}

export function drawingOf(outline: Outline): Drawing {
  const box = boxOf(outline);
  const held = heldBy(box);
  const to = ({ x, y }: ExactPoint): Point => ({
    x: toDrawnMm(x) - toDrawnMm(held.left),
    y: toDrawnMm(held.top) - toDrawnMm(y),
  });
  const paths = flattened(outline, 'along', drawnWithin).map((loop): Path => {
    const [first, ...rest] = loop.map(to);
    return { points: [first!, ...rest], closed: true }; // a loop has points
  });
  const [rim, ...holes] = paths;
  return {
    widthMm: toDrawnMm(held.right) - toDrawnMm(held.left),
    heightMm: toDrawnMm(held.top) - toDrawnMm(held.bottom),
    edges: { kind: 'stroke', role: 'part outline', paths: [rim!, ...holes] }, // an outline has a rim
    drawn: [
      ...drawnMarksOf(outline, to, crossMm),
      ...holeCentres(outline).flatMap(({ at, radius }) => crossOfHole(to(at), toDrawnMm(radius), crossMm)),
    ],
  };
}

export function sizeOf({ left, right, bottom, top }: Box): {
  readonly length: Length;
  readonly width: Length;
  /** True where neither is rounded. */
  readonly isExact: boolean;
} {
  const ends = [left, right, bottom, top];
  return {
    length: minus(right.lo, left.lo),
    width: minus(top.lo, bottom.lo),
    isExact: ends.every(({ lo, hi }) => equal(lo, hi)),
  };
}

interface HoleCentre {
  readonly at: ExactPoint;
  /** How far its edge is from there, at least. */
  readonly radius: Length;
}

/** The centre of each hole, of its circle, else of its box; but for those that have a cross there. */
function holeCentres(outline: Outline): readonly HoleCentre[] {
  const crosses = outline.marks.flatMap((it) => (it.kind === 'cross' ? [it.at] : []));
  const isMarked = ({ x, y }: ExactPoint): boolean => crosses.some((it) => equal(it.x, x) && equal(it.y, y));
  return centresOf(outline).filter(({ at }) => !isMarked(at));
}

function centresOf(outline: Outline): readonly HoleCentre[] {
  return outline.holes.map((hole) => {
    const alone: Outline = { ...outline, rim: hole, holes: [], marks: [] };
    const { left, right, bottom, top } = heldBy(boxOf(alone));
    const radius = scaled(smaller(minus(right, left), minus(top, bottom)), half);
    const [circle] = compassStepsOf(alone);
    if (circle?.isWhole) return { at: circle.centre, radius };
    return { at: { x: scaled(sum(left, right), half), y: scaled(sum(bottom, top), half) }, radius };
  });
}

const half = rational(1n, 2n);
const crossMm = 2.5;

/** True within the rim and in no hole: a ray to the right crosses an odd number of sides. */
export function isMaterial({ edges }: Drawing, { x, y }: Point): boolean {
  let isInside = false;
  for (const { points } of edges.paths) {
    for (const [i, a] of points.entries()) {
      const b = points[(i + 1) % points.length]!; // i is within
      if (a.y > y !== b.y > y && x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y)) isInside = !isInside;
    }
  }
  return isInside;
}

export function areaAround({ x, y }: Point, widthMm: number, heightMm: number): Area {
  return { left: x - widthMm / 2, right: x + widthMm / 2, top: y - heightMm / 2, bottom: y + heightMm / 2 };
}
