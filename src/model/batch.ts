import type { Build, LevelSide } from './build.ts';
import type { AsFits } from './filler.ts';
import type { FittingDemand } from './fitting.ts';
import type { Enclosure, Outline, Point } from './outline.ts';
import type { Length, NonEmpty, Rational } from './rational.ts';
import type { Settings } from './settings.ts';
import type { Inclined } from './sloping.ts';
import type { Span } from './source.ts';
import type { DrawnSide, Price, Side } from './spec.ts';

/** What is to be made, with every sum worked out: what `expand/` gives. */
export interface Batch {
  readonly title: string;
  readonly notes: readonly string[];
  readonly tiles: readonly TileCount[];
  /** The materials that have parts to be cut, in the order in which the batch first needs them. */
  readonly materials: readonly MaterialDemand[];
  /** What is taken that is not cut from a sheet, in the order in which the batch first needs it; absent: nothing. */
  readonly fittings?: readonly FittingDemand[];
  /** The materials that there are sheets or offcuts of, whether anything is cut from them tonight or not. */
  readonly atHand?: readonly Material[];
  /** Made as often as they fit, of materials that nothing else is cut from: none fits. */
  readonly fillersAlone?: readonly { readonly material: string; readonly kind: PartKind }[];
  /** How what is made is parted over evenings; the one that is made now, where one was asked for. */
  readonly evenings?: { readonly all: readonly Evening[]; readonly now: number | undefined };
  /** What as many are made of as what is at hand allows: how many these are has to be found. */
  readonly most?: { readonly what: string; readonly at: Span };
  /** What stands on the sheets and offcuts at hand, so that no label is given twice. */
  readonly labelsAtHand?: readonly string[];
  /** How the tiles stand that are made, one of each. */
  readonly builds: readonly Build[];
  /** Every master that the files give a name to, used or not, in their order. */
  readonly masters?: readonly Master[];
  /** How far the knife may wander; undefined where nobody said. */
  readonly wander: Length | undefined;
  readonly settings: Settings;
}

export interface Evening {
  readonly title: string;
  readonly tiles: readonly Pick<TileCount, 'name' | 'label' | 'letters' | 'count'>[];
}

/** A tile, and how many are made of it. */
export interface TileCount {
  readonly name: string;
  /** What is printed in place of the name. */
  readonly label: string;
  /** What the labels of its parts begin with, e.g. `RW`. */
  readonly letters: string;
  readonly note: string | undefined;
  readonly count: number;
  /** Undefined for a bundle of parts without a footprint. */
  readonly footprint: { readonly across: Length; readonly along: Length } | undefined;
}

/**
 * All that is asked of one material, and the sheets it can come from. `expand/` gives the parts by their net
 * sizes, `blank/` the blanks that they are cut from.
 */
export interface MaterialDemand {
  readonly material: Material;
  readonly parts: NonEmpty<PartKind>;
  /** Offcuts and sheets; may be empty, which is an error of P. */
  readonly sheets: readonly SheetKind[];
  readonly rules: CutRules;
  /**
   * What is made as often as it goes into what the parts leave, in the order in which it is listed; counts are 0
   * until the parts are laid out.
   */
  readonly fillers?: readonly PartKind[];
  /** Where not all outlines that might lie head to tail along a curve are tried: those that could save most are. */
  readonly triedInPairs?: { readonly tried: number; readonly of: number };
}

export interface Material {
  readonly name: string;
  readonly at: Span;
  /** The measured thickness if there is one, else the nominal: the one that counts in every sum. */
  readonly thickness: Length;
  readonly nominal: Length;
  readonly measured: Length | undefined;
  readonly hasGrain: boolean;
  readonly hasFlutes: boolean;
}

/** Tool, kerf and limits of one material's cuts. Trim belongs to the sheet. */
export interface CutRules {
  readonly tool: string | undefined;
  /** Width that the tool takes out of the material; 0 for a knife. */
  readonly kerf: Length;
  /** Least width of any piece that is cut off; 0 for no limit. */
  readonly leastStrip: Length;
  readonly longestCut: Length | undefined;
  /** The most rounds of cuts, a round being all cuts of one direction; squaring up is none of them. */
  readonly rounds: number | undefined;
  /** Least offcut worth keeping, `long` ≥ `short`; undefined: none is named as kept. */
  readonly worthKeeping: { readonly long: Length; readonly short: Length } | undefined;
}

/**
 * Parts that are the same to the knife: equal sizes, grain and flutes rules, good side. Where two parts may
 * turn freely they are equal also with their sizes swapped. Label and tile differ by member.
 */
