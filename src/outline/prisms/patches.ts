import { compare, larger, millimetres, smaller, sum, zero } from '../../measure/index.ts';
import {
  type Block,
  type Length,
  type Outline,
  type Point,
  type Segment,
  type Way,
  ways,
} from '../../model/index.ts';
import type { Facets, Lean } from '../flatten.ts';
import { heightAt, slabs } from '../slabs.ts';
import { point } from '../vector.ts';
import { type Body, shapesOf } from './body.ts';
import { facetsOf, outlineIn, type Plane, planeAcross, type Shaped } from './prism.ts';
import { stripLaid, stripLeft } from './strip.ts';
import { squareWallsOf } from './walls.ts';
import { isExactPanel, isPierced, type Pierced } from './zones.ts';

/** A piece of a body's surface that looks one way, to its low or its high end. */
export interface Patch {
  /** How far along that way it lies. */
  readonly at: Length;
  /** The rectangle that it lies in: what it takes up of the two other ways. */
  readonly box: Block;
  /** All that it is of that rectangle; undefined: all. */
  readonly shape: Shaped | undefined;
  /** Of what slopes or is folded: what its cuts leave there, in the plane across that way. */
  readonly left?: Left;
  /** How far it may be off where it should be. */
  readonly within: Length;
}

export interface Left {
  readonly facets: (lean: Lean) => Facets;
  readonly isExact: boolean;
}

type End = 'low' | 'high';

/** All that a body shows squarely that way. */
export function patchesOf(body: Body, way: Way, end: End): readonly Patch[] {
  const [{ block }] = body;
  const [one, other] = shapesOf(body);
  if (one === undefined) return [{ at: block[end][way], box: block, shape: undefined, within: zero }];
  const within = sum(one.outline.within, other?.outline.within ?? zero);
  if (other === undefined && isPierced(one)) return piercedPatches(one, way, end, within);
  if (other === undefined) {
    return one.stance.thickness === way
      ? [{ at: block[end][way], box: block, shape: one, within }]
      : facesOf(one, way, end).map((face) => ({ ...face, shape: undefined, within }));
  }
  const [cap, edged] = one.stance.thickness === way ? [one, other] : [other, one];
  if (cap.stance.thickness === way) {
    return facesOf(edged, way, end).map((face) => ({ ...face, shape: cap, within }));
  }
  return facesOfBoth(one, other, way, end).map((face) => ({ ...face, shape: undefined, within }));
}

/** The faces of panels, each without what is cut out of it; or their sides, and walls of cuts that look as these do. */
function piercedPatches(shape: Pierced, way: Way, end: End, off: Length): readonly Patch[] {
  const { block, stance, panels } = shape;
  const along = stance.thickness;
  const within = sum(off, panels[0]?.outline.within ?? zero);
  const plane = planeAcross(way);
  if (along === way) {
    return squareWallsOf(shape)
      .filter((wall) => wall.end === end)
      .map(({ at, seen }) => ({
        at,
        box: {
          low: withPoint(block.low, plane, leastOf(seen)),
          high: withPoint(block.high, plane, mostOf(seen)),
        },
        shape: undefined,
        left: { facets: () => [seen], isExact: true },
        within,
      }));
  }
  const isExact = panels.every(isExactPanel);
  const beside = ways.find((it) => it !== way && it !== along) ?? way;
  const at = (face: Face, there: Length) =>
    planeAcross(along).right === way ? point(face.at, there) : point(there, face.at);
  return facesOf(shape, way, end).map((face) => {
    const [from, to] = [face.box.low[beside], face.box.high[beside]];
    const edge = { from: at(face, from), to: at(face, to) };
    const facets = (lean: Lean) => stripLaid(stripLeft(shape, edge, lean), { from, to }, beside, plane);
    return { ...face, shape: undefined, left: { facets, isExact }, within };
  });
}

function withPoint(corner: Block['low'], { right, up }: Plane, { x, y }: Point): Block['low'] {
  return { ...corner, [right]: x, [up]: y };
}

function leastOf(points: readonly Point[]): Point {
  return points.reduce((a, b) => ({ x: smaller(a.x, b.x), y: smaller(a.y, b.y) }));
}

function mostOf(points: readonly Point[]): Point {
  return points.reduce((a, b) => ({ x: larger(a.x, b.x), y: larger(a.y, b.y) }));
}

