import {
  compare,
  divide,
  isPositive,
  larger,
  minus,
  scaled,
  smaller,
  sum,
  zero,
} from '../../measure/index.ts';
import {
  atSpan,
  type Block,
  diagnose,
  didYouMean,
  type Length,
  type Outline,
  type Point,
  type StandingPart,
  type Way,
} from '../../model/index.ts';
import { laid, outlineKey, polygon, seenAlong } from '../../outline/index.ts';
import type { OpenPart, WorkedPart } from '../parts.ts';
import { notAlike } from './notAlike.ts';
import type { Alignment, OnOthers, PartMember } from './rows.ts';
import type { Sizing } from './sizing.ts';
import type { Followed } from './skins.ts';
import { roundedOutward } from './slopes.ts';
import { stanceOf } from './stance.ts';

type Under = Extract<OnOthers, { readonly kind: 'under' }>;

/**
 * Stands a part upright beneath one that slopes: its top edge is the underside of that, and it reaches down to what
 * lies beneath, or to the table.
 *
 *            ╱╱
 *          ╱╱╱│ deck
 *        ╱╱╱  │
 *       ╱─────┘ cheek
 *
 * @errors E49 a size that follows and is stated, E60 nothing of that name, E77 a size that has to be rounded, E93 what
 *         does not slope, or lies too low
 */
export function cheekUnder(
  member: PartMember,
  { of }: Under,
  stood: readonly StandingPart[],
  align: (wish: Alignment | undefined, low: Length, room: Length, extent: Length) => Length,
  sizing: Sizing,
): Followed | undefined {
  const { report } = sizing;
  const { part, at, own } = member;
  const deck = stood.find(({ name }) => name === of.value);
  if (deck === undefined) {
    const known = stood.map(({ name }) => name);
    const facts = { name: of.value, meant: didYouMean(of.value, known), known };
    report(diagnose('E60', atSpan(of.at), facts));
    return undefined;
  }
  const { profile } = deck;
  const how = deck.inclined?.how;
  if (how?.kind !== 'slope' || profile === undefined) {
    report(diagnose('E93', atSpan(of.at), { name: of.value }));
    return undefined;
  }
  const across = profile.along;
  const way: Way = across === 'across' ? 'along' : 'across';
  const standing = { ...member.stance, thickness: { value: across, at } };
  const stance = stanceOf({ ...member, stance: standing }, { way: across, stance: standing }, report);
  if (member.flip !== undefined) report(diagnose('E56', atSpan(at), { one: 'under', other: 'flip' }));
  if (part.drawnLater !== undefined)
    report(diagnose('S33', atSpan(at), { what: 'cuts in what stands under a slope' }));
  for (const size of ['length', 'width'] as const) {
    if (part[size] === 'rest') continue;
    report(diagnose('E49', atSpan(at), { part: part.name, size, why: 'under' }));
    return undefined;
  }
  const floor = floorBeneath(deck, stood, sizing.glueLine);
  const [from, to] = within(undersideOf(seenAlong(deck, across)), floor, sizing.glueLine);
  const drawing = cheekOutline(from, to, floor);
  const [wide, high] = [minus(to.x, from.x), minus(larger(from.y, to.y), floor)];
  if (drawing === undefined) return undefined;
  const isLong = stance.length === way;
  const outline = isLong
    ? drawing
    : laid(drawing, { move: ({ x, y }) => ({ x: y, y: x }), swapsHands: true });
  // Only what is rounded in the deck's profile is rounded in what stands under it.
  const { within: off } = profile.outline;
  const isAll = off.numerator === 0n;
  const isWide = isAll || how.ends === 'plumb';
  const isExact = { wide: isWide, high: isAll || (isWide && how.from === undefined) };
  const sized = (size: 'length' | 'width', what: 'wide' | 'high') => {
    const length = what === 'wide' ? wide : high;
    if (isExact[what]) return { size: length };
    return roundedOutward(member, size, { lo: length, hi: sum(length, off) }, sizing);
  };
  const [length, width] = [
    sized('length', isLong ? 'wide' : 'high'),
    sized('width', isLong ? 'high' : 'wide'),
  ];
  if (length === undefined || width === undefined) return undefined;
  const extent: Record<Way, Length> = { across: part.thickness, along: part.thickness, up: high };
  extent[way] = wide;
  const low: Record<Way, Length> = { across: from.x, along: from.x, up: floor };
  const { block } = deck;
  low[across] = align(
    own.align[across],
    block.low[across],
    minus(block.high[across], block.low[across]),
    part.thickness,
  );
  return {
    it: { kind: 'part', member, stance, length: length.size, width: width.size, extent, outline },
    low,
  };
}

