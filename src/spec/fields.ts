import { atSpan, diagnose, nearest, orMeant } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { type Entry, firstLineOf, kindInWords, type MapNode, type Node } from './yaml/node.ts';

/** The keys that a map of the language may have. */
export interface Shape {
  /** What a message calls the map, e.g. `a part`. */
  readonly where: string;
  readonly keys: readonly string[];
  /** Keys of the language that this version does not know how to read. */
  readonly later?: readonly string[];
}

/** The entries of a map whose keys were checked, by key. */
export type Fields = ReadonlyMap<string, Entry>;

/** Checks the keys of a map; undefined for what is no map. */
export function readFields(node: Node, shape: Shape, faults: Faults): Fields | undefined {
  const map = readMap(node, shape.where, faults);
  return map === undefined ? undefined : checkedFields(map, shape, faults);
}

export function checkedFields(map: MapNode, { where, keys, later = [] }: Shape, faults: Faults): Fields {
  const fields = new Map<string, Entry>();
  const misspelt: [string, Entry][] = [];
  for (const entry of map.entries) {
    const { key } = entry;
    if (keys.includes(key.text)) {
      if (hasValue(entry, faults)) fields.set(key.text, entry);
    } else if (later.includes(key.text)) {
      faults.report(diagnose('S33', atSpan(key.at), { what: key.text }));
    } else if (!isGlued(entry, [...keys, ...later], faults)) {
      const meant = sameByAnotherName(key.text, keys) ?? nearest(key.text, [...keys, ...later]);
      const facts = { key: key.text, where, meant: orMeant(meant), known: keys };
      const isKnown = meant !== undefined && keys.includes(meant);
      faults.report(
        diagnose('S34', atSpan(key.at), facts, isKnown ? { fix: { span: key.at, text: meant } } : {}),
      );
      if (meant !== undefined) misspelt.push([meant, entry]);
    }
  }
  // What was most likely meant is there after all, so nobody is told that it is missing.
  for (const [meant, { key }] of misspelt) {
    if (fields.has(meant) || !keys.includes(meant)) continue;
    fields.set(meant, { key, value: { kind: 'faulty', at: key.at } });
    if (leanedOn.includes(meant)) faults.tear();
  }
  return fields;
}

/** What another place in the language, or daily speech, calls the same. */
const sameThings: readonly (readonly string[])[] = [
  ['count', 'times', 'quantity', 'qty', 'pieces'],
  ['of', 'material'],
];

function sameByAnotherName(key: string, keys: readonly string[]): string | undefined {
  const names = sameThings.find((same) => same.includes(key.toLowerCase()));
  return names?.find((name) => keys.includes(name));
}

/** Keys whose values others lean on; all else that is missing can be told to be faulty in its place. */
const leanedOn: readonly string[] = [
  ...['units', 'uses', 'lengths', 'numbers', 'levels', 'materials', 'sheets', 'offcuts', 'parts', 'tiles'],
  ...['make', 'loose', 'of', 'like', 'grain', 'flutes', 'footprint', 'thickness', 'measured'],
];

/** The entries of a map whose keys are names that the maker gives; those without a value are left out. */
export function readEntries(node: Node, where: string, faults: Faults): readonly Entry[] {
  return (
    readMap(node, where, faults)?.entries.filter(
      (it) => !isGlued(it, undefined, faults) && hasValue(it, faults),
    ) ?? []
  );
}

export function readMap(node: Node, where: string, faults: Faults): MapNode | undefined {
  if (node.kind === 'map') return node;
  faults.tear();
  return wrongSort(node, `a map for ${where}`, '{ key: value }', faults);
}

/** Says that a node is of the wrong sort, unless it has been told to be faulty already. */
export function wrongSort(node: Node, wanted: string, example: string, faults: Faults): undefined {
  if (node.kind === 'faulty') return undefined;
  return faults.report(
    diagnose('S36', atSpan(firstLineOf(node.at)), { found: kindInWords(node), wanted, example }),
  );
}

/** False, and told, where nothing stands behind a key. */
function hasValue({ key, value }: Entry, faults: Faults): boolean {
  if (value.kind !== 'nothing') return true;
  faults.tear();
  const behind = key.at.source.text.slice(value.at.start, value.at.start + 80);
  const isCutOff = /^:?[ \t]*#[^\s#]/u.test(behind);
  faults.report(diagnose('S38', atSpan(key.at), { key: key.text, isCutOff }));
  return false;
}

/** True, and told, for `gap:1/4`: YAML takes it for a key, since no space follows the colon. */
function isGlued({ key, value }: Entry, known: readonly string[] | undefined, faults: Faults): boolean {
  if (value.kind !== 'nothing' || key.isQuoted) return false;
  const [, before, behind] = /^(?<before>[^:]+):(?<behind>[^\s/].*)$/u.exec(key.text) ?? [];
  if (before === undefined || behind === undefined) return false;
  if (known !== undefined && !known.includes(before)) return false;
  faults.tear();
  faults.report(
    diagnose(
      'S23',
      atSpan(key.at),
      { found: key.text, instead: `${before}: ${behind}` },
      { fix: { span: key.at, text: `${before}: ${behind}` } },
    ),
  );
  return true;
}
