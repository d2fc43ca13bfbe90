import type { DrawnMark, Point as ExactPoint } from '../../model/index.ts';
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
      return cross(to(mark.at), reachMm);
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
