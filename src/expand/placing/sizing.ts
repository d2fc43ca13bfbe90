import {
  compare,
  divide,
  isNegative,
  isPositive,
  larger,
  millimetres,
  minus,
  sum,
  times,
  whole,
  zero,
} from '../../measure/index.ts';
import {
  atSpan,
  type ByWay,
  type Duty,
  diagnose,
  endOfSide,
  type FileUnits,
  type Length,
  type Outline,
  type Span,
  type Stance,
  type Way,
  ways,
} from '../../model/index.ts';
import { checkHeights, cornerReach, fitsWithin, reachesCorners, thicknessOfWalls } from './ends.ts';
import { withStrip } from './foldedRound.ts';
import type { Alignment, Gap, Member, Own, PartMember, Room, Rooms, Row, StanceWish } from './rows.ts';
import { type Body, heightOf, slanted } from './slopes.ts';
import { type Report, stanceOf } from './stance.ts';

/** A member whose sizes are all known; where it stands is not yet. */
export type Sized = SizedPart | SizedGap | SizedRow;

export interface SizedPart {
  readonly kind: 'part';
  readonly member: PartMember;
  readonly stance: Stance;
  readonly length: Length;
  readonly width: Length;
  readonly extent: ByWay<Length>;
  /** Of what slopes or bends. */
  readonly body?: Body;
  /** The shape of what is cut to what it stands under, as it lies in its block. */
  readonly outline?: Outline;
}

export interface SizedGap {
  readonly kind: 'gap';
  readonly at: Span;
  readonly size: Length;
  readonly takesRest: boolean;
}

export interface SizedRow {
  readonly kind: 'row';
  readonly row: Row;
  readonly members: readonly Sized[];
  readonly glue: Length;
  readonly extent: ByWay<Length>;
  /** What its members have in its two other directions, and it in its own. */
  readonly room: ByWay<Length>;
  readonly duty: Duty | undefined;
}

export interface Sizing {
  readonly glueLine: Length;
  readonly report: Report;
  /** Exact, in the unit of the file where it is said. */
  readonly show: (length: Length, at: Span) => string;
  /** Rounded, of what no fraction says. */
  readonly showNear: (length: Length, at: Span) => string;
  /** Those of the file where it is said. */
  readonly unitsAt: (at: Span) => FileUnits;
}

/**
 * Works out how large a member is. Rooms come from outside in, sizes from inside out: a row gives its members
 * its own room in its two other directions; in its own they have what they state, and what is left goes in
 * equal shares to those in which a `rest` runs that way.
 *
 * @returns undefined where something is missing, which is then told
 * @errors E53 no room known, E54 nothing left, E57 a stance that can't be, E62 repeats that stretch
 */
export function sized(
  member: PartMember | Row,
  around: { readonly way: Way; readonly stance: StanceWish },
  rooms: Rooms,
  sizing: Sizing,
): SizedPart | SizedRow | undefined {
  return member.kind === 'part' ? sizedPart(member, around, rooms, sizing) : sizedRow(member, rooms, sizing);
}

function sizedPart(
  member: PartMember,
  around: { readonly way: Way; readonly stance: StanceWish },
  rooms: Rooms,
  sizing: Sizing,
): SizedPart | undefined {
  const { part } = member;
  const { report, show } = sizing;
  const stance = stanceOf(member, around, report);
  // What leaves a part no room leaves its strips none: told of the part alone.
  const tell: Report = part.clads === undefined ? report : () => {};
  const sizeOf = (side: 'length' | 'width'): Length | undefined => {
    const size = part[side];
    const room = rooms[stance[side]];
    const reach = side === 'length' ? cornerReach(member) : zero;
    if (size !== 'rest') {
      const wanted = side === 'length' && room !== undefined ? sum(room.size, reach) : size;
      return reachesCorners(member, size, wanted, sizing) ? size : undefined;
    }
    if (room === undefined) {
      tell(diagnose('E53', atSpan(member.at), { part: part.name, size: side, way: stance[side] }));
      return undefined;
    }
    const rest = sum(room.size, reach);
    if (!isPositive(rest)) {
      const left = show(rest, member.at);
      tell(diagnose('E54', atSpan(member.at), { what: `"${part.name}"`, way: stance[side], left }));
      return undefined;
    }
    return rest;
  };
  if (member.slope !== undefined) {
    const slanting = slanted(member, member.slope, stance, sizeOf, rooms, { ...sizing, report: tell });
    return slanting && { kind: 'part', member, stance, ...slanting };
  }
  const [length, width] = [sizeOf('length'), sizeOf('width')];
  if (length === undefined || width === undefined) return undefined;
  const extent: Record<Way, Length> = { across: zero, along: zero, up: zero };
  extent[stance.length] = minus(length, cornerReach(member));
  extent[stance.width] = width;
  extent[stance.thickness] = part.thickness;
  return { kind: 'part', member, stance, length, width, extent };
}

