import type { FileUnits, Length, Outcome, Rational, Spec, SpecFile } from '../../model/index.ts';

/** How the files of a kit are to be written anew. */
export interface ConversionWishes {
  readonly to: FileUnits;
  /** What base sizes are rounded to; undefined: nothing is rounded. */
  readonly step: Length | undefined;
  /** Sizes of the design are multiplied by it; the things it is made of and with stay what they are. */
  readonly factor: Rational | undefined;
  /** Whether boards are scaled as well. */
  readonly boards: 'kept' | 'scaled';
  /** The boards that can be bought, in place of nominal ones. */
  readonly materials: readonly BoardWish[];
  /** A kit is wanted also where tiles stand worse than before. */
  readonly isPartial: boolean;
}

export interface BoardWish {
  readonly material: string;
  readonly thickness: Length;
  /** As it was typed. */
  readonly argument: string;
}

/** The texts of the files that are written anew. */
export type Texts = ReadonlyMap<SpecFile, string>;

/** Reads the files again, with some of them as these texts have them. */
export type Reread = (texts: Texts) => Outcome<Spec>;
