import { minus, rational, scaled } from '../../measure/index.ts';
import type { DrawnMark, Point as ExactPoint, Length } from '../../model/index.ts';
import { circle, flattened, laid, shiftBy } from '../../outline/index.ts';
import { lines, type Point, type Stroke } from './mark.ts';

/**
 * What is drawn on a part and not cut.
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
      return mark.bore === undefined
        ? cross(to(mark.at), reachMm)
        : [...cross(to(mark.at), reachMm), ...round(mark.at, mark.bore, to)];
    case 'centre line':
      return lines('centre line', [[to(mark.from), to(mark.to)]]);
    case 'fold':
      return lines(mark.way === 'away' ? 'fold' : 'valley fold', [[to(mark.from), to(mark.to)]]);
    case 'line':
      return lines('pencil mark', [[to(mark.from), to(mark.to)]]);
  }
}

export function cross({ x, y }: Point, reachMm: number): readonly Stroke[] {
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

function round(middle: ExactPoint, wide: Length, to: (at: ExactPoint) => Point): readonly Stroke[] {
  const radius = scaled(wide, rational(1n, 2n));
  const corner = { x: minus(middle.x, radius), y: minus(middle.y, radius) };
  const hole = circle(wide).value;
  const [edge] = hole === undefined ? [] : flattened(laid(hole, shiftBy(corner)), 'along');
  const [first, ...others] = edge?.map(to) ?? [];
  if (first === undefined) return [];
  return [{ kind: 'stroke', role: 'pencil mark', paths: [{ points: [first, ...others], closed: true }] }];
}
