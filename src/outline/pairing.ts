import {
  add,
  compareRationals,
  divide,
  millimetres,
  minus,
  multiply,
  rational,
  roundToStep,
  scaled,
  subtract,
  sum,
} from '../measure/index.ts';
import type { Enclosure, Length, Outline, Point, Rational } from '../model/index.ts';
import { boxOf } from './box.ts';
import { type Facets, flattened, type Lean } from './flatten.ts';
import { shiftBy } from './loop.ts';
import { laid, turned } from './makers/turned.ts';
import { offset } from './offset.ts';
import { isStraight } from './sharing.ts';
import { half } from './vector.ts';

/** Two of one outline in one blank, the second turned half round and moved along the length. */
export interface Pairing {
  /** How far the second's box lies along from the first's; may be below 0. */
  readonly shift: Enclosure<Length>;
  /** The blank's length for both, rounded up to a whole step. */
  readonly length: Length;
  /** How much shorter that is than two blanks, each rounded up too, with a kerf between. */
  readonly saved: Length;
}

/**
 * Lays an outline and its half-turn head to tail, as near as a kerf between them allows. The blank's width is
 * that of one. undefined where that saves nothing.
 *
 *      ┌───────╲ ╲───────┐
 *      │   1    ╲ ╲   2  │      shift: the longest way, on any level, from the right edge of the first
 *      └─────────╲ ╲─────┘      (with the kerf round it) to the left edge of the second
 *
 * No two points of them come nearer than the kerf; a sharp corner keeps a little more.
 */
export function headToTail(outline: Outline, kerf: Length, step: Length): Pairing | undefined {
  const { left, right } = boxOf(outline);
  const own = millimetres(subtract(right.hi, left.lo));
  const [grown] = offset(outline, kerf);
  if (grown === undefined) return undefined;
  const second = onItsBox(outline);
  const shiftWith = (lean: Lean) => longestWay(flattened(grown, lean), flattened(second, lean));
  const hi = shiftWith('outward');
  if (hi === undefined) return undefined;
  const isExact = isStraight(grown) && isStraight(second);
  const surely = sum(hi, grown.within, second.within);
  const lo = isExact ? hi : minus(shiftWith('inward') ?? hi, sum(grown.within, second.within));
  // The second never begins before the first does: the blank would be no shorter.
  const least = compareRationals(surely, rational(0n)) < 0 ? millimetres(rational(0n)) : surely;
  const length = roundToStep(sum(own, least), step, 'up');
  const apart = sum(scaled(roundToStep(own, step, 'up'), rational(2n)), kerf);
  const saved = minus(apart, length);
  return saved.numerator > 0n ? { shift: { lo, hi: surely }, length, saved } : undefined;
}

/** Turned half round in the box that it has. */
function onItsBox(outline: Outline): Outline {
  const there = turned(outline, 180);
  const { left, bottom } = boxOf(outline);
  const [x, y] = [left.lo, bottom.lo];
  return x.numerator === 0n && y.numerator === 0n ? there : laid(there, shiftBy({ x, y }));
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
