import type { Bevel, DrawnFolds, Rebate } from './batch.ts';
import type { Pole } from './fittingSpec.ts';
import type { Outline, Point } from './outline.ts';
import type { Length } from './rational.ts';
import type { Inclined } from './sloping.ts';
import type { Placed, Span } from './source.ts';

/**
 * How tiles stand, with every sum worked out: what `expand/` gives to `fit/`.
 *
 *            up
 *             │    along (to the back)
 *             │   ╱
 *             │  ╱
 *   left      │ ╱
 *             └────────── across (to the right)
 *      left front bottom corner: the datum
 */
export type Way = 'across' | 'along' | 'up';

export const ways: readonly Way[] = ['across', 'along', 'up'];

export type ByWay<T> = Readonly<Record<Way, T>>;

export type LevelSide = 'left' | 'right' | 'front' | 'back';
export type TileSide = LevelSide | 'bottom' | 'top';

export const levelSides: readonly LevelSide[] = ['front', 'back', 'left', 'right'];

/** A piece of a fitting where it sits in its tile: in a round hole, square to the side that it is let into. */
export interface StandingFitting {
  readonly fitting: string;
  readonly at: Span;
  /** Where its hole opens, and where its outer pole looks. */
  readonly side: TileSide;
  /** The middle of the opening. */
  readonly middle: ByWay<Length>;
  /** Of the hole. */
  readonly diameter: Length;
  readonly deep: Length;
  readonly pole: Pole | undefined;
  /** The least that stays of a part beside the hole and behind it. */
  readonly leastWall: Length;
}

/** Where a side is: at which end of which way. */
export const endOfSide: Readonly<Record<TileSide, { readonly way: Way; readonly end: 'low' | 'high' }>> = {
  left: { way: 'across', end: 'low' },
  right: { way: 'across', end: 'high' },
  front: { way: 'along', end: 'low' },
  back: { way: 'along', end: 'high' },
  bottom: { way: 'up', end: 'low' },
  top: { way: 'up', end: 'high' },
};

/**
 * Where a side's own two ways run, seen from outside: to the right and up. Top and bottom are both seen from above.
 *
 *        back            left ┌──────┐ right of the back, seen from behind
 *      ┌──────┐               │ back │
 *  left│      │right          └──────┘
 *      └──────┘
 *        front
 */
export const seenFromOutside: Readonly<
  Record<TileSide, { readonly right: Way; readonly from: 'low' | 'high'; readonly up: Way }>
> = {
  front: { right: 'across', from: 'low', up: 'up' },
  right: { right: 'along', from: 'low', up: 'up' },
  back: { right: 'across', from: 'high', up: 'up' },
  left: { right: 'along', from: 'high', up: 'up' },
  top: { right: 'across', from: 'low', up: 'along' },
  bottom: { right: 'across', from: 'low', up: 'along' },
};

/** A box of the tile, exactly placed; `low` is its left front bottom corner. */
export interface Block {
  readonly low: ByWay<Length>;
  readonly high: ByWay<Length>;
}

export type Habit =
  | 'flutes not upright'
  | 'weak strip'
  | 'bare flutes'
  | 'floating'
  | 'folds across'
  | 'folds cut';

/** Told of the drawing of a part, before anything stands. */
export type FoldHabit = Extract<Habit, 'folds across' | 'folds cut'>;

/** The one standing of a part: which of its three sizes runs which way. */
export interface Stance {
  readonly length: Way;
  readonly width: Way;
  readonly thickness: Way;
}

/** One piece of a part, where it stands in its tile. */
export interface StandingPart {
  readonly kind: 'part';
  /** Unique in its build: `post 1`, `post 2`, or the part's name where it stands once. */
  readonly name: string;
  /** The part it is a piece of. */
  readonly part: string;
  /** The part whose side it covers, where it is a strip that follows from `clad`. */
  readonly clads: string | undefined;
  /** Where the build names it. */
  readonly at: Span;
  readonly material: string;
  readonly size: { readonly length: Length; readonly width: Length; readonly thickness: Length };
  readonly stance: Stance;
  /** Where its good side looks. */
  readonly facing: TileSide;
  /** True where that is not where it looks in a part that is neither flipped nor faced about. */
  readonly isTurnedOver: boolean;
  /** Which way round its drawing is turned over or about before it is set there. */
  readonly flip?: 'length' | 'width' | 'both';
  readonly block: Block;
  /** Ways in which it is set over the rest and doesn't count in its row's extent. */
  readonly overhangs: readonly Way[];
  /** Which way grain and flutes run; `either` where the part leaves it open; undefined: it has none. */
  readonly grain: Way | 'either' | undefined;
  readonly flutes: Way | 'either' | undefined;
  /** False for what nobody stands on. */
  readonly isFloor: boolean;
  readonly accepted: readonly Habit[];
  /**
   * Its shape as it lies in its block: x from the low end the way of its length, y the way of its width, whichever
   * side looks where. Absent: the rectangle of its size.
   */
  readonly outline?: Outline;
  /** The master that it is traced from. */
  readonly master?: string;
  /**
   * How much further its length goes, into corners, than the room that its row leaves it; below zero where it ends
   * before. Absent: it fills that room.
   */
  readonly reach?: Length;
  /** Edges of its part's drawing that are not cut square, those of a piece that faces about being its other hand's. */
  readonly bevels?: readonly Bevel[];
  readonly rebates?: readonly Rebate[];
  /** What of its block it fills, where that is less than its outline as thick as the part: bevelled, sloping, bent. */
  readonly profile?: Profile;
  /** Its length and thickness are those of what it is folded up to: neither is cut to a mark. */
  readonly isFolded?: true;
  /** Of walls that are folded round a room out of one strip: what that is in the flat. */
  readonly strip?: StripInFlat;
  /** What of it no one side view shows: in no row, and nothing that is cut or glued for itself. */
  readonly walls?: readonly StandingPart[];
  /** It is one of these. */
  readonly isWall?: true;
  /** A size that it owes to how it slopes or bends. */
  readonly inclined?: Inclined;
  /** Something is cut into it, where its bends or its corners can't be said of any plane: no verdict knows of that. */
  readonly isTakenWhole?: true;
}

