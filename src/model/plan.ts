import type { MaterialDemand, PartMember, SheetKind } from './batch.ts';
import type { LowerBound, Proof } from './layout.ts';
import type { Length, NonEmpty } from './rational.ts';

/** Everything a person does to one material, in order. */
export interface MaterialPlan {
  readonly demand: MaterialDemand;
  readonly sheets: readonly SheetPlan[];
  readonly unplaced: readonly { readonly member: PartMember; readonly count: number }[];
  readonly bound: LowerBound;
  readonly proof: Proof;
  readonly steps: number;
  /** Different widths that have to be set out, counted over all sheets of the material. */
  readonly settings: number;
}

/** One picture: sheets that are cut alike and whose pieces carry the same labels. */
export interface SheetPlan {
  readonly sheet: SheetKind;
  /** Number of the first sheet cut so, counted from 1 over the material; then `times` in a row. */
  readonly first: number;
  readonly times: number;
  /** The squared-up sheet within the sheet as bought: positions below are from its left bottom corner. */
  readonly inside: Box;
  readonly pieces: readonly PlannedPiece[];
  readonly leftovers: readonly Leftover[];
  readonly steps: NonEmpty<Step>;
}

/** A rectangle on the sheet; `left` and `bottom` from the datum corner. */
export interface Box {
  readonly left: Length;
  readonly bottom: Length;
  readonly length: Length;
  readonly width: Length;
}

export interface PlannedPiece {
  readonly member: PartMember;
  /** Where it lies on the squared-up sheet; its sizes as it lies. */
  readonly box: Box;
  /** True where the part's length lies along the sheet's width. */
  readonly turned: boolean;
  /** Numbers of the steps that free it, the last one last. */
  readonly steps: readonly number[];
}

export interface Leftover {
  readonly box: Box;
  /** `keep 1`, `keep 2`, … over the whole batch; undefined for scrap. */
  readonly keep: string | undefined;
}

/**
 * One thing to do. Marks are measured from the datum edge of the piece in hand and run on: none is measured
 * from another, so errors don't add up.
 */
export type Step =
  | {
      readonly kind: 'square up';
      readonly number: number;
      /** Size of the squared sheet, and its diagonal rounded to the ruler to check by. */
      readonly length: Length;
      readonly width: Length;
      readonly trims: SheetKind['trim'];
    }
  | {
      readonly kind: 'rip' | 'crosscut';
      readonly number: number;
      /** Which piece is in hand: the squared sheet, or what an earlier step gave. */
      readonly piece: PieceInHand;
      /** Running marks from the datum edge, ascending, to the near side of each cut. */
      readonly marks: NonEmpty<Length>;
      /** What comes off, in the order of the marks; the same size as one run. */
      readonly runs: NonEmpty<Run>;
      /** Size of what remains in hand beyond the last cut; undefined where nothing does. */
      readonly remains: Length | undefined;
      /** The cuts as they lie on the squared-up sheet, for drawing. */
      readonly lines: readonly CutLine[];
    }
  | { readonly kind: 'label'; readonly number: number; readonly labels: NonEmpty<string> };

/** `count` pieces of the same `size` one after the other: a stop is set once. */
export interface Run {
  readonly size: Length;
  readonly count: number;
  /** Where the last of them ends, to check by. */
  readonly endsAt: Length;
  /** What the pieces are: labels of parts, names of strips that are cut further, or `scrap`. */
  readonly gives: NonEmpty<string>;
}

export interface PieceInHand {
  /** `sheet`, or the name of a strip, e.g. `strip B`. */
  readonly name: string;
  readonly box: Box;
  /** How many pieces like it are cut alike in this step. */
  readonly count: number;
}

/** A cut from edge to edge of the piece in hand, at its near side, on the squared-up sheet. */
export interface CutLine {
  readonly from: { readonly left: Length; readonly bottom: Length };
  readonly to: { readonly left: Length; readonly bottom: Length };
}