/** The long edge below of a deck as it is seen from the side, from its left. */
function undersideOf({ rim }: Outline): readonly [Point, Point] {
  const [first, ...others] = rim;
  const goes = (it: { readonly from: Point; readonly to: Point }) => minus(it.to.x, it.from.x);
  const below = others.reduce(
    (all, it) => (all !== undefined && compare(goes(all), goes(it)) >= 0 ? all : it),
    first,
  );
  if (below === undefined) throw new RangeError('a deck has edges');
  return [below.from, below.to];
}

/** A glue line below the underside, as far as that is above the floor. */
function within(
  [from, to]: readonly [Point, Point],
  floor: Length,
  glueLine: Length,
): readonly [Point, Point] {
  const [left, right] = [minus(from.y, glueLine), minus(to.y, glueLine)];
  // Where it would end below the floor, it ends where it meets that.
  const meets = (end: Length) => {
    const share = divide(minus(floor, left), minus(right, left));
    return compare(end, floor) < 0 ? sum(from.x, scaled(minus(to.x, from.x), share)) : undefined;
  };
  return [
    { x: meets(left) ?? from.x, y: larger(left, floor) },
    { x: meets(right) ?? to.x, y: larger(right, floor) },
  ];
}

/** The highest top beneath a deck, and the glue on it; 0 where nothing but the table is. */
function floorBeneath({ block }: StandingPart, stood: readonly StandingPart[], glueLine: Length): Length {
  return stood
    .filter((it) => compare(it.block.high.up, block.low.up) <= 0 && isBeneath(it.block, block))
    .map((it) => sum(it.block.high.up, glueLine))
    .reduce(larger, zero);
}

function isBeneath(a: Block, b: Block): boolean {
  return (['across', 'along'] as const).every((way) =>
    isPositive(minus(smaller(a.high[way], b.high[way]), larger(a.low[way], b.low[way]))),
  );
}

/** On its datum; a deck that begins on the floor leaves a triangle. */
function cheekOutline(from: Point, to: Point, floor: Length): Outline | undefined {
  const wide = minus(to.x, from.x);
  const [left, right] = [minus(from.y, floor), minus(to.y, floor)];
  const corner = (x: Length, y: Length): readonly Point[] => (isPositive(y) ? [{ x, y }] : []);
  return polygon([{ x: zero, y: zero }, { x: wide, y: zero }, ...corner(wide, right), ...corner(zero, left)])
    .value;
}

/**
 * The drawing of a part that is cut to what it stands under; undefined for any other.
 *
 * @errors E55 pieces that are not alike
 */
export function drawnToStand(
  { name, at, drawn, drawnLater }: OpenPart,
  standings: readonly StandingPart[],
  tile: string,
  { report, show }: Sizing,
): WorkedPart['drawn'] {
  if (drawn?.outline !== undefined || drawnLater !== undefined) return undefined;
  const shaped = standings.filter((it) => it.outline !== undefined);
  const [first] = shaped;
  if (first?.outline === undefined) return undefined;
  const { outline } = first;
  const other = standings.find(
    (it) => it.outline === undefined || outlineKey(it.outline) !== outlineKey(outline),
  );
  if (other !== undefined) {
    const box = ({ size }: StandingPart) => `${show(size.length, at)} x ${show(size.width, at)}`;
    const isSame = box(first) === box(other);
    const comesTo = (it: StandingPart) =>
      isSame && it === other ? 'cut to another slope' : `cut to ${box(it)}`;
    report(notAlike({ tile, part: name, at, size: undefined, pieces: [first, other], comesTo }));
  }
  const plain = { master: undefined, isMirrored: false, leave: undefined, roundedTo: undefined };
  return { ...plain, ...drawn, outline };
}
