import { compare } from '../../measure/index.ts';
import type { Way } from '../../model/index.ts';
import type { Facets, Lean } from '../flatten.ts';
import type { Body } from './body.ts';
import { patchesOf } from './patches.ts';
import { planeAcross } from './prism.ts';
import { facesSeen } from './strip.ts';
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
