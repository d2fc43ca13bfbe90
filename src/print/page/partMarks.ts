import { circle, line, lines, type Mark, type Point } from './mark.ts';
import { heightOf, type Typeface, widthOf, wordsAround } from './type.ts';

/** An edge of a part on the page: its inside is on the left when going from `from` to `to`. */
export interface Edge {
  readonly from: Point;
  readonly to: Point;
}

/** A fold: the long-dashed double-dotted line that stands for an outline before bending. */
export function foldLine({ from, to }: Edge): readonly Mark[] {
  return [line('fold', from, to)];
}

/** A centre line runs a little past what it is the centre of. */
export function centreLine({ from, to }: Edge, pastMm = 2): readonly Mark[] {
  const { onward } = directionsOf({ from, to });
  return [line('centre line', moved(from, onward, -pastMm), moved(to, onward, pastMm))];
}

/**
 * The axis that a part is bent round, and across it a bow with an arrow at either end.
 *
 *        ╭▸
 *   ── · │ · ──── · ──
 *        ╰▸
 */
export function bendAxis({ from, to }: Edge): readonly Mark[] {
  const { onward, inward } = directionsOf({ from, to });
  const centre = moved(from, onward, lengthOf({ from, to }) / 5);
  const reachMm = Math.min(bowMm, lengthOf({ from, to }) / 4);
  const at = (across: number, along: number): Point =>
    moved(moved(centre, inward, across * reachMm), onward, along * reachMm);
  const bow = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1].map((it) => at(it, 0.55 * it * it - 0.3));
  const [first, ...others] = bow as [Point, ...Point[]]; // nine of them
  const barbs = [-1, 1].flatMap((end): readonly (readonly [Point, Point])[] => {
    const tip = at(end, 0.25);
    return [
      [tip, at(end * 0.62, 0.27)],
      [tip, at(end * 0.86, -0.12)],
    ];
  });
  return [
    line('bend axis', from, to),
    { kind: 'stroke', role: 'dimension', paths: [{ points: [first, ...others], closed: false }] },
    ...lines('dimension', barbs),
  ];
}

const bowMm = 3.2;

/** A line to be drawn on the part and not cut: dotted, a crossing stroke at either end. */
export function pencilLine(edge: Edge): readonly Mark[] {
  const { inward } = directionsOf(edge);
  const stroke = (at: Point): readonly [Point, Point] => [moved(at, inward, -0.9), moved(at, inward, 0.9)];
  return [line('pencil mark', edge.from, edge.to), ...lines('dimension', [edge.from, edge.to].map(stroke))];
}

/** What a knife has parted lies open: two narrow lines with paper between them. */
export function cutMade(edge: Edge): readonly Mark[] {
  const { inward } = directionsOf(edge);
  const beside = (byMm: number): readonly [Point, Point] => [
    moved(edge.from, inward, byMm),
    moved(edge.to, inward, byMm),
  ];
  return lines('cut made', [beside(-0.4), beside(0.4)]);
}

/** Which way the face looks on which a part has its full size. */
export type LongFace = 'up' | 'down';

/**
 * An edge that is cut at a slant: strokes run down it from its upper edge, long and short in turn. Where the long
 * face lies up, the slant is beneath, and the edge where it ends is hidden.
 *
 *   ──┬─┬─┬─┬─┬─┬──  the outline: upper edge         ───────────────  the outline: lower edge
 *     │ ╵ │ ╵ │ ╵                                      ╷ │ ╷ │ ╷ │
 *   ─ ─ ─ ─ ─ ─ ─ ─  beneath                         ──┴─┴─┴─┴─┴─┴──  upper edge
 */
export function bevel(edge: Edge, runMm: number, longFace: LongFace = 'up'): readonly Mark[] {
  const { onward, inward } = directionsOf(edge);
  const length = lengthOf(edge);
  const count = Math.max(2, Math.floor(length / 1.1));
  const strokes = Array.from({ length: count - 1 }, (_, index): readonly [Point, Point] => {
    const outer = moved(edge.from, onward, (length * (index + 1)) / count);
    const inner = moved(outer, inward, runMm);
    const [top, below] = longFace === 'up' ? [outer, inner] : [inner, outer];
    const half = { x: (top.x + below.x) / 2, y: (top.y + below.y) / 2 };
    return [top, index % 2 === 0 ? below : half];
  });
  return [...lines('bevel', strokes), ...innerEdge(edge, runMm, longFace)];
}

