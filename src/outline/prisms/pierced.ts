import { compare, compareRationals } from '../../measure/index.ts';
import type { Way } from '../../model/index.ts';
import type { Facets, Lean } from '../flatten.ts';
import { middle } from '../vector.ts';
import type { Body } from './body.ts';
import { patchesOf } from './patches.ts';
import { type Plane, planeAcross } from './prism.ts';
import { type Edge, edgesToward, facesSeen, loopsBehind, stripLaid } from './strip.ts';
import { isPierced } from './zones.ts';

/**
 * What slopes or is folded, as it is seen squarely from one end: the face that it has there, and what is cut out of it.
 *
 *      ┌──────┐
 *      │ ╭──╮ │      undefined where nothing is cut into it, where it is seen in outline that way, or where only an
 *      └─┴──┴─┘      edge comes up to there
 */
export function faceAtEnd(body: Body, way: Way, end: 'low' | 'high'): ((lean: Lean) => Facets) | undefined {
  const shape = body.find(isPierced);
  if (shape === undefined || shape.stance.thickness === way) return undefined;
  const faces = patchesOf(body, way, end).filter(({ at }) => compare(at, shape.block[end][way]) === 0);
  if (faces.length === 0) return undefined;
  return (lean) => faces.flatMap(({ left }) => left?.facets(lean) ?? []);
}

/** What of it is behind that: seen the other way, all that looks to the other end. */
export function restBehind(body: Body, way: Way, end: 'low' | 'high', lean: Lean): Facets {
  const shape = body.find(isPierced);
  return shape === undefined
    ? []
    : facesSeen(shape, way, end === 'low' ? 'high' : 'low', planeAcross(way), lean);
}

/**
 * As it is drawn: the nearest of its faces, in the plane in which they are seen, each with what is cut out of it.
 * undefined where nothing is cut into it, or where it is seen in outline that way.
 */
export function facesDrawn(body: Body, way: Way, end: 'low' | 'high', plane: Plane): Facets | undefined {
  const shape = body.find(isPierced);
  if (shape === undefined || shape.stance.thickness === way) return undefined;
  const own = planeAcross(shape.stance.thickness);
  const [axis, depth] = own.right === way ? (['y', 'x'] as const) : (['x', 'y'] as const);
  const beside = own.right === way ? own.up : own.right;
  const nearest = [...edgesToward(shape, way, end)].sort((a, b) => {
    const order = compareRationals(middle(b.from, b.to)[depth], middle(a.from, a.to)[depth]);
    return end === 'high' ? order : -order;
  });
  const drawn: Edge[] = [];
  return nearest.flatMap((edge): Facets => {
    const isHidden = drawn.some(
      (it) =>
        compareRationals(it.from[axis], edge.from[axis]) <= 0 &&
        compareRationals(edge.to[axis], it.to[axis]) <= 0,
    );
    drawn.push(edge);
    return isHidden
      ? []
      : stripLaid(loopsBehind(shape, edge), { from: edge.from[axis], to: edge.to[axis] }, beside, plane);
  });
}
