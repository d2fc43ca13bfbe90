import {
  add,
  compareRationals,
  larger,
  millimetres,
  minus,
  multiply,
  rational,
  smaller,
} from '../../measure/index.ts';
import { type ByWay, type Length, type Outline, type Rational, type Way, ways } from '../../model/index.ts';
import { type Facets, type Lean, mostOff } from '../flatten.ts';
import { perimeterOf } from '../perimeter.ts';
import { type Answer, isStraight } from '../sharing.ts';
import { heightAt, type Layer, slices } from '../slabs.ts';
import {
  facetsOf,
  isShaped,
  outlineIn,
  type Plane,
  type Prism,
  planeAcross,
  rectangleIn,
  shadowOf,
} from './prism.ts';
import { tracedAlike } from './traced.ts';
import { answered } from './verdict.ts';

/** The space that two prisms share: surely, surely not, or less than 0.01 mm of a curve tells. */
export interface SharedSpace {
  readonly answer: Answer;
  /** How large the box round it is, each way. */
  readonly size: () => ByWay<Length>;
}

/**
 * Whether two prisms take up the same space; for a pair whose blocks do.
 *
 *   one behind the other           across each other: seen along the way that both run,
 *   in one plane:                  each place of it that has some of the one within the
 *      ┌──────╮                    other's thickness, and some of the other within its own
 *      │   ╭──┼──╮                     ┌────╮
 *      └───┼──╯  │                 ┌───┼────┼──┐ the other, on edge
 *          └─────┘                 └───┼────┼──┘
 */
export function sharedSpace(a: Prism, b: Prism): SharedSpace {
  const block = sharedBlock(a, b);
  const whole = () => byWay((way) => minus(block.high[way], block.low[way]));
  if (!isShaped(a) && !isShaped(b)) return { answer: 'yes', size: whole };
  const finder = a.stance.thickness === b.stance.thickness ? inOnePlane(a, b) : acrossEachOther(a, b);
  return { answer: finder.answer, size: () => finder.size(whole()) };
}

interface Finder {
  readonly answer: Answer;
  readonly size: (whole: ByWay<Length>) => ByWay<Length>;
}

function inOnePlane(a: Prism, b: Prism): Finder {
  const plane = planeAcross(a.stance.thickness);
  const [one, other] = tracedAlike(lyingIn(a, plane), lyingIn(b, plane));
  const isExact = [one, other].every((it) => it === undefined || isStraight(it));
  const seen = (lean: Lean, off: Length) =>
    shared(
      one === undefined ? rectangleIn(a.block, plane) : facetsOf(one, lean, off),
      other === undefined ? rectangleIn(b.block, plane) : facetsOf(other, lean, off),
    );
  const least = leastArea([one, other]);
  return {
    answer: answered(isExact, (lean, off) => hasMore(seen(lean, off), least)),
    size: (whole) => {
      const found = [...seen('inward', mostOff)];
      const box = boxOfLayers(found.length > 0 ? found : [...seen('outward', mostOff)]);
      return box === undefined ? whole : { ...whole, [plane.right]: box.right, [plane.up]: box.up };
    },
  };
}

function lyingIn(prism: Prism, plane: Plane): Outline | undefined {
  return isShaped(prism) ? outlineIn(prism, plane) : undefined;
}

