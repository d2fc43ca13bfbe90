import { millimetres, toDrawnMm } from '../../measure/index.ts';
import type { Bevel, DrawnPart, DrawnSide } from '../../model/index.ts';
import { middleOf } from '../../outline/index.ts';
import type { Mark, Point } from './mark.ts';
import { bendAxis, bevel, rebate } from './partMarks.ts';

/**
 * The edges of a part that are not cut square, as it lies: strokes along each, as wide as the slant or the rebate
 * goes in.
 *
 * @param to         from the drawing in millimetres, y upwards, to the page
 * @param isFaceDown  true for the second of two that share a bevel: its long face looks down
 */
export function edgeMarks(
  { bevels = [], rebates = [], net }: DrawnPart,
  to: (at: Point) => Point,
  isFaceDown = false,
): readonly Mark[] {
  const [length, width] = [toDrawnMm(net.length), toDrawnMm(net.width)];
  const edgeAt = (side: DrawnSide, goesInMm: number) => {
    const [from, end, inward] = edges[side](length, width);
    const edge = { from: to(from), to: to(end) };
    const within = to({ x: from.x + inward.x * goesInMm, y: from.y + inward.y * goesInMm });
    return { edge, runMm: Math.hypot(within.x - edge.from.x, within.y - edge.from.y) };
  };
  const lies = (longFace: Bevel['longFace']) => ((longFace === 'good') === isFaceDown ? 'down' : 'up');
  return [
    ...bevels.flatMap(({ side, back, longFace }) => {
      const { edge, runMm } = edgeAt(side, toDrawnMm(millimetres(middleOf(back))));
      return bevel(edge, runMm, lies(longFace));
    }),
    ...rebates.flatMap(({ side, wide, longFace }) => {
      const { edge, runMm } = edgeAt(side, toDrawnMm(wide));
      return rebate(edge, runMm, lies(longFace));
    }),
  ];
}

/** The axis that a part is bent round, through the middle of what is bent; none of what is not. */
export function bendMarks({ inclined, net }: DrawnPart, to: (at: Point) => Point): readonly Mark[] {
  if (inclined?.how.kind !== 'bend') return [];
  const [x, y] = [toDrawnMm(net.length), toDrawnMm(net.width)];
  return inclined.size === 'length'
    ? bendAxis({ from: to({ x: x / 2, y: 0 }), to: to({ x: x / 2, y }) })
    : bendAxis({ from: to({ x: 0, y: y / 2 }), to: to({ x, y: y / 2 }) });
}

/** From where to where, with the inside on the left, and the way in. */
const edges: Readonly<Record<DrawnSide, (x: number, y: number) => readonly [Point, Point, Point]>> = {
  bottom: (x) => [
    { x: 0, y: 0 },
    { x, y: 0 },
    { x: 0, y: 1 },
  ],
  right: (x, y) => [
    { x, y: 0 },
    { x, y },
    { x: -1, y: 0 },
  ],
  top: (x, y) => [
    { x, y },
    { x: 0, y },
    { x: 0, y: -1 },
  ],
  left: (_, y) => [
    { x: 0, y },
    { x: 0, y: 0 },
    { x: 1, y: 0 },
  ],
};
