import type { LevelSide, TileSide, Way } from './build.ts';
import type { Named, Placed, Span } from './source.ts';
import type { Expression } from './spec.ts';

/** How the parts of a tile stand, as it is written; no sum is worked out yet. */
export interface RowSpec extends Modifiers {
  readonly kind: 'row';
  readonly at: Span;
  readonly way: Way;
  readonly members: readonly MemberSpec[];
  /** What it must fill in its own direction. */
  readonly to: Expression | 'free' | undefined;
}

export interface PartMemberSpec extends Modifiers {
  readonly kind: 'part';
  readonly at: Span;
  readonly part: Placed<string>;
  /** `2 x slab` stands twice running. */
  readonly twice: number;
}

export interface GapSpec {
  readonly kind: 'gap';
  readonly at: Span;
  readonly size: Expression | 'rest';
}

export type MemberSpec = PartMemberSpec | GapSpec | RowSpec;

export interface Modifiers {
  readonly name: Placed<string> | undefined;
  readonly length: Placed<Way> | undefined;
  readonly thickness: Placed<Way> | undefined;
  readonly flip: Placed<'length' | 'width' | 'both'> | undefined;
  readonly facing: Placed<TileSide> | undefined;
  readonly times: Expression | undefined;
  readonly every: Expression | undefined;
  readonly apart: Expression | undefined;
  readonly flush: readonly Placed<TileSide>[];
  readonly centred: readonly Placed<Way>[];
  readonly inset: readonly Named<Expression>[];
  readonly overhang: readonly Named<Expression>[];
}

/** What stands beside the rows: set against something, or exactly `at`. */
export interface AddedSpec {
  readonly at: Span;
  readonly member: PartMemberSpec | RowSpec;
  readonly place:
    | { readonly kind: 'against'; readonly side: TileSide; readonly of: Placed<string> }
    | {
        readonly kind: 'at';
        readonly across: Expression;
        readonly along: Expression;
        readonly up: Expression;
      };
}

export type EdgeSpec =
  | {
      readonly kind: 'floor';
      readonly at: Span;
      readonly levels: readonly Expression[];
      readonly isList: boolean;
    }
  | { readonly kind: 'foot'; readonly at: Span; readonly level: Expression }
  | { readonly kind: 'wall'; readonly at: Span };

export type EdgesSpec = readonly (Named<EdgeSpec | 'none'> & { readonly name: LevelSide })[];

export interface RackSpec {
  readonly at: Span;
  readonly inside:
    | { readonly across: Expression; readonly along: Expression; readonly up: Expression }
    | undefined;
  readonly clearance: Expression | undefined;
}
