import type {
  AddedSpec,
  ByWay,
  DrawnFolds,
  DrawnSide,
  Duty,
  FoldMaking,
  Habit,
  Length,
  LevelSide,
  Outline,
  Placed,
  Side,
  SlopeEnds,
  Span,
  TileSide,
  Way,
} from '../../model/index.ts';
import type { WallsInFlat } from '../drawing.ts';
import type { FoldedBody } from '../folds.ts';
import type { NetToDraw } from '../shapes.ts';

/** Rows with every sum worked out, not standing yet. */
export interface Row {
  readonly kind: 'row';
  readonly at: Span;
  readonly way: Way;
  readonly members: readonly Member[];
  /** What it must fill in its own direction. */
  readonly to: Placed<Length> | 'free' | undefined;
  /** How its members lie in its two other directions, and which way theirs run, unless they say otherwise. */
  readonly ofMembers: Partial<ByWay<Alignment>>;
  readonly stance: StanceWish;
  readonly own: Own;
  /** True for a part between strips that cover its sides. */
  readonly isClad: boolean;
  /** True for the walls round a room, and for those of them between the others with what they enclose. */
  readonly isFrame?: true;
  /** Of a frame's rows, where walls are not members of their own: how thick these are together. */
  readonly walls?: Length;
  /** Present where its walls are one strip, which is as long as its room asks. */
  readonly folded?: FoldedWalls | undefined;
}

/** Walls round a room that are one strip, scored on the outside. */
export interface FoldedWalls {
  readonly at: Span;
  /** As the blank runs: from the left to the right for whoever goes round it outside. */
  readonly sides: readonly LevelSide[];
  /** The wall at the front or the back that the row has a place for; the others lap past it. */
  readonly base: LevelSide;
  readonly by: FoldMaking;
  /** How long the tab is that is glued behind the first wall, beyond the last. */
  readonly tab: Length | undefined;
}

/** What such a strip is in the flat. */
export interface StripToStand {
  readonly length: Length;
  readonly folds: DrawnFolds;
  readonly blank: (width: Length) => Outline | undefined;
  readonly walls: WallsInFlat;
}

export interface PartMember {
  readonly kind: 'part';
  readonly at: Span;
  readonly part: PartToStand;
  readonly stance: StanceWish;
  readonly flip: 'length' | 'width' | 'both' | undefined;
  readonly facing: Placed<TileSide> | undefined;
  readonly own: Own;
  readonly slope?: Sloping | undefined;
  /** The step that a length without a size of its own is rounded outward to. */
  readonly upTo?: Placed<Length> | undefined;
  /** Of a wall that meets others at corners. */
  readonly ends?: WallEnds | undefined;
  /** The same member as it is without strips, where it stands between some. */
  readonly undressed?: PartMember;
}

/** How a wall goes into its corners. */
export interface WallEnds {
  readonly low: WallEnd;
  readonly high: WallEnd;
  /** Where its outer face looks. */
  readonly outward: LevelSide;
}

export interface WallEnd {
  /** How much further it goes than the room that its row leaves it; below zero: it ends before. */
  readonly reach: Length;
  /** Undefined: square. Its outer face is as long as it is itself. */
  readonly cut:
    | { readonly kind: 'mitre'; readonly back: Length }
    | { readonly kind: 'rebate'; readonly wide: Length; readonly stays: Length }
    | undefined;
}

export interface Gap {
  readonly kind: 'gap';
  readonly at: Span;
  readonly size: Length | 'rest';
}

export type Member = PartMember | Gap | Row;

/** What a row or a part says of itself as a member of the row around it. */
export interface Own {
  readonly name: Placed<string> | undefined;
  readonly align: Partial<ByWay<Alignment>>;
  readonly times: number;
  /** From start to start of the repeats, or clear between them; neither: they touch. */
  readonly pitch: { readonly kind: 'every' | 'apart'; readonly size: Length; readonly at: Span } | undefined;
  /** How much higher each repeat stands than the one before. */
  readonly climb?: Length | undefined;
  /** How much higher it stands itself, for being a repeat. */
  readonly lift?: Length | undefined;
}

