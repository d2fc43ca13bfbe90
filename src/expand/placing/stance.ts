import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Side,
  type Stance,
  type TileSide,
  type Way,
  ways,
} from '../../model/index.ts';
import type { PartMember, StanceWish } from './rows.ts';

export type Report = (diagnostic: Diagnostic) => void;

/**
 * Which of a part's three sizes runs which way. Boards are pressed together along their row, so the thickness
 * runs the way of the row; the length then runs level, across if that is free, else along; the width takes
 * what is left.
 *
 *        up: lying            along: a wall from the front      across: a wall from the side
 *      ┌──────────┐            ┌──────────┐                          ╱│
 *     ╱  length  ╱             │          │ width                   ╱ │ width
 *    └──────────┘ width        └──────────┘                         │╱ length
 */
export function stanceOf(
  { part, stance }: PartMember,
  row: { readonly way: Way; readonly stance: StanceWish },
  report: Report,
): Stance {
  const said = stance.thickness?.value ?? (part.lies ? 'up' : row.stance.thickness?.value);
  const thickness = said ?? row.way;
  const wish = stance.length ?? row.stance.length;
  if (wish?.value === thickness) {
    report(diagnose('E57', atSpan(wish.at), { part: part.name, way: thickness, isSaid: said !== undefined }));
  }
  const free = ways.filter((way) => way !== thickness);
  const length = wish !== undefined && wish.value !== thickness ? wish.value : (free[0] ?? 'across');
  const width = free.find((way) => way !== length) ?? 'up';
  return { length, width, thickness };
}

const lookingOut: Readonly<Record<Way, readonly [TileSide, TileSide]>> = {
  across: ['left', 'right'],
  along: ['front', 'back'],
  up: ['bottom', 'top'],
};

/**
 * True of what lies with its length along and of what stands with its length up: it is turned a quarter round, and its
 * good side still looks where it would.
 */
export function isQuarterTurned({ length, thickness }: Stance): boolean {
  return length !== (thickness === 'across' ? 'along' : 'across');
}

/**
 * A member with its drawing as it is in its place: its length and width begin at the low ends of their ways, but where a
 * quarter turn takes the bottom of the drawing to the right.
 *
 *           top                    right
 *      ┌──────────────┐            ┌──────┐
 * left │ a            │ right      │      │         seen from where its good side looks: of what lies,
 *      └──────────────┘        top │      │ bottom  with the back up the page
 *           bottom                 │    a │
 *                                  └──────┘
 *                                    left
 */
export function asItLies(member: PartMember, stance: Stance): PartMember {
  return isQuarterTurned(stance) ? { ...member, flip: alsoTopForBottom[member.flip ?? 'none'] } : member;
}

const alsoTopForBottom = { none: 'width', length: 'both', width: undefined, both: 'length' } as const;

/**
 * Where the good side looks. The drawing's left and bottom lie at the low ends of their directions, so the
 * side that a reader sees follows from which directions length and width run: right-handed ways look to the
 * high end. One flip turns the good side away, two bring it back.
 *
 * @param member  as it lies
 */
export function facingOf({ part, flip, facing }: PartMember, stance: Stance, report: Report): TileSide {
  const [low, high] = lookingOut[stance.thickness];
  if (facing !== undefined) {
    if (facing.value === low || facing.value === high) return facing.value;
    report(diagnose('E58', atSpan(facing.at), { part: part.name, facing: facing.value, sides: [low, high] }));
  }
  const isTurnedAway = flip === 'length' || flip === 'width';
  return isRightHanded(stance) === isTurnedAway ? low : high;
}

/** True where its good side looks the other way than that of the part as it is drawn: front, right or top. */
export function isTurnedOver({ thickness }: Stance, facing: TileSide): boolean {
  const [low, high] = lookingOut[thickness];
  return facing !== (thickness === 'along' ? low : high);
}

function isRightHanded({ length, width }: Stance): boolean {
  return (ways.indexOf(length) + 1) % 3 === ways.indexOf(width);
}

/** Which way grain or flutes run as the part stands. */
export function runOf(
  rule: Side | 'any' | 'upright',
  isThere: boolean,
  stance: Stance,
): Way | 'either' | undefined {
  if (!isThere) return undefined;
  if (rule === 'any') return 'either';
  if (rule === 'upright') return stance.thickness === 'up' ? 'either' : 'up';
  return stance[rule];
}

/** Of the two sizes, the one that stands up; undefined for a part that lies. */
export function uprightSide(stance: Stance): Side | undefined {
  return stance.length === 'up' ? 'length' : stance.width === 'up' ? 'width' : undefined;
}
