import {
  absolute,
  compare,
  larger,
  minus,
  oneMm,
  opposite,
  rational,
  scaled,
  smaller,
  sum,
  zero,
} from '../../measure/index.ts';
import {
  atSpan,
  type ByWay,
  diagnose,
  didYouMean,
  type Length,
  type Outline,
  type Placed,
  type Stance,
  type StandingPart,
  type Way,
} from '../../model/index.ts';
import {
  boxOf,
  differenceOf,
  type HeldBox,
  heightsAt,
  heldBy,
  intersection,
  laid,
  rectangle,
  type Skin,
  seenAlong,
  shiftBy,
  skinOver,
  type TopEdge,
  topEdgeOf,
} from '../../outline/index.ts';
import type { Alignment, OnOthers, PartMember } from './rows.ts';
import type { SizedPart, Sizing } from './sizing.ts';
import { roundedOutward } from './slopes.ts';
import { asItLies, facingOf, runOf, stanceOf } from './stance.ts';

type Over = Extract<OnOthers, { readonly kind: 'over' }>;

/** What follows others, and where its left front bottom corner is. */
export interface Followed {
  readonly it: SizedPart;
  readonly low: ByWay<Length>;
}

/**
 * Bends a part over the top edges of pieces that stand: as long as the developed length of one of its faces, as wide
 * as they stand apart unless it says otherwise.
 *
 *          ╭────────╮ skin
 *        ╱ ╭──────╮ ╲
 *       ╱ ╱ cheek  ╲ ╲
 *
 * @errors E49 a size that follows and is stated, E60 nothing of that name, E77 a length that has to be rounded,
 *         E79 edges that differ, E88 an edge that it can't follow, E89 tighter than its material takes, E92 grain
 *         that runs round the bend
 */
export function skinLaid(
  member: PartMember,
  place: Over,
  stood: readonly StandingPart[],
  align: (wish: Alignment | undefined, low: Length, room: Length, extent: Length) => Length,
  sizing: Sizing,
): Followed | undefined {
  const { report } = sizing;
  const pieces = place.of.map((name) => pieceCalled(name, stood, sizing));
  const cheeks = pieces.filter((it) => it !== undefined);
  const [first] = cheeks;
  if (first === undefined || cheeks.length < pieces.length) return undefined;
  const axis = axisOf(cheeks, place, sizing);
  if (axis === undefined) return undefined;
  const way: Way = axis === 'across' ? 'along' : 'across';
  const stance = stanceOf(member, { way: 'up', stance: member.stance }, report);
  const { part } = member;
  for (const said of [way, 'up'] as const) {
    if (member.own.align[said] !== undefined)
      report(diagnose('E56', atSpan(member.at), { one: 'over', other: `an alignment ${said}` }));
  }
  if (stance.thickness !== 'up') {
    const other = `thickness: ${stance.thickness}`;
    report(diagnose('E56', atSpan(member.at), { one: 'over', other }));
    return undefined;
  }
  const size = stance.length === way ? 'length' : 'width';
  if (part[size] !== 'rest') {
    report(diagnose('E49', atSpan(member.at), { part: part.name, size, why: 'bend' }));
    return undefined;
  }
  const edge = commonEdge(member, cheeks, { axis, way }, sizing);
  const skin = edge && bent(member, edge, cheeks, sizing);
  if (edge === undefined || skin === undefined) return undefined;
  const face = place.face?.value ?? 'outer';
  const truly = skin.developed[face];
  const rounded = roundedOutward(member, size, truly, sizing);
  if (rounded === undefined) return undefined;
  checkGrain(member, stance, axis, sizing);
  const span = { from: lowestOf(cheeks, axis), to: highestOf(cheeks, axis) };
  const stated = part[size === 'length' ? 'width' : 'length'];
  const wide = stated === 'rest' ? minus(span.to, span.from) : stated;
  const profile = place.ends?.value === 'plumb' ? trimmed(skin.profile, edge.edge) : skin.profile;
  const { left, right, bottom, top } = boxRound(profile);
  // The glue lifts it as it lies.
  const low: Record<Way, Length> = { across: left, along: left, up: sum(bottom, sizing.glueLine) };
  low[axis] = align(member.own.align[axis], span.from, minus(span.to, span.from), wide);
  const extent: Record<Way, Length> = { across: wide, along: wide, up: minus(top, bottom) };
  extent[way] = minus(right, left);
  const how = {
    kind: 'bend',
    face,
    over: cheeks.map(({ name }) => name),
    isGoodOut: facingOf(asItLies(member, stance), stance, () => {}) === 'top',
    leastRadius: skin.leastRadius?.radius,
  } as const;
  const it: SizedPart = {
    kind: 'part',
    member,
    stance,
    length: size === 'length' ? rounded.size : wide,
    width: size === 'width' ? rounded.size : wide,
    extent,
    body: {
      profile: {
        along: axis,
        outline: laid(profile, shiftBy({ x: opposite(left), y: opposite(bottom) })),
      },
      inclined: { size, truly, roundedTo: rounded.step, how },
    },
  };
  return { it, low };
}

