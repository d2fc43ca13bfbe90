import type { Habit, LevelSide } from './build.ts';
import type { FitsSpec } from './filler.ts';
import type { FittingSpec, FittingsAtHandSpec, LetInSpec } from './fittingSpec.ts';
import type { FoldsSpec } from './foldSpec.ts';
import type { CutsSpec, MarkSpec, OutlineSpec } from './outlineSpec.ts';
import type { NonEmpty, Rational } from './rational.ts';
import type { AddedSpec, EdgesSpec, FrameSpec, RackSpec, RowSpec } from './rowSpec.ts';
import type { Named, Placed, Source, Span } from './source.ts';

/** The unit of a file's bare numbers. */
export type FileUnits = 'in' | 'mm';

/**
 * A sum as it was written, not worked out yet. `measure` with `unit: 'bare'` is a number without a unit:
 * a length in the unit of its file, or a plain number, as its neighbours decide; with `unit: 'length'`
 * its amount is in millimetres.
 */
export type Expression =
  | {
      readonly kind: 'measure';
      readonly at: Span;
      readonly amount: Rational;
      readonly unit: 'bare' | 'length';
    }
  | { readonly kind: 'name'; readonly at: Span; readonly reference: Reference }
  | { readonly kind: 'negative'; readonly at: Span; readonly of: Expression }
  | {
      readonly kind: 'sum' | 'difference' | 'product' | 'quotient';
      readonly at: Span;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'smaller' | 'larger'; readonly at: Span; readonly of: NonEmpty<Expression> }
  | {
      readonly kind: 'up to' | 'down to' | 'nearest';
      readonly at: Span;
      readonly of: Expression;
      readonly step: Expression;
    }
  /** It stands there but could not be read; that has been told, so whoever needs its worth stays silent. */
  | { readonly kind: 'faulty'; readonly at: Span };

/** What a name in a sum points at. `of` spans the name behind "of". */
export type Reference =
  | { readonly kind: 'own'; readonly name: string }
  | { readonly kind: 'square'; readonly way: 'both' | 'across' | 'along' }
  | { readonly kind: 'tile'; readonly size: 'across' | 'along' | 'height' }
  | {
      readonly kind: 'size';
      readonly size: 'thickness' | 'length' | 'width' | 'developed length';
      readonly of: Placed<string>;
    };

/** `length` and `width` are the two sizes of a flat rectangle; the grain runs with one of them. */
export type Side = 'length' | 'width';

export interface GridSpec {
  readonly at: Span;
  readonly square: { readonly across: Expression; readonly along: Expression } | undefined;
  readonly slack: Expression | undefined;
  readonly lip: Expression | undefined;
  readonly tallest: Expression | undefined;
  readonly glueLine: Expression | undefined;
}

/** Whole width lost at each edge, its own cut included; a side that is not given loses nothing. */
export interface TrimSpec {
  readonly at: Span;
  readonly left: Expression | undefined;
  readonly right: Expression | undefined;
  readonly bottom: Expression | undefined;
  readonly top: Expression | undefined;
}

/** How a material is cut; what is not given here is looked for in the next, less particular place. */
export interface CutHabitsSpec {
  readonly tool: Placed<string> | undefined;
  readonly kerf: Expression | undefined;
  readonly trim: TrimSpec | undefined;
  readonly leastStrip: Expression | undefined;
  /** The least radius that a material is bent to. */
  readonly leastBend?: Expression | undefined;
  readonly longestCut: Expression | undefined;
  readonly rounds: Expression | undefined;
}

export interface MaterialSpec extends CutHabitsSpec {
  readonly at: Span;
  readonly thickness: Expression | undefined;
  readonly measured: Expression | undefined;
  readonly grain: Placed<boolean> | undefined;
  readonly flutes: Placed<boolean> | undefined;
  readonly goodSide: Placed<boolean> | undefined;
}

/** `name` is in lower case: a0 … a5, letter, legal, ledger. */
export type SizeSpec =
  | { readonly kind: 'named'; readonly at: Span; readonly name: PaperName }
  | { readonly kind: 'pair'; readonly at: Span; readonly length: Expression; readonly width: Expression };

/** Paper to print on: of a name and either way up, or how wide and how high. */
export type PaperSpec =
  | {
      readonly kind: 'named';
      readonly at: Span;
      readonly name: PaperName | 'shared';
      readonly isLandscape: boolean;
    }
  | Extract<SizeSpec, { readonly kind: 'pair' }>;

