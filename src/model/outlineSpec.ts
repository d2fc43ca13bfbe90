import type { LevelSide } from './build.ts';
import type { BoxSide, Corner } from './outline.ts';
import type { Placed, Span } from './source.ts';
import type { Expression, Side } from './spec.ts';

/** Where each key and each item of a description stands: a facet of it leads to its characters. */
export interface Written {
  readonly at: Span;
  readonly keys: ReadonlyMap<string, Written>;
  readonly items: readonly Written[];
}

export interface PointSpec {
  readonly at: Span;
  readonly x: Expression;
  readonly y: Expression;
}

/** An outline as written. The changes are made in this order: all round, turned, mirrored. */
export interface OutlineSpec {
  readonly written: Written;
  readonly shape: ShapeSpec;
  readonly larger: Expression | undefined;
  readonly smaller: Expression | undefined;
  readonly turned: Placed<90 | 180 | 270> | undefined;
  readonly mirrored: Placed<boolean> | undefined;
}

export type ShapeSpec =
  | { readonly kind: 'rectangle' | 'slot'; readonly length: Expression; readonly width: Expression }
  | { readonly kind: 'circle' | 'half round' | 'quarter round'; readonly size: Expression }
  | { readonly kind: 'arched'; readonly arch: ArchSpec }
  | { readonly kind: 'polygon'; readonly points: readonly PointSpec[] }
  | { readonly kind: 'path'; readonly start: PointSpec; readonly steps: readonly StepSpec[] }
  | {
      readonly kind: 'through';
      readonly points: readonly PointSpec[];
      readonly ends: readonly ['flat' | 'free', 'flat' | 'free'];
    }
  | { readonly kind: 'half'; readonly of: OutlineSpec }
  | {
      readonly kind: 'whole';
      readonly whole: OutlineSpec;
      readonly away: OutlineSpec;
      readonly at: PointSpec | undefined;
      readonly clearance: Expression | undefined;
    }
  | { readonly kind: 'master'; readonly name: Placed<string> };

/** Two of width, rise and radius. */
export interface ArchSpec {
  readonly width: Expression | undefined;
  readonly rise: Expression | undefined;
  readonly radius: Expression | undefined;
  readonly sides: Expression;
}

export type StepSpec =
  | { readonly kind: 'line'; readonly to: PointSpec }
  | {
      readonly kind: 'arc';
      readonly to: PointSpec;
      readonly by: 'rise' | 'radius';
      readonly size: Expression;
      readonly swells: 'left' | 'right';
    }
  | { readonly kind: 'curve'; readonly through: readonly PointSpec[] };

export interface CutsSpec {
  readonly written: Written;
  readonly cuts: readonly CutSpec[];
}

/** `on` is a wall of those that are folded round a room, to which its place belongs. */
export type CutSpec =
  | {
      readonly kind: 'round' | 'clip';
      readonly corners: Expression | readonly { readonly corner: Corner; readonly size: Expression }[];
    }
  | {
      readonly kind: 'notch';
      readonly along: Expression;
      readonly deep: Expression;
      readonly edge: BoxSide;
      readonly place: AlongSpec | undefined;
      readonly repeat: RepeatSpec | undefined;
      readonly on: Placed<LevelSide> | undefined;
    }
  | {
      readonly kind: 'arch';
      readonly arch: ArchSpec;
      readonly edge: BoxSide;
      readonly place: AlongSpec | undefined;
      readonly repeat: RepeatSpec | undefined;
      readonly on: Placed<LevelSide> | undefined;
    }
  | {
      readonly kind: 'hole';
      readonly outline: OutlineSpec;
      readonly place:
        | { readonly centre: PointSpec }
        | { readonly along: AlongSpec | undefined; readonly up: AlongSpec | undefined };
      readonly repeat: RepeatSpec | undefined;
      readonly on: Placed<LevelSide> | undefined;
    };

/** Clear distance from one side. */
export interface AlongSpec {
  readonly end: 'low' | 'high';
  readonly clear: Expression;
}

export interface RepeatSpec {
  readonly times: Expression;
  readonly by: 'every' | 'apart';
  readonly size: Expression;
}

/** `on` is a wall of those that are folded round a room, from whose left corner its points are measured. */
export type MarkSpec = { readonly on: Placed<LevelSide> | undefined } & (
  | { readonly kind: 'centre line'; readonly runs: Side }
  | { readonly kind: 'line'; readonly from: PointSpec; readonly to: PointSpec }
  | { readonly kind: 'cross'; readonly at: PointSpec }
);
