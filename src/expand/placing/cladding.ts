import { minus, sum, times, zero } from '../../measure/index.ts';
import { atSpan, type DrawnSide, diagnose, type Length, type Way } from '../../model/index.ts';
import type {
  Gap,
  Ground,
  Member,
  Own,
  PartMember,
  PartToStand,
  Row,
  StanceWish,
  StripMaterial,
} from './rows.ts';
import { lifted, nameOf, type Sizing, statedIn } from './sizing.ts';
import { asItLies, type Report, stanceOf } from './stance.ts';

/** Which ends of its flutes a member has clad because they are left visible. */
export interface CladSides {
  of(member: PartMember): ReadonlySet<DrawnSide>;
}

/**
 * The same rows with every repeat written out, so that each piece can be clad as it needs where it stands.
 * What was to stand every so much, or so much apart, still says so of each repeat but the last.
 */
export function unrolled(ground: Ground): Ground {
  return {
    ...ground,
    row: unrolledRow(ground.row),
    added: ground.added.map((it) => ({
      ...it,
      member: it.member.kind === 'row' ? unrolledRow(it.member) : it.member,
    })),
  };
}

function unrolledRow(row: Row): Row {
  const members = row.members.flatMap((member): readonly Member[] => {
    if (member.kind === 'gap') return [member];
    const count = member.own.times;
    return Array.from({ length: count }, (_, index): Member => {
      const own = oneOf(member.own, index, member.kind);
      return member.kind === 'row' ? { ...unrolledRow(member), own } : { ...member, own };
    });
  });
  return { ...row, members };
}

/** What one of several repeats says of itself: a part goes by its number, of rows the first keeps the name. */
function oneOf(own: Own, index: number, kind: 'part' | 'row'): Own {
  const { name, times: count, pitch, climb } = own;
  const numbered = name && { ...name, value: `${name.value} ${index + 1}` };
  return {
    ...(climb === undefined ? own : lifted(own, climb, index)),
    climb: undefined,
    name: count === 1 ? name : kind === 'part' ? numbered : index === 0 ? name : undefined,
    times: 1,
    pitch: index + 1 < count ? pitch : undefined,
  };
}

/** A row in which every clad part stands between its strips. */
export function dressedRow(row: Row, exposed: CladSides, sizing: Sizing): Row {
  const members = row.members.flatMap((member): readonly Member[] => {
    if (member.kind === 'gap') return [member];
    const it = dressed(member, row, exposed, sizing);
    const gap = gapBehind(it, member.own, row, sizing);
    return gap === undefined ? [it] : [it, gap];
  });
  return { ...row, members };
}

/** The space up to the next repeat; the pitch of what is clad counts its strips. */
function gapBehind(it: PartMember | Row, { pitch }: Own, row: Row, sizing: Sizing): Gap | undefined {
  if (pitch === undefined) return undefined;
  if (pitch.kind === 'apart') return { kind: 'gap', at: pitch.at, size: pitch.size };
  const stated = statedIn(it, row.way, row, sizing.glueLine);
  if (typeof stated !== 'string') return { kind: 'gap', at: pitch.at, size: minus(pitch.size, stated) };
  sizing.report(diagnose('E62', atSpan(pitch.at), { what: nameOf(it) }));
  return undefined;
}

/**
 * A part as a row of itself and its strips. Those at its left and right are as long as the part is wide; those
 * at its bottom and top go over their ends.
 *
 *      ┌───────────────────┐ top
 *      ├─┬───────────────┬─┤
 *      │ │     part      │ │   left and right
 *      ├─┴───────────────┴─┤
 *      └───────────────────┘ bottom
 */
