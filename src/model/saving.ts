import type { SheetKind } from './batch.ts';
import type { Length } from './rational.ts';
import type { Side } from './spec.ts';

/** One change to what is asked of a material or to how it is cut. `part` is an index into `demand.parts`. */
export type Change =
  /** Nothing changes but the steps of the search. */
  | { readonly kind: 'longer search'; readonly steps: number }
  /** Grain and flutes no longer bind the parts of one kind. */
  | { readonly kind: 'turns freely'; readonly part: number }
  | { readonly kind: 'smaller part'; readonly part: number; readonly side: Side; readonly by: Length }
  | { readonly kind: 'less trim'; readonly by: Length }
  | { readonly kind: 'narrower strips'; readonly to: Length }
  | { readonly kind: 'thinner kerf'; readonly to: Length }
  | { readonly kind: 'fewer parts'; readonly part: number; readonly count: number }
  | { readonly kind: 'fewer tiles'; readonly tile: string; readonly count: number }
  /** One more of a sheet or offcut that is used up; an index into `demand.sheets`. */
  | { readonly kind: 'one more sheet'; readonly sheet: number }
  /** In place of every sheet that is bought now. */
  | { readonly kind: 'other sheet'; readonly sheet: SheetKind };

/** A change with which fewer sheets have to be bought, as a layout of the changed demand has shown. */
export interface Saving {
  readonly change: Change;
  /** Bought with the change. */
  readonly sheets: number;
  /** False where the search ended before a smaller change of this sort was tried. */
  readonly isLeast: boolean;
}

/** What would save a sheet of one material, and how that was looked for. */
export interface Savings {
  /** Bought now, offcuts not counted. */
  readonly bought: number;
  /** The least intrusive sort first. */
  readonly found: readonly Saving[];
  /** Sorts of change that were looked at, by a layout or by the bound of the changed demand. */
  readonly tried: readonly Change['kind'][];
  /** How many changed demands were laid out; the bound showed that all others could save nothing. */
  readonly packings: number;
  /**
   * `nothing to save`: only offcuts are used, or one sheet and no offcut could take its place.
   * `parts missing`: not everything found a sheet, so there is nothing to compare with.
   * `tired`: the effort set aside was spent before all was tried.
   */
  readonly ended: 'all tried' | 'tired' | 'nothing to save' | 'parts missing';
}
