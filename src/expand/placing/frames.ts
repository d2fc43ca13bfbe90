import { compare, isPositive, minus, opposite, showExact, sum, times, zero } from '../../measure/index.ts';
import {
  atSpan,
  type BodySpec,
  type CornersSpec,
  diagnose,
  endOfSide,
  type FoldMaking,
  type FrameSpec,
  type Length,
  type LevelSide,
  levelSides,
  type Way,
} from '../../model/index.ts';
import { lengthOf } from '../evaluate.ts';
import { isWorked } from './ends.ts';
import { stripRound } from './foldedRound.ts';
import type { Member, Own, PartMember, Row, StanceWish, WallEnd, WallEnds } from './rows.ts';
import { statedIn } from './sizing.ts';
import type { RowWorkings } from './working.ts';

/** What a frame needs of the rows around it. */
export interface FrameReading {
  readonly body: (spec: BodySpec) => PartMember | Row | undefined;
  readonly own: Own | undefined;
}

/**
 * Walls round a room as rows: the walls that run through with a row of all else between them. Where a wall goes
 * further into its corners than these rows leave room for, or less far, it says so by its ends.
 *
 *     front through        pinwheel            mitre              rebate
 *      ┌───────────┐       ┌─┬─────────┐       ┌───────────┐      ┌───────────┐  back
 *      ├─┬───────┬─┤       │ ├───────┬─┤       │╲_________╱│      │┌─┬─────┬─┐│
 *      │ │       │ │       │ │       │ │       ││         ││      ││ │     │ ││
 *      ├─┴───────┴─┤       ├─┴───────┤ │       │╱‾‾‾‾‾‾‾‾‾╲│      │└─┴─────┴─┘│
 *      └───────────┘       └─────────┴─┘       └───────────┘      └───────────┘  front
 *
 * What is folded is one strip, and its rows: see `foldedFrame`.
 *
 * @errors E41 a mitre between different thicknesses, E43 a rebate that cuts nothing away or all, E47 clad ends
 */
export function workedFrame(spec: FrameSpec, read: FrameReading, it: RowWorkings): Row | undefined {
  const walls = new Map(
    spec.walls.flatMap(({ name, value }) => {
      const wall = standing(name, read.body(value));
      return wall === undefined ? [] : [[name, wall] as const];
    }),
  );
  const corners = workedCorners(spec.corners, it);
  const inside = spec.inside === undefined ? undefined : lying(read.body(spec.inside));
  const { own } = read;
  const isWhole = walls.size === spec.walls.length && (spec.inside === undefined) === (inside === undefined);
  if (!isWhole || corners === undefined || own === undefined) return undefined;

  if (corners.kind === 'fold') return foldedFrame({ spec, corners, walls, it }, inside, own);
  const isTurned = corners.kind === 'sides through';
  const [through, between]: readonly [Pair, Pair] = isTurned
    ? [sideways, lengthways]
    : [lengthways, sideways];
  const frame: Frame = { spec, corners, walls, it };
  const wall = (side: LevelSide): PartMember | undefined => withEnds(side, through, between, frame);
  const bare = { at: spec.at, to: undefined, ofMembers: {}, stance: noWish, isClad: false } as const;
  const ways = { outer: endOfSide[through[0]].way, inner: endOfSide[between[0]].way };
  const middle = (): Row => ({
    ...bare,
    kind: 'row',
    way: ways.inner,
    members: present([wall(between[0]), ...filling(inside, ways.inner, spec, it), wall(between[1])]),
    own: plain,
    isFrame: true,
  });
  const faults = [...checked(frame, through, between)];
  if (faults.length > 0) {
    for (const fault of faults) it.workings.faults.report(fault);
    return undefined;
  }
  return {
    ...bare,
    kind: 'row',
    way: ways.outer,
    members: present([wall(through[0]), middle(), wall(through[1])]),
    own,
    isFrame: true,
  };
}

/**
 * Walls that are one strip: the one at the front, or else at the back, is a member, and the others lap past it over
 * gaps as wide as they are thick.
 *
 *      ┌───────────┐ gap        ┌───────────┐ the member
 *      │  ┌─────┐  │            │  ┌─────┐  │
 *      │  │     │  │ gaps       │  │     │  │ gaps
 *      ├──┴─────┴──┘            │  └─────┘  │
 *      └───────────┘ the member └           ┘
 *
 * @errors E47 clad walls, T39 walls that are no strip
 */
