import { add, millimetres, multiply } from '../measure/index.ts';
import type { DrawnMark, Length, Outline, Point, WallInFlat } from '../model/index.ts';
import { boxForPlacing } from './cuts/place.ts';
import { half, point } from './vector.ts';

/**
 * A mark as it is asked for: a centre line runs the whole length or width, in the middle of the other, of a part or of one
 * of its walls.
 */
export type Mark =
  | {
      readonly kind: 'centre line';
      readonly runs: 'length' | 'width';
      readonly on?: WallInFlat | undefined;
    }
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point }
  | Extract<DrawnMark, { readonly kind: 'cross' }>;

/** Marks are printed, not cut. */
export function withMarks(outline: Outline, marks: readonly Mark[]): Outline {
  return { ...outline, marks: [...outline.marks, ...marks.map((it) => drawnMark(outline, it))] };
}

function drawnMark(outline: Outline, mark: Mark): DrawnMark {
  if (mark.kind !== 'centre line') return mark;
  const { on } = mark;
  const { left, right, bottom, top } = boxForPlacing(outline, on);
  const middle = (low: Length, high: Length) => millimetres(multiply(add(low, high), half));
  if (mark.runs === 'length') {
    const y = middle(bottom, top);
    // Along a wall no further than it is flat.
    return { kind: 'centre line', from: point(on?.from ?? left, y), to: point(on?.to ?? right, y) };
  }
  const x = middle(left, right);
  return { kind: 'centre line', from: point(x, bottom), to: point(x, top) };
}
