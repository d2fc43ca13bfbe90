import {
  type AddedSpec,
  atSpan,
  diagnose,
  type EdgeSpec,
  type EdgesSpec,
  type Expression,
  type FaceSpec,
  type FrameSpec,
  type GapSpec,
  type LevelSide,
  levelSides,
  type MemberSpec,
  type Modifiers,
  type Named,
  type PartMemberSpec,
  type Placed,
  type RowSpec,
  type TileSide,
  type Way,
  ways,
} from '../model/index.ts';
import { courseKeys, readCourses } from './courses.ts';
import type { Faults } from './faults.ts';
import { checkedFields, type Fields, readFields, readMap, wrongSort } from './fields.ts';
import { cornerKeys, type MemberReading, readFrame } from './frames.ts';
import { readOver } from './skins.ts';
import { readSlope } from './slopes.ts';
import { optional, Values } from './values.ts';
import { clipped, type Entry, type MapNode, type Node, type TextNode, within } from './yaml/node.ts';

const sides: readonly TileSide[] = ['left', 'right', 'front', 'back', 'bottom', 'top'];

const both = [
  'name',
  'length',
  'thickness',
  'times',
  'every',
  'apart',
  'flush',
  'centred',
  'inset',
  'overhang',
  'climb',
];
const ofParts = ['part', ...both, 'flip', 'facing', 'slope', 'up to'];
/** Where what stands beside the rows stands. */
const places = ['against', 'at', 'over', 'under'];
/** What is said of what is bent over something. */
const ofOver = ['face', 'ends'];
const ofRows = [...ways, ...both, 'to'];
const ofWhole = both.filter((it) => it !== 'length' && it !== 'thickness');
const ofFrames = ['frame', ...cornerKeys, ...ofWhole];
const ofCourses = ['courses', ...courseKeys, ...ofWhole];

/** How the parts of a tile stand: the outermost row. */
export function readBuild(node: Node, faults: Faults): RowSpec | FrameSpec | undefined {
  const map = readMap(node, 'the build', faults);
  if (map === undefined) return undefined;
  const member = readMapMember(map, [], faults);
  if (member === undefined) return faults.tear();
  if (member.kind === 'row' || member.kind === 'frame') return member;
  faults.tear();
  return wrongSort(node, 'the outermost row', 'build: { up: [base, top] }', faults);
}

/** What stands beside the rows. */
export function readAdded(node: Node, faults: Faults): readonly AddedSpec[] {
  const { list } = new Values(faults);
  return list(node, 'members', 'added: [{ part: crate, at: [1, 1, 1/4] }]', (item) => {
    const added = readAddedMember(item, faults);
    return added ?? faults.tear();
  });
}

function readAddedMember(node: Node, faults: Faults): AddedSpec | undefined {
  const map = readMap(node, 'a member', faults);
  if (map === undefined) return undefined;
  const member = readMapMember(map, [...places, ...ofOver], faults);
  const [place, second] = map.entries.filter(({ key }) => places.includes(key.text));
  if (place === undefined || second !== undefined) {
    return faults.report(
      diagnose('S49', atSpan(second?.key.at ?? firstKeyOf(map)), {
        why: place === undefined ? 'no place' : 'two places',
      }),
    );
  }
  if (member === undefined) return undefined;
  if (member.kind === 'gap')
    return wrongSort(node, 'a part or a row', '{ part: crate, at: [1, 1, 0] }', faults);
  const where = readPlace(place, map, member, faults);
  return where && { at: node.at, member, place: where };
}

function readPlace(
  { key, value }: Entry,
  map: MapNode,
  member: AddedSpec['member'],
  faults: Faults,
): AddedSpec['place'] | undefined {
  const more = map.entries.filter((it) => ofOver.includes(it.key.text));
  const [alone] = more;
  if (alone !== undefined && key.text !== 'over') {
    return faults.report(diagnose('S55', atSpan(alone.key.at), { key: alone.key.text, wants: 'over' }));
  }
  if (key.text === 'at') return readCorner(value, faults);
  if (key.text === 'against') return readAgainst(value, faults);
  if (member.kind !== 'part') {
    return wrongSort(map, `what is set ${key.text} something`, `{ part: skin, ${key.text}: cheek }`, faults);
  }
  if (key.text === 'over') return readOver(value, new Map(more.map((it) => [it.key.text, it.value])), faults);
  const of = new Values(faults).reference(value, 'under');
  return of && { kind: 'under', of };
}

function readCorner(node: Node, faults: Faults): AddedSpec['place'] | undefined {
  const three = readThree(node, faults);
  return three && { kind: 'at', ...three };
}