function sizedRow(asked: Row, rooms: Rooms, sizing: Sizing): SizedRow | undefined {
  const row =
    asked.folded === undefined
      ? asked
      : withStrip(asked, asked.folded, roomsFor(asked, rooms, sizing), sizing);
  if (row === undefined) return undefined;
  const members = repeated(row, sizing);
  if (members === undefined) return undefined;
  const duty = dutyOf(row, rooms[row.way]);
  const own = typeof row.to === 'object' ? { size: row.to.value, duty: undefined } : rooms[row.way];
  const walls = thicknessOfWalls(row);
  if (walls !== undefined && own !== undefined && compare(walls, own.size) >= 0) {
    const [room, thick] = [own.size, walls].map((it) => sizing.show(it, row.at)) as [string, string]; // two of two
    const facts = { way: row.way, room, walls: thick, inside: undefined };
    sizing.report(diagnose('E42', atSpan(row.at), facts));
    return undefined;
  }
  const besides = new Map<Way, Room | undefined>();
  const crossRoom = (way: Way): Room | undefined => {
    // The same for every member, and dear to find in a long row.
    if (!besides.has(way)) besides.set(way, rooms[way] ?? largestBeside(row, members, way, sizing.glueLine));
    return besides.get(way);
  };
  if (walls !== undefined) {
    const roomIn = (way: Way) => (way === row.way ? own && minus(own.size, walls) : crossRoom(way)?.size);
    if (!fitsWithin(row, walls, roomIn, sizing)) return undefined;
  }
  const share = shareOf(row, members, own?.size, sizing);
  if (share === undefined) return undefined;

  // A row inside a row of its own direction owes nothing, so duties end where a row has shared its room out.
  const inner = (member: Member): Rooms => {
    const stated = member.kind === 'gap' ? undefined : statedIn(member, row.way, row, sizing.glueLine);
    const size = stated === 'rest' ? share : stated === 'open' ? undefined : stated;
    const rooms: Record<Way, Room | undefined> = { across: undefined, along: undefined, up: undefined };
    for (const way of ways) rooms[way] = way === row.way ? size && { size, duty: undefined } : crossRoom(way);
    return rooms;
  };
  const inside = members.map((member): Sized | undefined => {
    if (member.kind !== 'gap') return sized(member, row, inner(member), sizing);
    const takesRest = member.size === 'rest';
    return { kind: 'gap', at: member.at, size: member.size === 'rest' ? share : member.size, takesRest };
  });
  const complete = inside.filter((it) => it !== undefined);
  if (complete.length < inside.length) return undefined;
  if (walls !== undefined) checkHeights(complete, sizing);

  const glue = times(sizing.glueLine, glueLines(members));
  const extent: Record<Way, Length> = { across: zero, along: zero, up: zero };
  for (const way of ways) {
    const sizes = complete.filter((it) => !overhangs(it, row, way)).map((it) => reachOf(it, row.way, way));
    extent[way] = way === row.way ? sum(glue, ...sizes) : sizes.reduce(larger, zero);
  }
  const room: Record<Way, Length> = { ...extent };
  for (const way of ways) room[way] = (way === row.way ? own : crossRoom(way))?.size ?? extent[way];
  return { kind: 'row', row, members: complete, glue, extent, room, duty };
}

