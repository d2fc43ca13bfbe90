import { compare, equal, minus, sum, toFraction, zero } from '../measure/index.ts';
import type { Box, CutTree, Length, NonEmpty } from '../model/index.ts';

/** What a sheet is parted into, level by level: all parallel cuts of a piece in hand are one level. */
export type Piece = PartPiece | LeftOverPiece | CutPiece;

export interface PartPiece {
  readonly kind: 'part';
  readonly box: Box;
  /** Index of the place on the sheet, in the order in which the tree names them. */
  readonly place: number;
  readonly turned: boolean;
  readonly shape: string;
}

export interface LeftOverPiece {
  readonly kind: 'left over';
  readonly box: Box;
  readonly shape: string;
}

export interface CutPiece {
  readonly kind: 'cut';
  readonly direction: 'rip' | 'crosscut';
  readonly box: Box;
  readonly into: NonEmpty<Piece>;
  /** Near sides of the cuts, from the datum edge of this piece. */
  readonly marks: NonEmpty<Length>;
  /** Equal for pieces that are equal in size and cut alike. */
  readonly shape: string;
}

export interface SheetPieces {
  readonly root: Piece;
  /** Which kind of part lies in each place. */
  readonly slots: readonly number[];
}

/** Lays a cut tree out on its sheet. Positions are exact; the datum is the sheet's left bottom corner. */
export function toPieces(tree: CutTree, sheet: Box, kerf: Length): SheetPieces {
  const slots: number[] = [];
  const box = { ...sheet, left: zero, bottom: zero };
  return { root: toPiece(tree, box, { kerf, slots }), slots };
}

interface Laying {
  readonly kerf: Length;
  /** Grows as parts are met. */
  readonly slots: number[];
}

function toPiece(tree: CutTree, box: Box, laying: Laying): Piece {
  if (tree.kind === 'left over') return { kind: 'left over', box, shape: 'left over' };
  if (tree.kind === 'part') {
    const place = laying.slots.push(tree.part) - 1;
    const shape = `part ${tree.part}${tree.turned ? ' turned' : ''}`;
    return { kind: 'part', box, place, turned: tree.turned, shape };
  }
  return toCutPiece(tree, box, laying);
}

type Cut = Extract<CutTree, { readonly at: Length }>;

// A chain of cuts in one direction is one piece in hand with several marks:
//
//      rip at a                          ┌────────────┐
//      ├ near                            │  far far   │
//      └ far: rip at b         ═══▶      ├────────────┤ ← a + kerf + b
//             ├ near                     │  far near  │
//             └ far                      ├────────────┤ ← a
//                                        │    near    │
//                                        └────────────┘ ← 0
function toCutPiece(tree: Cut, box: Box, laying: Laying): CutPiece {
  const direction = tree.kind;
  const into: Piece[] = [];
  let rest: CutTree | undefined = tree;
  let at: Box = box;
  while (rest !== undefined && rest.kind === direction) {
    const { near, far } = parted(at, rest, laying.kerf);
    into.push(...spread(toPiece(rest.near, near, laying), direction));
    rest = rest.far;
    at = far;
  }
  if (rest !== undefined) into.push(toPiece(rest, at, laying));

  const end = across(box, direction);
  const marks = into
    .map((piece) => minus(farSide(piece.box, direction), start(box, direction)))
    .filter((mark) => !equal(mark, end));
  // A cut tree's cut always takes something off, so there is a first piece and a first mark.
  return {
    kind: 'cut',
    direction,
    box,
    into: into as [Piece, ...Piece[]],
    marks: marks as [Length, ...Length[]],
    shape: shapeOf(direction, box, into),
  };
}

/** A near piece that is cut on in the same direction needs no cut of its own first, unless it ends in loss. */
function spread(piece: Piece, direction: CutPiece['direction']): readonly Piece[] {
  if (piece.kind !== 'cut' || piece.direction !== direction) return [piece];
  const last = piece.into[piece.into.length - 1]!;
  const isFilled = equal(farSide(last.box, direction), farSide(piece.box, direction));
  return isFilled ? piece.into : [piece];
}

function parted(box: Box, { kind, at }: Cut, kerf: Length): { near: Box; far: Box } {
  const beyond = minus(across(box, kind), sum(at, kerf));
  const rest = compare(beyond, zero) > 0 ? beyond : zero;
  return kind === 'rip'
    ? {
        near: { ...box, width: at },
        far: { ...box, bottom: sum(box.bottom, at, kerf), width: rest },
      }
    : {
        near: { ...box, length: at },
        far: { ...box, left: sum(box.left, at, kerf), length: rest },
      };
}

/** The size of a box that cuts in this direction part. */
export function across(box: Box, direction: CutPiece['direction']): Length {
  return direction === 'rip' ? box.width : box.length;
}

export function start(box: Box, direction: CutPiece['direction']): Length {
  return direction === 'rip' ? box.bottom : box.left;
}

export function farSide(box: Box, direction: CutPiece['direction']): Length {
  return sum(start(box, direction), across(box, direction));
}

function shapeOf(direction: CutPiece['direction'], box: Box, into: readonly Piece[]): string {
  const inner = into.map((piece) => `${toFraction(across(piece.box, direction))} ${piece.shape}`);
  return `${direction} ${toFraction(box.length)} by ${toFraction(box.width)} (${inner.join(', ')})`;
}
