import type { PartKind } from './batch.ts';
import type { Span } from './source.ts';
import type { Expression } from './spec.ts';

/** In place of a count: as many as go into what is left, without a sheet more. */
export interface FitsSpec {
  readonly kind: 'as fits';
  readonly at: Span;
  /** No more than so many: of a part of a tile, for each one made. */
  readonly most: Expression | undefined;
}

/** Of a part that is made as often as it goes into what the others leave. */
export interface AsFits {
  /** No more than so many, over all that is made now; undefined: as many as fit. */
  readonly most: number | undefined;
  /** Where several parts are the same to the knife, they share what fits by these: how many tiles each is for. */
  readonly share: number;
}

/** How often a filler went into what was left. */
export interface Fitted {
  /** Its members' counts are what fits; all may be 0. */
  readonly kind: PartKind;
  /** No way of cutting up what was left gives more of it; the same as `kind.count` where that is proved. */
  readonly most: number;
  /** More would fit, but no more are asked for. */
  readonly isEnough: boolean;
  /** More may fit, but filling ended: no more pieces than so many are filled in, sheets that are cut alike taken as one. */
  readonly stoppedAt?: number;
}
