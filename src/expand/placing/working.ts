import { minus, opposite, zero } from '../../measure/index.ts';
import {
  type AddedSpec,
  atSpan,
  type BodySpec,
  diagnose,
  didYouMean,
  type Expression,
  type Length,
  type MemberSpec,
  type Modifiers,
  type Placed,
  type RowSpec,
  type SlopeSpec,
  type Span,
  type TileSide,
  type Way,
} from '../../model/index.ts';
import { type Least, lengthOf, wholeOf } from '../evaluate.ts';
import type { TileView } from '../like.ts';
import type { Workings } from '../workings.ts';
import { workedFrame } from './frames.ts';
import type { Added, Alignment, Member, Own, PartMember, PartToStand, Row, Sloping } from './rows.ts';
import { endOf } from './standing.ts';

/** What the sums of rows are worked out with. */
export interface RowWorkings {
  readonly tile: TileView;
  readonly workings: Workings;
  readonly glueLine: Length;
  /** The tile's parts and those it shares; a faulty part is there, but not to be had. */
  readonly part: (name: Placed<string>) => PartToStand | undefined;
}

/**
 * Works the sums of a row out, and turns `flush`, `centred`, `inset` and `overhang` into one alignment for
 * each direction.
 *
 * @returns undefined where something in it has a fault, which is then told
 * @errors E56 alignments that contradict
 */
export function workedRow(spec: RowSpec, around: Way | undefined, it: RowWorkings): Row | undefined {
  const members = spec.members.map((member) => workedMembers(member, spec.way, it));
  const to = spec.to === undefined || spec.to === 'free' ? spec.to : lengthAt(spec.to, it);
  const ofMembers = alignmentOf({ ...spec, inset: [], overhang: [] }, spec.way, it);
  const own = ownOf({ ...spec, flush: [], centred: [] }, around, it);
  const all = members.flatMap((some) => some ?? []);
  const isWhole = members.every((some) => some !== undefined) && all.length > 0;
  if (!isWhole || own === undefined || (spec.to !== undefined && to === undefined)) return undefined;
  const { length, thickness } = spec;
  return {
    kind: 'row',
    at: spec.at,
    way: spec.way,
    members: all,
    to,
    ofMembers,
    stance: { length, thickness },
    own,
    isClad: false,
  };
}

function workedMembers(spec: MemberSpec, way: Way, it: RowWorkings): readonly Member[] | undefined {
  if (spec.kind === 'gap') {
    const size =
      spec.size === 'rest' ? spec.size : lengthOf(spec.size, 'zero', { tile: it.tile }, it.workings);
    return size && [{ kind: 'gap', at: spec.at, size }];
  }
  const member = workedBody(spec, way, it);
  if (member === undefined || spec.kind !== 'part') return member && [member];
  return [{ ...member, own: { ...member.own, times: member.own.times * spec.twice } }];
}

/** A part, a row, or a frame as the rows that it is. */
export function workedBody(
  spec: BodySpec,
  around: Way | undefined,
  it: RowWorkings,
): PartMember | Row | undefined {
  switch (spec.kind) {
    case 'part':
      return workedPartMember(spec, around, it);
    case 'row':
      return workedRow(spec, around, it);
    case 'frame':
      return workedFrame(
        spec,
        { body: (inner) => workedBody(inner, undefined, it), own: ownOf(spec, around, it) },
        it,
      );
  }
}

function workedPartMember(
  spec: Extract<MemberSpec, { kind: 'part' }>,
  around: Way | undefined,
  it: RowWorkings,
): PartMember | undefined {
  const part = it.part(spec.part);
  const own = ownOf(spec, around, it);
  const slope = spec.slope && workedSlope(spec.slope, spec.thickness, around, it);
  const upTo = spec.upTo && lengthAt(spec.upTo, it, { aboveZeroOrLeftOut: 'up to' });
  if (part === undefined || own === undefined || slope === 'faulty') return undefined;
  if (slope !== undefined && isClad(part, 'slopes', slope.at, it)) return undefined;
  if (spec.upTo !== undefined && upTo === undefined) return undefined;
  const { at, length, flip, facing } = spec;
  const thickness = slope === undefined ? spec.thickness : { value: 'up' as const, at: slope.at };
  return {
    kind: 'part',
    at,
    part,
    stance: { length, thickness },
    flip: flip?.value,
    facing,
    own,
    slope,
    upTo,
  };
}

/** Strips go along straight edges that are as long as a part is stated to be; on others they can't be had yet. */
function isClad({ name, clad }: PartToStand, how: string, at: Span, { workings }: RowWorkings): boolean {
  if (clad === undefined) return false;
  const facts = { what: `clad of ${name}, which ${how}` };
  const hints = ['strips that are parts of their own, added against it'];
  workings.faults.report(diagnose('S33', atSpan(at), facts, { hints }));
  return true;
}

/** What slopes lies, whichever way its row goes; between two levels it stands where they are. */
function workedSlope(
  { at, to, rise, run, ends }: SlopeSpec,
  thickness: Modifiers['thickness'],
  around: Way | undefined,
  it: RowWorkings,
): Sloping | 'faulty' {
  const length = (size: Expression) => lengthOf(size, 'any', { tile: it.tile }, it.workings);
  if (thickness !== undefined && thickness.value !== 'up') {
    contradict('a slope', `thickness: ${thickness.value}`, thickness.at, it);
  }
  if (rise.kind === 'levels' && around === 'up') contradict('a row up', 'levels', rise.at, it);
  const level = run && length(run);
  const from = rise.kind === 'levels' ? length(rise.low) : undefined;
  const by = length(rise.kind === 'levels' ? rise.high : rise.by);
  if (by === undefined || (run !== undefined && level === undefined)) return 'faulty';
  if (rise.kind === 'levels' && from === undefined) return 'faulty';
  return {
    at,
    to: to.value,
    rise: from === undefined ? by : minus(by, from),
    from: around === 'up' ? undefined : from,
    run: level,
    ends: ends?.value ?? 'plumb',
  };
}

