import {
  absolute,
  add,
  compareRationals,
  larger,
  millimetres,
  minus,
  multiply,
  rational,
  smaller,
  subtract,
  zero,
} from '../../measure/index.ts';
import {
  type Block,
  type ByWay,
  type Length,
  type Outline,
  type Point,
  type Rational,
  type Way,
  ways,
} from '../../model/index.ts';
import { type Lean, mostOff } from '../flatten.ts';
import { laid } from '../makers/turned.ts';
import { type Answer, isStraight } from '../sharing.ts';
import { heightAt, type Layer, slices } from '../slabs.ts';
import { half, point } from '../vector.ts';
import { type Body, shapeAlong } from './body.ts';
import { boxesRound, cellsShared, isCutAslant, isExactBody, isMoreThan, offOf } from './cells.ts';
import { hullOf } from './hull.ts';
import { facetsOf, outlineIn, type Plane, planeAcross, rectangleIn } from './prism.ts';
import { tracedAlike } from './traced.ts';
import { answered } from './verdict.ts';

/** The space that two bodies share: surely, surely not, or less than 0.01 mm of a curve tells. */
export interface SharedSpace {
  readonly answer: Answer;
  /** How far it goes at most, each way: so far one of the two would have to give there. */
  readonly size: () => ByWay<Length>;
}

/**
 * Whether two bodies take up the same space; for a pair whose blocks do. Each is looked at along the ways in which
 * it, or the other, is seen in outline.
 *
 *   along one way: what their outlines       along two: at each place of the third way something within
 *   share in that plane                      the one outline, and something within the other
 *      ┌──────╮                                  ┌────╮
 *      │   ╭──┼──╮                           ┌───┼────┼──┐ the other, on edge
 *      └───┼──╯  │                           └───┼────┼──┘
 *          └─────┘
 */
export function sharedSpace(a: Body, b: Body): SharedSpace {
  const block = sharedBlock(a, b);
  const whole = () => byWay((way) => minus(block.high[way], block.low[way]));
  const seen = ways.filter((way) => shapeAlong(a, way) !== undefined || shapeAlong(b, way) !== undefined);
  if (seen.length === 0) return { answer: 'yes', size: whole };
  const met = seen.map((way, i) => metAlong(way, planeFor(way, seen, i), a, b));
  const answer = () => {
    const views = met.map(viewOf);
    const isExact = views.every(({ outlines }) => outlines.every(isStraight));
    return answered(isExact, (lean, off) => isMore(sharedIn(views, block, lean, off), views));
  };
  const found = { answer: once(met, answer), size: () => sizeShared(met.map(viewOf), block, whole()) };
  return found.answer !== 'no' && [a, b].some(isCutAslant) ? sharedCells(a, b, block, found.size) : found;
}

/**
 * Of bodies that share space when they are taken for whole, though something is cut into one that slopes or is
 * folded: its holes are square to no way that anything is looked along, so both are taken to pieces.
 */
function sharedCells(a: Body, b: Body, block: Block, most: SharedSpace['size']): SharedSpace {
  const slip = add(offOf(a), offOf(b));
  const cells = (lean: Lean, off: Length) => cellsShared(a, b, block, lean, off);
  const answer = answered([a, b].every(isExactBody), (lean, off) => isMoreThan(slip, cells(lean, off)));
  const size = () => {
    const inward = [...cells('inward', mostOff)];
    const boxes = boxesRound(inward.length > 0 ? inward : [...cells('outward', mostOff)]);
    return boxes.map((box) => leastOfBoth(sizeOfBox(box), most())).reduce(deeper);
  };
  return { answer, size };
}

function sizeOfBox({ low, high }: ReturnType<typeof boxesRound>[number]): ByWay<Length> {
  return byWay((way) => millimetres(subtract(high[way], low[way])));
}

function leastOfBoth(a: ByWay<Length>, b: ByWay<Length>): ByWay<Length> {
  return byWay((way) => smaller(a[way], b[way]));
}

/** The one of which more would have to give. */
function deeper(a: ByWay<Length>, b: ByWay<Length>): ByWay<Length> {
  const [one, other] = [a, b].map((size) => ways.map((way) => size[way]).reduce(smaller));
  return compareRationals(one ?? zero, other ?? zero) >= 0 ? a : b;
}

const answers = new WeakMap<Outline, WeakMap<Outline, Answer>>();

/** Two outlines that are all that tells are looked at once, however many pieces stand there one behind the other. */
function once([met, ...others]: readonly Met[], find: () => Answer): Answer {
  const [one, other] = met?.outlines ?? [];
  if (one === undefined || other === undefined || others.length > 0) return find();
  const known = answers.get(one) ?? new WeakMap<Outline, Answer>();
  answers.set(one, known);
  const answer = known.get(other) ?? find();
  known.set(other, answer);
  return answer;
}

