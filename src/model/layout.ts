import type { MaterialDemand } from './batch.ts';
import type { Fitted } from './filler.ts';
import type { Length } from './rational.ts';
import type { Price } from './spec.ts';

/**
 * How the piece in hand is taken apart, from edge to edge each time. A layout that can't be cut so has no
 * spelling. No position is stored: all follow from the sizes.
 *
 * The root is the sheet without its trim, datum at its left bottom corner; length runs left–right, width
 * bottom–top. A `rip` runs along the length and parts the width; a `crosscut` runs across and parts the
 * length. `at` is the size of the near piece, measured from the datum edge; then the kerf is lost; what
 * remains is the far piece, or nothing (undefined) where no more than the kerf remained.
 *
 *        rip                                crosscut
 *   ┌───────────────────┐              ┌──────────┬────────┐
 *   │        far        │              │          │        │
 *   ├───────────────────┤ ← at + kerf  │   near   │  far   │
 *   │        near       │              │          │        │
 *   └───────────────────┘ ← 0          └──────────┴────────┘
 *                                      0        at  at + kerf
 */
export type CutTree =
  | { readonly kind: 'part'; readonly part: number; readonly turned: boolean }
  | { readonly kind: 'left over' }
  | {
      readonly kind: 'rip' | 'crosscut';
      readonly at: Length;
      readonly near: CutTree;
      readonly far: CutTree | undefined;
    };

/** One way of cutting a sheet, and how many sheets are cut so. */
export interface Layout {
  /** Index into `demand.sheets`. */
  readonly sheet: number;
  readonly tree: CutTree;
  readonly times: number;
}

/** The lowest number of sheets that any way of cutting needs, and the argument that shows it. */
export interface LowerBound {
  readonly sheets: number;
  /** A sentence without a full stop, e.g. `their area alone fills 3.2 sheets`. */
  readonly argument: string;
  /** The least that the bought sheets of any way cost; only where sheets of different prices could be bought. */
  readonly cost?: Price;
  /** True where it holds for these blanks alone: formed another way, two to a blank or not, fewer sheets may do. */
  readonly isForBlanks?: boolean;
}

/** How good the result is known to be; of its cost only where sheets of different prices could be bought. */
export type Proof =
  | { readonly kind: 'fewest'; readonly cost?: CostProof }
  | { readonly kind: 'within'; readonly sheets: number; readonly cost?: CostProof }
  /** Nothing is claimed, e.g. since sheets ran out. */
  | { readonly kind: 'none' };

export type CostProof =
  | { readonly kind: 'cheapest' }
  /** By at most so much than the cheapest way there is. */
  | { readonly kind: 'dearer'; readonly by: Price };

/** All layouts of one material. */
export interface MaterialLayouts {
  readonly demand: MaterialDemand;
  readonly layouts: readonly Layout[];
  /** Parts that could not be placed (index into `demand.parts`), and how many. */
  readonly unplaced: readonly { readonly part: number; readonly count: number }[];
  readonly bound: LowerBound;
  readonly proof: Proof;
  /** Steps the search took; `--effort STEPS` with this number gives the same layouts. */
  readonly steps: number;
  /** In the order in which they were filled in; those that fit are among the demand's parts, behind all others. */
  readonly fitted?: readonly Fitted[];
}

/** What a running search tells whoever drives it. */
export interface SearchProgress {
  readonly material: string;
  readonly step: number;
  readonly sheets: number;
  readonly bound: number;
}

/** What a run says where it pauses: how far its search is; nothing while it searches no more. */
export type Pause = SearchProgress | undefined;
