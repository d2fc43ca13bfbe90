import type {
  ByWay,
  DrawnSide,
  Duty,
  Habit,
  Length,
  Outline,
  Placed,
  Side,
  Span,
  TileSide,
  Way,
} from '../../model/index.ts';

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
}

export interface PartMember {
  readonly kind: 'part';
  readonly at: Span;
  readonly part: PartToStand;
  readonly stance: StanceWish;
  readonly flip: 'length' | 'width' | 'both' | undefined;
  readonly facing: Placed<TileSide> | undefined;
  readonly own: Own;
  /** The same member as it is without strips, where it stands between some. */
  readonly undressed?: PartMember;
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
  readonly grain: Side | 'any' | 'upright';
  readonly flutes: Side | 'any' | 'upright';
  readonly isFloor: boolean;
  /** What faces the other way is its other hand, a part of its own. */
  readonly isHanded: boolean;
  /** Its shape as it is drawn; undefined: the rectangle of its size. */
  readonly outline?: Outline | undefined;
  readonly master?: string | undefined;
  /** The same of one whose size the build decides, once it has. */
  readonly drawnLater?:
    | ((net: {
        readonly length: Length;
        readonly width: Length;
      }) => Pick<PartToStand, 'outline' | 'isHanded'>)
    | undefined;
  readonly accepted: readonly Habit[];
  readonly clad: CladToStand | undefined;
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
    | { readonly kind: 'at'; readonly corner: ByWay<Length> };
}

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
