import {
  add,
  compareRationals,
  divide,
  larger,
  millimetres,
  minus,
  multiply,
  rational,
  subtract,
  sum,
  zero,
} from '../measure/index.ts';
import type { Enclosure, Length, Outline, Point, Rational } from '../model/index.ts';
import { type Facets, flattened, mostOff } from './flatten.ts';
import { offset } from './offset.ts';
import { hair, snappedPoint } from './root.ts';
import { isStraight } from './sharing.ts';
import { half } from './vector.ts';

/** Two of one outline side by side in one blank, the one turned half round in its box. */
export interface Pairing {
  /** Which way they lie one after the other; their boxes are flush the other way. */
  readonly along: 'length' | 'width';
  /** Which of them begins at the datum. */
  readonly first: 'as drawn' | 'turned';
  /** How far along the other's box begins: never below 0, where the two boxes are one. */
  readonly shift: Enclosure<Length>;
}

interface Box {
  readonly length: Length;
  readonly width: Length;
}

type Way = Omit<Pairing, 'shift'>;

const ways: readonly Way[] = (['length', 'width'] as const).flatMap((along) =>
  (['as drawn', 'turned'] as const).map((first) => ({ along, first })),
);

/** How far straight edges may be off curves while the best of the ways is chosen. */
const roughly: Length = millimetres(rational(1n, 20n));

/**
 * Lays an outline and its half-turn head to tail, as near as a kerf between them allows, in whichever of the
 * four ways takes the least; undefined where no edge of the kerf's width can be drawn round it.
 *
 *      ┌───────╲ ╲───────┐
 *      │   1    ╲ ╲   2  │      shift: the longest way, on any level, from the right edge of the first
 *      └─────────╲ ╲─────┘      (with the kerf round it) to the left edge of the second
 *
 * No two points of them come nearer than the kerf; a sharp corner keeps a little more.
 *
 * @param box  the part's net size, with the outline on its datum
 */
export function headToTail(outline: Outline, box: Box, kerf: Length): Pairing | undefined {
  const [grown] = kerf.numerator === 0n ? [outline] : offset(outline, kerf);
  if (grown === undefined) return undefined;
  const isExact = isStraight(outline) && isStraight(grown);
  const edgesOf = (lean: 'inward' | 'outward', off: Length): Edges => {
    const own = flattened(outline, lean, off);
    return { own, grown: grown === outline ? own : flattened(grown, lean, off), box, isExact };
  };
  const rough = edgesOf('outward', isExact ? mostOff : roughly);
  let best: { readonly way: Way; readonly area: Rational } | undefined;
  for (const way of ways) {
    const shift = shiftOf(way, rough);
    if (shift === undefined) return undefined;
    const other = way.along === 'length' ? box.width : box.length;
    const area = multiply(sum(box[way.along], larger(zero, shift)), other);
    if (best === undefined || compareRationals(area, best.area) < 0) best = { way, area };
  }
  if (best === undefined) return undefined;
  const { way } = best;
  const surely = shiftOf(way, isExact ? rough : edgesOf('outward', mostOff)) ?? zero;
  const least = isExact ? surely : (shiftOf(way, edgesOf('inward', mostOff)) ?? zero);
  const unsure = isExact ? zero : sum(grown.within, outline.within, hair, hair);
  return {
    ...way,
    shift: { lo: larger(zero, minus(least, unsure)), hi: larger(zero, sum(surely, unsure)) },
  };
}

interface Edges {
  readonly own: Facets;
  /** With the kerf round it. */
  readonly grown: Facets;
  readonly box: Box;
  /** Nothing is rounded then. */
  readonly isExact: boolean;
}

function shiftOf({ along, first }: Way, { own, grown, box, isExact }: Edges): Length | undefined {
  const halfRound = ({ x, y }: Point): Point => ({ x: minus(box.length, x), y: minus(box.width, y) });
  //  What lies one above the other lies one after the other, looked at from the side.
  const fromTheSide = ({ x, y }: Point): Point => ({ x: y, y: minus(zero, x) });
  const asIt = (at: Point): Point => at;
  const place = (isTurned: boolean) => (at: Point) =>
    (along === 'length' ? asIt : fromTheSide)((isTurned ? halfRound : asIt)(at));
  // What was rounded has long numbers, which a hair makes short.
  const short = (at: Point): Point => (isExact ? at : snappedPoint(at));
  const moved = (shape: Facets, move: (at: Point) => Point) =>
    shape.map((loop) => loop.map((at) => short(move(at))));
  const isTurned = first === 'turned';
  return longestWay(moved(grown, place(isTurned)), moved(own, place(!isTurned)));
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
