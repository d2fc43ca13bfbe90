import type { Area, Point, Stroke } from '../page/index.ts';
import { touches } from './clipping.ts';
import { areaAround, type Drawing, isMaterial } from './drawing.ts';

const steps = 24;
/** Words don't come closer to a line. */
const clearMm = 1;

/** The middle of an area of this size on the material and clear of all lines: the one nearest to the middle. */
export function roomOn(
  drawing: Drawing,
  lines: readonly Stroke[],
  window: Area,
  widthMm: number,
  heightMm: number,
): Point | undefined {
  const reach = {
    left: Math.max(0, window.left) + widthMm / 2,
    right: Math.min(drawing.widthMm, window.right) - widthMm / 2,
    top: Math.max(0, window.top) + heightMm / 2,
    bottom: Math.min(drawing.heightMm, window.bottom) - heightMm / 2,
  };
  if (reach.left > reach.right || reach.top > reach.bottom) return undefined;
  const middle = { x: (reach.left + reach.right) / 2, y: (reach.top + reach.bottom) / 2 };
  const inTurn = Array.from({ length: (steps + 1) ** 2 }, (_, i): Point => {
    const [column, row] = [i % (steps + 1), Math.floor(i / (steps + 1))];
    return {
      x: reach.left + ((reach.right - reach.left) * column) / steps,
      y: reach.top + ((reach.bottom - reach.top) * row) / steps,
    };
  }).sort((a, b) => away(a, middle) - away(b, middle));
  return inTurn.find((at) => isMaterial(drawing, at) && isClear(lines, areaAround(at, widthMm, heightMm)));
}

/** True where no line comes near. */
export function isClear(lines: readonly Stroke[], { left, right, top, bottom }: Area): boolean {
  const near = {
    left: left - clearMm,
    right: right + clearMm,
    top: top - clearMm,
    bottom: bottom + clearMm,
  };
  return lines.every((it) => !touches(it, near));
}

function away(a: Point, b: Point): number {
  return (a.x - b.x) ** 2 + (a.y - b.y) ** 2;
}
