import type {
  Alignment,
  Ground,
  Member,
  Own,
  PartMember,
  PartToStand,
  Row,
} from '../../src/expand/placing/rows.ts';
import type { Sizing } from '../../src/expand/placing/sizing.ts';
import { stand } from '../../src/expand/placing/standing.ts';
import { compare, millimetres, rational, toFraction, zero } from '../../src/measure/index.ts';
import { type Build, type Diagnostic, type Length, type Way, ways } from '../../src/model/index.ts';

/** Rows written by hand, as the language would give them. */

export function mm(numerator: number | bigint, denominator: number | bigint = 1): Length {
  return millimetres(rational(BigInt(numerator), BigInt(denominator)));
}

const source = { path: 'by-hand.yaml', text: '' };
export const here = { source, start: 0, end: 0 };

export function part(
  name: string,
  size: readonly [Length | 'rest', Length | 'rest'],
  thickness: Length,
  more: Partial<PartToStand> = {},
): PartToStand {
  return {
    name,
    at: here,
    material: 'board',
    thickness,
    length: size[0],
    width: size[1],
    lies: false,
    hasGrain: false,
    hasFlutes: false,
    grain: 'any',
    flutes: 'any',
    isFloor: true,
    isHanded: false,
    accepted: [],
    clad: undefined,
    clads: undefined,
    ...more,
  };
}

export const own: Own = { name: undefined, align: {}, times: 1, pitch: undefined };

export function member(it: PartToStand, more: Partial<PartMember> = {}): PartMember {
  return {
    kind: 'part',
    at: here,
    part: it,
    stance: { length: undefined, thickness: undefined },
    flip: undefined,
    facing: undefined,
    own,
    ...more,
  };
}

export function row(way: Way, members: readonly Member[], more: Partial<Row> = {}): Row {
  return {
    kind: 'row',
    at: here,
    way,
    members,
    to: undefined,
    ofMembers: {},
    stance: { length: undefined, thickness: undefined },
    own,
    isClad: false,
    ...more,
  };
}

export function flush(end: 'low' | 'high', inward: Length = zero): Alignment {
  return { end, inward, overhangs: false };
}

export interface Stood {
  readonly build: Build | undefined;
  readonly said: readonly Diagnostic[];
}

export function standUp(
  outer: Row,
  more: Partial<Pick<Ground, 'added' | 'height' | 'glueLine' | 'footprint'>> &
    Partial<Omit<Build, 'added' | 'height' | 'glueLine' | 'footprint'>> = {},
): Stood {
  const said: Diagnostic[] = [];
  const sizing: Sizing = {
    glueLine: more.glueLine ?? zero,
    report: (it) => said.push(it),
    show: (it) => `${toFraction(it)} mm`,
    showNear: (it) => `${toFraction(it)} mm`,
    unitsAt: () => 'mm',
  };
  const footprint = more.footprint ?? { across: mm(60), along: mm(60) };
  const { height } = more;
  const ground: Ground = {
    tile: 'tile',
    footprint,
    height,
    heightAt: here,
    glueLine: sizing.glueLine,
    row: outer,
    added: more.added ?? [],
  };
  const standing = stand(ground, sizing);
  if (standing === undefined) return { build: undefined, said };
  const nowhere = { left: zero, right: zero, front: zero, back: zero };
  const build: Build = {
    tile: 'tile',
    at: here,
    squares: { across: 1, along: 1 },
    tallest: undefined,
    slack: mm(2, 5),
    lip: mm(2, 5),
    beyond: nowhere,
    edges: { left: undefined, right: undefined, front: undefined, back: undefined },
    rack: undefined,
    glueOrder: undefined,
    ...more,
    footprint,
    glueLine: sizing.glueLine,
    height: height === undefined ? undefined : { value: height, at: here },
    ...standing,
  };
  return { build, said };
}

/** `across 0..60, along 0..60, up 0..5`: where a piece stands. */
export function whereIs(build: Build, name: string): string {
  const found = build.parts.find((it) => it.name === name);
  if (found === undefined) return 'nowhere';
  return ways
    .map((way) => `${way} ${toFraction(found.block.low[way])}..${toFraction(found.block.high[way])}`)
    .join(', ');
}

export function isBelow(a: Length, b: Length): boolean {
  return compare(a, b) < 0;
}
