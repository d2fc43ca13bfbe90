import { rational, scaled, sum } from '../../measure/index.ts';
import type { DrawnMark, Point as ExactPoint, Length } from '../../model/index.ts';
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
        : [...cross(to(mark.at), reachMm), round(mark.at, mark.bore, to)];
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

/** A circle by its corners: so many that no one sees them. */
function round(middle: ExactPoint, wide: Length, to: (at: ExactPoint) => Point): Stroke {
  const centre = to(middle);
  const edge = to({ x: sum(middle.x, scaled(wide, rational(1n, 2n))), y: middle.y });
  const radius = Math.hypot(edge.x - centre.x, edge.y - centre.y);
  const corner = (i: number): Point => ({
    x: centre.x + radius * Math.cos((i * Math.PI) / 24),
    y: centre.y + radius * Math.sin((i * Math.PI) / 24),
  });
  const others = Array.from({ length: 47 }, (_, i) => corner(i + 1));
  return { kind: 'stroke', role: 'pencil mark', paths: [{ points: [corner(0), ...others], closed: true }] };
}