/** Cut off upright at both ends of what it lies on, once it is glued. */
function trimmed(profile: Outline, edge: TopEdge): Outline {
  const [from, to] = [edge[0]?.from.x ?? zero, edge.at(-1)?.to.x ?? zero];
  const { left, right, bottom, top } = heldBy(boxOf(profile));
  if (compare(left, from) >= 0 && compare(right, to) <= 0) return profile;
  const room = rectangle(minus(to, from), minus(top, bottom)).value;
  if (room === undefined) return profile;
  return intersection(profile, laid(room, shiftBy({ x: from, y: bottom })))[0] ?? profile;
}

/** The box round a skin; where its highest or furthest point is the end of an edge, that and no hair more. */
function boxRound({ rim, ...rest }: Outline): HeldBox {
  const held = heldBy(boxOf({ rim, ...rest }));
  const settle = (side: keyof HeldBox, axis: 'x' | 'y'): Length => {
    const ends = rim.map(({ from }) => from[axis]);
    const end = ends.reduce(side === 'left' || side === 'bottom' ? smaller : larger);
    const off = minus(end, held[side]);
    return compare(larger(off, opposite(off)), hair) <= 0 ? end : held[side];
  };
  return {
    left: settle('left', 'x'),
    right: settle('right', 'x'),
    bottom: settle('bottom', 'y'),
    top: settle('top', 'y'),
  };
}

/** Far less than anybody could see. */
const hair = scaled(oneMm, rational(1n, 10n ** 9n));

function pieceCalled(
  name: Placed<string>,
  stood: readonly StandingPart[],
  { report }: Sizing,
): StandingPart | undefined {
  const found = stood.find((it) => it.name === name.value);
  if (found !== undefined) return found;
  const known = stood.map((it) => it.name);
  const meant = didYouMean(name.value, known);
  report(diagnose('E60', atSpan(name.at), { name: name.value, meant, known }));
  return undefined;
}

/** The level way that all the pieces are seen in outline along; undefined where there is none, which is told. */
function axisOf(cheeks: readonly StandingPart[], { at }: Over, { report }: Sizing): Way | undefined {
  const axes = cheeks.map(({ profile, stance }) =>
    profile === undefined || profile.along === 'up' ? stance.thickness : profile.along,
  );
  const [axis] = axes;
  for (const [index, other] of axes.entries()) {
    const [one, name] = [cheeks[0], cheeks[index]?.name];
    if (one === undefined || name === undefined || axis === undefined) continue;
    if (other !== 'up' && other === axis) continue;
    const why =
      other === 'up' ? ({ kind: 'lies' } as const) : ({ kind: 'ways', one: other, other: axis } as const);
    report(diagnose('E79', atSpan(at), { name, other: one.name, why }));
    return undefined;
  }
  return axis;
}