function foldedFrame(frame: Frame, inside: Row | undefined, own: Own): Row | undefined {
  const { spec, corners, walls, it } = frame;
  const base: LevelSide = walls.has('front') ? 'front' : 'back';
  const member = walls.get(base);
  if (member === undefined || corners.kind !== 'fold') return undefined;
  const faults = [...checkedFold(frame, member)];
  for (const fault of faults) it.workings.faults.report(fault);
  if (faults.length > 0) return undefined;
  const { thickness } = member.part;
  const bare = { at: spec.at, to: undefined, ofMembers: {}, stance: noWish, isClad: false } as const;
  const thick = (pair: Pair) => times(thickness, pair.filter((side) => walls.has(side)).length);
  // Where what stands within reaches a wall that is no member, there is glue between.
  const lapped = (side: LevelSide, beside: Member | undefined): Member | undefined => {
    if (!walls.has(side) || side === base) return undefined;
    const size = beside?.kind === 'gap' ? thickness : sum(thickness, it.glueLine);
    return { kind: 'gap', at: spec.at, size };
  };
  const between = (pair: Pair, fill: readonly Member[]) =>
    present([lapped(pair[0], fill[0]), ...fill, lapped(pair[1], fill.at(-1))]);
  const middle = inside && {
    ...bare,
    kind: 'row' as const,
    way: 'across' as const,
    members: between(sideways, filling(inside, 'across', spec, it)),
    own: { ...plain, align: inside.own.align },
    isFrame: true as const,
    walls: thick(sideways),
  };
  const facing = { value: base, at: member.at };
  // Turned end for end its drawing is still the right way round for whoever looks from behind.
  const wall: PartMember = { ...member, facing, flip: base === 'back' ? 'length' : undefined };
  const rest = between(lengthways, filling(middle, 'along', spec, it));
  return {
    ...bare,
    kind: 'row',
    way: 'along',
    members: base === 'front' ? [wall, ...rest] : [...rest, wall],
    own,
    isFrame: true,
    walls: thick(lengthways),
    folded: {
      at: spec.corners.at,
      sides: stripRound((side) => walls.has(side)),
      base,
      by: corners.by,
      tab: corners.tab,
    },
  };
}

/** Each fault once. */
function* checkedFold({ spec, walls, corners }: Frame, { part }: PartMember) {
  const all = [...walls.values()];
  const parts = [...new Set(all.map((it) => it.part.name))];
  const place = atSpan(spec.corners.at);
  if (parts.length > 1) {
    yield diagnose('T39', place, { why: 'parts', parts });
    return;
  }
  if (corners.kind === 'fold' && corners.tab !== undefined && walls.size < levelSides.length) {
    yield diagnose('T39', place, { why: 'open', parts });
  }
  const turned = all.find(({ flip, facing }) => flip !== undefined || facing !== undefined);
  if (turned !== undefined) yield diagnose('T39', atSpan(turned.at), { why: 'turned', parts });
  if (part.folded !== undefined || part.outline !== undefined) {
    yield diagnose('T39', place, { why: 'drawn', parts });
  }
  if (part.clad !== undefined) yield diagnose('E47', place, { part: part.name, side: 'end', why: 'clad' });
}

type Pair = readonly [LevelSide, LevelSide];

const lengthways: Pair = ['front', 'back'];
const sideways: Pair = ['left', 'right'];
const noWish: StanceWish = { length: undefined, thickness: undefined };
const plain: Own = { name: undefined, align: {}, times: 1, pitch: undefined };

interface Frame {
  readonly spec: FrameSpec;
  readonly corners: Corners;
  readonly walls: ReadonlyMap<LevelSide, PartMember>;
  readonly it: RowWorkings;
}

type Corners =
  | { readonly kind: Exclude<CornersSpec['kind'], 'rebate' | 'fold'> }
  | { readonly kind: 'fold'; readonly by: FoldMaking; readonly tab: Length | undefined }
  | { readonly kind: 'rebate'; readonly stays: Length };

function workedCorners(spec: CornersSpec, { tile, workings }: RowWorkings): Corners | undefined {
  if (spec.kind === 'fold') {
    const tab = spec.tab && lengthOf(spec.tab, { aboveZeroOrLeftOut: 'tab' }, { tile }, workings);
    return spec.tab !== undefined && tab === undefined ? undefined : { kind: 'fold', by: spec.by, tab };
  }
  if (spec.kind !== 'rebate') return { kind: spec.kind };
  const stays = lengthOf(spec.stays, 'any', { tile }, workings);
  return stays && { kind: 'rebate', stays };
}

/** A wall has its outer face to its own side, and its length runs level. */
function standing(side: LevelSide, member: PartMember | Row | undefined): PartMember | undefined {
  if (member?.kind !== 'part') return undefined;
  const { at } = member;
  const { way } = endOfSide[side];
  const said = (value: Way) => ({ value, at });
  return {
    ...member,
    stance: { length: said(way === 'across' ? 'along' : 'across'), thickness: said(way) },
  };
}

/** What stands within lies there as in a row that is stacked up, unless it is a row of its own. */
function lying(member: PartMember | Row | undefined): Row | undefined {
  if (member === undefined || (member.kind === 'row' && member.isFrame !== true)) return member;
  return {
    kind: 'row',
    at: member.at,
    way: 'up',
    members: [member],
    to: 'free',
    ofMembers: {},
    stance: noWish,
    own: { ...plain, align: member.own.align },
    isClad: false,
  };
}

