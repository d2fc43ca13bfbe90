import type { Enclosure } from './outline.ts';
import type { Length } from './rational.ts';
import type { Side } from './spec.ts';

/** How a sloping part ends: upright, as a wall does, or square to its faces. */
export type SlopeEnds = 'plumb' | 'square';

/** A face of what is bent over something: away from it, in the middle of its thickness, or on it. */
export type BentFace = 'outer' | 'middle' | 'inner';

/**
 * What a part owes to how it slopes or bends: the size that follows from that, and what is to be told with it.
 * A size that has no rational form is rounded outward; what it comes to truly stands beside it.
 */
export interface Inclined {
  /** Which of the part's two sizes follows. */
  readonly size: Side;
  readonly truly: Enclosure<Length>;
  /** The step that it is rounded outward to; undefined where it is exact as it is. */
  readonly roundedTo: Length | undefined;
  readonly how: Slope | Bend;
}

export interface Slope {
  readonly kind: 'slope';
  /** How far it goes level, and how much its top rises on that way. */
  readonly run: Length;
  readonly rise: Length;
  /** True where the run is said; else it is the room that the part has. */
  readonly isRunStated: boolean;
  /** How high its top begins, where that is stated. */
  readonly from: Length | undefined;
  /** How thick it is when it is measured upright: so much lower is the top line of what stands beneath it. */
  readonly plumb: Enclosure<Length>;
  readonly ends: SlopeEnds;
  /** What square ends leave open at either end, measured level; 0 where they are plumb. */
  readonly gap: Enclosure<Length>;
}

export interface Bend {
  readonly kind: 'bend';
  /** The face whose developed length the size is. */
  readonly face: BentFace;
  /** What it is bent over. */
  readonly over: readonly string[];
  /** True where its good side looks out. */
  readonly isGoodOut: boolean;
  /** The least radius on the inside of a bend; undefined where nothing bends. */
  readonly leastRadius: Enclosure<Length> | undefined;
}
