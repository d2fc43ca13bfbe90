import { equal, minus, rational, scaled, sum } from '../../measure/index.ts';
import type { Arc, DrawnMark, Point as ExactPoint, Length, Loop, Outline } from '../../model/index.ts';
import { circle, flattened, laid, shiftBy } from '../../outline/index.ts';
import { lines, type Point, type Stroke } from './mark.ts';

/** What of a part is drawn and not cut; the middle of a round hole stands so that the hole is seen. */
export function drawnMarksOf(
  { marks, holes }: Pick<Outline, 'marks' | 'holes'>,
  to: (at: ExactPoint) => Point,
  reachMm: number,
): readonly Stroke[] {
  return marks.flatMap((mark) => {
    const hole = mark.kind === 'cross' && mark.bore === undefined && roundAbout(mark.at, holes);
    return hole
      ? crossOfHole(to(mark.at), apart(mark.at, hole.from, to), reachMm)
      : drawnMark(mark, to, reachMm);
  });
}

function roundAbout(at: ExactPoint, holes: readonly Loop[]): Arc | undefined {
  for (const [first] of holes) {
    if (first?.kind === 'arc' && equal(first.centre.x, at.x) && equal(first.centre.y, at.y)) return first;
  }
  return undefined;
}

/**
 * One mark.
 *
 * @param to where a point of the drawing stands on the page
 * @param reachMm how far the arms of a cross go
 */
export function drawnMark(
  mark: DrawnMark,
  to: (at: ExactPoint) => Point,
  reachMm: number,
): readonly Stroke[] {
  switch (mark.kind) {
    case 'cross':
      return mark.bore === undefined ? cross(to(mark.at), reachMm) : bored(mark.at, mark.bore, to, reachMm);
    case 'centre line':
      return lines('centre line', [[to(mark.from), to(mark.to)]]);
    case 'fold':
      return lines(mark.way === 'away' ? 'fold' : 'valley fold', [[to(mark.from), to(mark.to)]]);
    case 'line':
      return lines('pencil mark', [[to(mark.from), to(mark.to)]]);
  }
}

function cross({ x, y }: Point, reachMm: number): readonly Stroke[] {
  return lines('dimension', [
    [
      { x: x - reachMm, y },
      { x: x + reachMm, y },
    ],
    [
      { x, y: y - reachMm },
      { x, y: y + reachMm },
    ],
  ]);
}

/**
 * The middle of a hole: a cross in it, or round it where that would hide it.
 *
 *      ╭─────╮          │
 *      │  ┼  │        ─ ○ ─
 *      ╰─────╯          │
 */
export function crossOfHole(at: Point, radiusMm: number, reachMm: number): readonly Stroke[] {
  if (radiusMm >= reachMm + clearMm) return cross(at, reachMm);
  const from = Math.max(radiusMm, 0.2) + clearMm;
  const arm = ([x, y]: readonly [number, number]): readonly [Point, Point] => [
    { x: at.x + x * from, y: at.y + y * from },
    { x: at.x + x * (from + armMm), y: at.y + y * (from + armMm) },
  ];
  return lines(
    'dimension',
    (
      [
        [-1, 0],
        [1, 0],
        [0, -1],
        [0, 1],
      ] as const
    ).map(arm),
  );
}

const clearMm = 0.4;
const armMm = 0.8;

function bored(
  middle: ExactPoint,
  wide: Length,
  to: (at: ExactPoint) => Point,
  reachMm: number,
): readonly Stroke[] {
  const radius = scaled(wide, rational(1n, 2n));
  const radiusMm = apart(middle, { ...middle, x: sum(middle.x, radius) }, to);
  const corner = { x: minus(middle.x, radius), y: minus(middle.y, radius) };
  const hole = circle(wide).value;
  const [edge] = hole === undefined ? [] : flattened(laid(hole, shiftBy(corner)), 'along');
  const [first, ...others] = edge?.map(to) ?? [];
  if (first === undefined) return [];
  const role = radiusMm < leastDottedMm ? 'dimension' : 'pencil mark';
  return [
    ...crossOfHole(to(middle), radiusMm, reachMm),
    { kind: 'stroke', role, paths: [{ points: [first, ...others], closed: true }] },
  ];
}

/** So small, a dotted ring would be a few dots. */
const leastDottedMm = 1;

/** On the page. */
function apart(one: ExactPoint, other: ExactPoint, to: (at: ExactPoint) => Point): number {
  const [a, b] = [to(one), to(other)];
  return Math.hypot(a.x - b.x, a.y - b.y);
}