interface Face {
  readonly at: Length;
  readonly box: Block;
}

/** The straight edges of a shape that look that way, as wide as it is thick. */
function facesOf({ block, stance, outline }: Shaped, way: Way, end: End): readonly Face[] {
  return squareEdgesOf(outline)
    .filter((edge) => (edge.looks === 'x' ? stance.length : stance.width) === way && edge.end === end)
    .map(({ looks, at, from, to }): Face => {
      const along = looks === 'x' ? stance.width : stance.length;
      const low = { ...block.low, [along]: sum(block.low[along], from) };
      const high = { ...block.high, [along]: sum(block.low[along], to) };
      return { at: sum(block.low[way], at), box: { low, high } };
    });
}

/** Of a body that is seen in outline along the two other ways: the edges of each, as far as the other goes there. */
function facesOfBoth(one: Shaped, other: Shaped, way: Way, end: End): readonly Face[] {
  const [inside, outside] = end === 'high' ? (['below', 'above'] as const) : (['above', 'below'] as const);
  const first = facesOf(one, way, end).flatMap((face) => cutDown(face, other, way, inside));
  const second = facesOf(other, way, end).flatMap((face) => cutDown(face, one, way, inside));
  // Where both end at one place, that is the one's edge already.
  return [...first, ...second.flatMap((face) => cutDown(face, one, way, outside))];
}

function cutDown({ at, box }: Face, by: Shaped, way: Way, side: 'below' | 'above'): readonly Face[] {
  const along = ways.find((it) => it !== way && it !== by.stance.thickness) ?? way;
  return stretchesAt(by, { right: way, up: along }, at, side).flatMap(([low, high]): readonly Face[] => {
    const [from, to] = [larger(box.low[along], low), smaller(box.high[along], high)];
    if (compare(from, to) >= 0) return [];
    return [{ at, box: { low: { ...box.low, [along]: from }, high: { ...box.high, [along]: to } } }];
  });
}

/** What a shape has just below or just above a place along the right; of curves to within 0.01 mm. */
export function stretchesAt(
  shape: Shaped,
  plane: Plane,
  at: Length,
  side: 'below' | 'above',
): readonly (readonly [Length, Length])[] {
  for (const { from, to, layers } of slabs([facetsOf(outlineIn(shape, plane), 'along')])) {
    const [isFromBefore, isToAfter] = [compare(millimetres(from), at), compare(millimetres(to), at)];
    const isHere = side === 'below' ? isFromBefore < 0 && isToAfter >= 0 : isFromBefore <= 0 && isToAfter > 0;
    if (!isHere) continue;
    return layers
      .filter(({ height }) => height.numerator > 0n)
      .map(({ below, above }) => [millimetres(heightAt(below, at)), millimetres(heightAt(above, at))]);
  }
  return [];
}

/** A straight edge along one side of the drawing. */
interface SquareEdge {
  readonly looks: 'x' | 'y';
  readonly end: End;
  readonly at: Length;
  readonly from: Length;
  readonly to: Length;
}

const known = new WeakMap<Outline, readonly SquareEdge[]>();

function squareEdgesOf(outline: Outline): readonly SquareEdge[] {
  const found = known.get(outline) ?? [outline.rim, ...outline.holes].flat().flatMap(squareEdge);
  known.set(outline, found);
  return found;
}

//  The material lies to the left of travel: an edge that goes up looks right, one that goes right looks down.
function squareEdge(it: Segment): readonly SquareEdge[] {
  const { from, to } = it;
  for (const [looks, along] of [
    ['x', 'y'],
    ['y', 'x'],
  ] as const) {
    if (!lies(it, looks)) continue;
    const forth = compare(from[along], to[along]);
    if (forth === 0) return [];
    const isHigh = looks === 'x' ? forth < 0 : forth > 0;
    const [low, high] = forth < 0 ? [from[along], to[along]] : [to[along], from[along]];
    return [{ looks, end: isHigh ? 'high' : 'low', at: from[looks], from: low, to: high }];
  }
  return [];
}

/** True where all of a segment lies at one place that way. */
function lies(it: Segment, axis: 'x' | 'y'): boolean {
  if (it.kind === 'arc') return false;
  const points = it.kind === 'curve' ? [it.leaving, it.arriving, it.to] : [it.to];
  return points.every((at) => compare(at[axis], it.from[axis]) === 0);
}