function sizeShared(views: readonly View[], block: Block, whole: ByWay<Length>): ByWay<Length> {
  const found = (lean: Lean) => [...sharedIn(views, block, lean, mostOff)];
  const inward = found('inward');
  const box = sizeOf(views, inward.length > 0 ? inward : found('outward'), whole);
  const [view] = views;
  return view === undefined || views.length > 1 ? box : depthsIn(view, block, box);
}

/**
 * What bodies that are seen along one way only share may lie slanted: then it is less deep than the box round it.
 *
 *      ┬ ╱ ╱         deep up
 *      ┴╱ ╱          the box goes from its lowest to its highest point
 *      ╱ ╱
 */
function depthsIn(view: View, block: Block, box: ByWay<Length>): ByWay<Length> {
  const { right, up } = view.plane;
  const turned = { ...view, plane: { right: up, up: right }, outlines: view.outlines.map(swapped) };
  return {
    ...box,
    [up]: smaller(box[up], deepest([...layersOf(view, block, 'outward', mostOff)])),
    [right]: smaller(box[right], deepest([...layersOf(turned, block, 'outward', mostOff)])),
  };
}

/** The highest of some layers. */
function deepest(layers: readonly Layer[]): Length {
  const heights = layers.flatMap(({ from, to, below, above }) =>
    [from, to].map((at) => millimetres(subtract(heightAt(above, at), heightAt(below, at)))),
  );
  return heights.reduce(larger, zero);
}

function swapped(outline: Outline): Outline {
  return laid(outline, { move: ({ x, y }) => ({ x: y, y: x }), swapsHands: true });
}

/** Two bodies as they are seen along one way. */
interface Met {
  readonly plane: Plane;
  /** At least one: a body that has none there is seen as its block. */
  readonly outlines: readonly [Outline | undefined, Outline | undefined];
}

function metAlong(way: Way, plane: Plane, a: Body, b: Body): Met {
  const there = (body: Body) => {
    const shape = shapeAlong(body, way);
    return shape && outlineIn(shape, plane);
  };
  return { plane, outlines: [there(a), there(b)] };
}

/** The same, with what they were traced from alike in both. */
interface View {
  readonly plane: Plane;
  readonly outlines: readonly Outline[];
  /** How far points of the outlines may be off: a border so wide is nothing. */
  readonly off: Rational;
}

function viewOf({ plane, outlines: met }: Met): View {
  const outlines = tracedAlike(...met).filter((it) => it !== undefined);
  const off = outlines.reduce<Rational>((sum, { within }) => add(sum, within), rational(0n));
  return { plane, outlines, off };
}

/** Of two and more views, all but the last run along the way that the first two have in common. */
function planeFor(way: Way, seen: readonly Way[], index: number): Plane {
  const [first, second] = seen;
  if (first === undefined || second === undefined || index > 1) return planeAcross(way);
  const common = ways.find((it) => it !== first && it !== second) ?? 'up';
  return { right: common, up: way === first ? second : first };
}

/** A piece of what is shared, as a layer in each of the views. */
type Shared = readonly SharedLayer[];

interface SharedLayer extends Layer {
  readonly area: Rational;
}

function* sharedIn(views: readonly View[], block: Block, lean: Lean, off: Length): Generator<Shared> {
  const layersIn = (view: View) => layersOf(view, block, lean, off);
  const [first, second, third] = views;
  if (first === undefined) return;
  if (second === undefined) {
    for (const layer of layersIn(first)) yield [layer];
    return;
  }
  const pairs = meeting([...layersIn(first)], [...layersIn(second)]);
  if (third === undefined) yield* pairs;
  else yield* throughAll(pairs, [...layersIn(third)]);
}

function* layersOf({ plane, outlines }: View, block: Block, lean: Lean, off: Length): Generator<SharedLayer> {
  const [one, other] = outlines.map((it) => facetsOf(it, lean, off));
  if (one === undefined) return;
  for (const it of slices(one, other ?? rectangleIn(block, plane))) {
    if (it.isInFirst && it.isInSecond && it.area.numerator > 0n) yield it;
  }
}

/** Pairs of layers that lie at the same places, each cut down to those. */
function meeting(all: readonly SharedLayer[], others: readonly SharedLayer[]): readonly Shared[] {
  const found: Shared[] = [];
  let first = 0;
  // Both come slab by slab, from the left.
  for (const one of all) {
    while (first < others.length && compareRationals(others[first]!.to, one.from) <= 0) first++;
    for (let i = first; i < others.length && compareRationals(others[i]!.from, one.to) < 0; i++) {
      const other = others[i]!; // within
      const from = compareRationals(one.from, other.from) >= 0 ? one.from : other.from;
      const to = compareRationals(one.to, other.to) <= 0 ? one.to : other.to;
      if (compareRationals(from, to) < 0) found.push([cutTo(one, from, to), cutTo(other, from, to)]);
    }
  }
  return found;
}

