import {
  type AngleSpec,
  atSpan,
  diagnose,
  type Expression,
  type FoldsSpec,
  type Rest,
  type StripSpec,
  type TraySpec,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { type Fields, readFields } from './fields.ts';
import { lacks, theOne, writtenAs } from './outlines.ts';
import { optional, Values } from './values.ts';
import type { Node } from './yaml/node.ts';

const ofStrip = ['panels', 'angles', 'width', 'tab', 'base', 'laps'];
const ofTray = ['tray', 'high', 'tab'];
const besideTray = [...ofTray, 'laps'];
const ofBoth = ['by', 'allowance'];

/** What can't be read tears the file: a part without its folds would be told to have no size. */
export function readFolds(node: Node, faults: Faults): FoldsSpec | undefined {
  const where = 'the folds';
  const keys = [...new Set([...ofStrip, ...besideTray, ...ofBoth])];
  const fields = readFields(node, { where, keys }, faults);
  const kind = fields && theOne(fields, ['panels', 'tray'], node, where, faults);
  if (fields === undefined || kind === undefined) return faults.tear();
  refuseOthers(fields, kind, faults);
  const shape = kind === 'tray' ? readTray(fields, node, faults) : readStrip(fields, node, faults);
  if (shape === undefined) return faults.tear();
  const { amount, word } = new Values(faults);
  return {
    at: node.at,
    written: writtenAs(node),
    shape,
    by: optional(fields, 'by', word(['score', 'crease', 'groove'])),
    allowance: optional(fields, 'allowance', amount),
  };
}

function refuseOthers(fields: Fields, kind: string, faults: Faults): void {
  const known = [...(kind === 'tray' ? besideTray : ofStrip), ...ofBoth];
  for (const [key, { key: written }] of fields) {
    if (known.includes(key)) continue;
    const facts = { key, where: kind === 'tray' ? 'a tray' : 'folds with panels', meant: '', known };
    faults.report(diagnose('S34', atSpan(written.at), facts));
  }
}

function readStrip(fields: Fields, node: Node, faults: Faults): StripSpec | undefined {
  const { amount, flag, list } = new Values(faults);
  const value = (key: string): Node => fields.get(key)?.value ?? node;
  if (!hasAll(fields, ['angles', 'width'], 'folds with panels', node, faults)) return undefined;
  return {
    kind: 'strip',
    panels: list(value('panels'), 'measures', 'panels: [12, 30, 12]', amount),
    angles: list(value('angles'), 'angles', 'angles: [90, 90]', (it) => readAngle(it, faults)),
    width: orRest(value('width'), amount),
    tabs: optional(fields, 'tab', (it) => readTabs(it, faults)) ?? { first: undefined, last: undefined },
    base: optional(fields, 'base', amount),
    laps: optional(fields, 'laps', flag),
  };
}

function orRest(node: Node, amount: (node: Node) => Expression): Expression | Rest {
  return node.kind === 'text' && node.text === 'rest' ? { kind: 'rest', at: node.at } : amount(node);
}

/** One tab is beyond the last panel; two are at both ends. */
function readTabs(node: Node, faults: Faults): StripSpec['tabs'] {
  const { amount, pair } = new Values(faults);
  if (node.kind !== 'list') return { first: undefined, last: amount(node) };
  const { first, second } = pair(node);
  return { first, last: second };
}

function readAngle(node: Node, faults: Faults): AngleSpec | undefined {
  const { amount } = new Values(faults);
  if (node.kind !== 'map') {
    const degrees = withDegrees(node, faults) ? { kind: 'faulty' as const, at: node.at } : amount(node);
    return { kind: 'degrees', at: node.at, degrees };
  }
  const where = 'an angle';
  const fields = readFields(node, { where, keys: ['rise', 'run'] }, faults);
  if (fields === undefined) return undefined;
  const [rise, run] = ['rise', 'run'].map((key) => optional(fields, key, amount));
  const isWhole = hasAll(fields, ['rise', 'run'], where, node, faults);
  if (!isWhole || rise === undefined || run === undefined) return undefined;
  return { kind: 'pitch', at: node.at, rise, run };
}

/** An angle is a bare number: one with its unit is told so, not that its unit is none of length. */
function withDegrees(node: Node, faults: Faults): boolean {
  const pattern = /^(?<bare>[\d./ ]*\d)\s*(?<unit>deg(?:ree)?s?\.?|[°º])$/iu;
  const { bare, unit } = (node.kind === 'text' && pattern.exec(node.text)?.groups) || {};
  if (bare === undefined || unit === undefined) return false;
  const instead = [`${bare} alone: angles are in degrees`];
  faults.report(diagnose('M03', atSpan(node.at), { found: unit, instead }));
  return true;
}

function hasAll(fields: Fields, keys: readonly string[], where: string, node: Node, faults: Faults): boolean {
  const missing = keys.filter((key) => !fields.has(key));
  for (const key of missing) lacks(where, [key], node, faults);
  return missing.length === 0;
}

function readTray(fields: Fields, node: Node, faults: Faults): TraySpec | undefined {
  const { amount, flag, pair } = new Values(faults);
  const [high, tab] = ['high', 'tab'].map((key) => optional(fields, key, amount));
  const size = optional(fields, 'tray', pair);
  const isWhole = hasAll(fields, ofTray, 'a tray', node, faults);
  if (!isWhole || size === undefined || high === undefined || tab === undefined) return undefined;
  const laps = optional(fields, 'laps', flag);
  return { kind: 'tray', length: size.first, width: size.second, high, tab, laps };
}
