import type { Written } from './outlineSpec.ts';
import type { Placed, Span } from './source.ts';
import type { Expression, Rest } from './spec.ts';

/** How a fold is made, which decides how much shorter the blank is for it. */
export type FoldMaking = 'score' | 'crease' | 'groove';

/** What a part is folded from: a strip with folds all one way, or a tray. Sizes are outer ones. */
export interface FoldsSpec {
  readonly at: Span;
  readonly written: Written;
  readonly shape: StripSpec | TraySpec;
  readonly by: Placed<FoldMaking> | undefined;
  /** What the blank is shorter by for each fold, where somebody has tried it. */
  readonly allowance: Expression | undefined;
}

export interface StripSpec {
  readonly kind: 'strip';
  readonly panels: readonly Expression[];
  readonly angles: readonly AngleSpec[];
  /** How wide it is: as long as its folds are. */
  readonly width: Expression | Rest;
  /** To be glued behind something: beyond the last panel, or before the first as well. */
  readonly tabs: { readonly first: Expression | undefined; readonly last: Expression | undefined };
  /** The number of the panel that lies level, from 1. */
  readonly base: Expression | undefined;
  /** Where it hangs over what it lies on, so that its row counts the base alone. */
  readonly laps: Placed<boolean> | undefined;
}

export interface TraySpec {
  readonly kind: 'tray';
  readonly length: Expression;
  readonly width: Expression;
  readonly high: Expression;
  readonly tab: Expression;
  readonly laps: Placed<boolean> | undefined;
}

/** How far a fold turns; below zero toward whoever sees the good side. */
export type AngleSpec =
  | { readonly kind: 'degrees'; readonly at: Span; readonly degrees: Expression }
  | { readonly kind: 'pitch'; readonly at: Span; readonly rise: Expression; readonly run: Expression };
