import {
  divide,
  larger,
  millimetres,
  minus,
  opposite,
  smaller,
  sum,
  toFraction,
  whole,
  zero,
} from '../../measure/index.ts';
import {
  atSpan,
  type Block,
  type ByWay,
  type Diagnostic,
  diagnose,
  didYouMean,
  endOfSide,
  type Length,
  type Outline,
  type Span,
  type StandingMember,
  type StandingPart,
  type StandingRow,
  type TileSide,
  type Way,
  ways,
} from '../../model/index.ts';
import { isPlainBlank, laid, type Motion } from '../../outline/index.ts';
import { otherHand } from '../hands.ts';
import { hasTwoHands } from '../parts.ts';
import { cheekUnder } from './cheeks.ts';
import { type CladSides, dressed, dressedRow, unrolled } from './cladding.ts';
import { EdgesOfParts } from './edges.ts';
import { cornerReach, edgesOf, profileOf } from './ends.ts';
import { Exposure, type Stood } from './exposure.ts';
import { foldedInPlace } from './folded.ts';
import { cutAslant } from './panels.ts';
import type { Added, Alignment, Ground, PartMember, PartToStand, Rooms, Row } from './rows.ts';
import {
  alignmentIn,
  extentOf,
  liftOf,
  type Sized,
  type SizedPart,
  type SizedRow,
  type Sizing,
  sized,
} from './sizing.ts';
import { skinLaid } from './skins.ts';
import { type Body, endBevels } from './slopes.ts';
import { asItLies, facingOf, isTurnedOver, runOf } from './stance.ts';
import { wallsOfTray } from './tray.ts';

/** A tile whose pieces all have their place. */
export interface Standing {
  readonly row: StandingRow;
  readonly added: readonly (StandingPart | StandingRow)[];
  readonly parts: readonly StandingPart[];
}

/**
 * Gives every piece its place. The outermost row has the footprint for its room, and the height if the tile
 * states one; what is added stands against what stands already.
 *
 * @returns undefined where some size can't be known
 * @errors those of `sized`; E58 a facing that can't be, E59 a name twice, E60 nothing there to stand against
 */
export function stand(ground: Ground, sizing: Sizing): Standing | undefined {
  if (!isClad(ground)) return standAs(ground, sizing)?.standing;
  // Which flutes are exposed follows from how all stands, and how all stands from the strips over them: ends
  // that are found exposed are clad, until no further one is. A strip that is there stays, so this ends.
  const apart = unrolled(ground);
  const exposed = new Exposure();
  for (;;) {
    const reports: Diagnostic[] = [];
    const quiet = { ...sizing, report: (it: Diagnostic) => reports.push(it) };
    const stood = standAs(dressedGround(apart, exposed, quiet), quiet);
    if (stood === undefined || !exposed.grows(stood)) {
      for (const it of reports) sizing.report(it);
      return stood?.standing;
    }
  }
}

function standAs(ground: Ground, sizing: Sizing): (Stood & { readonly standing: Standing }) | undefined {
  const { footprint, height, row } = ground;
  const rooms: Rooms = {
    across: { size: footprint.across, duty: { from: 'footprint', at: row.at } },
    along: { size: footprint.along, duty: { from: 'footprint', at: row.at } },
    up:
      height === undefined
        ? undefined
        : { size: height, duty: { from: 'height', at: ground.heightAt ?? row.at } },
  };
  const outer = sized(row, row, rooms, sizing);
  if (outer?.kind !== 'row') return undefined;
  const names = new Names(ground, sizing);
  const start: ByWay<Length> = { across: zero, along: zero, up: zero };
  const room = { ...footprint, up: height ?? outer.extent.up };
  const standing = placedRow(outer, start, room, asUsual, names, sizing);

  const whole: Block = { low: start, high: { ...footprint, up: standing.block.high.up } };
  const known = new Map<string, Block>([['tile', whole]]);
  learn(standing, known);
  const stood = [...piecesOf(standing)];
  const added = ground.added.flatMap((it) => {
    const member = placedAdded(it, { known, stood }, names, sizing);
    if (member !== undefined) learn(member, known);
    if (member !== undefined) stood.push(...piecesOf(member));
    return member === undefined ? [] : [member];
  });
  if (added.length < ground.added.length) return undefined;
  return {
    standing: { row: standing, added, parts: withWalls([standing, ...added].flatMap(piecesOf)) },
    members: names.members,
    glueLine: sizing.glueLine,
  };
}