/**
 * An edge that is cut down to less than its thickness: slanting strokes over what is taken off.
 *
 *   ───────────────  the outline
 *    ╱ ╱ ╱ ╱ ╱ ╱ ╱
 *   ─ ─ ─ ─ ─ ─ ─ ─  how far in: hidden where it is taken off beneath
 */
export function rebate(edge: Edge, wideMm: number, longFace: LongFace): readonly Mark[] {
  const { onward, inward } = directionsOf(edge);
  const length = lengthOf(edge);
  const slantMm = Math.min(wideMm, length / 2);
  const count = Math.max(2, Math.floor((length - slantMm) / 1.1));
  const strokes = Array.from({ length: count + 1 }, (_, index): readonly [Point, Point] => {
    const outer = moved(edge.from, onward, ((length - slantMm) * index) / count);
    return [outer, moved(moved(outer, inward, wideMm), onward, slantMm)];
  });
  return [...lines('rebate', strokes), ...innerEdge(edge, wideMm, longFace)];
}

function innerEdge(edge: Edge, runMm: number, longFace: LongFace): readonly Mark[] {
  const { inward } = directionsOf(edge);
  const role = longFace === 'up' ? 'hidden edge' : 'bevel edge';
  return [line(role, moved(edge.from, inward, runMm), moved(edge.to, inward, runMm))];
}

/** How far the mark of the good side reaches from its middle. */
export const goodSideReachMm = 1.5;

/** The good side looks at the reader: a ring with a dot in it. */
export function goodSideMark(centre: Point): readonly Mark[] {
  return [
    {
      kind: 'stroke',
      role: 'good side',
      paths: [{ points: circle(centre, goodSideReachMm - 0.15), closed: true }],
    },
    { kind: 'patch', role: 'leader end', points: circle(centre, 0.5) },
  ];
}

/**
 * A dimension: extension lines that leave a gap at the outline, a line between them that ends in oblique
 * strokes, and the figure above it, to be read from below or from the right.
 *
 *        3 1/2
 *   ╱──────────────╱        apart: from the edge that is measured to the line
 *   │              │
 *   ▔▔▔▔▔▔▔▔▔▔▔▔▔▔▔▔
 *
 * @source ISO 129 as told in an excerpt of ISO 129-1:2018 and in a drawing-office lesson (second-hand)
 */
export function dimension(face: Typeface, figure: string, edge: Edge, apartMm: number): readonly Mark[] {
  const { onward, inward } = directionsOf(edge);
  const outward = (at: Point, mm: number): Point => moved(at, inward, -mm);
  const [from, to] = [outward(edge.from, apartMm), outward(edge.to, apartMm)];
  const oblique = (at: Point): readonly [Point, Point] => {
    const [along, across] = [moved(at, onward, -0.9), moved(at, onward, 0.9)];
    return [outward(along, -0.9), outward(across, 0.9)];
  };
  const isUpright = Math.abs(onward.y) > Math.abs(onward.x);
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const above = heightOf('running mark', figure) / 2 + 0.5;
  const centre = isUpright ? { x: middle.x - above, y: middle.y } : { x: middle.x, y: middle.y - above };
  const isTight = widthOf(face, 'running mark', figure) > lengthOf(edge) - 2;
  const beyond = isUpright
    ? { x: centre.x, y: Math.min(from.y, to.y) - widthOf(face, 'running mark', figure) / 2 - 1 }
    : { x: Math.max(from.x, to.x) + widthOf(face, 'running mark', figure) / 2 + 1, y: centre.y };
  return [
    ...lines('dimension', [
      [outward(edge.from, 0.8), outward(edge.from, apartMm + 1.5)],
      [outward(edge.to, 0.8), outward(edge.to, apartMm + 1.5)],
      [from, to],
      oblique(from),
      oblique(to),
    ]),
    wordsAround(face, 'running mark', figure, isTight ? beyond : centre, isUpright),
  ];
}

function lengthOf({ from, to }: Edge): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

/** Unit steps along an edge and into the part; y of the page runs down. */
function directionsOf(edge: Edge): { readonly onward: Point; readonly inward: Point } {
  const length = lengthOf(edge) || 1;
  const onward = { x: (edge.to.x - edge.from.x) / length, y: (edge.to.y - edge.from.y) / length };
  return { onward, inward: { x: onward.y, y: -onward.x } };
}

function moved({ x, y }: Point, by: Point, mm: number): Point {
  return { x: x + by.x * mm, y: y + by.y * mm };
}