/** What stands beside the rows. Here `flush` says where it lies against what it touches. */
export function workedAdded(spec: AddedSpec, it: RowWorkings): Added | undefined {
  const { member, place } = spec;
  const touch = place.kind === 'against' ? endOf(place.side).way : undefined;
  const worked = workedBody(member, touch, it);
  const align = alignmentOf(member, touch, it);
  if (member.times !== undefined) contradict('a place of its own', 'times', member.times.at, it);
  if (place.kind === 'at') {
    const flush = member.kind === 'part' ? [...member.flush, ...member.centred] : [];
    for (const { at } of [...flush, ...member.inset, ...member.overhang])
      contradict('at', 'an alignment', at, it);
  }
  if (worked === undefined) return undefined;
  const on = { over: 'is bent over something', under: 'stands under a slope', against: '', at: '' }[
    place.kind
  ];
  if (on !== '' && worked.kind === 'part' && isClad(worked.part, on, worked.at, it)) return undefined;
  const placed = { ...worked, own: { ...worked.own, align } };
  if (place.kind !== 'at') return { at: spec.at, member: placed, place };
  const [across, along, up] = [place.across, place.along, place.up].map((corner) =>
    lengthOf(corner, 'any', { tile: it.tile }, it.workings),
  );
  if (across === undefined || along === undefined || up === undefined) return undefined;
  return { at: spec.at, member: placed, place: { kind: 'at', corner: { across, along, up } } };
}

function ownOf(spec: Modifiers, around: Way | undefined, it: RowWorkings): Own | undefined {
  const { name, times, every, apart } = spec;
  const scope = { tile: it.tile };
  const count = times === undefined ? 1 : wholeOf(times, { least: 1, what: 'members' }, scope, it.workings);
  const climbAt = spec.climb?.at;
  const climb = spec.climb && lengthOf(spec.climb, { aboveZeroOrLeftOut: 'climb' }, scope, it.workings);
  if (climbAt !== undefined && around === 'up') contradict('a row up', 'climb', climbAt, it);
  if (climbAt !== undefined && count === 1) {
    it.workings.faults.report(diagnose('E94', atSpan(climbAt), {}));
  }
  const align = alignmentOf(spec, around, it);
  if (every !== undefined && apart !== undefined) contradict('every', 'apart', apart.at, it);
  const stated = every ?? apart;
  const size = stated && lengthOf(stated, 'zero', scope, it.workings);
  if (count === undefined || (stated !== undefined && size === undefined)) return undefined;
  const kind = every === undefined ? 'apart' : 'every';
  const pitch =
    stated === undefined || size === undefined ? undefined : ({ kind, size, at: stated.at } as const);
  if (spec.climb !== undefined && climb === undefined) return undefined;
  return { name, align, times: count, pitch, climb };
}

/**
 * @param around  the direction that has an order of its own, in which nothing can be aligned
 */
function alignmentOf(spec: Modifiers, around: Way | undefined, it: RowWorkings): Own['align'] {
  const found: { [W in Way]?: Alignment } = {};
  const said: { [W in Way]?: string } = {};
  const note = (way: Way, words: string, at: Span, alignment: Alignment): void => {
    const before = way === around ? `a row ${way}` : said[way];
    if (before !== undefined) contradict(before, words, at, it);
    else [found[way], said[way]] = [alignment, words];
  };
  for (const { value: side, at } of spec.flush) {
    const { way, end } = endOf(side);
    note(way, `flush ${side}`, at, { end, inward: zero, overhangs: false });
  }
  for (const { value: way, at } of spec.centred) {
    note(way, `centred ${way}`, at, { end: 'middle', inward: zero, overhangs: false });
  }
  for (const [kind, list] of [
    ['inset', spec.inset],
    ['overhang', spec.overhang],
  ] as const) {
    for (const { name, at, value } of list) {
      const side = name as TileSide; // the reader lets no other name through
      const { way, end } = endOf(side);
      const size = lengthAt(value, it)?.value;
      if (size === undefined) continue;
      // `flush: bottom, inset: { left: 1/2 }`; flush with the side of the inset itself says the same twice.
      if (said[way] === `flush ${side}`) delete said[way];
      const inward = kind === 'inset' ? size : opposite(size);
      note(way, `${kind} ${side}`, at, { end, inward, overhangs: kind === 'overhang' });
    }
  }
  return found;
}

function contradict(one: string, other: string, at: Span, { workings }: RowWorkings): void {
  workings.faults.report(diagnose('E56', atSpan(at), { one, other }));
}

function lengthAt(
  expression: Expression,
  { tile, workings }: RowWorkings,
  least: Least = 'zero',
): Placed<Length> | undefined {
  const value = lengthOf(expression, least, { tile }, workings);
  return value && { value, at: expression.at };
}

/** Tells of a part that is not there. */
export function unknownPart(name: Placed<string>, known: readonly string[], { faults }: Workings): void {
  const meant = didYouMean(name.value, known);
  faults.report(diagnose('E50', atSpan(name.at), { name: name.value, meant, known }));
}
