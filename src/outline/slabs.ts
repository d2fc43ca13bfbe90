import {
  add,
  compareRationals,
  divide,
  equal,
  heightOnLine,
  inOrder,
  type LooseFraction,
  multiply,
  rational,
  subtract,
} from '../measure/index.ts';
import type { Point, Rational } from '../model/index.ts';
import type { Facets } from './flatten.ts';
import { cross, half, less, sideOf } from './vector.ts';

/**
 * Exact areas of what two straight-sided shapes share or don't. Upright lines through every vertex and every
 * crossing cut both into slabs, in which no edge begins, ends or crosses another:
 *
 *       │  ╱│╲ │
 *       │ ╱ │ ╲│       so between two edges, one above the other, lies a trapezium
 *       │╱──│──│
 *
 * Nothing is rounded and nothing has to be untangled: edges that lie on each other do no harm.
 *
 * @source sweeping a line over the plane, as in Shamos and Hoey (1976); the slabs are the plainest form
 */
export interface Slice extends Layer {
  readonly area: Rational;
  readonly isEmpty: boolean;
  readonly isInFirst: boolean;
  readonly isInSecond: boolean;
}

/** What lies between two edges, one above the other, in one slab. */
export interface Layer {
  readonly from: Rational;
  readonly to: Rational;
  readonly below: Edge;
  readonly above: Edge;
}

/** A slab, and its layers from the bottom; of each, in which of the shapes it lies. */
export interface Slab {
  readonly from: Rational;
  readonly to: Rational;
  readonly layers: readonly SlabLayer[];
}

export interface SlabLayer extends Layer {
  /** In its middle. Worked out when it is asked for: most ask only whether there is any. */
  readonly height: Rational;
  /** True where its edges run along each other, and nothing lies between them. */
  readonly isEmpty: boolean;
  readonly isIn: readonly boolean[];
}

export function* slices(first: Facets, second: Facets): Generator<Slice> {
  for (const { from, to, layers } of slabs([first, second])) {
    for (const layer of layers) {
      const [isInFirst = false, isInSecond = false] = layer.isIn;
      const { below, above, isEmpty } = layer;
      yield {
        from,
        to,
        below,
        above,
        isEmpty,
        isInFirst,
        isInSecond,
        get area() {
          return multiply(subtract(to, from), layer.height);
        },
      };
    }
  }
}

/** All shapes cut into slabs by the same upright lines; of a slab only what lies in some shape. */
export function* slabs(shapes: readonly Facets[]): Generator<Slab> {
  const edges = shapes.flatMap(edgesOf);
  edges.sort((a, b) => compareRationals(a.left.x, b.left.x));
  const cuts = sortedApart([...edges.flatMap(({ left, right }) => [left.x, right.x]), ...crossingsOf(edges)]);
  let next = 0;
  let active: Edge[] = [];
  for (const [i, from] of cuts.entries()) {
    const to = cuts[i + 1];
    if (to === undefined) return;
    active = active.filter(({ right }) => compareRationals(right.x, from) > 0);
    for (
      let edge = edges[next];
      edge !== undefined && compareRationals(edge.left.x, from) <= 0;
      edge = edges[next]
    ) {
      active.push(edge);
      next++;
    }
    yield { from, to, layers: layersOf(active, from, to, shapes.length) };
  }
}

/** How much of a shape's first and second have in common, or the first has alone. */
export function sharedArea(first: Facets, second: Facets): Rational {
  return sumOf(slices(first, second), (it) => it.isInFirst && it.isInSecond);
}

export function areaOutside(first: Facets, second: Facets): Rational {
  return sumOf(slices(first, second), (it) => it.isInFirst && !it.isInSecond);
}

export function hasAny(all: Iterable<Slice>, is: (it: Slice) => boolean): boolean {
  for (const it of all) if (!it.isEmpty && is(it)) return true;
  return false;
}

function sumOf(all: Iterable<Slice>, is: (it: Slice) => boolean): Rational {
  let sum = rational(0n);
  for (const it of all) if (is(it)) sum = add(sum, it.area);
  return sum;
}