export function dressed(
  member: PartMember | Row,
  around: { readonly way: Way; readonly stance: StanceWish },
  exposed: CladSides,
  sizing: Sizing,
): PartMember | Row {
  if (member.kind === 'row') return dressedRow(member, exposed, sizing);
  const sides = stripsOf(member, exposed);
  const strips = dressing(member, around, sides, sizing.report);
  if (strips === undefined) return member;
  const { core, at, strip } = strips;
  const row = (way: Way, inner: Member, [low, high]: readonly [DrawnSide, DrawnSide], edge: Edge): Member => {
    const [before, behind] = [low, high].map((side) => strip(side, way, edge));
    if (before === undefined && behind === undefined) return inner;
    const members = [before, inner, behind].filter((it) => it !== undefined);
    return { ...bare, kind: 'row', at: member.at, way, members };
  };
  const [ofLength, ofWidth] = [at('length'), at('width')];
  const { stance, part } = core;
  const level = row(stance.length.value, core, ofLength, { way: stance.width.value, size: part.width });
  const glue = times(sizing.glueLine, ofLength.filter((side) => sides.has(side)).length);
  const length =
    part.length === 'rest'
      ? part.length
      : sum(part.length, glue, ...ofLength.map((side) => sides.get(side)?.thickness ?? zero));
  const whole = row(stance.width.value, level, ofWidth, { way: stance.length.value, size: length });
  return whole.kind === 'row'
    ? { ...whole, own: { ...member.own, name: undefined, pitch: undefined } }
    : member;
}

interface Edge {
  readonly way: Way;
  readonly size: Length | 'rest';
}

const plain: Own = { name: undefined, align: {}, times: 1, pitch: undefined };
const noWish: StanceWish = { length: undefined, thickness: undefined };
const bare = { to: 'free', ofMembers: {}, stance: noWish, own: plain, isClad: true } as const;

function stripsOf(member: PartMember, exposed: CladSides): ReadonlyMap<DrawnSide, StripMaterial> {
  const { clad } = member.part;
  if (clad === undefined) return new Map();
  const { exposedFlutes } = clad;
  const overFlutes = exposedFlutes === undefined ? [] : [...exposed.of(member)];
  // A side that is clad by name is clad with that.
  return new Map([...overFlutes.map((side) => [side, exposedFlutes!] as const), ...clad.sides]);
}

/** The part with its stance said, so that it stands in a row of its own as it stood before. */
function dressing(
  member: PartMember,
  around: { readonly way: Way; readonly stance: StanceWish },
  sides: ReadonlyMap<DrawnSide, StripMaterial>,
  report: Report,
) {
  if (sides.size === 0) return undefined;
  const { part, at } = member;
  const stance = stanceOf(member, around, report);
  const said = (way: Way) => ({ value: way, at });
  const core = {
    ...member,
    stance: { length: said(stance.length), width: said(stance.width), thickness: said(stance.thickness) },
    own: { ...plain, name: member.own.name },
    undressed: member,
  };
  const strip = (side: DrawnSide, thickness: Way, edge: Edge): PartMember | undefined => {
    const material = sides.get(side);
    if (material === undefined) return undefined;
    return {
      kind: 'part',
      at,
      part: stripToStand(part, side, material, edge.size),
      stance: { length: said(edge.way), thickness: said(thickness) },
      flip: undefined,
      facing: undefined,
      own: plain,
    };
  };
  return { core, strip, at: (size: 'length' | 'width') => endsOf(asItLies(member, stance), size) };
}

function stripToStand(
  part: PartToStand,
  side: DrawnSide,
  material: StripMaterial,
  length: Length | 'rest',
): PartToStand {
  const { name, thickness, hasGrain, hasFlutes } = material;
  return {
    name: part.clad?.nameOf(side) ?? part.name,
    at: part.at,
    material: name,
    thickness,
    length,
    width: part.thickness,
    lies: false,
    hasGrain,
    hasFlutes,
    grain: hasGrain ? 'length' : 'any',
    flutes: hasFlutes ? 'length' : 'any',
    isFloor: part.isFloor,
    isHanded: false,
    accepted: part.accepted,
    clad: undefined,
    clads: part.name,
  };
}

/** The sides of the drawing at the low and the high end of its length or width, of a member as it lies. */
export function endsOf({ flip }: PartMember, size: 'length' | 'width'): readonly [DrawnSide, DrawnSide] {
  const isTurned = flip === size || flip === 'both';
  if (size === 'length') return isTurned ? ['right', 'left'] : ['left', 'right'];
  return isTurned ? ['top', 'bottom'] : ['bottom', 'top'];
}
