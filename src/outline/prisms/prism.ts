import { compare, minus, toFraction } from '../../measure/index.ts';
import type { Block, Length, Outline, Panel, Stance, Way } from '../../model/index.ts';
import { type Facets, flattened, type Lean, mostOff } from '../flatten.ts';
import type { Motion } from '../loop.ts';
import { laid } from '../makers/turned.ts';
import { coarse, coarseHair, fine, hair, snappedPoint } from '../root.ts';
import { plus, point } from '../vector.ts';

/**
 * A flat part where it stands: its outline, as thick as the part, in the block that it takes up.
 *
 *        width ↑ ┌───╮
 *              ╱ │   │╲
 *              │ └───┴─→ length
 *              └───┴──┘    thickness
 */
export interface Prism {
  readonly block: Block;
  readonly stance: Stance;
  /** x from the block's low end the way of its length, y the way of its width; absent: all of the block. */
  readonly outline?: Outline | undefined;
  /** Where it is the profile of what slopes or is folded: its flat pieces, if something is cut into them. */
  readonly panels?: readonly Panel[] | undefined;
}

/** Two ways, seen with the first to the right and the second up. */
export interface Plane {
  readonly right: Way;
  readonly up: Way;
}

/** A prism that is less than its block. */
export type Shaped = Prism & { readonly outline: Outline };

export function isShaped<P extends Prism>(prism: P): prism is P & Shaped {
  return prism.outline !== undefined && !isRectangle(prism.outline);
}

const rectangles = new WeakMap<Outline, boolean>();

/** An upright rectangle without holes. */
function isRectangle(outline: Outline): boolean {
  const known = rectangles.get(outline);
  if (known !== undefined) return known;
  const { rim, holes } = outline;
  const isUpright = rim.every(
    ({ kind, from, to }) => kind === 'line' && (compare(from.x, to.x) === 0 || compare(from.y, to.y) === 0),
  );
  const found = holes.length === 0 && rim.length === 4 && isUpright;
  rectangles.set(outline, found);
  return found;
}

/** How long it is that way. */
export function spanOf({ block }: Prism, way: Way): Length {
  return minus(block.high[way], block.low[way]);
}

const lain = new WeakMap<Outline, Map<string, Outline>>();

/** Its outline where it lies in a plane across its thickness; the same one for equal parts one behind the other. */
export function outlineIn({ block, stance, outline }: Shaped, plane: Plane): Outline {
  const shift = point(block.low[plane.right], block.low[plane.up]);
  const isSwapped = stance.length !== plane.right;
  const key = `${isSwapped} ${toFraction(shift.x)} ${toFraction(shift.y)}`;
  const known = lain.get(outline) ?? new Map<string, Outline>();
  lain.set(outline, known);
  const motion: Motion = {
    move: ({ x, y }) => plus(isSwapped ? { x: y, y: x } : { x, y }, shift),
    swapsHands: isSwapped,
  };
  const there = known.get(key) ?? laid(outline, motion);
  known.set(key, there);
  return there;
}

const flat = new WeakMap<Outline, Map<string, Facets>>();

/** An outline's facets, worked out once. */
export function facetsOf(outline: Outline, lean: Lean, off: Length = mostOff): Facets {
  const key = `${lean} ${toFraction(off)}`;
  const known = flat.get(outline) ?? new Map<string, Facets>();
  flat.set(outline, known);
  const facets = known.get(key) ?? shortened(flattened(outline, lean, off), outline);
  known.set(key, facets);
  return facets;
}

/** Where points may be off anyway, the next ones with short figures are as good, and quicker to reckon with. */
function shortened(facets: Facets, { within }: Outline): Facets {
  if (compare(within, hair) < 0) return facets;
  const { points } = compare(within, coarseHair) < 0 ? fine : coarse;
  return facets.map((loop) => loop.map((at) => snappedPoint(at, points)));
}

/** The rectangle of a block as it is seen in a plane. */
export function rectangleIn({ low, high }: Block, { right, up }: Plane): Facets {
  return [
    [
      { x: low[right], y: low[up] },
      { x: high[right], y: low[up] },
      { x: high[right], y: high[up] },
      { x: low[right], y: high[up] },
    ],
  ];
}

/** The plane that looks along a way. */
export function planeAcross(way: Way): Plane {
  switch (way) {
    case 'across':
      return { right: 'along', up: 'up' };
    case 'along':
      return { right: 'across', up: 'up' };
    case 'up':
      return { right: 'across', up: 'along' };
  }
}