export interface PartKind {
  readonly length: Length;
  readonly width: Length;
  /** Which of the two sizes must run with the sheet's grain. */
  readonly grain: Side | 'any';
  readonly flutes: Side | 'any';
  readonly goodSide: boolean;
  /** The sum of the members' counts, at least 1. */
  readonly count: number;
  readonly members: NonEmpty<PartMember>;
}

/** The parts of one kind that carry one label. */
export interface PartMember {
  /** Short, tells tile and part, e.g. `RW face`; unique in the batch. */
  readonly label: string;
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  /** The part's full name in its tile. */
  readonly part: string;
  /** What its build calls it, where only some of its pieces are cut so. */
  readonly standsAs?: string;
  readonly note: string | undefined;
  /** Over the whole batch: count in a tile × tiles; of blanks, where two parts share one. */
  readonly count: number;
  /** Of `count`, so many are spares. */
  readonly spares?: number;
  /** Present where it is made as often as it fits: `count` is how often that was, and so is `each`. */
  readonly asFits?: AsFits;
  /** In one tile; for a loose part the same as `count`. */
  readonly each: number;
  readonly at: Span;
  /** True where the kind's length is the part's width. */
  readonly isTurned?: boolean;
  /** Marks that its tile needs it to be cut to, the kind's way round: the kind has them for its sizes. */
  readonly cutTo?: { readonly length: CutMark | undefined; readonly width: CutMark | undefined };
  /** Of `count`, so many stand with their other side where the good one would look. */
  readonly turnedOver?: number;
  /** Absent where it is its blank: a plain rectangle, cut to its size. */
  readonly drawn?: DrawnPart;
  /** Present where two parts come from one blank; `count` is that of the blanks then. */
  readonly shared?: SharedBlank;
}

/** The ways of forming the blanks of one material. */
export interface Blanks {
  /** The way with the least work. */
  readonly first: MaterialDemand;
  /** Others that may take less; formed only where they could save a sheet. */
  readonly others: readonly OtherBlanks[];
}

export interface OtherBlanks {
  /** In mm²; they, and every mixture of them with the first, take no less. */
  readonly leastArea: Rational;
  /**
   * @param room  in mm²: if they can't take that little, they are of no use
   * @returns     undefined where it comes to nothing
   */
  readonly form: (room?: Rational) => MaterialDemand | undefined;
}

/**
 * Two parts of one outline in one blank, the second turned half round: what one leaves of its box, the other
 * fills. A half-turn is no flip, and grain and flutes run as before.
 *
 *      ┌───────╲ ╲───────┐
 *      │   1    ╲ ╲   2  │
 *      └─────────╲ ╲─────┘
 */
export interface SharedBlank {
  /** The labels of the two, mostly one and the same. */
  readonly labels: readonly [string, string];
  /** The blank's size, the way round that the part is written. */
  readonly length: Length;
  readonly width: Length;
  /** Where the left bottom corner of each one's net box lies in the blank, the same way round. */
  readonly at: readonly [Point, Point];
  /** The cut that parts the two from edge to edge of the blank, where one straight one does: on the first's edge. */
  readonly parting: { readonly from: Point; readonly to: Point } | undefined;
  /** Present where that cut slants, and is a bevel of both; `parting` is its place on the face that lies up. */
  readonly slant?: {
    /** Along the same way, its place on the face below. */
    readonly below: Length;
    /** The second lies with its other face up; else it is itself again when it is turned. */
    readonly isFaceDown: boolean;
  };
  /** How much less the blank takes than two of their own, in mm². */
  readonly saved: Rational;
}

/**
 * A part that is more than the rectangle of its blank: drawn as the part is written, seen from its good side.
 * Once blanks are formed, its kind's length and width are those of the blank.
 *
 *      ┌───────────────┐ blank
 *      │  ┌─────────┐  │
 *      │  │ net ╭───┤  │ leave, at each side its own
 *      │  └─────╯   │  │
 *      └───────────────┘
 */
export interface DrawnPart {
  /** On the datum of its net size; undefined: the rectangle of that size. */
  readonly outline: Outline | undefined;
  /** The name of the master that it is traced from. */
  readonly master: string | undefined;
  /** Masters that its outline is drawn with and not traced from: what is cut away from it, say; absent: none. */
  readonly drawnWith?: readonly string[];
  /** True where the drawing, or its master, is swapped left for right. */
  readonly isMirrored: boolean;
  /** What counts in every sum: the box of the outline. */
  readonly net: { readonly length: Length; readonly width: Length };
  /** How much the blank is larger at each side, trimmed flush after gluing; undefined: nowhere. */
  readonly leave: Readonly<Record<DrawnSide, Length>> | undefined;
  /** What the net size was rounded outward to, where the box has no rational size; undefined: it is exact. */
  readonly roundedTo: Length | undefined;
  /** What it is folded up to; its folds are marks of the outline. Absent: it stays flat. */
  readonly folds?: DrawnFolds;
  /** A size that it owes to how it slopes or bends in its tile. */
  readonly inclined?: Inclined;
  /** Edges that are not cut square to the faces; absent: none. */
  readonly bevels?: readonly Bevel[];
  /** Edges at which it is cut down to less than its thickness; absent: none. */
  readonly rebates?: readonly Rebate[];
  /** Holes for fittings; those that go right through it are in the outline too. Absent: none. */
  readonly bores?: readonly Bore[];
}