/** Three measures: across, along, up. */
export function readThree(
  node: Node,
  faults: Faults,
): { readonly across: Expression; readonly along: Expression; readonly up: Expression } | undefined {
  const { amount, list } = new Values(faults);
  const items = list(node, 'three measures', '[1, 1, 1/4]', amount);
  const [across, along, up] = items;
  if (node.kind !== 'list') return undefined;
  if (items.length !== 3 || across === undefined || along === undefined || up === undefined) {
    const wanted = 'three are wanted: across, along, up';
    return faults.report(
      diagnose('S37', atSpan(node.at), {
        found: node.items.length,
        wanted,
        comma: undefined,
        example: '[1, 1, 1/4]',
      }),
    );
  }
  return { across, along, up };
}

function readAgainst(node: Node, faults: Faults): AddedSpec['place'] | undefined {
  const found = readSideOf(node, 'against: top of base', faults);
  return found && { kind: 'against', side: found.side, of: found.of };
}

/** `top of base`: a side of something that stands. */
export function readSideOf(node: Node, example: string, faults: Faults): FaceSpec | undefined {
  const found = node.kind === 'text' ? /^(?<side>\w+) of (?<name>.+)$/u.exec(node.text) : null;
  const side = sides.find((it) => it === found?.groups?.side);
  const name = found?.groups?.name;
  if (node.kind !== 'text' || side === undefined || name === undefined) {
    return wrongSort(node, 'a side of something', example, faults);
  }
  const at = within(node, node.text.length - name.length, node.text.length);
  return { at: node.at, side, of: { value: name.normalize('NFC'), at } };
}

function readMember(node: Node, faults: Faults): MemberSpec | undefined {
  if (node.kind === 'map') return readMapMember(node, [], faults);
  if (node.kind === 'text') return readTextMember(node, faults);
  return wrongSort(node, 'a part, a gap or a row', '{ up: [base, top] }', faults);
}

/** `slab`, `2 x slab`, `gap 1/4`, `gap rest`. */
function readTextMember(node: TextNode, faults: Faults): MemberSpec | undefined {
  const gap = /^gap\s+(?<size>.+)$/u.exec(node.text)?.groups?.size;
  if (gap !== undefined) {
    const at = within(node, node.text.length - gap.length, node.text.length);
    return readGap({ kind: 'text', at, text: gap, isQuoted: false }, faults);
  }
  const { count = '1', name = node.text } =
    /^(?<count>\d{1,7}) [x×] (?<name>.+)$/u.exec(node.text)?.groups ?? {};
  const twice = Number(count);
  if (twice < 1 || twice > mostRunning) {
    return faults.report(diagnose('S48', atSpan(node.at), { found: clipped(node.text), most: mostRunning }));
  }
  const at = within(node, node.text.length - name.length, node.text.length);
  return { ...plain, kind: 'part', at: node.at, part: { value: name.normalize('NFC'), at }, twice };
}

/** So many pieces in one place; far more than a tile holds. */
const mostRunning = 10_000;

function readGap(node: Node, faults: Faults): GapSpec {
  const isRest = node.kind === 'text' && node.text === 'rest';
  return { kind: 'gap', at: node.at, size: isRest ? 'rest' : new Values(faults).amount(node) };
}

/** A member written as a map: what it is, `part`, `gap` or a direction, and how it stands. */
function readMapMember(map: MapNode, more: readonly string[], faults: Faults): MemberSpec | undefined {
  const what = map.entries.filter(({ key }) =>
    [...ways, 'part', 'gap', 'frame', 'courses'].includes(key.text),
  );
  const [first, second] = what;
  if (first === undefined || second !== undefined) {
    checkedFields(
      map,
      { where: 'a member', keys: [...ofParts, ...ofRows, ...ofFrames, ...ofCourses, 'gap', ...more] },
      faults,
    );
    return faults.report(
      diagnose('S49', atSpan(second?.key.at ?? firstKeyOf(map)), {
        why: first === undefined ? 'nothing' : 'two things',
      }),
    );
  }
  const kind = first.key.text;
  if (kind === 'gap') {
    const fields = checkedFields(map, { where: 'a gap', keys: ['gap'] }, faults);
    return optional(fields, 'gap', (value) => readGap(value, faults));
  }
  if (kind === 'frame') {
    const fields = checkedFields(map, { where: 'a frame', keys: [...ofFrames, ...more] }, faults);
    return readFrame(first, fields, memberReading(faults), faults);
  }
  if (kind === 'courses') {
    const fields = checkedFields(map, { where: 'courses', keys: [...ofCourses, ...more] }, faults);
    return readCourses(first, fields, memberReading(faults), faults);
  }
  const isPart = kind === 'part';
  const shape = {
    where: isPart ? 'a part in a build' : 'a row',
    keys: [...(isPart ? ofParts : ofRows), ...more],
  };
  const fields = checkedFields(map, shape, faults);
  const modifiers = readModifiers(fields, faults);
  return isPart ? readPartMember(fields, modifiers, faults) : readRow(kind as Way, fields, modifiers, faults); // it is one of the three: nothing else is left
}

function memberReading(faults: Faults): MemberReading {
  return {
    member: (node) => readMember(node, faults),
    plain,
    modifiers: (fields) => readModifiers(fields, faults),
  };
}