/** The rooms that a folded frame has, before its strip is known. */
function roomsFor(row: Row, rooms: Rooms, { glueLine }: Sizing): Pick<Rooms, 'across' | 'along'> {
  return { along: rooms.along, across: rooms.across ?? largestBeside(row, row.members, 'across', glueLine) };
}

/** What a row must fill: what `to` says, else the room it has from footprint or height. */
function dutyOf({ to }: Row, room: Room | undefined): Duty | undefined {
  if (to === 'free') return undefined;
  if (to !== undefined) return { room: to.value, from: 'to', at: to.at };
  return room?.duty === undefined ? undefined : { room: room.size, ...room.duty };
}

/** Each repeat for itself, with the gaps between them; undefined where that can't be worked out. */
function repeated(row: Row, sizing: Sizing): readonly Member[] | undefined {
  const all: Member[] = [];
  let isWhole = true;
  for (const member of row.members) {
    if (member.kind === 'gap' || member.own.times === 1) {
      all.push(member);
      continue;
    }
    const { times: count, pitch, climb } = member.own;
    let gap: Gap | undefined;
    if (pitch !== undefined) {
      const stated = statedIn(member, row.way, row, sizing.glueLine);
      if (pitch.kind === 'every' && typeof stated === 'string') {
        sizing.report(diagnose('E62', atSpan(pitch.at), { what: nameOf(member) }));
        isWhole = false;
        continue;
      }
      const size =
        typeof stated === 'string' || pitch.kind === 'apart' ? pitch.size : minus(pitch.size, stated);
      gap = { kind: 'gap', at: pitch.at, size };
    }
    for (let number = 0; number < count; number++) {
      if (number > 0 && gap !== undefined) all.push(gap);
      all.push(climb === undefined ? member : { ...member, own: lifted(member.own, climb, number) });
    }
  }
  return isWhole ? all : undefined;
}

/** How a repeat stands that is so many further on. */
export function lifted(own: Own, climb: Length, number: number): Own {
  return number === 0 ? own : { ...own, lift: sum(own.lift ?? zero, times(climb, number)) };
}

/** What each member that stretches gets of the row's room; 0 where none does. */
function shareOf(
  row: Row,
  members: readonly Member[],
  room: Length | undefined,
  sizing: Sizing,
): Length | undefined {
  const stated = members.map((it) =>
    it.kind === 'gap' ? it.size : statedIn(it, row.way, row, sizing.glueLine),
  );
  const stretching = members.filter((_, index) => stated[index] === 'rest');
  const [first] = stretching;
  if (first === undefined) return zero;
  const what = first.kind === 'gap' ? '"gap rest"' : `"${nameOf(first)}"`;
  if (room === undefined) {
    sizing.report(diagnose('E53', atSpan(first.at), { part: nameOf(first), size: undefined, way: row.way }));
    return undefined;
  }
  const open = members[stated.indexOf('open')];
  if (open !== undefined) {
    sizing.report(diagnose('E78', atSpan(open.at), { part: nameOf(open) }));
    return undefined;
  }
  const fixed = stated.filter((it) => typeof it !== 'string');
  const left = minus(room, sum(times(sizing.glueLine, glueLines(members)), ...fixed));
  const isTooLittle = stretching.every((it) => it.kind === 'gap') ? isNegative(left) : !isPositive(left);
  if (isTooLittle) {
    sizing.report(
      diagnose('E54', atSpan(first.at), { what, way: row.way, left: sizing.show(left, first.at) }),
    );
    return undefined;
  }
  return millimetres(divide(left, whole(stretching.length)));
}

function glueLines(members: readonly Member[]): number {
  return members.filter(
    (it, index) =>
      it.kind !== 'gap' && members[index + 1] !== undefined && members[index + 1]?.kind !== 'gap',
  ).length;
}