export type PaperName = 'a0' | 'a1' | 'a2' | 'a3' | 'a4' | 'a5' | 'letter' | 'legal' | 'ledger';

/** An amount of money as it was written; currencies are never mixed or converted. */
export interface Price {
  readonly amount: Rational;
  readonly currency: string;
}

export interface SheetSpec {
  readonly at: Span;
  readonly size: SizeSpec | undefined;
  readonly grain: Placed<Side | 'unknown'> | undefined;
  readonly flutes: Placed<Side | 'unknown'> | undefined;
  readonly count: Placed<Expression | 'as needed'> | undefined;
  /** Of one sheet, or of a pack. */
  readonly price: Placed<Price> | undefined;
  /** How many are sold together; one where nothing is said. */
  readonly pack: Expression | undefined;
  /** How thick a block is that is sliced into layers. */
  readonly thick?: Expression | undefined;
  readonly trim: TrimSpec | undefined;
  readonly trueEdges: Placed<boolean> | undefined;
  readonly label: Placed<string> | undefined;
  readonly where: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
}

/** A part as written. `takenAway` lists the keys that were given as `none` (only beside `like`). */
export interface PartSpec {
  readonly at: Span;
  readonly like: Placed<string> | undefined;
  readonly of: Placed<string> | undefined;
  readonly size:
    | { readonly at: Span; readonly length: Expression | Rest; readonly width: Expression | Rest }
    | undefined;
  readonly grain: Placed<Side | 'any' | 'upright'> | undefined;
  readonly flutes: Placed<Side | 'any' | 'upright'> | undefined;
  readonly count: Expression | FitsSpec | undefined;
  readonly goodSide: Placed<boolean> | undefined;
  /** So many are glued on where one likes. */
  readonly byEye: Expression | undefined;
  /** Lies flat in any row. */
  readonly lies: Placed<boolean> | undefined;
  /** `no` for what nobody stands on. */
  readonly floor: Placed<boolean> | undefined;
  /** So many of each fitting go with one of it. */
  readonly takes?: readonly Named<Expression>[] | undefined;
  readonly accepted: readonly (Named<Placed<string>> & { readonly name: Habit })[] | undefined;
  readonly clad: CladSpec | undefined;
  readonly outline: OutlineSpec | undefined;
  readonly folds?: FoldsSpec | undefined;
  readonly cuts: CutsSpec | undefined;
  readonly marks: readonly MarkSpec[] | undefined;
  readonly mirrored: Placed<boolean> | undefined;
  /** So much over size at each side, trimmed flush after gluing. */
  readonly leave: TrimSpec | undefined;
  readonly label: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
  readonly takenAway: readonly Placed<string>[];
}

/** A side of a part's drawing. */
export type DrawnSide = 'left' | 'right' | 'bottom' | 'top';

/** Strips of a material over some sides of a part, or over whichever ends of its flutes are left visible. */
export interface CladSpec {
  readonly at: Span;
  readonly exposedFlutes: Placed<string> | undefined;
  readonly sides: readonly (Named<Placed<string>> & { readonly name: DrawnSide })[];
}

/** Whatever room the build leaves there. */
export interface Rest {
  readonly kind: 'rest';
  readonly at: Span;
}

export interface TileSpec {
  readonly at: Span;
  readonly like: Placed<string> | undefined;
  /** How many grid squares across and along, or the footprint itself; `none`: a bundle of parts. */
  readonly squares:
    | { readonly at: Span; readonly across: Expression; readonly along: Expression }
    | undefined;
  readonly footprint:
    | { readonly at: Span; readonly across: Expression; readonly along: Expression }
    | 'none'
    | undefined;
  readonly height: Expression | 'none' | undefined;
  readonly lengths: readonly Named<Expression | 'none'>[];
  readonly numbers: readonly Named<Expression | 'none'>[];
  readonly parts: readonly Named<PartSpec | 'none'>[];
  readonly build: RowSpec | FrameSpec | undefined;
  readonly added: readonly AddedSpec[] | undefined;
  readonly edges: EdgesSpec;
  /** How far the tile may stick out of its footprint. */
  readonly beyond: readonly (Named<Expression> & { readonly name: LevelSide })[] | undefined;
  readonly store: Placed<string> | undefined;
  /** So many of each fitting go into one of it, wherever they sit. */
  readonly takes?: readonly Named<Expression | 'none'>[];
  /** By the name of the fitting. */
  readonly fittings?: readonly Named<readonly LetInSpec[] | 'none'>[];
  readonly glueOrder: { readonly at: Span; readonly names: readonly Placed<string>[] } | undefined;
  readonly label: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
  readonly takenAway: readonly Placed<string>[];
}