/** What fills the room between two walls, one way: what stands within, with gaps beside it where it is smaller. */
function filling(
  inside: Row | undefined,
  way: Way,
  { at }: FrameSpec,
  { glueLine }: RowWorkings,
): readonly Member[] {
  const gap = (size: Length | 'rest'): Member => ({ kind: 'gap', at, size });
  if (inside === undefined) return [gap('rest')];
  const { end, inward } = inside.own.align[way] ?? { end: 'middle', inward: zero };
  const it = placedWithin(inside, way);
  if (statedIn(it, way, { way, stance: noWish }, glueLine) === 'rest') return [it];
  const near = compare(inward, zero) === 0 ? [] : [gap(inward)];
  if (end === 'middle') return [gap('rest'), it, gap('rest')];
  return end === 'low' ? [...near, it, gap('rest')] : [gap('rest'), it, ...near];
}

/** Its place that way is told by the gaps beside it. */
function placedWithin(inside: Row, way: Way): Row {
  const without = ({ own }: { readonly own: Own }): Own => {
    const { [way]: _, ...align } = own.align;
    return { ...own, align };
  };
  const members = inside.members.map((it): Member => (it.kind === 'gap' ? it : { ...it, own: without(it) }));
  return { ...inside, own: without(inside), members };
}

function present(members: readonly (Member | undefined)[]): readonly Member[] {
  return members.filter((it) => it !== undefined);
}

/** The wall at a side, as its corners want its ends. */
function withEnds(side: LevelSide, through: Pair, between: Pair, frame: Frame): PartMember | undefined {
  const wall = frame.walls.get(side);
  if (wall === undefined) return undefined;
  const across = through.includes(side) ? between : through;
  const [low, high] = across.map((other) => endAt(side, other, through, frame)) as [WallEnd, WallEnd]; // of a pair
  const ends: WallEnds = { low, high, outward: side };
  const looksOut = wall.part.goodSide === true || isWorked(ends);
  return {
    ...wall,
    ends,
    facing: wall.facing ?? (looksOut ? { value: side, at: wall.at } : undefined),
  };
}

/** How a wall ends where another meets it; square with its row where none does. */
function endAt(side: LevelSide, other: LevelSide, through: Pair, { corners, walls, it }: Frame): WallEnd {
  const [own, next] = [walls.get(side), walls.get(other)];
  if (own === undefined || next === undefined) return { reach: zero, cut: undefined };
  const isThrough = through.includes(side);
  const { thickness } = next.part;
  const beside = sum(thickness, it.glueLine);
  switch (corners.kind) {
    case 'mitre':
      return { reach: isThrough ? zero : beside, cut: { kind: 'mitre', back: thickness } };
    case 'pinwheel': {
      // Each wall passes the one before it and ends on the one after it, against the clock from the front.
      const passes = pinwheel[(pinwheel.indexOf(side) + 3) % 4] === other;
      if (isThrough) return { reach: passes ? zero : opposite(beside), cut: undefined };
      return { reach: passes ? beside : zero, cut: undefined };
    }
    case 'rebate':
      return isThrough
        ? { reach: zero, cut: { kind: 'rebate', wide: thickness, stays: corners.stays } }
        : { reach: minus(thickness, corners.stays), cut: undefined };
    default:
      return { reach: zero, cut: undefined };
  }
}

const pinwheel: readonly LevelSide[] = ['front', 'right', 'back', 'left'];

/** Each fault once, however many corners have it. */
function* checked({ spec, corners, walls, it }: Frame, through: Pair, between: Pair) {
  const told = new Set<string>();
  const isNew = (...key: readonly string[]): boolean => told.size < told.add(key.join(' | ')).size;
  const place = atSpan(spec.corners.at);
  const show = (length: Length) =>
    showExact(length, it.workings.sights.fileOf(spec.corners.at).units ?? 'mm');
  const partsAt = (sides: Pair) => sides.flatMap((side) => walls.get(side)?.part ?? []);
  for (const { name: part, thickness } of partsAt(through)) {
    if (corners.kind === 'rebate') {
      const isLess = isPositive(corners.stays) && compare(corners.stays, thickness) < 0;
      const facts = { part, stays: show(corners.stays), thickness: show(thickness) };
      if (!isLess && isNew(part)) yield diagnose('E43', place, facts);
    }
    if (corners.kind !== 'mitre') continue;
    for (const other of partsAt(between)) {
      if (compare(thickness, other.thickness) === 0 || !isNew(...[part, other.name].sort())) continue;
      const one = { part, size: show(thickness) };
      yield diagnose('E41', place, { one, other: { part: other.name, size: show(other.thickness) } });
    }
  }
  if (corners.kind === 'front through' || corners.kind === 'sides through') return;
  for (const { part, at } of walls.values()) {
    if (part.clad === undefined || !isNew('clad', part.name)) continue;
    yield diagnose('E47', atSpan(at), { part: part.name, side: 'end', why: 'clad' });
  }
}
