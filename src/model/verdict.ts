import type {
  Build,
  FoldHabit,
  Habit,
  LetPass,
  LevelSide,
  StandingFitting,
  StandingPart,
  TileSide,
  Way,
} from './build.ts';
import type { Enclosure } from './outline.ts';
import type { Length } from './rational.ts';
import type { Span } from './source.ts';

/** What is wrong with a build, in figures; the words are found later. */
export type Fault =
  /** A row, or the whole tile where `row` is undefined, doesn't fill its room. */
  | {
      readonly kind: 'does not close';
      readonly at: Span;
      /** What is at fault: a row's name or its direction; `the tile`. */
      readonly what: string;
      readonly isWhole: boolean;
      readonly way: Way;
      readonly extent: Length;
      readonly room: Length;
      readonly from: 'footprint' | 'height' | 'to';
      readonly slack: Length;
      /** Members of the row, in order, as they add up. */
      readonly sum: readonly Term[];
      /** Ways to close it: each changes one size, of one part or of several that share it. */
      readonly right: readonly RightSize[];
      /** True where no size that is cut takes part, so that only other layers or shims can mend it. */
      readonly isOnlyThickness: boolean;
      /** A `rest` that shares with the row's gaps what is left, though what it lies beside is larger than a share. */
      readonly misshared: Misshared | undefined;
      /** So many rows, said in one place as courses and repeats are, come to the same. */
      readonly rows: number;
      /** Parts in that sum that are as large as they are by how they slope or fold, which no size of theirs says. */
      readonly follows: readonly Follows[];
      /** So many pieces more, or less where it is below zero, of what stands in it repeatedly would close it. */
      readonly pieces: { readonly part: string; readonly more: number } | undefined;
      /** A folded part that laps over the rest: what of it goes past that is not in the sum. */
      readonly lapping: { readonly part: string; readonly high: Length } | undefined;
    }
  | {
      readonly kind: 'sticks out';
      readonly part: StandingPart;
      readonly side: TileSide;
      readonly by: Length;
      /** How far it may reach there, from the datum. */
      readonly limit: Length;
    }
  | {
      readonly kind: 'overlaps';
      readonly part: StandingPart;
      readonly other: StandingPart;
      /** The box that both take up. */
      readonly shared: { readonly across: Length; readonly along: Length; readonly up: Length };
      /** The way in which the least would have to give. */
      readonly way: Way;
    }
  | { readonly kind: 'floats'; readonly part: StandingPart }
  /** Less than 0.01 mm of a curve would tell, so it can't be told. */
  | {
      readonly kind: 'hangs on a curve';
      readonly at: Span;
      readonly what: 'overlap' | 'touch' | 'level' | 'way through';
      readonly part: StandingPart;
      readonly other: StandingPart | undefined;
      readonly side: LevelSide | undefined;
    }
  | {
      readonly kind: 'level is off';
      readonly at: Span;
      readonly side: LevelSide;
      readonly declared: Length;
      readonly found: Length;
      /** The floor part on top there. */
      readonly part: StandingPart;
      /** Where along the side, from its left or front end. */
      readonly from: Length;
      readonly to: Length;
      readonly lip: Length;
      /** The end of the side at which a slope begins or ends, where that is what is off. */
      readonly end?: LevelSide;
    }
  | { readonly kind: 'no floor'; readonly at: Span; readonly side: LevelSide }
  /** A floor that is to slope from one level to another jumps on its way. */
  | {
      readonly kind: 'steps';
      readonly at: Span;
      readonly side: LevelSide;
      /** The floor behind the step. */
      readonly part: StandingPart;
      /** Where along the side, from its left or front end. */
      readonly where: Length;
      readonly from: Length;
      readonly to: Length;
      readonly lip: Length;
    }
  /** A side that is to be a wall leaves a way through. */
  | {
      readonly kind: 'not closed';
      readonly at: Span;
      readonly side: LevelSide;
      readonly isFoot: boolean;
      /** From where up it has to be closed. */
      readonly level: Length;
      /** Where along the side, from its left or front end. */
      readonly from: Length;
      readonly to: Length;
      readonly isAllAlong: boolean;
    }
  | {
      readonly kind: 'does not fit the rack';
      readonly at: Span;
      readonly rack: string;
      readonly way: Way;
      readonly needs: Length;
      readonly has: Length;
    }
  | {
      readonly kind: 'habit';
      readonly habit: Exclude<Habit, 'floating' | FoldHabit>;
      readonly part: StandingPart;
      readonly others: number;
      /** Length of the strip or the side on which flutes show. */
      readonly side: TileSide | undefined;
    }
  /** Too little of a part stays beside a hole or behind it; below zero where the hole breaks out. */
  | {
      readonly kind: 'thin wall';
      readonly hole: StandingFitting;
      readonly part: StandingPart;
      readonly wall: Length;
    }
  /** Some of a hole is where no part is, or where one slopes or bends. */
  | {
      readonly kind: 'hole in the air';
      readonly hole: StandingFitting;
      readonly from: Length;
      readonly to: Length;
      /** What is there all the same, and is not square to the hole. */
      readonly slanting: StandingPart | undefined;
      /** Parts of the tile that are, each once. */
      readonly square: readonly string[];
    }
  /** What is let into a side meets nothing at the side of a tile that may lie against it, or is pushed away. */
  | {
      readonly kind: 'does not meet';
      readonly hole: StandingFitting;
      readonly side: LevelSide;
      /** From the left end of a square, seen from outside, and from the table. */
      readonly where: Length;
      readonly high: Length;
      readonly other: string;
      readonly otherSide: LevelSide;
      readonly otherAt: Span;
      readonly isPushedAway: boolean;
    }
  /** Holes that one place of the text says meet others, or leave too little between them. */
  | {
      readonly kind: 'holes meet';
      readonly at: Span;
      readonly pairs: readonly HolePair[];
    }
  | {
      readonly kind: 'does not close as marked';
      readonly at: Span;
      readonly what: string;
      readonly way: Way;
      readonly extent: Length;
      readonly room: Length;
      readonly slack: Length;
      /** Sizes that are rounded to a mark in that sum. */
      readonly marked: readonly Marked[];
      /** Marks of rules beyond the user's that would serve, one set for each rule. */
      readonly serves: readonly (readonly Marked[])[];
      /** True where the search gave up before it had seen all marks. */
      readonly isUnfinished: boolean;
    };