export interface CuttingSpec extends CutHabitsSpec {
  readonly at: Span;
  readonly effort: Placed<EffortName | number> | undefined;
  /** How far the knife may wander. */
  readonly wander: Expression | undefined;
  readonly worthKeeping:
    | { readonly at: Span; readonly long: Expression; readonly short: Expression }
    | undefined;
  /** By material, for tonight only. */
  readonly only: readonly Named<CutHabitsSpec>[];
}

export type EffortName = 'quick' | 'normal' | 'thorough';

export interface PrintSpec {
  readonly at: Span;
  readonly ruler: { readonly at: Span; readonly scales: NonEmpty<Expression> } | undefined;
  readonly paper: PaperSpec | undefined;
  readonly margin: Expression | undefined;
  readonly units: Placed<ShownUnits> | undefined;
  /** A slip for each pile of cut pieces. */
  readonly slips?: Placed<boolean> | undefined;
}

export type ShownUnits = 'in' | 'mm' | 'both';

/** How many of each tile are made. */
export interface MakeSpec {
  readonly at: Span;
  readonly counts: readonly Named<Expression>[];
  /** Tiles of which as many are made as what is at hand allows; `at` is where that is said. */
  readonly most?: readonly Named<null>[];
}

/** Complete sets of tiles, and how many of them. */
export interface SetsSpec {
  readonly at: Span;
  readonly count: Expression | { readonly kind: 'most'; readonly at: Span } | undefined;
  /** Of one set. */
  readonly counts: readonly Named<Expression>[];
}

export interface EveningSpec {
  readonly at: Span;
  readonly title: Placed<string> | undefined;
  /** `rest`: all that the evenings before it leave. */
  readonly make: MakeSpec | 'rest' | undefined;
}

export type SpareSpec =
  | { readonly kind: 'count'; readonly count: Expression }
  | { readonly kind: 'percent'; readonly at: Span; readonly percent: Rational };

/**
 * One file of the language. A file sees its own names and those of the files it `uses`, and of the files
 * these use. Files that are used by several are the same object, never copies; there are no loops.
 */
export interface SpecFile {
  readonly source: Source;
  readonly kind: 'kit' | 'shelf' | 'session' | 'drawer';
  readonly title: Placed<string> | undefined;
  readonly note: Placed<string> | undefined;
  readonly units: FileUnits | undefined;
  /** Where the word behind `units` is written, quotes included; absent where there is none. */
  readonly unitsAt?: Span;
  readonly uses: readonly SpecFile[];
  /** The paths behind `uses` as they are written, in their order. */
  readonly usesAt?: readonly Placed<string>[];
  readonly lengths: readonly Named<Expression>[];
  readonly numbers: readonly Named<Expression>[];
  readonly levels: readonly Named<Expression>[];
  readonly grid: GridSpec | undefined;
  readonly materials: readonly Named<MaterialSpec>[];
  /** By the name of the material. */
  readonly sheets: readonly Named<readonly SheetSpec[]>[];
  readonly offcuts: readonly Named<readonly SheetSpec[]>[];
  readonly masters: readonly Named<OutlineSpec>[];
  readonly parts: readonly Named<PartSpec>[];
  readonly racks: readonly Named<RackSpec>[];
  readonly fittings?: readonly Named<FittingSpec>[];
  /** Of a drawer. */
  readonly fittingsAtHand?: readonly Named<FittingsAtHandSpec>[];
  /** What the session takes beside what its tiles do. */
  readonly takes?: readonly Named<Expression>[];
  readonly tiles: readonly Named<TileSpec>[];
  readonly make: MakeSpec | undefined;
  readonly sets?: SetsSpec;
  readonly evenings?: readonly EveningSpec[];
  /** By the name of a part, or `face of retaining wall`. */
  readonly spares?: readonly Named<SpareSpec>[];
  readonly loose: readonly Named<PartSpec>[];
  readonly measured: readonly Named<Expression>[];
  readonly cutting: CuttingSpec | undefined;
  readonly print: PrintSpec | undefined;
  /** What is at hand, of a session that names it: a file of the kind `drawer`. */
  readonly drawer?: SpecFile;
}

/** The files named on the command line, in that order; `uses` leads to all others. */
export interface Spec {
  readonly files: NonEmpty<SpecFile>;
}