function acrossEachOther(a: Prism, b: Prism): Finder {
  // Both run the third way: neither's thickness.
  const common = ways.find((way) => way !== a.stance.thickness && way !== b.stance.thickness) ?? 'up';
  const [ofA, ofB] = [a, b].map((it): Plane => {
    const other = it === a ? b : a;
    return { right: common, up: other.stance.thickness };
  }) as [Plane, Plane]; // two of two
  const seen = (lean: Lean, off: Length): readonly (readonly [Layer, Layer])[] => {
    const inA = [...shared(shadowOf(a, ofA, lean, off), rectangleIn(b.block, ofA))];
    const inB = [...shared(shadowOf(b, ofB, lean, off), rectangleIn(a.block, ofB))];
    return meeting(inA, inB);
  };
  const outlines = [a, b].map((it) => it.outline);
  const isExact = outlines.every((it) => it === undefined || isStraight(it));
  return {
    answer: answered(isExact, (lean, off) => seen(lean, off).length > 0),
    size: (whole) => {
      const pairs = seen('inward', mostOff);
      const found = pairs.length > 0 ? pairs : seen('outward', mostOff);
      const [boxA, boxB] = [boxOfLayers(found.map(([it]) => it)), boxOfLayers(found.map(([, it]) => it))];
      if (boxA === undefined || boxB === undefined) return whole;
      return { ...whole, [common]: boxA.right, [ofA.up]: boxA.up, [ofB.up]: boxB.up };
    },
  };
}

/** Pairs of layers that lie at the same places, each cut down to those. */
function meeting(all: readonly Layer[], others: readonly Layer[]): readonly (readonly [Layer, Layer])[] {
  const found: (readonly [Layer, Layer])[] = [];
  let first = 0;
  // Both come slab by slab, from the left.
  for (const one of all) {
    while (first < others.length && compareRationals(others[first]!.to, one.from) <= 0) first++;
    for (let i = first; i < others.length && compareRationals(others[i]!.from, one.to) < 0; i++) {
      const other = others[i]!; // within
      const from = compareRationals(one.from, other.from) >= 0 ? one.from : other.from;
      const to = compareRationals(one.to, other.to) <= 0 ? one.to : other.to;
      if (compareRationals(from, to) < 0)
        found.push([
          { ...one, from, to },
          { ...other, from, to },
        ]);
    }
  }
  return found;
}

interface SharedLayer extends Layer {
  readonly area: Rational;
}

function* shared(a: Facets, b: Facets): Generator<SharedLayer> {
  for (const it of slices(a, b)) if (it.isInFirst && it.isInSecond && it.area.numerator > 0n) yield it;
}

/** More than a border as wide as points of the two may be off. */
function leastArea(outlines: readonly (Outline | undefined)[]): Rational {
  const rounded = outlines.filter((it) => it !== undefined && it.within.numerator > 0n) as Outline[]; // just looked
  if (rounded.length === 0) return rational(0n);
  const off = rounded.reduce((sum, { within }) => add(sum, within), rational(0n));
  const round = outlines.reduce(
    (sum, it) => (it === undefined ? sum : add(sum, perimeterOf(it).hi)),
    rational(0n),
  );
  return multiply(off, round);
}

function hasMore(all: Iterable<SharedLayer>, least: Rational): boolean {
  let area = rational(0n);
  for (const it of all) {
    area = add(area, it.area);
    if (compareRationals(area, least) > 0) return true;
  }
  return false;
}

/** How far layers reach to the right and up. */
function boxOfLayers(layers: readonly Layer[]): { readonly right: Length; readonly up: Length } | undefined {
  const [first] = layers;
  if (first === undefined) return undefined;
  const heights = (side: 'below' | 'above') =>
    layers.flatMap((it) => [it.from, it.to].map((x) => millimetres(heightAt(it[side], x))));
  const low = heights('below').reduce(smaller);
  const high = heights('above').reduce(larger);
  const left = layers.map(({ from }) => millimetres(from)).reduce(smaller);
  const right = layers.map(({ to }) => millimetres(to)).reduce(larger);
  return { right: minus(right, left), up: minus(high, low) };
}

function sharedBlock({ block: a }: Prism, { block: b }: Prism) {
  return {
    low: byWay((way) => larger(a.low[way], b.low[way])),
    high: byWay((way) => smaller(a.high[way], b.high[way])),
  };
}

function byWay<T>(give: (way: Way) => T): ByWay<T> {
  return { across: give('across'), along: give('along'), up: give('up') };
}
