import { equal, minus } from '../../measure/index.ts';
import { type Length, type NonEmpty, type StandingPart, type Way, ways } from '../../model/index.ts';
import type { Facets, Lean } from '../flatten.ts';
import {
  facetsOf,
  isShaped,
  outlineIn,
  type Plane,
  type Prism,
  planeAcross,
  rectangleIn,
  type Shaped,
} from './prism.ts';

/**
 * All that a piece takes up: what its prisms, which stand in one block, have in common.
 *
 *    as it is seen from its good side        from above, between two mitres
 *       ┌──────╭──╮──────┐                      ╲────────────────╱
 *       │      │  │      │            and        ╲──────────────╱
 *       └──────┴──┴──────┘
 */
export type Body = NonEmpty<Prism>;

/** What of a piece tells its body. */
export type Piece = Pick<StandingPart, 'block' | 'stance' | 'size' | 'outline' | 'profile'>;

const known = new WeakMap<Piece, Body>();

export function bodyOf(piece: Piece): Body {
  if (piece.profile === undefined) return [piece];
  const body = known.get(piece) ?? profiled(piece, piece.profile);
  known.set(piece, body);
  return body;
}

/** A piece that lies slanted or is bent doesn't fill its block with its outline; one that is only bevelled does. */
function profiled(piece: Piece, { along, outline, panels }: NonNullable<Piece['profile']>): Body {
  const { block } = piece;
  const { right, up } = planeAcross(along);
  const profile: Prism = { block, stance: { length: right, width: up, thickness: along }, outline, panels };
  const face: Prism = { block, stance: piece.stance, outline: piece.outline };
  if (!standsUpright(piece) || !isShaped(face)) return [profile];
  return isShaped(profile) ? [face, profile] : [face];
}

/** True where each of a piece's sizes runs along one way: it neither slopes nor bends. */
function standsUpright({ block, stance, size }: Pick<Piece, 'block' | 'stance' | 'size'>): boolean {
  return equal(minus(block.high[stance.thickness], block.low[stance.thickness]), size.thickness);
}

/** Those of its prisms that are less than their block: none, where it fills it. */
export function shapesOf(body: Body): readonly Shaped[] {
  return body.filter(isShaped);
}

/** The one of its prisms that is seen in outline along a way. */
export function shapeAlong(body: Body, way: Way): Shaped | undefined {
  return shapesOf(body).find(({ stance }) => stance.thickness === way);
}

/** All of it as it is seen in a plane. */
export function shadowOf(body: Body, plane: Plane, lean: Lean, off?: Length): Facets {
  const way = ways.find((it) => it !== plane.right && it !== plane.up) ?? 'up';
  const shape = shapeAlong(body, way);
  return shape === undefined
    ? rectangleIn(body[0].block, plane)
    : facetsOf(outlineIn(shape, plane), lean, off);
}

/** True for a piece whose block is all that it takes up. */
export function fillsItsBlock(piece: Piece): boolean {
  return piece.profile === undefined ? !isShaped(piece) : shapesOf(bodyOf(piece)).length === 0;
}
