import { millimetres, toDrawnMm } from '../../measure/index.ts';
import type { Bevel, DrawnPart, DrawnSide } from '../../model/index.ts';
import { middleOf } from '../../outline/index.ts';
import type { Mark, Point } from './mark.ts';
import { bendAxis, bevel, rebate } from './partMarks.ts';

/**
 * The edges of a part that are not cut square, as it lies: strokes along each, as wide as the slant or the rebate
 * goes in, but on a picture that is smaller never so narrow that they pass for dots.
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
    const drawnMm = (byMm: number): number => {
      const within = to({ x: from.x + inward.x * byMm, y: from.y + inward.y * byMm });
      return Math.hypot(within.x - edge.from.x, within.y - edge.from.y);
    };
    const [runMm, acrossMm] = [drawnMm(goesInMm), drawnMm(inward.x === 0 ? width : length)];
    // A picture in full size may be measured.
    const isSmaller = runMm < goesInMm * 0.999;
    return { edge, runMm: isSmaller ? Math.max(runMm, Math.min(leastRunMm, acrossMm / 3)) : runMm };
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

const leastRunMm = 1.4;

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