export interface Edge {
  readonly left: Point;
  readonly right: Point;
  /** 1 where the material is above it, -1 where it is below. */
  readonly turns: 1 | -1;
  /** Which of the shapes it bounds. */
  readonly of: number;
}

function edgesOf(shape: Facets, of: number): readonly Edge[] {
  return shape.flatMap((loop) =>
    loop.flatMap((from, i): readonly Edge[] => {
      const to = loop[(i + 1) % loop.length]!; // within
      const order = compareRationals(from.x, to.x);
      if (order === 0) return []; // upright: it bounds slabs, not slices
      return order < 0
        ? [{ left: from, right: to, turns: 1, of }]
        : [{ left: to, right: from, turns: -1, of }];
    }),
  );
}

function layersOf(active: readonly Edge[], from: Rational, to: Rational, shapes: number): Slab['layers'] {
  const middle = multiply(add(from, to), half);
  const levels = active
    .map((edge) => ({ edge, y: levelOf(edge, middle) }))
    .sort((a, b) => compareLevels(a.y, b.y));
  const winding = new Array<number>(shapes).fill(0);
  return levels.flatMap(({ edge, y }, i): Slab['layers'] => {
    winding[edge.of]! += edge.turns; // an edge of one of the shapes
    const above = levels[i + 1];
    const isIn = winding.map((turns) => turns > 0);
    if (above === undefined || !isIn.includes(true)) return [];
    const isEmpty = compareLevels(above.y, y) === 0;
    return [
      {
        from,
        to,
        below: edge,
        above: above.edge,
        isEmpty,
        isIn,
        get height() {
          return subtract(inLowestTerms(above.y), inLowestTerms(y));
        },
      },
    ];
  });
}

/** How high an edge is at a place between its ends. */
export function heightAt(edge: Edge, x: Rational): Rational {
  return inLowestTerms(levelOf(edge, x));
}

function levelOf({ left, right }: Edge, x: Rational): LooseFraction {
  if (equal(x, left.x) || equal(left.y, right.y)) return levelAt(left);
  if (equal(x, right.x)) return levelAt(right);
  return heightOnLine(x, left.x, left.y, right.x, right.y);
}

function levelAt({ y }: Point): LooseFraction {
  return { over: y.numerator, under: y.denominator };
}

function compareLevels(a: LooseFraction, b: LooseFraction): number {
  const [one, other] = a.under === b.under ? [a.over, b.over] : [a.over * b.under, b.over * a.under];
  return one < other ? -1 : one > other ? 1 : 0;
}

function inLowestTerms({ over, under }: LooseFraction): Rational {
  return rational(over, under);
}

/** Where edges cross each other between their ends. */
function crossingsOf(edges: readonly Edge[]): readonly Rational[] {
  const found: Rational[] = [];
  const heights = edges.map(({ left, right }) => inOrder(left.y, right.y));
  for (const [i, a] of edges.entries()) {
    const [low, high] = heights[i]!; // of each edge
    for (let j = i + 1; j < edges.length; j++) {
      const b = edges[j]!; // within
      if (compareRationals(b.left.x, a.right.x) >= 0) break; // and so do all after it
      const [lowB, highB] = heights[j]!;
      if (compareRationals(lowB, high) >= 0 || compareRationals(highB, low) <= 0) continue;
      if (doCross(a, b)) found.push(crossingOf(a, b));
    }
  }
  return found;
}

/** Each has its ends to either side of the other. */
function doCross(a: Edge, b: Edge): boolean {
  const areApart = (one: Edge, other: Edge) =>
    sideOf(one.left, one.right, other.left) * sideOf(one.left, one.right, other.right) < 0;
  return areApart(a, b) && areApart(b, a);
}

function crossingOf(a: Edge, b: Edge): Rational {
  const [one, other] = [less(a.right, a.left), less(b.right, b.left)];
  const share = divide(cross(less(b.left, a.left), other), cross(one, other));
  return add(a.left.x, multiply(share, one.x));
}

function sortedApart(all: readonly Rational[]): readonly Rational[] {
  const sorted = [...all].sort(compareRationals);
  return sorted.filter((it, i) => i === 0 || compareRationals(sorted[i - 1]!, it) < 0);
}
