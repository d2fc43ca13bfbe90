import {
  type AlongSpec,
  type ArchSpec,
  atSpan,
  type BoxSide,
  type Corner,
  type CutSpec,
  type CutsSpec,
  diagnose,
  levelSides,
  type MarkSpec,
  type Named,
  type OutlineSpec,
  type PointSpec,
  type RepeatSpec,
  type ShapeSpec,
  type StepSpec,
  type Written,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { type Fields, readFields, wrongSort } from './fields.ts';
import { readNamed } from './names.ts';
import { optional, Values } from './values.ts';
import type { Entry, Node } from './yaml/node.ts';

const oneSize = ['circle', 'half round', 'quarter round'] as const;
const twoSizes = ['rectangle', 'slot'] as const;
const shapes = [...twoSizes, ...oneSize, 'arched', 'polygon', 'path', 'through', 'half', 'whole', 'master'];
const beside = ['ends', 'cut away', 'at', 'clearance'];
const changes = ['larger all round', 'smaller all round', 'turned', 'mirrored'];

export function readMasters(node: Node, faults: Faults): readonly Named<OutlineSpec>[] {
  return readNamed(node, 'masters by name', 'thing', (value) => readOutline(value, faults), faults);
}

/** What can't be read tears the file: a part without its outline would be told to have no size. */
export function readOutline(node: Node, faults: Faults): OutlineSpec | undefined {
  const where = 'an outline';
  const fields = readFields(node, { where, keys: [...shapes, ...beside, ...changes] }, faults);
  const kind = fields && theOne(fields, shapes, node, where, faults);
  if (fields === undefined || kind === undefined) return faults.tear();
  const shape = readShape(kind, fields, node, faults);
  if (shape === undefined) return faults.tear();
  atMostOne(fields, ['larger all round', 'smaller all round'], where, faults);
  const { amount, flag, word } = new Values(faults);
  const turned = optional(fields, 'turned', word(['90', '180', '270']));
  return {
    written: writtenAs(node),
    shape,
    larger: optional(fields, 'larger all round', amount),
    smaller: optional(fields, 'smaller all round', amount),
    turned: turned && { value: turns[turned.value], at: turned.at },
    mirrored: optional(fields, 'mirrored', flag),
  };
}

const turns = { '90': 90, '180': 180, '270': 270 } as const;

function readShape(kind: string, fields: Fields, node: Node, faults: Faults): ShapeSpec | undefined {
  const { amount, pair, reference } = new Values(faults);
  const value = fields.get(kind)?.value ?? node;
  for (const [key, owner] of Object.entries(belongs)) {
    const entry = fields.get(key);
    if (entry === undefined || kind === owner) continue;
    const facts = { key, where: `an outline that is ${kind}`, meant: '', known: [kind, ...changes] };
    faults.report(diagnose('S34', atSpan(entry.key.at), facts));
  }
  switch (kind) {
    case 'rectangle':
    case 'slot': {
      const { first, second } = pair(value);
      return { kind, length: first, width: second };
    }
    case 'circle':
    case 'half round':
    case 'quarter round':
      return { kind, size: amount(value) };
    case 'arched': {
      const arch = readArch(value, 'an arch', faults);
      return arch && { kind, arch };
    }
    case 'polygon':
      return { kind, points: readPoints(value, faults) };
    case 'path':
      return readPath(value, faults);
    case 'through': {
      const ends = optional(fields, 'ends', (it) => readEnds(it, faults)) ?? ['free', 'free'];
      return { kind, points: readPoints(value, faults), ends };
    }
    case 'half': {
      const of = readOutline(value, faults);
      return of && { kind, of };
    }
    case 'whole': {
      const whole = readOutline(value, faults);
      const away = fields.get('cut away');
      if (away === undefined) return lacks('an outline that is whole', ['cut away'], node, faults);
      const cut = readOutline(away.value, faults);
      if (whole === undefined || cut === undefined) return undefined;
      return {
        kind,
        whole,
        away: cut,
        at: optional(fields, 'at', (it) => readPoint(it, faults)),
        clearance: optional(fields, 'clearance', amount),
      };
    }
    default: {
      const name = reference(value, kind);
      return name && { kind: 'master', name };
    }
  }
}

/** Keys that belong to one kind of shape alone. */
const belongs: Readonly<Record<string, string>> = {
  ends: 'through',
  'cut away': 'whole',
  at: 'whole',
  clearance: 'whole',
};

function readPoint(node: Node, faults: Faults): PointSpec {
  const { at, first, second } = new Values(faults).pair(node);
  return { at, x: first, y: second };
}

/** Points, each by two measures. */
export function readPoints(node: Node, faults: Faults): readonly PointSpec[] {
  return new Values(faults).list(node, 'points', '[[0, 0], [3, 0], [3, 1]]', (it) => readPoint(it, faults));
}

type Ends = Extract<ShapeSpec, { readonly kind: 'through' }>['ends'];

function readEnds(node: Node, faults: Faults): Ends | undefined {
  const { list, word } = new Values(faults);
  const end = word(['flat', 'free']);
  if (node.kind !== 'list') {
    const both = end(node, 'ends')?.value;
    return both && [both, both];
  }
  const read = list(node, 'ends', '[flat, free]', (it) => end(it, 'ends')?.value);
  const [first, second] = read;
  if (first !== undefined && second !== undefined && read.length === 2) return [first, second];
  const facts = { found: node.items.length, wanted: 'two are wanted', comma: undefined, missing: undefined };
  return faults.report(diagnose('S37', atSpan(node.at), facts));
}

function readPath(node: Node, faults: Faults): ShapeSpec | undefined {
  const example = '[[0, 0], [3, 0], { arc: [3, 1], rise: 1/4, swells: right }]';
  if (node.kind !== 'list') return wrongSort(node, 'a list of points and curves', example, faults);
  const [first, ...others] = node.items;
  if (first?.kind !== 'list') return wrongSort(first ?? node, 'the point that it starts at', example, faults);
  const steps = others.map((it) => readStep(it, faults));
  const read = steps.filter((it) => it !== undefined);
  if (read.length < steps.length) return undefined;
  return { kind: 'path', start: readPoint(first, faults), steps: read };
}

function readStep(node: Node, faults: Faults): StepSpec | undefined {
  if (node.kind === 'list') return { kind: 'line', to: readPoint(node, faults) };
  const where = 'a step of a path';
  const fields = readFields(node, { where, keys: ['arc', 'rise', 'radius', 'swells', 'curve'] }, faults);
  const kind = fields && theOne(fields, ['arc', 'curve'], node, where, faults);
  if (fields === undefined || kind === undefined) return undefined;
  const { amount, word } = new Values(faults);
  const value = fields.get(kind)?.value ?? node;
  if (kind === 'curve') {
    for (const key of ['rise', 'radius', 'swells']) {
      const entry = fields.get(key);
      if (entry === undefined) continue;
      const facts = { key, where: 'a curve', meant: '', known: ['curve'] };
      faults.report(diagnose('S34', atSpan(entry.key.at), facts));
    }
    return { kind, through: readPoints(value, faults) };
  }
  const by = theOne(fields, ['rise', 'radius'], node, 'an arc', faults);
  const swells = fields.get('swells');
  if (swells === undefined) return lacks('an arc', ['swells'], node, faults);
  const side = word(['left', 'right'])(swells.value, 'swells')?.value;
  const size = by === undefined ? undefined : fields.get(by);
  if (size === undefined || side === undefined) return undefined;
  return {
    kind: 'arc',
    to: readPoint(value, faults),
    by: by === 'rise' ? 'rise' : 'radius',
    size: amount(size.value),
    swells: side,
  };
}

function readArch(node: Node, where: string, faults: Faults): ArchSpec | undefined {
  const fields = readFields(node, { where, keys: ['width', 'rise', 'radius', 'sides'] }, faults);
  if (fields === undefined) return undefined;
  const { amount } = new Values(faults);
  const found = ['width', 'rise', 'radius'].filter((key) => fields.has(key));
  const sides = fields.get('sides');
  if (found.length !== 2) return faults.report(diagnose('S52', atSpan(node.at), { found }));
  if (sides === undefined) return lacks(where, ['sides'], node, faults);
  return {
    width: optional(fields, 'width', amount),
    rise: optional(fields, 'rise', amount),
    radius: optional(fields, 'radius', amount),
    sides: amount(sides.value),
  };
}

const cutKinds = ['round', 'clip', 'notch', 'arch', 'hole'];
const sides: readonly BoxSide[] = ['left', 'right', 'bottom', 'top'];
const placing = [...sides, 'centre', 'times', 'every', 'apart', 'on'];

export function readCuts(node: Node, faults: Faults): CutsSpec | undefined {
  const cuts = new Values(faults).list(node, 'cuts', '[{ hole: { circle: 1/2 }, left: 1/4 }]', (item) => ({
    cut: readCut(item, faults),
  }));
  const read = cuts.flatMap(({ cut }) => (cut === undefined ? [] : [cut]));
  return read.length < cuts.length ? faults.tear() : { written: writtenAs(node), cuts: read };
}

function readCut(node: Node, faults: Faults): CutSpec | undefined {
  const fields = readFields(node, { where: 'a cut', keys: [...cutKinds, 'edge', ...placing] }, faults);
  const kind = fields && theOne(fields, cutKinds, node, 'a cut', faults);
  if (fields === undefined || kind === undefined) return undefined;
  const value = fields.get(kind)?.value ?? node;
  if (kind === 'round' || kind === 'clip') {
    refuseBeside(fields, ['edge', ...placing], `a cut that is ${kind}`, faults);
    return readCorners(kind, value, faults);
  }
  const repeat = readRepeat(fields, node, faults);
  const on = optional(fields, 'on', new Values(faults).word(levelSides));
  if (kind === 'hole') {
    refuseBeside(fields, ['edge'], 'a hole', faults);
    const outline = readOutline(value, faults);
    return outline && { kind, outline, place: readHolePlace(fields, faults), repeat, on };
  }
  const edge = fields.get('edge');
  if (edge === undefined) return lacks(`a cut that is ${kind}`, ['edge'], node, faults);
  const side = new Values(faults).word(sides)(edge.value, 'edge')?.value;
  if (side === undefined) return undefined;
  const along =
    side === 'bottom' || side === 'top' ? (['left', 'right'] as const) : (['bottom', 'top'] as const);
  const others = sides.filter((it) => it !== along[0] && it !== along[1]);
  const isEnd = side === 'left' || side === 'right';
  refuseBeside(fields, [...others, 'centre', ...(isEnd ? ['on'] : [])], `a cut at the ${side} edge`, faults);
  const place = readAlong(fields, along, faults);
  if (kind === 'arch') {
    const arch = readArch(value, 'an arch', faults);
    return arch && { kind, arch, edge: side, place, repeat, on };
  }
  const notch = readFields(value, { where: 'a notch', keys: ['size'] }, faults);
  const size = notch?.get('size');
  if (size === undefined) return notch && lacks('a notch', ['size'], value, faults);
  const { first, second } = new Values(faults).pair(size.value);
  return { kind: 'notch', along: first, deep: second, edge: side, place, repeat, on };
}

const corners: readonly Corner[] = ['top left', 'top right', 'bottom left', 'bottom right'];

function readCorners(kind: 'round' | 'clip', node: Node, faults: Faults): CutSpec | undefined {
  const { amount } = new Values(faults);
  if (node.kind !== 'map') return { kind, corners: amount(node) };
  const fields = readFields(node, { where: `what is ${kind}`, keys: corners }, faults);
  if (fields === undefined) return undefined;
  const read = corners.flatMap((corner) => {
    const entry = fields.get(corner);
    return entry === undefined ? [] : [{ corner, size: amount(entry.value) }];
  });
  return { kind, corners: read };
}

type HolePlaceSpec = Extract<CutSpec, { readonly kind: 'hole' }>['place'];

function readHolePlace(fields: Fields, faults: Faults): HolePlaceSpec {
  const centre = fields.get('centre');
  if (centre !== undefined) {
    refuseBeside(fields, sides, 'a hole with a centre', faults);
    return { centre: readPoint(centre.value, faults) };
  }
  return {
    along: readAlong(fields, ['left', 'right'], faults),
    up: readAlong(fields, ['bottom', 'top'], faults),
  };
}

function readAlong(
  fields: Fields,
  [low, high]: readonly [BoxSide, BoxSide],
  faults: Faults,
): AlongSpec | undefined {
  atMostOne(fields, [low, high], 'a cut', faults);
  const { amount } = new Values(faults);
  const [fromLow, fromHigh] = [fields.get(low), fields.get(high)];
  if (fromLow !== undefined) return { end: 'low', clear: amount(fromLow.value) };
  return fromHigh && { end: 'high', clear: amount(fromHigh.value) };
}

function readRepeat(fields: Fields, node: Node, faults: Faults): RepeatSpec | undefined {
  const { amount } = new Values(faults);
  const times = fields.get('times');
  if (times === undefined) {
    refuseBeside(fields, ['every', 'apart'], 'a cut without times', faults);
    return undefined;
  }
  const by = theOne(fields, ['every', 'apart'], node, 'a cut that is repeated', faults);
  const size = by === undefined ? undefined : fields.get(by);
  if (size === undefined) return undefined;
  return { times: amount(times.value), by: by === 'every' ? 'every' : 'apart', size: amount(size.value) };
}

export function readMarks(node: Node, faults: Faults): readonly MarkSpec[] {
  const { list } = new Values(faults);
  return list(node, 'marks', '[{ centre line: length }]', (item) => readMark(item, faults));
}

function readMark(node: Node, faults: Faults): MarkSpec | undefined {
  const kinds = ['centre line', 'line', 'cross'];
  const fields = readFields(node, { where: 'a mark', keys: [...kinds, 'on'] }, faults);
  const kind = fields && theOne(fields, kinds, node, 'a mark', faults);
  if (fields === undefined || kind === undefined) return undefined;
  const value = fields.get(kind)?.value ?? node;
  const on = optional(fields, 'on', new Values(faults).word(levelSides));
  if (kind === 'centre line') {
    const runs = new Values(faults).word(['length', 'width'])(value, kind)?.value;
    return runs && { kind, runs, on };
  }
  if (kind === 'cross') return { kind, at: readPoint(value, faults), on };
  const [from, to, ...others] = readPoints(value, faults);
  if (from !== undefined && to !== undefined && others.length === 0) return { kind: 'line', from, to, on };
  if (value.kind !== 'list') return undefined;
  const found = value.items.length;
  const facts = { found, wanted: 'two points are wanted', comma: undefined, missing: undefined };
  return faults.report(diagnose('S37', atSpan(value.at), facts));
}

/** One of several keys has to be there, and no more than one. */
export function theOne(
  fields: Fields,
  known: readonly string[],
  node: Node,
  where: string,
  faults: Faults,
): string | undefined {
  const [first, second] = known.filter((key) => fields.has(key));
  if (first === undefined) return lacks(where, known, node, faults);
  if (second === undefined) return first;
  atMostOne(fields, known, where, faults);
  return undefined;
}

function atMostOne(fields: Fields, known: readonly string[], where: string, faults: Faults): void {
  const found = known
    .flatMap((key): readonly Entry[] => {
      const entry = fields.get(key);
      return entry === undefined ? [] : [entry];
    })
    .sort((a, b) => a.key.at.start - b.key.at.start);
  const second = found[1];
  if (second === undefined) return;
  const facts = { where, found: found.map(({ key }) => key.text), known };
  faults.report(diagnose('S51', atSpan(second.key.at), facts));
}

export function lacks(where: string, known: readonly string[], node: Node, faults: Faults): undefined {
  if (node.kind === 'faulty') return undefined;
  return faults.report(diagnose('S51', atSpan(node.at), { where, found: [], known }));
}

function refuseBeside(fields: Fields, keys: readonly string[], where: string, faults: Faults): void {
  for (const key of keys) {
    const entry = fields.get(key);
    if (entry === undefined) continue;
    const known = [...cutKinds, 'edge', ...placing].filter((it) => !keys.includes(it));
    faults.report(diagnose('S34', atSpan(entry.key.at), { key, where, meant: '', known }));
  }
}

export function writtenAs(node: Node): Written {
  return {
    at: node.at,
    keys: new Map(
      node.kind === 'map' ? node.entries.map(({ key, value }) => [key.text, writtenAs(value)]) : [],
    ),
    items: node.kind === 'list' ? node.items.map(writtenAs) : [],
  };
}