export interface Term {
  readonly name: string;
  readonly count: number;
  /** Of one of them. */
  readonly size: Length;
}

/** Which sizes say `rest`, what each got, and the size beside them that they could say instead. */
export interface Misshared {
  readonly sizes: RightSize['parts'];
  readonly share: Length;
  readonly instead: RightSize['parts'][number];
}

/** Two holes, and how much is left between them: below zero where they meet. */
export interface HolePair {
  readonly hole: StandingFitting;
  readonly other: StandingFitting;
  readonly left: Enclosure<Length>;
  readonly least: Length;
}

/** A part whose extent follows, and from what. */
export interface Follows {
  readonly part: string;
  readonly from: 'its slope' | 'its folds' | 'its tray';
  readonly extent: Length;
}

/**
 * A size which, alone, would close a row: one that a part is cut to, or the run of its slope. Several parts where they
 * lie one on the other in it.
 */
export interface RightSize {
  readonly parts: readonly { readonly part: string; readonly size: 'length' | 'width' | 'run' }[];
  readonly now: Length;
  readonly right: Length;
}

/** A size and the mark it is cut to. */
export interface Marked {
  readonly part: string;
  readonly size: 'length' | 'width';
  readonly exact: Length;
  readonly mark: Length;
  /** Graduation of the rule that has the mark. */
  readonly scale: Length;
  /** True where a nearer mark of the first rule was passed over, so that the whole closes. */
  readonly isChosen: boolean;
}

/** Where two pieces touch, or a glue line apart. */
export interface Contact {
  readonly part: StandingPart;
  readonly other: StandingPart;
  /** The way in which they touch: `other` lies on the high side of `part`. */
  readonly way: Way;
  /** Where they touch along a slant: the second way; `isSame`: `other` lies on the high side that way, too. */
  readonly slant?: { readonly way: Way; readonly isSame: boolean };
  /** In mm². */
  readonly area: Enclosure;
  /** False where less than 0.01 mm of a curve tells whether they touch. */
  readonly isSure: boolean;
}

/** What is left visible of one material on one side of the tile: a sum over its parts, in mm². */
export interface VisibleFace {
  readonly material: string;
  readonly side: TileSide;
  /** In mm²; exact where no curve or slope takes part. */
  readonly area: Enclosure;
}

export interface GlueStep {
  /** The piece or the glued-up row that is set. */
  readonly what: string;
  /** What it is set on; empty for the first of a row. */
  readonly onto: readonly string[];
  /** True where what it is set on has to dry first, since it bears weight or is moved as one. */
  readonly afterDrying: boolean;
}

/** A turn seen from above, and whether the tile is mirrored (left for right) first. */
export interface Turning {
  readonly turned: 'not' | 'right' | 'about' | 'left';
  readonly mirrored: boolean;
}

/** How many of a tile a rack holds. */
export interface RackFill {
  readonly rack: string;
  readonly stack: number;
  readonly sideBySide: number;
}

/** The worst that a knife makes of a sum: every cut off by its wander the same way. */
export interface WanderCase {
  readonly way: Way;
  readonly least: Length;
  readonly most: Length;
  readonly room: Length;
}

/** All that is known of how one tile stands. */
export interface TileFit {
  readonly build: Build;
  readonly faults: readonly Fault[];
  /** What parts let pass that is told of them otherwise. */
  readonly letPass: readonly LetPass[];
  /** How far its rows reach in each direction. */
  readonly extent: { readonly across: Length; readonly along: Length; readonly up: Length };
  readonly marks: readonly Marked[];
  readonly contacts: readonly Contact[];
  readonly faces: readonly VisibleFace[];
  readonly glueing: readonly GlueStep[];
  /** Sides of which less than 0.01 mm of a curve would tell whether they are as they are declared. */
  readonly unchecked: readonly LevelSide[];
  readonly turns: readonly Turning[];
  readonly rack: RackFill | undefined;
  /** The least that stays beside or behind a hole for a fitting; undefined: there are none. */
  readonly thinnestWall: Length | undefined;
  readonly wander: readonly WanderCase[];
}