function isClad({ row, added }: Ground): boolean {
  return [row, ...added.map(({ member }) => member)].some((it) =>
    allMembers(it).some(({ member }) => member.kind === 'part' && member.part.clad !== undefined),
  );
}

function dressedGround(ground: Ground, exposed: CladSides, sizing: Sizing): Ground {
  const noWish = { length: undefined, thickness: undefined };
  return {
    ...ground,
    row: dressedRow(ground.row, exposed, sizing),
    added: ground.added.map((it) => {
      const way = it.place.kind === 'against' ? endOfSide[it.place.side].way : 'up';
      return { ...it, member: dressed(it.member, { way, stance: noWish }, exposed, sizing) };
    }),
  };
}

/** Pieces that stand more than once are numbered in row order. */
class Names {
  readonly #times = new Map<string, number>();
  readonly #given = new Map<string, number>();
  readonly #taken = new Map<string, Span>();

  constructor({ row, added }: Ground, { report }: Sizing) {
    const members = [row, ...added.map(({ member }) => member)].flatMap((it) => allMembers(it));
    for (const { member, count } of members) {
      if (member.kind === 'part' && member.own.name === undefined) {
        this.#times.set(member.part.name, (this.#times.get(member.part.name) ?? 0) + count);
      }
    }
    for (const { member } of members) {
      const { name } = member.own;
      if (name === undefined) continue;
      const isTaken = this.#taken.has(name.value) || this.#times.has(name.value) || name.value === 'tile';
      if (isTaken) report(diagnose('E59', atSpan(name.at), { name: name.value }));
      this.#taken.set(name.value, name.at);
    }
  }

  readonly edges = new EdgesOfParts();

  /** Of each piece that has got its name, its member; in the order in which pieces are placed. */
  readonly members: PartMember[] = [];