/** What a member states as its size one way; `rest` where it stretches, `open` where only its run would tell. */
export function statedIn(
  member: PartMember | Row,
  way: Way,
  around: { readonly way: Way; readonly stance: StanceWish },
  glueLine: Length,
): Length | 'rest' | 'open' {
  if (member.kind === 'part') {
    const stance = stanceOf(member, around, () => {});
    if (member.slope !== undefined && way === 'up')
      return heightOf(member.part.thickness, member.slope) ?? 'open';
    if (member.slope !== undefined && way === endOfSide[member.slope.to].way)
      return member.slope.run ?? 'rest';
    if (stance.thickness === way) return member.part.thickness;
    const { length, width } = member.part;
    if (stance.length !== way) return width;
    return length === 'rest' ? length : minus(length, cornerReach(member));
  }
  const inside = member.members.filter((it) => it.kind !== 'gap' || member.way === way);
  const sizes = inside
    .filter((it) => it.kind === 'gap' || it.own.align[way]?.overhangs !== true || member.way === way)
    .map((it) => (it.kind === 'gap' ? it.size : repeatsIn(it, way, member, glueLine)));
  if (sizes.includes('rest'))
    return member.way === way && typeof member.to === 'object' ? member.to.value : 'rest';
  if (sizes.includes('open')) return 'open';
  const lengths = sizes.filter((it) => typeof it !== 'string');
  return member.way === way
    ? sum(times(glueLine, glueLines(member.members)), ...lengths)
    : lengths.reduce(larger, zero);
}

/** A member with its repeats, in the direction of its row or another. */
function repeatsIn(member: PartMember | Row, way: Way, row: Row, glueLine: Length): Length | 'rest' | 'open' {
  const one = statedIn(member, way, row, glueLine);
  const { times: count, pitch, climb, lift } = member.own;
  if (typeof one === 'string') return one;
  if (row.way !== way) {
    return way === 'up' ? sum(one, lift ?? zero, climb === undefined ? zero : times(climb, count - 1)) : one;
  }
  if (pitch === undefined) return sum(times(one, count), times(glueLine, count - 1));
  return pitch.kind === 'every'
    ? sum(times(pitch.size, count - 1), one)
    : sum(times(pitch.size, count - 1), times(one, count));
}

/** Where nothing gives a room: the largest stated member beside it. */
function largestBeside(row: Row, members: readonly Member[], way: Way, glueLine: Length): Room | undefined {
  const stated = members.flatMap((it) => {
    if (it.kind === 'gap' || it.own.align[way]?.overhangs === true) return [];
    const size = statedIn(it, way, row, glueLine);
    return typeof size === 'string' ? [] : [way === 'up' ? sum(size, it.own.lift ?? zero) : size];
  });
  return stated.length === 0 ? undefined : { size: stated.reduce(larger, zero), duty: undefined };
}

export function alignmentIn(member: Sized, row: Row, way: Way): Alignment | undefined {
  if (member.kind === 'gap') return undefined;
  return (member.kind === 'part' ? member.member.own : member.row.own).align[way] ?? row.ofMembers[way];
}

function overhangs(member: Sized, row: Row, way: Way): boolean {
  return way !== row.way && alignmentIn(member, row, way)?.overhangs === true;
}

export function extentOf(member: Sized, rowWay: Way, way: Way): Length {
  if (member.kind === 'gap') return way === rowWay ? member.size : zero;
  return member.extent[way];
}

/** How far it reaches with what it is lifted by. */
function reachOf(member: Sized, rowWay: Way, way: Way): Length {
  const extent = extentOf(member, rowWay, way);
  if (member.kind === 'gap' || way !== 'up') return extent;
  return sum(extent, liftOf(member));
}

export function liftOf(member: SizedPart | SizedRow): Length {
  return (member.kind === 'part' ? member.member.own : member.row.own).lift ?? zero;
}

export function nameOf(member: Member): string {
  if (member.kind === 'gap') return 'gap';
  return member.own.name?.value ?? (member.kind === 'part' ? member.part.name : `row ${member.way}`);
}
