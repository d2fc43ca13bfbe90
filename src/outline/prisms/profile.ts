import { add, compare, millimetres, multiply } from '../../measure/index.ts';
import type { Enclosure, Length, Outline } from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { exactly, largestOf, smallestOf } from '../enclosure.ts';
import type { Facets, Lean } from '../flatten.ts';
import { heightsAt } from '../heights.ts';
import { asLengths } from '../root.ts';
import { heightAt, slabs, slices } from '../slabs.ts';
import { half } from '../vector.ts';
import type { Body } from './body.ts';
import { looksTo } from './looks.ts';
import { facetsOf, outlineIn, type Plane, type Shaped } from './prism.ts';
import { facesSeen } from './strip.ts';
import { isPierced } from './zones.ts';

/** A stretch of a prism's upper edge: it goes straight from `start` to `end`. */
export interface TopEdge {
  readonly from: Length;
  readonly to: Length;
  readonly start: Length;
  readonly end: Length;
}

/**
 * The upper edge of a prism as it is seen in a plane, from its left.
 *
 *    start ╭──╮
 *      ●───╯  │ ┌──●
 *      │      └─┘  │ end
 */
export function topEdgesOf(prism: Shaped, plane: Plane, lean: Lean, off: Length): readonly TopEdge[] {
  const facets = facetsOf(outlineIn(prism, plane), lean, off);
  const edges = topEdges.get(facets) ?? topEdgesIn(facets);
  topEdges.set(facets, edges);
  return edges;
}

/** Of the facets of an outline, which are the same for equal parts one behind the other. */
const topEdges = new WeakMap<Facets, readonly TopEdge[]>();

function topEdgesIn(facets: Facets): readonly TopEdge[] {
  return [...slabs([facets])].flatMap(({ from, to, layers }): readonly TopEdge[] => {
    const above = layers.findLast(({ isEmpty }) => !isEmpty)?.above;
    if (above === undefined) return [];
    const [start, end] = [from, to].map((at) => millimetres(heightAt(above, at)));
    return [{ from: millimetres(from), to: millimetres(to), start: start!, end: end! }]; // two of two
  });
}

const endHeights = new WeakMap<Outline, Map<'left' | 'right', Enclosure<Length> | undefined>>();

/** How high a prism's upper edge is at its left or its right end in a plane. */
export function endHeightOf(
  prism: Shaped,
  plane: Plane,
  end: 'left' | 'right',
): Enclosure<Length> | undefined {
  const outline = outlineIn(prism, plane);
  const known = endHeights.get(outline) ?? new Map<'left' | 'right', Enclosure<Length> | undefined>();
  endHeights.set(outline, known);
  if (known.has(end)) return known.get(end);
  const box = boxOf(outline)[end];
  const height = heightsAt(outline, end === 'left' ? box.lo : box.hi)?.top;
  known.set(end, height);
  return height;
}

/** From where up to where something reaches. */
export interface EndRange {
  readonly bottom: Enclosure<Length>;
  readonly top: Enclosure<Length>;
}

/**
 * From where up to where a prism reaches at its left or its right end in a plane; of an end that leans, all of it.
 *
 *              ● top
 *      ╱ ╱ ╱ ╱  ╲  ╲
 *      ╱ ╱ ╱     ╲  ● the end of its box
 */
export function endRangeOf(shape: Shaped, plane: Plane, end: 'left' | 'right'): EndRange | undefined {
  const outline = outlineIn(shape, plane);
  const box = boxOf(outline)[end];
  const at = end === 'left' ? box.lo : box.hi;
  const heights = heightsAt(outline, at);
  if (heights === undefined) return undefined;
  const leaning = outline.rim
    .filter((it) => it.kind === 'line' && [it.from, it.to].some(({ x }) => compare(x, at) === 0))
    .filter((it) => {
      const looks = looksTo(it, plane);
      return looks.way === plane.right && looks.end === (end === 'left' ? 'low' : 'high');
    })
    .flatMap((it) => [exactly(it.from.y), exactly(it.to.y)]);
  return {
    bottom: asLengths(leaning.reduce(smallestOf, heights.bottom)),
    top: asLengths(leaning.reduce(largestOf, heights.top)),
  };
}

/** Where along the right of a plane a prism has something between two heights. */
export function reachBetween(
  prism: Shaped,
  plane: Plane,
  [low, high]: readonly [Length, Length],
  lean: Lean,
): readonly (readonly [Length, Length])[] {
  const { low: begin, high: end } = prism.block;
  return reachIn(
    facetsOf(outlineIn(prism, plane), lean),
    [begin[plane.right], end[plane.right]],
    [low, high],
  );
}

function reachIn(
  facets: Facets,
  [left, right]: readonly [Length, Length],
  [low, high]: readonly [Length, Length],
): readonly (readonly [Length, Length])[] {
  const strip = [
    [
      { x: left, y: low },
      { x: right, y: low },
      { x: right, y: high },
      { x: left, y: high },
    ],
  ];
  const found: (readonly [Length, Length])[] = [];
  for (const it of slices(facets, strip)) {
    if (!it.isInFirst || !it.isInSecond || it.isEmpty) continue;
    const [from, to] = [millimetres(it.from), millimetres(it.to)];
    const last = found.at(-1);
    if (last === undefined || compare(last[1], from) < 0) found.push([from, to]);
    else if (compare(last[1], to) < 0) found[found.length - 1] = [last[0], to];
  }
  return found;
}

/** As `reachBetween`, of what slopes or is folded and has cuts, as it is seen from above; undefined of any other body. */
export function reachFromAbove(
  body: Body,
  plane: Plane,
  heights: readonly [Length, Length],
  lean: Lean,
): readonly (readonly [Length, Length])[] | undefined {
  const shape = body.find(isPierced);
  if (shape === undefined || shape.stance.thickness === 'up') return undefined;
  const { low, high } = shape.block;
  return reachIn(facesSeen(shape, 'up', 'high', plane, lean), [low[plane.right], high[plane.right]], heights);
}

/** A stretch in which no edge of several shapes begins, ends or crosses another, as it is in its middle. */
export interface Column {
  readonly from: Length;
  readonly to: Length;
  /** From the bottom, without the gaps between them. */
  readonly layers: readonly {
    readonly low: Length;
    readonly high: Length;
    readonly isIn: readonly boolean[];
  }[];
}

/** Shapes side by side as columns, from the left. */
export function columnsOf(shapes: readonly Facets[]): readonly Column[] {
  return [...slabs(shapes)].map(({ from, to, layers }): Column => {
    const middle = multiply(add(from, to), half);
    return {
      from: millimetres(from),
      to: millimetres(to),
      layers: layers.map(({ below, above, isIn }) => ({
        low: millimetres(heightAt(below, middle)),
        high: millimetres(heightAt(above, middle)),
        isIn,
      })),
    };
  });
}