function cutTo(layer: SharedLayer, from: Rational, to: Rational): SharedLayer {
  const middle = multiply(add(from, to), half);
  const height = subtract(heightAt(layer.above, middle), heightAt(layer.below, middle));
  return { ...layer, from, to, area: multiply(subtract(to, from), height) };
}

/**
 * What a pair of layers has in common is bounded by planes and hollow nowhere: it goes through a third outline
 * where its shadow, the hull of its corners, lies over some of it.
 *
 *      ╱▔▔▔▔╲
 *     ╱   ┌──╲───┐ the third, seen along its own way
 *     ╲___│__╱   │
 *         └──────┘
 */
function* throughAll(pairs: readonly Shared[], third: readonly SharedLayer[]): Generator<Shared> {
  const through = third.map(cornersOf);
  for (const [one, other] of pairs) {
    if (one === undefined || other === undefined) continue;
    // In the plane across the third way the second lies along the right, the first up: planeAcross('up').
    for (const it of slices([hullOf(shadowOf(one, other))], through)) {
      if (it.isInFirst && it.isInSecond && it.area.numerator > 0n) yield [one, other, it];
    }
  }
}

function shadowOf(one: Layer, other: Layer): readonly Point[] {
  return [one.from, one.to].flatMap((at) =>
    [other.below, other.above].flatMap((right) =>
      [one.below, one.above].map((up) => point(heightAt(right, at), heightAt(up, at))),
    ),
  );
}

function cornersOf({ from, to, below, above }: Layer): readonly Point[] {
  const corners = [
    point(from, heightAt(below, from)),
    point(to, heightAt(below, to)),
    point(to, heightAt(above, to)),
    point(from, heightAt(above, from)),
  ];
  return hullOf(corners);
}

/** True where each view shows more than a border as wide as points of its outlines may be off. */
function isMore(all: Iterable<Shared>, views: readonly View[]): boolean {
  if (views.every(({ off }) => off.numerator === 0n)) {
    for (const _ of all) return true;
    return false;
  }
  const found = [...all];
  return views.every(({ off }, i) => {
    const layers = found.map((it) => it[i]!); // a layer for each view
    const area = layers.reduce<Rational>((sum, it) => add(sum, it.area), rational(0n));
    return area.numerator > 0n && compareRationals(area, multiply(off, roundOf(layers))) > 0;
  });
}

/**
 * About how far it is round some layers: along the edges above and below them, and up and down where a slab begins
 * higher or lower than the one before it ends.
 */
function roundOf(layers: readonly SharedLayer[]): Rational {
  const upAt = new Map<string, Rational>();
  let round = rational(0n);
  for (const { from, to, below, above } of layers) {
    for (const edge of [below, above]) {
      round = add(
        round,
        add(subtract(to, from), absolute(subtract(heightAt(edge, to), heightAt(edge, from)))),
      );
    }
    for (const [at, sign] of [
      [from, 1n],
      [to, -1n],
    ] as const) {
      const key = `${at.numerator}/${at.denominator}`;
      const height = multiply(rational(sign), subtract(heightAt(above, at), heightAt(below, at)));
      upAt.set(key, add(upAt.get(key) ?? rational(0n), height));
    }
  }
  return [...upAt.values()].reduce<Rational>((sum, it) => add(sum, absolute(it)), round);
}

/** The box round what is shared. */
function sizeOf(views: readonly View[], all: readonly Shared[], whole: ByWay<Length>): ByWay<Length> {
  if (all.length === 0) return whole;
  const size = { ...whole };
  for (const [i, { plane }] of views.entries()) {
    const layers = all.map((it) => it[i]!); // a layer for each view
    const heights = (side: 'below' | 'above') =>
      layers.flatMap((it) => [it.from, it.to].map((x) => millimetres(heightAt(it[side], x))));
    const left = layers.map(({ from }) => millimetres(from)).reduce(smaller);
    const right = layers.map(({ to }) => millimetres(to)).reduce(larger);
    size[plane.right] = minus(right, left);
    size[plane.up] = minus(heights('above').reduce(larger), heights('below').reduce(smaller));
  }
  return size;
}

function sharedBlock([{ block: a }]: Body, [{ block: b }]: Body): Block {
  return {
    low: byWay((way) => larger(a.low[way], b.low[way])),
    high: byWay((way) => smaller(a.high[way], b.high[way])),
  };
}

function byWay<T>(give: (way: Way) => T): ByWay<T> {
  return { across: give('across'), along: give('along'), up: give('up') };
}