function readPartMember(fields: Fields, modifiers: Modifiers, faults: Faults): PartMemberSpec | undefined {
  const { amount, reference } = new Values(faults);
  const part = optional(fields, 'part', reference);
  const slope = optional(fields, 'slope', (value) => readSlope(value, faults));
  const upTo = optional(fields, 'up to', amount);
  return part && { ...modifiers, kind: 'part', at: part.at, part, twice: 1, slope, upTo };
}

function readRow(way: Way, fields: Fields, modifiers: Modifiers, faults: Faults): RowSpec | undefined {
  const { amount, list } = new Values(faults);
  const entry = fields.get(way);
  if (entry === undefined) return faults.tear();
  const example = `${way}: [base, top]`;
  const members = list(entry.value, 'members', example, (item) => readMember(item, faults) ?? faults.tear());
  if (entry.value.kind === 'list' && entry.value.items.length === 0) {
    faults.report(diagnose('S50', atSpan(entry.key.at), { way }));
  }
  return {
    ...modifiers,
    kind: 'row',
    at: entry.key.at,
    way,
    members,
    to: optional(fields, 'to', (value) => (isWord(value, 'free') ? 'free' : amount(value))),
  };
}

const plain: Modifiers = {
  name: undefined,
  length: undefined,
  thickness: undefined,
  flip: undefined,
  facing: undefined,
  times: undefined,
  every: undefined,
  apart: undefined,
  flush: [],
  centred: [],
  inset: [],
  overhang: [],
};

function readModifiers(fields: Fields, faults: Faults): Modifiers {
  const { amount, reference, word } = new Values(faults);
  const way = word(ways);
  const oneOrMore =
    <T extends string>(known: readonly T[]) =>
    (node: Node, key: string): readonly Placed<T>[] => {
      const read = word(known);
      const items = node.kind === 'list' ? node.items : [node];
      return items.map((item) => read(item, key)).filter((it) => it !== undefined);
    };
  return {
    name: optional(fields, 'name', reference),
    length: optional(fields, 'length', way),
    thickness: optional(fields, 'thickness', way),
    flip: optional(fields, 'flip', word(['length', 'width', 'both'])),
    facing: optional(fields, 'facing', word(sides)),
    times: optional(fields, 'times', amount),
    every: optional(fields, 'every', amount),
    apart: optional(fields, 'apart', amount),
    climb: optional(fields, 'climb', amount),
    flush: optional(fields, 'flush', oneOrMore(sides)) ?? [],
    centred: optional(fields, 'centred', oneOrMore(ways)) ?? [],
    inset: optional(fields, 'inset', (value) => readSides(value, 'inset', sides, faults)) ?? [],
    overhang: optional(fields, 'overhang', (value) => readSides(value, 'overhang', sides, faults)) ?? [],
  };
}

/** A measure for each of some sides. */
export function readSides<T extends TileSide>(
  node: Node,
  key: string,
  known: readonly T[],
  faults: Faults,
): readonly (Named<Expression> & { readonly name: T })[] {
  const fields = readFields(
    node,
    { where: `an ${key}`.replace('an beyond', 'what lies beyond'), keys: known },
    faults,
  );
  if (fields === undefined) return [];
  const { amount } = new Values(faults);
  return known.flatMap((name) => {
    const entry = fields.get(name);
    return entry === undefined ? [] : [{ name, at: entry.key.at, value: amount(entry.value) }];
  });
}

/** What a tile presents at its sides. */
export function readEdges(node: Node, isVariant: boolean, faults: Faults): EdgesSpec {
  const fields = readFields(node, { where: 'the edges', keys: levelSides }, faults);
  if (fields === undefined) return [];
  return levelSides.flatMap((name: LevelSide) => {
    const entry = fields.get(name);
    if (entry === undefined) return [];
    const value = isVariant && isWord(entry.value, 'none') ? 'none' : readEdge(entry.value, faults);
    return value === undefined ? [] : [{ name, at: entry.key.at, value }];
  });
}

function readEdge(node: Node, faults: Faults): EdgeSpec | undefined {
  const { amount, list } = new Values(faults);
  const { at } = node;
  if (isWord(node, 'wall')) return { kind: 'wall', at };
  if (node.kind === 'list') {
    return { kind: 'floor', at, isList: true, levels: list(node, 'levels', '[valley, terrace]', amount) };
  }
  if (node.kind !== 'map') return { kind: 'floor', at, isList: false, levels: [amount(node)] };
  const fields = readFields(node, { where: 'an edge', keys: ['foot'] }, faults);
  const level = fields && optional(fields, 'foot', amount);
  return level && { kind: 'foot', at, level };
}

function isWord(node: Node, word: string): boolean {
  return node.kind === 'text' && node.text === word;
}

function firstKeyOf({ entries, at }: MapNode): TextNode['at'] {
  return entries[0]?.key.at ?? at;
}