/**
 * A hole for a fitting.
 *
 *      face: the drawing              edge: looked at square to it
 *      ┌─────────────┐                ───────────── good side
 *      │    (+) at   │                   (+)  ┬ up
 *      └─────────────┘                ────────┴──── other side
 */
export interface Bore {
  /** What goes in. */
  readonly fitting: string;
  readonly diameter: Length;
  /** Undefined: right through. */
  readonly deep: Length | undefined;
  readonly into:
    | { readonly kind: 'face'; readonly face: 'good' | 'other'; readonly at: Point }
    | {
        readonly kind: 'edge';
        readonly side: DrawnSide;
        /** Along that edge, from the left or the bottom. */
        readonly along: Length;
        /** From the other side of the board towards its good one. */
        readonly up: Length;
      };
}

export interface DrawnFolds {
  /** Outer sizes, as the blank runs; of a tray its length, width and height. */
  readonly panels: readonly Length[];
  readonly isTray: boolean;
  /** Which of the panels are tabs, from 0; of a tray none. */
  readonly tabs: readonly number[];
  /** Of walls that are folded round a room, what each panel but its tab is called. */
  readonly walls?: readonly LevelSide[];
  /** How long the blank is, before anything is rounded. */
  readonly developed: Enclosure<Length>;
}

/**
 * An edge cut at a slant.
 *
 *      long face ────────────╮ size
 *                           ╱
 *      other face ─────────╯
 *                          ├─┤ back
 */
export interface Bevel {
  /** Of the part's drawing, seen from its good side. */
  readonly side: DrawnSide;
  /** The face on which the part has its full size. */
  readonly longFace: 'good' | 'other';
  /** How much further in the edge lies on the other face, square to it. */
  readonly back: Enclosure<Length>;
  /** Of the board: how far it is from face to face. */
  readonly thickness: Length;
}

/**
 * An edge cut down to a part of its thickness: of foam board, to the paper of one face.
 *
 *      long face ──────────────────── size
 *                             ┌─────── stays
 *      other face ────────────┘
 *                             ├───────┤ wide
 */
export interface Rebate {
  /** Of the part's drawing, seen from its good side. */
  readonly side: DrawnSide;
  /** The face that stays. */
  readonly longFace: 'good' | 'other';
  readonly wide: Length;
  /** How much of the thickness is left. */
  readonly stays: Length;
}

/** An outline with a name, kept to trace parts from. */
export interface Master {
  readonly name: string;
  readonly at: Span;
  readonly outline: Outline;
}

/** A mark in place of a size that no rule has, or not the one used first. */
export interface CutMark {
  /** The size itself. */
  readonly exact: Length;
  /** Graduation of the rule that has the mark. */
  readonly scale: Length;
}

/** A block that is sliced into layers, each a sheet. */
export interface SlicedBlock {
  readonly thick: Length;
  readonly layers: number;
  /** How thick what is left of each block is; 0 where nothing is. */
  readonly left: Length;
}

/** A sheet or offcut that can be had. Length runs left–right, width bottom–top. */
export interface SheetKind {
  readonly at: Span;
  readonly length: Length;
  readonly width: Length;
  readonly trim: {
    readonly left: Length;
    readonly right: Length;
    readonly bottom: Length;
    readonly top: Length;
  };
  /** Which side runs with the grain; `none` where the material has none; `unknown` for some offcuts. */
  readonly grain: Side | 'unknown' | 'none';
  readonly flutes: Side | 'unknown' | 'none';
  readonly available: number | 'as needed';
  /** Of one, or of a pack of them. */
  readonly price: Price | undefined;
  /** How many are sold together, 2 or more; absent where each is sold alone. */
  readonly pack?: number;
  /** What it is sliced from, together with the others of its block; absent: it is as thick as it is bought. */
  readonly block?: SlicedBlock;
  /** At hand and paid for: an offcut, or a whole sheet that is used up before any is bought. */
  readonly isOffcut: boolean;
  /** Of what is at hand, a sheet that was never cut. */
  readonly isUncut?: true;
  /** It lies in the drawer, so that it can be taken out of its file. */
  readonly inDrawer?: true;
  readonly trueEdges: boolean;
  readonly label: string | undefined;
  readonly where: string | undefined;
  readonly note: string | undefined;
}
