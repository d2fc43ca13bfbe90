import type { Length, NonEmpty } from './rational.ts';
import type { Span } from './source.ts';
import type { EffortName, FileUnits, PaperName, ShownUnits } from './spec.ts';

/** A value and who set it: an option wins over the session, the session over the kit. */
export interface Setting<T> {
  readonly value: T;
  readonly from: 'option' | 'session' | 'kit' | 'built-in';
}

/**
 * Paper to print on, as it lies. `shared`: what A4 and Letter have in common, so that either will do; upright,
 * or with the longer side across.
 */
export type Paper =
  | { readonly name: PaperName | 'custom'; readonly width: Length; readonly height: Length }
  | 'shared'
  | 'shared landscape';

/** How long the search may go on, in steps for each material; never in seconds. */
export interface Effort {
  readonly name: EffortName | 'stated';
  readonly steps: number;
}

export interface Settings {
  readonly units: Setting<ShownUnits>;
  /** The unit that is shown first where both are. */
  readonly firstUnit: FileUnits;
  /** Graduations of the rules at hand, the one used first comes first. */
  readonly ruler: Setting<NonEmpty<Length>>;
  readonly paper: Setting<Paper>;
  readonly margin: Setting<Length>;
  readonly effort: Setting<Effort>;
  /** Whether a slip is printed for each pile of cut pieces; absent: no. */
  readonly slips?: Setting<boolean>;
}

/** What the command line says over the files; every member may be absent. */
export interface Overrides {
  readonly units?: ShownUnits;
  readonly ruler?: NonEmpty<Length>;
  readonly paper?: Paper;
  /** The longer side of the paper lies across, whoever named the paper. */
  readonly landscape?: true;
  readonly margin?: Length;
  readonly effort?: Effort;
  readonly slips?: true;
  /** Counts by tile, in place of the session's; in the order given, a later one wins. */
  /** Thicknesses to be tried, over all readings; a later one wins. */
  readonly thicknesses?: readonly {
    readonly material: string;
    readonly thickness: Length;
    readonly argument: string;
  }[];
  /** Lengths that stand in for what is written at those places: a size that is tried. */
  readonly instead?: readonly { readonly at: Span; readonly value: Length }[];
  /** The tiles that are worked out, by name; all of them where absent. */
  readonly only?: ReadonlySet<string>;
  /** What is made that evening alone, by number or title. */
  readonly evening?: { readonly name: string; readonly argument: string };
  /** So many are made of what as many are asked of as what is at hand allows. */
  readonly most?: number;
  readonly make?: readonly { readonly tile: string; readonly count: number; readonly argument: string }[];
}