export interface StripInFlat {
  /** With its folds, and without its cuts. */
  readonly blank: Outline;
  readonly length: Length;
  readonly folds: DrawnFolds;
  readonly walls: ReadonlyMap<LevelSide, WallInFlat>;
}

/**
 * A wall of a strip in its blank: from corner to corner outside, and how much of that is flat where folds take of it.
 *
 *       low   from                 to   high
 *        ┊     ┌───────────────────┐     ┊
 */
export interface WallInFlat {
  readonly name: LevelSide;
  readonly low: Length;
  readonly high: Length;
  readonly from: Length;
  readonly to: Length;
}

/**
 * A piece as it is seen along a way that is not that of its thickness: it goes through its block that way.
 *
 *      along: a wall between two mitres      across: a deck that slopes      across: a skin over a curve
 *         ╲______________╱                        ▁▂▃▄▅▆                          ╭────╮
 */
export interface Profile {
  /** The way that it is looked along. */
  readonly along: Way;
  /** From the low end of its block: x and y go the two other ways, in the order across, along, up. */
  readonly outline: Outline;
  /** Its flat pieces, where something is cut into them; absent: it goes through its block whole. */
  readonly panels?: readonly Panel[];
}

/**
 * A flat piece of what slopes or is folded, as its profile has it, with the outline that it has in its own plane.
 *
 *           ╱╱ onward          y of the outline goes through the block, the way that the profile is looked along
 *         ╱╱
 *       ╱╱ at: x = 0
 */
export interface Panel {
  /** Its corners in the profile, against the clock; hollow nowhere. */
  readonly seen: readonly Point[];
  readonly at: Point;
  /** One long; to 2^-40 where that is not rational. */
  readonly onward: Point;
  readonly outline: Outline;
  /** From where to where the outline is this panel's; it keeps on beyond as it is there, into its folds. */
  readonly from: Length;
  readonly to: Length;
}

export interface StandingGap {
  readonly kind: 'gap';
  readonly at: Span;
  readonly way: Way;
  /** Below zero where repeats at a pitch run into each other. */
  readonly size: Length;
  /** True where it takes what is left, so that its size was not stated. */
  readonly takesRest: boolean;
}

export interface StandingRow {
  readonly kind: 'row';
  readonly name: string | undefined;
  readonly at: Span;
  readonly way: Way;
  readonly members: readonly StandingMember[];
  /** All the glue lines between its members. */
  readonly glue: Length;
  /** Its members together; overhangs are left out. */
  readonly extent: ByWay<Length>;
  readonly block: Block;
  readonly overhangs: readonly Way[];
  /** The piece that it is made round, where all others in it are strips over its sides. */
  readonly core: StandingPart | undefined;
  /** What it must fill in its own direction. */
  readonly duty: Duty | undefined;
}

export type StandingMember = StandingPart | StandingGap | StandingRow;

export interface Duty {
  readonly room: Length;
  readonly from: 'footprint' | 'height' | 'to';
  /** Where the room was stated. */
  readonly at: Span;
}

/** What a side of a tile presents to its neighbour. Heights at its corners and joints, from its left or front end. */
export type Edge =
  | { readonly kind: 'floor'; readonly at: Span; readonly levels: readonly Placed<Length>[] }
  | { readonly kind: 'foot'; readonly at: Span; readonly level: Length }
  | { readonly kind: 'wall'; readonly at: Span };

/** A place to keep tiles in: its inside, and the play that a tile needs in each direction. */
export interface Rack {
  readonly name: string;
  readonly at: Span;
  readonly inside: ByWay<Length>;
  readonly clearance: Length;
}

/** One tile put together. */
export interface Build {
  readonly tile: string;
  readonly at: Span;
  readonly footprint: { readonly across: Length; readonly along: Length };
  readonly squares: { readonly across: number; readonly along: number };
  readonly height: Placed<Length> | undefined;
  readonly tallest: Length | undefined;
  readonly slack: Length;
  readonly lip: Length;
  readonly glueLine: Length;
  readonly beyond: Readonly<Record<LevelSide, Length>>;
  readonly row: StandingRow;
  readonly added: readonly (StandingPart | StandingRow)[];
  /** Every piece that has its place, those of the row first, in row order. */
  readonly parts: readonly StandingPart[];
  readonly edges: Readonly<Record<LevelSide, Edge | undefined>>;
  readonly rack: Rack | undefined;
  /** Those that are let in somewhere; absent: none. */
  readonly fittings?: readonly StandingFitting[];
  /** Names of parts, first to last, where the tile states them. */
  readonly glueOrder: readonly string[] | undefined;
  /** Habits that its parts let pass, each where that is written; absent: none. */
  readonly lets?: readonly LetPass[];
}

export interface LetPass {
  readonly part: string;
  readonly habit: Habit;
  readonly at: Span;
}
