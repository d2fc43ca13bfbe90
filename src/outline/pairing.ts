import {
  add,
  compareRationals,
  divide,
  larger,
  millimetres,
  minus,
  multiply,
  subtract,
  sum,
  zero,
} from '../measure/index.ts';
import type { Length, Outline, Point, Rational } from '../model/index.ts';
import { type Facets, flattened } from './flatten.ts';
import { offset } from './offset.ts';
import { half } from './vector.ts';

/** Two of one outline side by side in one blank, the one turned half round in its box. */
export interface Pairing {
  /** Which way they lie one after the other; their boxes are flush the other way. */
  readonly along: 'length' | 'width';
  /** Which of them begins at the datum. */
  readonly first: 'as drawn' | 'turned';
  /** How far along the other's box begins: never below 0, where the two boxes are one. */
  readonly shift: Length;
}

/**
 * The four ways of laying an outline and its half-turn head to tail, each as near as a kerf between them
 * allows; nothing where no edge of the kerf's width can be drawn round it.
 *
 *      ┌───────╲ ╲───────┐
 *      │   1    ╲ ╲   2  │      shift: the longest way, on any level, from the right edge of the first
 *      └─────────╲ ╲─────┘      (with the kerf round it) to the left edge of the second
 *
 * No two points of them come nearer than the kerf; a sharp corner keeps a little more, and so does a curve, by
 * what its straight edges are off it.
 *
 * @param box  the part's net size, with the outline on its datum
 */
export function headToTail(
  outline: Outline,
  box: { readonly length: Length; readonly width: Length },
  kerf: Length,
): readonly Pairing[] {
  const [grown] = kerf.numerator === 0n ? [outline] : offset(outline, kerf);
  if (grown === undefined) return [];
  const drawn = { own: flattened(outline, 'outward'), grown: flattened(grown, 'outward') };
  const halfRound = ({ x, y }: Point): Point => ({ x: minus(box.length, x), y: minus(box.width, y) });
  const turned = { own: moved(drawn.own, halfRound), grown: moved(drawn.grown, halfRound) };
  //  What lies one above the other lies one after the other, looked at from the side.
  const fromTheSide = ({ x, y }: Point): Point => ({ x: y, y: minus(zero, x) });
  const unsure = sum(grown.within, outline.within);
  return (['length', 'width'] as const).flatMap((along) =>
    (['as drawn', 'turned'] as const).flatMap((first): readonly Pairing[] => {
      const [before, after] = first === 'as drawn' ? [drawn.grown, turned.own] : [turned.grown, drawn.own];
      const way =
        along === 'length'
          ? longestWay(before, after)
          : longestWay(moved(before, fromTheSide), moved(after, fromTheSide));
      return way === undefined ? [] : [{ along, first, shift: larger(zero, sum(way, unsure)) }];
    }),
  );
}

function moved(shape: Facets, move: (at: Point) => Point): Facets {
  return shape.map((loop) => loop.map(move));
}

/**
 * Between two neighbouring heights of vertices, the right edge of one shape and the left edge of the other are
 * straight, so the way between them is longest at one of the two heights.
 */
function longestWay(first: Facets, second: Facets): Length | undefined {
  const [edges, others] = [risingEdges(first), risingEdges(second)];
  const heights = [...first, ...second].flat().map(({ y }) => y);
  heights.sort(compareRationals);
  let longest: Rational | undefined;
  for (const [i, low] of heights.entries()) {
    const high = heights[i + 1];
    if (high === undefined || compareRationals(low, high) === 0) continue;
    const middle = multiply(add(low, high), half);
    const right = outermost(edges.upTo(middle), middle, 1);
    const left = outermost(others.upTo(middle), middle, -1);
    if (right === undefined || left === undefined) continue;
    for (const y of [low, high]) {
      const way = subtract(alongAt(right, y), alongAt(left, y));
      if (longest === undefined || compareRationals(way, longest) > 0) longest = way;
    }
  }
  return longest === undefined ? undefined : millimetres(longest);
}

/** An edge from its lower end to its higher one. */
interface Edge {
  readonly from: Point;
  readonly to: Point;
}

/** The edges that a level line meets, as it is moved up: each call with a height above that of the last. */
function risingEdges(shape: Facets): { readonly upTo: (y: Rational) => readonly Edge[] } {
  const all = shape.flatMap((loop) =>
    loop.flatMap((from, i): readonly Edge[] => {
      const to = loop[(i + 1) % loop.length]!; // within
      const order = compareRationals(from.y, to.y);
      return order === 0 ? [] : [order < 0 ? { from, to } : { from: to, to: from }];
    }),
  );
  all.sort((a, b) => compareRationals(a.from.y, b.from.y));
  let [next, met]: [number, readonly Edge[]] = [0, []];
  return {
    upTo: (y) => {
      const begun = next;
      while (next < all.length && compareRationals(all[next]!.from.y, y) < 0) next++;
      met = [...met, ...all.slice(begun, next)].filter(({ to }) => compareRationals(to.y, y) > 0);
      return met;
    },
  };
}

/** The edge furthest to the right (1) or the left (-1) at a height. */
function outermost(edges: readonly Edge[], y: Rational, side: 1 | -1): Edge | undefined {
  let best: { readonly edge: Edge; readonly x: Rational } | undefined;
  for (const edge of edges) {
    const x = alongAt(edge, y);
    if (best === undefined || compareRationals(x, best.x) * side > 0) best = { edge, x };
  }
  return best?.edge;
}

function alongAt({ from, to }: Edge, y: Rational): Rational {
  const share = divide(subtract(y, from.y), subtract(to.y, from.y));
  return add(from.x, multiply(share, subtract(to.x, from.x)));
}
