import type { OutlineCode, OutlineFacts } from './catalogue/outline.ts';
import type { FoldMaking } from './foldSpec.ts';
import type { Length, Rational } from './rational.ts';

/**
 * Outlines: what a flat part looks like from its good side.
 *
 *        y, along the width
 *        │   ╭──────╮
 *        │   │      │
 *        └───┴──────┴─── x, along the length
 *      datum: the left bottom corner
 */
export interface Point {
  readonly x: Length;
  readonly y: Length;
}

/** Two rationals around a value that has no rational form; equal where it has one. */
export interface Enclosure<T extends Rational = Rational> {
  readonly lo: T;
  readonly hi: T;
}

export interface Line {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

/**
 * Part of a circle. Its ends are exactly as far from the centre as each other, whatever had to be rounded to
 * make them rational; `turn: left` goes round the centre against the clock.
 */
export interface Arc {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly turn: 'left' | 'right';
  /** The radius where it is rational, as it was stated or follows; the centre may be off by a hair then. */
  readonly radius: Length | undefined;
}

/** A cubic piece by its four control points (Bernstein form): the slopes at its ends point to the inner two. */
export interface Curve {
  readonly kind: 'curve';
  readonly from: Point;
  readonly leaving: Point;
  readonly arriving: Point;
  readonly to: Point;
}

export type Segment = Line | Arc | Curve;

/** Closed: each segment begins where the one before it ends, the first where the last ends. */
export type Loop = readonly Segment[];

export type DrawnMark =
  | { readonly kind: 'centre line'; readonly from: Point; readonly to: Point }
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point }
  /** `bore`: how wide a hole is that is not cut out of the outline, since it does not go right through. */
  | { readonly kind: 'cross'; readonly at: Point; readonly bore?: Length }
  | {
      readonly kind: 'fold';
      readonly from: Point;
      readonly to: Point;
      readonly way: FoldWay;
      readonly angle: FoldAngle;
      readonly by: FoldMaking;
    };

/** Which way what lies behind a fold turns, seen from the good side: a mountain, or a valley. */
export type FoldWay = 'away' | 'toward';

/** How far it turns: by degrees, or as much as a slope of that rise over that run does. */
export type FoldAngle =
  | { readonly kind: 'degrees'; readonly degrees: Rational }
  | { readonly kind: 'pitch'; readonly rise: Rational; readonly run: Rational };

/** The material lies to the left of every loop: the rim runs against the clock, holes with it. */
export interface Outline {
  readonly rim: Loop;
  readonly holes: readonly Loop[];
  /** Printed, not cut. */
  readonly marks: readonly DrawnMark[];
  /** How far a point of it may be off where it should be: 0 where all of it is exact. */
  readonly within: Length;
}

/** The four sides of an outline's box. */
export type BoxSide = 'left' | 'right' | 'bottom' | 'top';
export type Corner = 'top left' | 'top right' | 'bottom left' | 'bottom right';

/** What of a description is at fault: the way to it, key by key and place by place (from 0). */
export type OutlineFacet = readonly (string | number)[];

/** Shows a length in the user's unit; one that is not rational is first rounded, up where it is a least size. */
export type ShowLength = (length: Length, rounded?: 'up' | 'near') => string;

/** Something an outline can't be drawn with; its caller knows where the facet is written. */
export interface OutlineFault<C extends OutlineCode = OutlineCode> {
  readonly code: C;
  readonly facet: OutlineFacet;
  readonly facts: (show: ShowLength) => OutlineFacts<C>;
}

/** An outline, or why there is none. */
export interface Drawn<T = Outline> {
  readonly value: T | undefined;
  readonly faults: readonly OutlineFault[];
}
