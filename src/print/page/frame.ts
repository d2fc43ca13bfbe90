import { toDrawnMm } from '../../measure/index.ts';
import type { Box, Length, SheetPlan } from '../../model/index.ts';
import type { Area, Point } from './mark.ts';

/**
 * Where a sheet lies on the page, and how lengths on it become millimetres on paper.
 *
 *        page x →
 *      ┌─ sheet as bought ────────────┐
 *      │  ┌─ squared up ───────────┐  │      y of the page runs down,
 *      │  │                        │  │      `bottom` of a box runs up
 *      │  └────────────────────────┘  │
 *      └──● datum ────────────────────┘
 */
export interface Frame {
  /** So many millimetres of the sheet are one on paper. */
  readonly scale: number;
  /** The sheet as bought. */
  readonly sheet: Area;
  /** The sheet squared up. */
  readonly squared: Area;
  /** A box measured from the datum corner of the squared sheet; asked for often, so worked out once. */
  readonly area: (box: Box) => Area;
  readonly point: (at: { readonly left: Length; readonly bottom: Length }) => Point;
  /** On paper. */
  readonly size: (length: Length) => number;
}

/** @param scale drawn at 1 : scale */
export function frameOf({ sheet, inside }: SheetPlan, scale: number, at: Point): Frame {
  const size = (length: Length): number => toDrawnMm(length) / scale;
  const bottom = at.y + size(sheet.width);
  const datum = { x: at.x + size(inside.left), y: bottom - size(inside.bottom) };
  const areas = new Map<Box, Area>();
  const area = (box: Box): Area => {
    const known = areas.get(box);
    if (known !== undefined) return known;
    const left = datum.x + size(box.left);
    const foot = datum.y - size(box.bottom);
    const found = { left, right: left + size(box.length), top: foot - size(box.width), bottom: foot };
    areas.set(box, found);
    return found;
  };
  return {
    scale,
    sheet: { left: at.x, top: at.y, right: at.x + size(sheet.length), bottom },
    squared: {
      left: datum.x,
      right: datum.x + size(inside.length),
      top: datum.y - size(inside.width),
      bottom: datum.y,
    },
    area,
    point: ({ left, bottom: up }) => ({ x: datum.x + size(left), y: datum.y - size(up) }),
    size,
  };
}