  of(member: PartMember): string {
    this.members.push(member);
    const name = member.own.name?.value ?? member.part.name;
    const count = member.own.name === undefined ? (this.#times.get(name) ?? 1) : member.own.times;
    if (count === 1) return name;
    const number = (this.#given.get(name) ?? 0) + 1;
    this.#given.set(name, number);
    return `${name} ${number}`;
  }
}

function allMembers(
  member: PartMember | Row,
  times = 1,
): readonly { member: PartMember | Row; count: number }[] {
  const count = times * member.own.times;
  if (member.kind === 'part') return [{ member, count }];
  return [
    { member, count },
    ...member.members.flatMap((it) => (it.kind === 'gap' ? [] : allMembers(it, count))),
  ];
}

/** Level directions in the middle, and down on what is below. */
const asUsual: ByWay<Alignment> = {
  across: { end: 'middle', inward: zero, overhangs: false },
  along: { end: 'middle', inward: zero, overhangs: false },
  up: { end: 'low', inward: zero, overhangs: false },
};

/**
 * Places a row's members one after the other in its own direction, and each by its alignment in the room of
 * the two others.
 *
 *      room ┬ ┌───────┐         ┌──┐ flush back
 *           │ │       │ centred └──┘
 *           ┴ └───────┘
 *             ├─ way ──────────────→
 */
function placedRow(
  it: SizedRow,
  low: ByWay<Length>,
  room: ByWay<Length>,
  around: ByWay<Alignment>,
  names: Names,
  sizing: Sizing,
): StandingRow {
  const { row, members } = it;
  let next = aligned(around[row.way], low[row.way], room[row.way], it.extent[row.way]);
  const start = next;
  const placed: StandingMember[] = [];
  const isOver: (readonly Way[])[] = [];
  for (const [index, member] of members.entries()) {
    const size = extentOf(member, row.way, row.way);
    if (member.kind === 'gap') {
      placed.push({ kind: 'gap', at: member.at, way: row.way, size, takesRest: member.takesRest });
      isOver.push([]);
    } else {
      const align = alignments(member, row, around);
      const slotLow = { ...low, up: sum(low.up, liftOf(member)), [row.way]: next };
      const slot = { ...room, [row.way]: size };
      placed.push(placedMember(member, slotLow, slot, align, names, sizing));
      isOver.push(ways.filter((way) => align[way].overhangs));
    }
    const isGlued =
      member.kind !== 'gap' && members[index + 1] !== undefined && members[index + 1]?.kind !== 'gap';
    next = sum(next, size, isGlued ? sizing.glueLine : zero);
  }
  const standing = placed.map((member, index) =>
    member.kind === 'gap' ? member : { ...member, overhangs: isOver[index] ?? [] },
  );
  return {
    kind: 'row',
    name: row.own.name?.value,
    at: row.at,
    way: row.way,
    members: standing,
    glue: it.glue,
    extent: it.extent,
    block: blockRound(placed, isOver, row.way, start, next),
    overhangs: [],
    core: row.isClad ? coreOf(standing) : undefined,
    duty: it.duty,
  };
}

/** The piece between strips, or between further strips round which these go. */
function coreOf(members: readonly StandingMember[]): StandingPart | undefined {
  for (const member of members) {
    if (member.kind === 'row' && member.core !== undefined) return member.core;
    if (member.kind === 'part' && member.clads === undefined) return member;
  }
  return undefined;
}

/** How a member lies: what it says itself, then its row, then what the row itself was told from outside. */
function alignments(member: Sized, row: Row, around: ByWay<Alignment>): ByWay<Alignment> {
  const inWay = (way: Way): Alignment =>
    way === row.way
      ? { ...asUsual[way] }
      : (alignmentIn(member, row, way) ?? { ...around[way], overhangs: false });
  return { across: inWay('across'), along: inWay('along'), up: inWay('up') };
}

function placedMember(
  member: SizedPart | SizedRow,
  low: ByWay<Length>,
  room: ByWay<Length>,
  align: ByWay<Alignment>,
  names: Names,
  sizing: Sizing,
): StandingPart | StandingRow {
  if (member.kind === 'row') return placedRow(member, low, room, align, names, sizing);
  const corner = (way: Way): Length => aligned(align[way], low[way], room[way], member.extent[way]);
  return placedPart(
    member,
    { across: corner('across'), along: corner('along'), up: levelOf(member) ?? corner('up') },
    names,
    sizing,
  );
}

/** How high a part stands that slopes from level to level. */
function levelOf({ member, body }: SizedPart): Length | undefined {
  const from = member.slope?.from;
  return from && body?.foot && minus(from, body.foot);
}

function placedPart(
  { member: asked, stance, length, width, extent, body, outline: shape }: SizedPart,
  low: ByWay<Length>,
  names: Names,
  sizing: Sizing,
): StandingPart {
  const member = asItLies(asked, stance);
  const { part, ends } = member;
  const facing = facingOf(member, stance, sizing.report);
  const isOver = isTurnedOver(stance, facing);
  const { outline, isHanded } =
    shape === undefined
      ? (part.drawnLater?.({ length, width }) ?? part)
      : { outline: shape, isHanded: hasTwoHands(shape, part.goodSide === true) };
  // What is turned over itself shows its other side; what looks there without being turned is the other hand.
  const isOther = isOver !== isFlippedOver(asked);
  const asCut = { outline, isHanded, goodSide: part.goodSide === true, isOther };
  const worked =
    body === undefined ? edgesOf(member, facing) : { bevels: endBevels(body, member, facing), rebates: [] };
  const { hand, edges } = names.edges.handOf(member, { ...asCut, edges: worked }, sizing);
  const shown = outline && flipped(outline, member.flip, { length, width });
  const folded =
    part.folded && foldedInPlace(part.folded, blankOf(member, width), member.flip, stance, facing);
  const slanted =
    body &&
    (shown === undefined
      ? body.profile
      : cutAslant(body, shown, member, { length, width }[body.inclined.size]));
  const profile = slanted ?? folded?.profile ?? profileOf(member, stance, length);
  const begin = {
    ...low,
    [stance.length]: minus(low[stance.length], ends?.low.reach ?? zero),
    [stance.thickness]: minus(low[stance.thickness], folded?.below ?? zero),
  };
  const end = (way: Way) =>
    folded !== undefined && way === stance.thickness
      ? sum(low[way], extent[way], folded.above)
      : sum(begin[way], ends !== undefined && way === stance.length ? length : extent[way]);
  // What is bent has both along the axis of its bend, where nothing else is said.
  const axis = body?.inclined.how.kind === 'bend' ? body.profile.along : undefined;
  const run = (what: 'grain' | 'flutes', rule: PartToStand['grain'], has: boolean) =>
    axis !== undefined && has && part.unsaid?.includes(what) === true ? axis : runOf(rule, has, stance);
  const blank = part.strip?.blank(width);
  const strip = part.strip && blank && { ...part.strip, blank };
  const piece: StandingPart = {
    kind: 'part',
    name: names.of(asked),
    part: hand === 'other' ? otherHand(part.name) : part.name,
    clads: part.clads,
    at: member.at,
    material: part.material,
    size: { length, width, thickness: part.thickness },
    stance,
    facing,
    isTurnedOver: isOver,
    ...(member.flip === undefined ? {} : { flip: member.flip }),
    block: { low: begin, high: byWay(end) },
    overhangs: [],
    grain: run('grain', part.grain, part.hasGrain),
    flutes: run('flutes', part.flutes, part.hasFlutes),
    isFloor: part.isFloor,
    accepted: part.accepted,
    // Of what slopes or bends its profile tells all.
    ...(shown === undefined || body !== undefined ? {} : { outline: shown }),
    ...(body === undefined ? {} : { inclined: body.inclined }),
    ...(part.master === undefined ? {} : { master: part.master }),
    ...(ends === undefined ? {} : { reach: cornerReach(member) }),
    ...edges,
    ...(profile === undefined ? {} : { profile }),
    ...(folded === undefined ? {} : { isFolded: true as const }),
    ...(isTakenWhole(part, body, shown) ? { isTakenWhole: true as const } : {}),
    ...(strip === undefined ? {} : { strip }),
  };
  const { tray } = part.folded ?? {};
  if (part.folded === undefined || tray === undefined) return piece;
  return { ...piece, walls: wallsOfTray(piece, { ...part.folded, tray }) };
}

/** True of a skin, or a tray, that is cut into: whoever judges the build sees it without. */
function isTakenWhole({ folded }: PartToStand, body: Body | undefined, shown: Outline | undefined): boolean {
  if (body === undefined) return folded?.tray?.isCut === true;
  return body.inclined.how.kind === 'bend' && shown !== undefined && !isPlainBlank(shown);
}

/** What a part is folded from as it lies there; where it is flipped end for end, its profile is. */
function blankOf({ part, flip }: PartMember, width: Length): Outline | undefined {
  const blank = part.blank?.(width);
  return (
    blank &&
    flipped(blank, flip === 'length' || flip === undefined ? undefined : 'width', { length: width, width })
  );
}

function isFlippedOver({ flip }: PartMember): boolean {
  return flip === 'length' || flip === 'width';
}

const turnedRound = new WeakMap<Outline, Map<string, Outline>>();

/** A drawing end for end, top for bottom, or both, in the rectangle of its size; made once of each. */
function flipped(
  outline: Outline,
  flip: PartMember['flip'],
  { length, width }: Pick<SizedPart, 'length' | 'width'>,
): Outline {
  if (flip === undefined) return outline;
  const key = [flip, length, width].map((it) => (typeof it === 'string' ? it : toFraction(it))).join(' ');
  const known = turnedRound.get(outline) ?? new Map<string, Outline>();
  turnedRound.set(outline, known);
  const it = known.get(key) ?? laid(outline, flipWithin(flip, { length, width }));
  known.set(key, it);
  return it;
}

function flipWithin(
  flip: NonNullable<PartMember['flip']>,
  { length, width }: Pick<SizedPart, 'length' | 'width'>,
): Motion {
  return {
    move: ({ x, y }) => ({
      x: flip === 'width' ? x : minus(length, x),
      y: flip === 'length' ? y : minus(width, y),
    }),
    swapsHands: flip !== 'both',
  };
}

/** Where something of that extent begins in its room. */
function aligned({ end, inward }: Alignment, low: Length, room: Length, extent: Length): Length {
  const left = minus(room, extent);
  switch (end) {
    case 'low':
      return sum(low, inward);
    case 'high':
      return sum(low, left, opposite(inward));
    case 'middle':
      return sum(low, millimetres(divide(left, whole(2))));
  }
}

/** The box round a row's members; in its own direction from its start to its end, gaps included. */
function blockRound(
  members: readonly StandingMember[],
  isOver: readonly (readonly Way[])[],
  own: Way,
  start: Length,
  end: Length,
): Block {
  const reach = (way: Way): readonly [Length, Length] => {
    if (way === own) return [start, end];
    let [low, high]: [Length | undefined, Length | undefined] = [undefined, undefined];
    for (const [index, member] of members.entries()) {
      if (member.kind === 'gap' || isOver[index]?.includes(way) === true) continue;
      low = low === undefined ? member.block.low[way] : smaller(low, member.block.low[way]);
      high = high === undefined ? member.block.high[way] : larger(high, member.block.high[way]);
    }
    return [low ?? zero, high ?? zero];
  };
  const [across, along, up] = [reach('across'), reach('along'), reach('up')];
  return {
    low: { across: across[0], along: along[0], up: up[0] },
    high: { across: across[1], along: along[1], up: up[1] },
  };
}

/**
 * Stands an added member against a side of what is there already, in its middle unless it says otherwise, or
 * exactly where `at` says.
 */
function placedAdded(
  { member, place }: Added,
  { known, stood }: { readonly known: ReadonlyMap<string, Block>; readonly stood: readonly StandingPart[] },
  names: Names,
  sizing: Sizing,
): StandingPart | StandingRow | undefined {
  const noRoom: Rooms = { across: undefined, along: undefined, up: undefined };
  if (place.kind === 'over' || place.kind === 'under') {
    if (member.kind !== 'part') return undefined;
    const follow = (lie: Alignment | undefined, low: Length, room: Length, extent: Length) =>
      aligned(lie ?? middle, low, room, extent);
    const found =
      place.kind === 'over'
        ? skinLaid(member, place, stood, follow, sizing)
        : cheekUnder(member, place, stood, follow, sizing);
    return found && placedPart(found.it, found.low, names, sizing);
  }
  const touch = place.kind === 'at' ? undefined : endOfSide[place.side];
  const noWish = { length: undefined, thickness: undefined };
  const it = sized(member, { way: touch?.way ?? 'up', stance: noWish }, noRoom, sizing);
  if (it === undefined) return undefined;
  if (place.kind === 'at') return placedMember(it, place.corner, it.extent, asUsual, names, sizing);

  const target = known.get(place.of.value);
  if (target === undefined || touch === undefined) {
    const meant = didYouMean(place.of.value, known.keys());
    sizing.report(
      diagnose('E60', atSpan(place.of.at), { name: place.of.value, meant, known: [...known.keys()] }),
    );
    return undefined;
  }
  const low = byWay((way) => {
    if (way === touch.way) {
      return touch.end === 'high'
        ? sum(target.high[way], sizing.glueLine)
        : minus(target.low[way], sum(it.extent[way], sizing.glueLine));
    }
    const wish = member.own.align[way] ?? middle;
    return aligned(wish, target.low[way], minus(target.high[way], target.low[way]), it.extent[way]);
  });
  return placedMember(it, low, it.extent, asUsual, names, sizing);
}

const middle: Alignment = { end: 'middle', inward: zero, overhangs: false };

/** Notes where everything with a name of its own stands; a part that stands twice goes by its number alone. */
function learn(member: StandingMember, known: Map<string, Block>): void {
  if (member.kind === 'gap') return;
  // What stands against a clad part stands against its strips.
  const { core } = member.kind === 'row' ? member : { core: undefined };
  if (core !== undefined && !known.has(core.name)) known.set(core.name, member.block);
  if (member.name !== undefined && !known.has(member.name)) known.set(member.name, member.block);
  if (member.kind === 'row') for (const it of member.members) learn(it, known);
}

/** Last, so that pieces stay in the order of their members. */
function withWalls(pieces: readonly StandingPart[]): readonly StandingPart[] {
  return [...pieces, ...pieces.flatMap(({ walls = [] }) => walls)];
}

function piecesOf(member: StandingMember): readonly StandingPart[] {
  if (member.kind === 'part') return [member];
  return member.kind === 'row' ? member.members.flatMap(piecesOf) : [];
}

function byWay<T>(give: (way: Way) => T): ByWay<T> {
  return { across: give('across'), along: give('along'), up: give('up') };
}

/** For the sides that `flush`, `inset` and `overhang` name. */
export function endOf(side: TileSide): { readonly way: Way; readonly end: 'low' | 'high' } {
  return endOfSide[side];
}
