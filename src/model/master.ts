import type { Outline } from './outline.ts';
import type { Span } from './source.ts';
import type { Side } from './spec.ts';

/** The one template of a shape: printed at full size, kept, and traced for every part that has the shape. */
export interface Master {
  readonly name: string;
  /** Where it is named. */
  readonly at: Span;
  readonly outline: Outline;
  /** The parts of the batch that are traced from it, in the order of the batch; none where nothing of it is made. */
  readonly parts: readonly TracedPart[];
}

export interface TracedPart {
  /** As it is written on the part, e.g. `RW cheek`. */
  readonly label: string;
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
  readonly material: string;
  /** Over the whole batch. */
  readonly count: number;
  /** `mirrored`: traced with the master turned over, its printed face down. */
  readonly hand: 'as drawn' | 'mirrored';
  /** Which side of the master runs with the grain of the material. */
  readonly grain: Side | 'any';
}
