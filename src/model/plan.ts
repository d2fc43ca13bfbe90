import type { MaterialDemand, PartMember, SheetKind } from './batch.ts';
import type { Fitted } from './filler.ts';
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
  /** What was made as often as it fits, in the order in which it was filled in. */
  readonly fitted?: readonly Fitted[];
  /**
   * The order of work over all sheets, once they are squared up: a width is set out, then every cut named with
   * it is made, on all sheets, before the next is set out.
   */
  readonly order: readonly WidthSetOut[];
  /** So many widths would be set out by someone who finishes picture after picture by its own steps. */
  readonly settingsByPicture: number;
}

/** A stop, a marked stick or a fence set to one width, and all that is cut with it. */
export interface WidthSetOut {
  readonly size: Length;
  /** In the order of cutting: sheet by sheet, on each by its steps. */
  readonly uses: NonEmpty<WidthUse>;
}

/** The runs of this width in one step of a picture. Labels are written before the first cut that frees them. */
export interface WidthUse {
  /** `first` of the picture. */
  readonly sheet: number;
  /** Number of the step. */
  readonly step: number;
  /** What is in hand: `sheet`, or the name of a strip. */
  readonly piece: string;
  /** Over all pieces in hand and all sheets of the picture. */
  readonly cuts: number;
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
  /** Pieces that come off one cut and go under the next, where they lie before that. */
  readonly strips: readonly Strip[];
  readonly steps: NonEmpty<Step>;
}

/** Strips of one name are equal in size and cut alike. */
export interface Strip {
  /** `strip A`, `strip B`, … within the picture. */
  readonly name: string;
  readonly box: Box;
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
  /**
   * `keep 1`, `keep 2`, … over the whole batch; undefined for scrap. Leftovers that are equal in material,
   * size and grain share a name, as offcuts in a drawer share a label.
   */
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
      /** Size of the squared sheet; each trim is the whole width lost at its edge, the cut included. */
      readonly length: Length;
      readonly width: Length;
      readonly trims: SheetKind['trim'];
      readonly diagonal: RoundedDiagonal;
    }
  | {
      readonly kind: 'rip' | 'crosscut';
      readonly number: number;
      /** Which piece is in hand: the squared sheet, or what an earlier step gave. */
      readonly piece: PieceInHand;
      /** Running marks from the datum edge, ascending, to the near side of each cut. */
      readonly marks: NonEmpty<Length>;
      /** All that one piece in hand is parted into, from the datum edge on; equal neighbours are one run. */
      readonly runs: NonEmpty<Run>;
      /** Size of what remains beyond the last cut (then the end of the last run); undefined for nothing. */
      readonly remains: Length | undefined;
      /** True where that is scrap too thin to come off as a strip: the last cut only trims the piece. */
      readonly isTrimmed?: true;
      /** The cuts as they lie on the squared-up sheet, for drawing. */
      readonly lines: readonly CutLine[];
    }
  /** Comes before the cuts that free these parts. */
  | { readonly kind: 'label'; readonly number: number; readonly labels: NonEmpty<CountedLabel> };

export interface CountedLabel {
  readonly label: string;
  readonly count: number;
  /** `slip`: too small to be written on, or many of a kind; they are kept together with a slip of paper. */
  readonly on: 'each' | 'slip';
}

/** A diagonal seldom has a rational length, so it is given to the nearest graduation of the first rule. */
export interface RoundedDiagonal {
  readonly length: Length;
  /** True where `length` is the diagonal itself. */
  readonly isExact: boolean;
  /** The diagonal less `length`, to the nearest millionth of a millimetre. */
  readonly error: Length;
}

/** `count` pieces of the same `size` one after the other: a stop is set once. */
export interface Run {
  readonly size: Length;
  readonly count: number;
  /** Cuts that free them: one less than `count` where the last ends on the edge of the piece in hand. */
  readonly cuts: number;
  /** Where the last of them ends, to check by; the kerfs between them are in it. */
  readonly endsAt: Length;
  /** What the pieces are, over all pieces in hand that are cut alike: counts add up to count × theirs. */
  readonly gives: NonEmpty<Given>;
}

export interface Given {
  readonly what: 'part' | 'strip' | 'keep' | 'scrap';
  /** Label of the part, name of the strip, `keep 1`, `scrap`. */
  readonly name: string;
  readonly count: number;
}

export interface PieceInHand {
  /** `sheet`, or the name of a strip, e.g. `strip B`. */
  readonly name: string;
  /** Where the first of them lies. */
  readonly box: Box;
  /** How many pieces like it are cut alike in this step. */
  readonly count: number;
}

/** A cut from edge to edge of the piece in hand, at its near side, on the squared-up sheet. */
export interface CutLine {
  readonly from: { readonly left: Length; readonly bottom: Length };
  readonly to: { readonly left: Length; readonly bottom: Length };
}
