import type { TileSide } from './build.ts';
import type { PointSpec } from './outlineSpec.ts';
import type { Placed, Span } from './source.ts';
import type { Expression, Price } from './spec.ts';

/** A thing that is not cut from a sheet, as a file describes it: a magnet, a skewer, a stick of glue. */
export interface FittingSpec {
  readonly at: Span;
  readonly diameter: Expression | undefined;
  readonly depth: Expression | undefined;
  /** So much wider than it is its hole. */
  readonly clearance: Expression | undefined;
  /** The least that stays of a part beside its hole and behind it. */
  readonly leastWall: Expression | undefined;
  /** It has two poles, so that it matters which way it looks. */
  readonly poles: Placed<boolean> | undefined;
  /** How many are sold together; one where nothing is said. */
  readonly pack: Expression | undefined;
  /** Of a pack. */
  readonly price: Placed<Price> | undefined;
  readonly label: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
}

/** How many of a fitting lie in the drawer. */
export interface FittingsAtHandSpec {
  readonly at: Span;
  readonly count: Expression | undefined;
  readonly where: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
}

export type Pole = 'out' | 'in';

/** Where some pieces of a fitting sit in a tile: let into one side of what stands in it, or into several alike. */
export interface LetInSpec {
  readonly at: Span;
  readonly into: readonly FaceSpec[];
  readonly place:
    | { readonly kind: 'points'; readonly at: Span; readonly points: readonly PointSpec[] }
    | {
        readonly kind: 'inset';
        readonly at: Span;
        readonly inset: Expression;
        readonly count: Expression | undefined;
      };
  /** One for all of them, or one for each; none where it has no poles. */
  readonly poles: readonly Placed<Pole>[];
  /** How deep its hole is, where it is not as deep as the fitting. */
  readonly deep: Expression | undefined;
}

/** `left of bed` */
export interface FaceSpec {
  readonly at: Span;
  readonly side: TileSide;
  readonly of: Placed<string>;
}
