import {
  atSpan,
  type DrawnSide,
  diagnose,
  type Expression,
  type Habit,
  levelSides,
  type Named,
  type PartSpec,
  type Placed,
  type TileSpec,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { type Fields, readFields, type Shape } from './fields.ts';
import { readTakes, whatIsTaken } from './fittings.ts';
import { readFolds } from './folds.ts';
import { readLettingIn, whatIsLetIn } from './lettingIn.ts';
import { type NameRules, readNamed } from './names.ts';
import { readCuts, readMarks, readOutline } from './outlines.ts';
import { readPartCount } from './partCount.ts';
import { readAdded, readBuild, readEdges, readSides } from './rows.ts';
import { optional, Values } from './values.ts';
import type { Entry, Node } from './yaml/node.ts';

const partShape: Shape = {
  where: 'a part',
  keys: [
    ...['of', 'size', 'grain', 'flutes', 'count', 'good side', 'label', 'note', 'like'],
    ...['by eye', 'lies', 'floor', 'accepted', 'clad', 'takes'],
    ...['outline', 'folds', 'cuts', 'marks', 'leave', 'mirrored'],
  ],
};

/** Parts without a tile around them: there is nothing that `none` could take away, but beside `like`. */
export function readParts(
  node: Node,
  where: string,
  rules: NameRules,
  faults: Faults,
): readonly Named<PartSpec>[] {
  return readNamed(node, where, rules, (value) => readPart(value, false, faults), faults);
}

/** @param isVariant  the part stands in a tile that is like another one, whose part it may change */
function readPart(node: Node, isVariant: boolean, faults: Faults): PartSpec | undefined {
  const all = readFields(node, partShape, faults);
  if (all === undefined) return undefined;
  const { fields, takenAway } = withoutTaken(all, [], isVariant || all.has('like'), faults);
  const { amount, flag, pairWithRests, reference, text, trim, word } = new Values(faults);
  const runs = word(['length', 'width', 'any', 'upright']);
  return {
    at: node.at,
    like: optional(fields, 'like', reference),
    of: optional(fields, 'of', reference),
    size: optional(fields, 'size', (value) => {
      const { at, first, second } = pairWithRests(value);
      return { at, length: first, width: second };
    }),
    grain: optional(fields, 'grain', runs),
    flutes: optional(fields, 'flutes', runs),
    count: optional(fields, 'count', (value) => readPartCount(value, faults)),
    goodSide: optional(fields, 'good side', flag),
    byEye: optional(fields, 'by eye', amount),
    lies: optional(fields, 'lies', flag),
    floor: optional(fields, 'floor', flag),
    takes: optional(fields, 'takes', (value) => readTakes(value, faults)),
    accepted: optional(fields, 'accepted', (value) => readAccepted(value, faults)),
    clad: optional(fields, 'clad', (value) => readClad(value, faults)),
    outline: optional(fields, 'outline', (value) => readOutline(value, faults)),
    folds: optional(fields, 'folds', (value) => readFolds(value, faults)),
    cuts: optional(fields, 'cuts', (value) => readCuts(value, faults)),
    marks: optional(fields, 'marks', (value) => readMarks(value, faults)),
    mirrored: optional(fields, 'mirrored', flag),
    leave: optional(fields, 'leave', trim),
    label: optional(fields, 'label', text),
    note: optional(fields, 'note', text),
    takenAway,
  };
}

const drawnSides: readonly DrawnSide[] = ['left', 'right', 'bottom', 'top'];

/** Which sides are covered with strips, and of what. */
function readClad(node: Node, faults: Faults): PartSpec['clad'] {
  const shape = { where: 'what is clad', keys: ['exposed flutes', ...drawnSides] };
  const fields = readFields(node, shape, faults);
  if (fields === undefined) return undefined;
  const { reference } = new Values(faults);
  return {
    at: node.at,
    exposedFlutes: optional(fields, 'exposed flutes', reference),
    sides: drawnSides.flatMap((name) => {
      const entry = fields.get(name);
      const material = entry && reference(entry.value, name);
      return entry === undefined || material === undefined
        ? []
        : [{ name, at: entry.key.at, value: material }];
    }),
  };
}

const habits: readonly Habit[] = [
  'flutes not upright',
  'weak strip',
  'bare flutes',
  'floating',
  'folds across',
  'folds cut',
];

/** Which habit is let pass, and why. */
function readAccepted(node: Node, faults: Faults): PartSpec['accepted'] {
  const fields = readFields(node, { where: 'what is accepted', keys: habits }, faults);
  if (fields === undefined) return undefined;
  return habits.flatMap((name) => {
    const entry = fields.get(name);
    const reason = entry && new Values(faults).text(entry.value, name);
    return entry === undefined || reason === undefined ? [] : [{ name, at: entry.key.at, value: reason }];
  });
}

const tileShape: Shape = {
  where: 'a tile',
  keys: [
    ...['squares', 'footprint', 'height', 'lengths', 'numbers', 'parts', 'label', 'note', 'like'],
    ...['beyond', 'build', 'added', 'edges', 'glue order', 'store', 'takes', 'fittings'],
  ],
  later: ['finish'],
};

export function readTiles(node: Node, faults: Faults): readonly Named<TileSpec>[] {
  return readNamed(node, 'tiles by name', 'free', (value, name) => readTile(value, name, faults), faults);
}

function readTile(node: Node, name: string, faults: Faults): TileSpec | undefined {
  const all = readFields(node, tileShape, faults);
  if (all === undefined) return undefined;
  const isVariant = all.has('like');
  const { fields, takenAway } = withoutTaken(all, ['footprint', 'height'], isVariant, faults);
  const both = fields.get('footprint');
  if (fields.has('squares') && both !== undefined) {
    faults.report(diagnose('S46', atSpan(both.key.at), { tile: name }));
  }
  const { amount, list, pair, reference, text } = new Values(faults);
  const ground = (value: Node): NonNullable<TileSpec['squares']> | undefined => {
    const sides = pair(value);
    return sides && { at: sides.at, across: sides.first, along: sides.second };
  };
  const measures = (value: Node, key: string): TileSpec['lengths'] =>
    readNamed(value, `${key} of a tile`, 'measure', orNone(amount, isVariant, faults), faults);
  return {
    at: node.at,
    like: optional(fields, 'like', reference),
    squares: optional(fields, 'squares', ground),
    footprint: optional(fields, 'footprint', (value) => (isNone(value) ? 'none' : ground(value))),
    height: optional(fields, 'height', (value): Expression | 'none' | undefined =>
      isNone(value) ? 'none' : amount(value),
    ),
    lengths: optional(fields, 'lengths', measures) ?? [],
    numbers: optional(fields, 'numbers', measures) ?? [],
    parts:
      optional(fields, 'parts', (value) => {
        const read = orNone((part: Node) => readPart(part, isVariant, faults), isVariant, faults);
        return readNamed(value, 'parts by name', 'thing', read, faults);
      }) ?? [],
    build: optional(fields, 'build', (value) => readBuild(value, faults)),
    added: optional(fields, 'added', (value) => readAdded(value, faults)),
    edges: optional(fields, 'edges', (value) => readEdges(value, isVariant, faults)) ?? [],
    beyond: optional(fields, 'beyond', (value) => readSides(value, 'beyond', levelSides, faults)),
    store: optional(fields, 'store', reference),
    takes:
      optional(fields, 'takes', (value) =>
        readNamed(value, whatIsTaken, 'reference', orNone(amount, isVariant, faults), faults),
      ) ?? [],
    fittings:
      optional(fields, 'fittings', (value) =>
        readNamed(
          value,
          whatIsLetIn,
          'reference',
          orNone((it) => readLettingIn(it, faults), isVariant, faults),
          faults,
        ),
      ) ?? [],
    glueOrder: optional(fields, 'glue order', (value, key) => ({
      at: value.at,
      names: list(value, 'names of parts', 'glue order: [core, face, back]', (item) => reference(item, key)),
    })),
    label: optional(fields, 'label', text),
    note: optional(fields, 'note', text),
    takenAway,
  };
}

/** Sets the keys aside that are given as `none`. `keeps`: keys for which `none` is a value of their own. */
function withoutTaken(
  all: Fields,
  keeps: readonly string[],
  isVariant: boolean,
  faults: Faults,
): { readonly fields: Fields; readonly takenAway: readonly Placed<string>[] } {
  const isTaken = ([key, { value }]: readonly [string, Entry]): boolean =>
    isNone(value) && !keeps.includes(key) && key !== 'like';
  const taken = [...all].filter(isTaken);
  if (!isVariant) {
    for (const [key, { value }] of taken) faults.report(diagnose('S47', atSpan(value.at), { key }));
  }
  return {
    fields: new Map([...all].filter((it) => !isTaken(it))),
    takenAway: isVariant ? taken.map(([key, it]) => ({ value: key, at: it.key.at })) : [],
  };
}

/** A value, or `none` where something is there to be taken away. */
function orNone<T>(
  read: (value: Node) => T | undefined,
  isVariant: boolean,
  faults: Faults,
): (value: Node, name: string) => T | 'none' | undefined {
  return (value, name) => {
    if (!isNone(value)) return read(value);
    return isVariant ? 'none' : faults.report(diagnose('S47', atSpan(value.at), { key: name }));
  };
}

function isNone(node: Node): boolean {
  return node.kind === 'text' && node.text === 'none';
}