/** How a part rises through its room. */
export interface Sloping {
  readonly at: Span;
  /** The side at which it is high. */
  readonly to: LevelSide;
  readonly rise: Length;
  /** How high its top is at its low end; undefined: it stands as its row has it. */
  readonly from: Length | undefined;
  /** How far it goes level; undefined: its room. */
  readonly run: Length | undefined;
  readonly ends: SlopeEnds;
}

export interface StanceWish {
  readonly length: Placed<Way> | undefined;
  readonly thickness: Placed<Way> | undefined;
}

/**
 * Where a member lies in its room, one way: at the low end (left, front, bottom), at the high end, or in the
 * middle; `inward` from that end, below zero for outward.
 */
export interface Alignment {
  readonly end: 'low' | 'high' | 'middle';
  readonly inward: Length;
  readonly overhangs: boolean;
}

/** A part as it is needed to stand it up. */
export interface PartToStand {
  readonly name: string;
  readonly at: Span;
  readonly material: string;
  readonly thickness: Length;
  readonly length: Length | 'rest';
  readonly width: Length | 'rest';
  readonly lies: boolean;
  readonly hasGrain: boolean;
  readonly hasFlutes: boolean;
  readonly goodSide?: boolean;
  readonly grain: Side | 'any' | 'upright';
  readonly flutes: Side | 'any' | 'upright';
  /** What nothing is said of, where its material has it. */
  readonly unsaid?: readonly ('grain' | 'flutes')[];
  /** The least radius that its material is bent to. */
  readonly leastBend?: Length | undefined;
  readonly isFloor: boolean;
  /** What faces the other way is its other hand, a part of its own. */
  readonly isHanded: boolean;
  /** Its shape as it is drawn; undefined: the rectangle of its size. */
  readonly outline?: Outline | undefined;
  readonly master?: string | undefined;
  /** The same of one whose size the build decides, once it has. */
  readonly drawnLater?: ((net: NetToDraw) => Pick<PartToStand, 'outline' | 'isHanded'>) | undefined;
  readonly accepted: readonly Habit[];
  readonly clad: CladToStand | undefined;
  /** What it is folded up to; its length and thickness are those of that, then. */
  readonly folded?: FoldedBody | undefined;
  /** The same where its room decides it. */
  readonly strip?: StripToStand;
  /** What it is folded from, as wide as that. */
  readonly blank?: ((width: Length) => Outline | undefined) | undefined;
  /** The part whose side it covers. */
  readonly clads: string | undefined;
}

/** What covers the sides of a part, each a strip with a name of its own. */
export interface CladToStand {
  readonly sides: ReadonlyMap<DrawnSide, StripMaterial>;
  readonly exposedFlutes: StripMaterial | undefined;
  readonly nameOf: (side: DrawnSide) => string;
}

export interface StripMaterial {
  readonly name: string;
  readonly thickness: Length;
  readonly hasGrain: boolean;
  readonly hasFlutes: boolean;
}

/** What stands beside the rows. */
export interface Added {
  readonly at: Span;
  readonly member: PartMember | Row;
  readonly place:
    | { readonly kind: 'against'; readonly side: TileSide; readonly of: Placed<string> }
    | { readonly kind: 'at'; readonly corner: ByWay<Length> }
    | OnOthers;
}

/** What follows the pieces that it lies on or stands under; only parts do. */
export type OnOthers = Extract<AddedSpec['place'], { readonly kind: 'over' | 'under' }>;

/** Everything that the standing of a tile follows from. */
export interface Ground {
  readonly tile: string;
  readonly footprint: { readonly across: Length; readonly along: Length };
  readonly height: Length | undefined;
  readonly heightAt: Span | undefined;
  readonly glueLine: Length;
  readonly row: Row;
  readonly added: readonly Added[];
}

/** A size that is there to be filled, and whether filling it is a duty. */
export interface Room {
  readonly size: Length;
  readonly duty: Omit<Duty, 'room'> | undefined;
}

export type Rooms = ByWay<Room | undefined>;
