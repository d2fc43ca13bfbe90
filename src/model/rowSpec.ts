import type { LevelSide, TileSide, Way } from './build.ts';
import type { FoldMaking } from './foldSpec.ts';
import type { BentFace, SlopeEnds } from './sloping.ts';
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
  readonly slope?: SlopeSpec | undefined;
  /** The step that a length without a size of its own is rounded outward to. */
  readonly upTo?: Expression | undefined;
}

/** A part whose top rises through its room. */
export interface SlopeSpec {
  readonly at: Span;
  /** The side at which it is high. */
  readonly to: Placed<LevelSide>;
  /** By how much, or from which height to which. */
  readonly rise:
    | { readonly kind: 'rise'; readonly by: Expression }
    | { readonly kind: 'levels'; readonly at: Span; readonly low: Expression; readonly high: Expression };
  /** How far it goes, level; else its room. */
  readonly run: Expression | undefined;
  readonly ends: Placed<SlopeEnds> | undefined;
}

export interface GapSpec {
  readonly kind: 'gap';
  readonly at: Span;
  readonly size: Expression | 'rest';
}

/** Walls that stand round a room and meet at its corners. */
export interface FrameSpec extends Modifiers {
  readonly kind: 'frame';
  readonly at: Span;
  readonly walls: readonly (Named<PartMemberSpec> & { readonly name: LevelSide })[];
  readonly corners: CornersSpec;
  /** What gets the room within. */
  readonly inside: BodySpec | undefined;
}

/** How walls meet. */
export type CornersSpec =
  | { readonly kind: PlainCorners; readonly at: Span }
  | {
      readonly kind: 'fold';
      readonly at: Span;
      readonly by: FoldMaking;
      /** What is glued behind the first wall, beyond the last. */
      readonly tab: Expression | undefined;
    }
  | { readonly kind: 'rebate'; readonly at: Span; readonly stays: Expression };

export type PlainCorners = 'front through' | 'sides through' | 'pinwheel' | 'mitre';

/** What takes up room of its own. */
export type BodySpec = PartMemberSpec | RowSpec | FrameSpec;

export type MemberSpec = BodySpec | GapSpec;

export interface Modifiers {
  readonly name: Placed<string> | undefined;
  readonly length: Placed<Way> | undefined;
  readonly thickness: Placed<Way> | undefined;
  readonly flip: Placed<'length' | 'width' | 'both'> | undefined;
  readonly facing: Placed<TileSide> | undefined;
  readonly times: Expression | undefined;
  readonly every: Expression | undefined;
  readonly apart: Expression | undefined;
  /** How much higher each repeat stands than the one before. */
  readonly climb?: Expression | undefined;
  readonly flush: readonly Placed<TileSide>[];
  readonly centred: readonly Placed<Way>[];
  readonly inset: readonly Named<Expression>[];
  readonly overhang: readonly Named<Expression>[];
}

/** What stands beside the rows: set against something, or exactly `at`. */
export interface AddedSpec {
  readonly at: Span;
  readonly member: BodySpec;
  readonly place:
    | { readonly kind: 'against'; readonly side: TileSide; readonly of: Placed<string> }
    /** Bent over their top edges. */
    | {
        readonly kind: 'over';
        readonly at: Span;
        readonly of: readonly Placed<string>[];
        readonly face: Placed<BentFace> | undefined;
        readonly ends: Placed<SlopeEnds> | undefined;
      }
    /** Upright beneath what slopes. */
    | { readonly kind: 'under'; readonly of: Placed<string> }
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
