import { compare, minus, sum, zero } from '../../measure/index.ts';
import {
  atSpan,
  diagnose,
  endOfSide,
  type Length,
  type Point,
  type Profile,
  type Stance,
  type TileSide,
  type Way,
} from '../../model/index.ts';
import { polygon } from '../../outline/index.ts';
import { endsOf } from './cladding.ts';
import { type Edges, square } from './edges.ts';
import type { PartMember, Row, WallEnd, WallEnds } from './rows.ts';
import { type Sized, type SizedPart, type Sizing, statedIn } from './sizing.ts';

/** True where some end of a wall is not cut square. */
export function isWorked({ low, high }: WallEnds): boolean {
  return low.cut !== undefined || high.cut !== undefined;
}

/** How much further a wall goes, in all, than the room that its row leaves it. */
export function cornerReach({ ends }: PartMember): Length {
  return ends === undefined ? zero : sum(ends.low.reach, ends.high.reach);
}

/** The edges of its drawing that a wall's ends are. */
export function edgesOf(member: PartMember, facing: TileSide): Edges {
  const { ends } = member;
  if (ends === undefined) return square;
  const [low, high] = endsOf(member, 'length');
  const longFace = facing === ends.outward ? ('good' as const) : ('other' as const);
  const sides = [
    { side: low, cut: ends.low.cut },
    { side: high, cut: ends.high.cut },
  ];
  return {
    bevels: sides.flatMap(({ side, cut }) =>
      cut?.kind === 'mitre'
        ? [{ side, longFace, back: { lo: cut.back, hi: cut.back }, thickness: member.part.thickness }]
        : [],
    ),
    rebates: sides.flatMap(({ side, cut }) =>
      cut?.kind === 'rebate' ? [{ side, longFace, wide: cut.wide, stays: cut.stays }] : [],
    ),
  };
}

/**
 * A wall as it is seen from above; undefined where it fills its block.
 *
 *      outer face ──────────────╮           ───────────────┐ stays
 *                              ╱ mitre             rebate ┌┘
 *      inner face ────────────╯             ──────────────┘
 */
export function profileOf({ ends, part }: PartMember, stance: Stance, length: Length): Profile | undefined {
  if (ends === undefined || !isWorked(ends)) return undefined;
  const { thickness } = part;
  const corner = (inward: Length, deep: Length): Corner => ({ inward, deep });
  const corners = ({ cut }: WallEnd): readonly Corner[] => {
    if (cut === undefined) return [corner(zero, zero), corner(zero, thickness)];
    if (cut.kind === 'mitre') return [corner(zero, zero), corner(cut.back, thickness)];
    return [
      corner(zero, zero),
      corner(zero, cut.stays),
      corner(cut.wide, cut.stays),
      corner(cut.wide, thickness),
    ];
  };
  const isAtLowSide = endOfSide[ends.outward].end === 'low';
  const point = (along: Length, deep: Length): Point => {
    const place = isAtLowSide ? deep : minus(thickness, deep);
    return stance.length === 'across' ? { x: along, y: place } : { x: place, y: along };
  };
  const low = corners(ends.low).map(({ inward, deep }) => point(inward, deep));
  const high = corners(ends.high).map(({ inward, deep }) => point(minus(length, inward), deep));
  const outline = polygon([...[...low].reverse(), ...high]).value;
  return outline && { along: stance.width, outline };
}

interface Corner {
  /** From the end of the outer face. */
  readonly inward: Length;
  /** From the outer face. */
  readonly deep: Length;
}

/**
 * True where a wall is as long as its corners ask for; anything else may be as long as it says.
 *
 * @errors E44
 */
export function reachesCorners(
  { ends, at, part }: PartMember,
  stated: Length,
  wanted: Length,
  { report, show }: Sizing,
): boolean {
  if (ends === undefined || compare(stated, wanted) === 0) return true;
  const facts = { part: part.name, stated: show(stated, at), wanted: show(wanted, at) };
  report(diagnose('E44', atSpan(at), facts));
  return false;
}

/** The walls of one row of a frame, and what they take of its room; undefined where it is no frame's. */
export function thicknessOfWalls({ isFrame, members, walls: stated }: Row): Length | undefined {
  if (isFrame !== true || stated !== undefined) return stated;
  const walls = members.filter((it) => it.kind === 'part');
  return sum(...walls.map(({ part }) => part.thickness));
}

/**
 * True unless what stands within walls states more than these leave, one way.
 *
 * @errors E42
 */
export function fitsWithin(
  row: Row,
  walls: Length,
  roomIn: (way: Way) => Length | undefined,
  { report, show, glueLine }: Sizing,
): boolean {
  const inside = withinWalls(row);
  if (inside === undefined) return true;
  // What walls between these enclose has the other way told by them.
  const told = row.members.includes(inside) ? (['across', 'along'] as const) : [row.way];
  return told.every((way) => {
    const [stated, room] = [statedIn(inside, way, row, glueLine), roomIn(way)];
    if (typeof stated === 'string' || room === undefined || compare(stated, room) <= 0) return true;
    const { at } = inside;
    const facts = { way, room: show(room, at), walls: show(walls, at), inside: show(stated, at) };
    report(diagnose('E42', atSpan(at), facts));
    return false;
  });
}

function withinWalls({ members }: Row): Row | undefined {
  const rows = members.filter((it) => it.kind === 'row');
  const inner = rows.find((it) => it.isFrame === true);
  return rows.find((it) => it.isFrame !== true) ?? (inner && withinWalls(inner));
}

/**
 * Where two walls meet in a mitre, neither stands higher.
 *
 * @errors E46
 */
export function checkHeights(members: readonly Sized[], { report, show }: Sizing): void {
  const [first, ...others] = members.flatMap(mitredIn);
  const higher = others.find((it) => first !== undefined && compare(it.extent.up, first.extent.up) !== 0);
  if (first === undefined || higher === undefined) return;
  const { at } = higher.member;
  const [one, other] = [first, higher].map(({ member, extent }) => ({
    part: member.part.name,
    size: show(extent.up, at),
  })) as [Told, Told]; // two of two
  report(diagnose('E46', atSpan(at), { one, other }));
}

interface Told {
  readonly part: string;
  readonly size: string;
}

function mitredIn(it: Sized): readonly SizedPart[] {
  if (it.kind === 'row') return it.row.isFrame === true ? it.members.flatMap(mitredIn) : [];
  if (it.kind === 'gap' || it.member.ends === undefined) return [];
  const { low, high } = it.member.ends;
  return [low, high].some(({ cut }) => cut?.kind === 'mitre') ? [it] : [];
}
