import {
  atSpan,
  type BodySpec,
  type CornersSpec,
  diagnose,
  type FrameSpec,
  type LevelSide,
  levelSides,
  type MemberSpec,
  type Modifiers,
  type Named,
  type PartMemberSpec,
  type Span,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { type Fields, readFields, wrongSort } from './fields.ts';
import { theOne } from './outlines.ts';
import { optional, Values } from './values.ts';
import type { Entry, Node } from './yaml/node.ts';

/** Keys beside `frame`. */
export const cornerKeys: readonly string[] = ['corners', 'inside'];

/** The readers of members, which hold frames as frames hold them. */
export interface MemberReading {
  readonly member: (node: Node) => MemberSpec | undefined;
  /** A part as it is where nothing is said of it. */
  readonly plain: Modifiers;
  readonly modifiers: (fields: Fields) => Modifiers;
}

/**
 * Walls round a room: a part for each side that has one, how they meet, and what stands within.
 *
 *     { frame: { front: wall, back: wall, left: end, right: end }, corners: mitre, inside: fill }
 */
export function readFrame(
  { key, value }: Entry,
  fields: Fields,
  read: MemberReading,
  faults: Faults,
): FrameSpec | undefined {
  const corners = fields.get('corners');
  const how = corners === undefined ? through(key.at) : readCorners(corners.value, faults);
  const walls = readWalls(value, read, faults);
  const inside = optional(fields, 'inside', (node) => readInside(node, read, faults));
  const isWhole = walls !== undefined && how !== undefined && fields.has('inside') === (inside !== undefined);
  if (!isWhole) return faults.tear();
  return { ...read.modifiers(fields), kind: 'frame', at: key.at, walls, corners: how, inside };
}

function through(at: Span): CornersSpec {
  return { kind: 'front through', at };
}

const words = ['front through', 'sides through', 'pinwheel', 'mitre', 'fold'] as const;
const made = ['rebate', 'fold'];
const makings = ['score', 'crease', 'groove'] as const;

function readCorners(node: Node, faults: Faults): CornersSpec | undefined {
  const { amount, word } = new Values(faults);
  if (node.kind === 'map') {
    const where = 'the corners';
    const fields = readFields(node, { where, keys: [...made, 'tab'] }, faults);
    const kind = fields && theOne(fields, made, node, 'a corner', faults);
    if (fields === undefined || kind === undefined) return undefined;
    const tab = fields.get('tab');
    if (kind === 'fold') {
      const by = optional(fields, 'fold', word(makings));
      return by && { kind, at: node.at, by: by.value, tab: optional(fields, 'tab', amount) };
    }
    if (tab !== undefined) {
      const facts = { key: 'tab', where: 'corners with a rebate', meant: '', known: ['rebate'] };
      return faults.report(diagnose('S34', atSpan(tab.key.at), facts));
    }
    const stays = optional(fields, 'rebate', amount);
    return stays && { kind: 'rebate', at: node.at, stays };
  }
  const kind = word(words)(node, 'corners');
  if (kind?.value === 'fold') return { kind: 'fold', at: kind.at, by: 'score', tab: undefined };
  return kind && { kind: kind.value, at: kind.at };
}

/** By their sides, as far as they are read; undefined where that is less than is written. */
function readWalls(node: Node, read: MemberReading, faults: Faults): FrameSpec['walls'] | undefined {
  const fields = readFields(node, { where: 'a frame', keys: levelSides }, faults);
  if (fields === undefined) return undefined;
  const written = levelSides.filter((side) => fields.has(side));
  const walls = written.flatMap((name): readonly (Named<PartMemberSpec> & { readonly name: LevelSide })[] => {
    const wall = optional(fields, name, (value) => readWall(value, read, faults));
    return wall === undefined ? [] : [{ name, at: wall.at, value: wall }];
  });
  const meets = (one: LevelSide, other: LevelSide): boolean =>
    written.includes(one) || written.includes(other);
  if (!meets('front', 'back') || !meets('left', 'right')) {
    return faults.report(diagnose('S56', atSpan(node.at), { walls: written }));
  }
  return walls.length < written.length ? undefined : walls;
}

/** A part by its name, or with what it is called here and where its good side looks. */
function readWall(node: Node, read: MemberReading, faults: Faults): PartMemberSpec | undefined {
  const { reference } = new Values(faults);
  if (node.kind === 'text') {
    const part = reference(node, 'a wall');
    return part && { ...read.plain, kind: 'part', at: node.at, part, twice: 1 };
  }
  const keys = ['part', 'name', 'flip', 'facing'];
  const fields = readFields(node, { where: 'a wall', keys }, faults);
  if (fields === undefined) return undefined;
  const part = optional(fields, 'part', reference);
  if (part === undefined) return wrongSort(node, 'a part', 'front: { part: wall, facing: back }', faults);
  return { ...read.modifiers(fields), kind: 'part', at: part.at, part, twice: 1 };
}

function readInside(node: Node, read: MemberReading, faults: Faults): BodySpec | undefined {
  const member = read.member(node);
  if (member?.kind !== 'gap') return member;
  return wrongSort(node, 'a part or a row', 'inside: fill', faults);
}
