import { sum, zero } from '../measure/index.ts';
import type { Box, Length, NonEmpty } from '../model/index.ts';
import { type Direction, type Parted, type PartedPiece, sizeAcross } from './parting.ts';

/** What a sheet is parted into, and where it lies before that. */
export type Piece = PartPiece | LeftOverPiece | CutPiece;

export interface PartPiece {
  readonly kind: 'part';
  readonly box: Box;
  /** Index of the place on the sheet, in the order in which the pieces lie. */
  readonly place: number;
  readonly turned: boolean;
}

export interface LeftOverPiece {
  readonly kind: 'left over';
  readonly box: Box;
}

export interface CutPiece {
  readonly kind: 'cut';
  readonly direction: Direction;
  readonly box: Box;
  readonly into: NonEmpty<Piece>;
  /** Near sides of the cuts, from the datum edge of this piece. */
  readonly marks: NonEmpty<Length>;
  /** Equal for pieces that are equal in size and cut alike. */
  readonly likeness: string;
}

export interface SheetPieces {
  readonly root: Piece;
  /** Which kind of part lies in each place. */
  readonly slots: readonly number[];
}

/** Lays the pieces of a sheet down, one after the other from its datum: its left bottom corner. */
export function laidDown(sheet: Parted, kerf: Length): SheetPieces {
  const slots: number[] = [];
  const root = lay(sheet, { left: zero, bottom: zero }, { kerf, slots });
  return { root, slots };
}

interface Laying {
  readonly kerf: Length;
  /** Grows as parts are met. */
  readonly slots: number[];
}

function lay(parted: Parted, at: Pick<Box, 'left' | 'bottom'>, laying: Laying): Piece {
  const box = { ...at, length: parted.length, width: parted.width };
  switch (parted.kind) {
    case 'left over':
      return { kind: 'left over', box };
    case 'part':
      return { kind: 'part', box, place: laying.slots.push(parted.part) - 1, turned: parted.turned };
    case 'cut':
      return layInto(parted, box, laying);
  }
}

function layInto({ direction, into, endsInLoss, likeness }: PartedPiece, box: Box, laying: Laying): CutPiece {
  const pieces: Piece[] = [];
  const marks: Length[] = [];
  let end = zero;
  for (const [i, parted] of into.entries()) {
    const from = i === 0 ? zero : sum(end, laying.kerf);
    const at =
      direction === 'rip'
        ? { left: box.left, bottom: sum(box.bottom, from) }
        : { left: sum(box.left, from), bottom: box.bottom };
    pieces.push(lay(parted, at, laying));
    end = sum(from, sizeAcross(parted, direction));
    if (i < into.length - 1 || endsInLoss) marks.push(end);
  }
  // A cut gives at least one piece, and it takes a mark.
  return {
    kind: 'cut',
    direction,
    box,
    into: pieces as [Piece, ...Piece[]],
    marks: marks as [Length, ...Length[]],
    likeness,
  };
}

export function start(box: Box, direction: Direction): Length {
  return direction === 'rip' ? box.bottom : box.left;
}

export function farSide(box: Box, direction: Direction): Length {
  return sum(start(box, direction), sizeAcross(box, direction));
}