/** The top edge that all the pieces have; what differs is told with its heights. */
function commonEdge(
  member: PartMember,
  cheeks: readonly StandingPart[],
  { axis, way }: { readonly axis: Way; readonly way: Way },
  { report, showNear }: Sizing,
): { readonly edge: TopEdge; readonly within: Length } | undefined {
  const { at, part } = member;
  const near = (length: Length) => showNear(length, at);
  const [first, ...others] = cheeks.map((piece) => ({ name: piece.name, outline: seenAlong(piece, axis) }));
  if (first === undefined) return undefined;
  const found = topEdgeOf(first.outline);
  if ('turnsBack' in found) {
    const facts = { part: part.name, name: first.name, where: near(found.turnsBack) };
    report(diagnose('E88', atSpan(at), { ...facts, why: { kind: 'turns back' } }));
    return undefined;
  }
  for (const { name, outline } of others) {
    const [one, other] = [heldBy(boxOf(first.outline)), heldBy(boxOf(outline))];
    const reach = ({ left, right }: HeldBox) => `${near(left)} to ${near(right)}`;
    if (!isNearly(one.left, other.left) || !isNearly(one.right, other.right)) {
      const why = { kind: 'reach', way, one: reach(one), other: reach(other) } as const;
      report(diagnose('E79', atSpan(at), { name: first.name, other: name, why }));
      return undefined;
    }
    const differs = differenceOf(first.outline, outline, found.edge);
    if (differs === undefined) continue;
    const high = (it: Outline) => near(heightsAt(it, differs.at)?.top.hi ?? zero);
    const why = {
      kind: 'edges',
      way,
      where: near(differs.at),
      one: high(first.outline),
      other: high(outline),
    } as const;
    report(diagnose('E79', atSpan(at), { name: first.name, other: name, why }));
    return undefined;
  }
  return { edge: found.edge, within: first.outline.within };
}

/** Less than any knife can tell, so that what is rounded in drawing a curve makes no difference. */
function isNearly(a: Length, b: Length): boolean {
  return compare(absolute(minus(a, b)), hundredth) < 0;
}

const hundredth = scaled(oneMm, rational(1n, 100n));

/** The skin itself; what it can't follow, or its material doesn't take, is told with both numbers. */
function bent(
  { at, part }: PartMember,
  { edge, within }: { readonly edge: TopEdge; readonly within: Length },
  [cheek]: readonly StandingPart[],
  { report, show, showNear }: Sizing,
): Skin | undefined {
  const skin = skinOver(edge, { thickness: part.thickness, within });
  const name = cheek?.name ?? part.name;
  const near = (length: Length) => showNear(length, at);
  if ('kind' in skin) {
    const where = near(skin.at);
    const why =
      skin.kind === 'hollow'
        ? ({ kind: 'hollow' } as const)
        : ({ kind: 'tight', radius: near(skin.radius.lo), thickness: show(part.thickness, at) } as const);
    report(diagnose('E88', atSpan(at), { part: part.name, name, where, why }));
    return undefined;
  }
  const { leastRadius: least } = skin;
  const { leastBend } = part;
  if (leastBend !== undefined && least !== undefined && compare(least.radius.lo, leastBend) < 0) {
    const facts = { part: part.name, material: part.material, radius: near(least.radius.lo) };
    const more = { least: show(leastBend, at), where: near(least.at.x) };
    report(diagnose('E89', atSpan(at), { ...facts, ...more }));
  }
  return skin;
}

/** Card bends evenly across its grain and its flutes, so both run along the axis: common practice, no source. */
function checkGrain({ at, part }: PartMember, stance: Stance, axis: Way, { report }: Sizing): void {
  for (const what of ['grain', 'flutes'] as const) {
    const has = what === 'grain' ? part.hasGrain : part.hasFlutes;
    if (!has || part.unsaid?.includes(what) === true) continue;
    const run = runOf(part[what], has, stance);
    if (run === axis) continue;
    const way = run === 'either' ? undefined : run;
    report(diagnose('E92', atSpan(at), { part: part.name, what, way }));
  }
}

function lowestOf(pieces: readonly StandingPart[], way: Way): Length {
  return pieces.map(({ block }) => block.low[way]).reduce(smaller);
}

function highestOf(pieces: readonly StandingPart[], way: Way): Length {
  return pieces.map(({ block }) => block.high[way]).reduce(larger);
}
