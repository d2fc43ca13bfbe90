import { readMeasure } from '../measure/index.ts';
import {
  atSpan,
  diagnose,
  type EveningSpec,
  type Expression,
  type MakeSpec,
  type Named,
  type SetsSpec,
  type SpareSpec,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readFields, wrongSort } from './fields.ts';
import { readNamed } from './names.ts';
import { optional, Values } from './values.ts';
import { clipped, type Node } from './yaml/node.ts';

/** What a session says of what is made: how many, in which evenings, with how many spares. */

/** Counts by tile; `most` for one of them. */
export function readMake(node: Node, faults: Faults): MakeSpec {
  const { amount } = new Values(faults);
  const most: Named<null>[] = [];
  const count = (it: Node, name: string): Expression | undefined => {
    if (it.kind !== 'text' || it.text !== 'most') return amount(it);
    most.push({ name, at: it.at, value: null });
    return undefined;
  };
  const counts = readNamed(node, 'the counts by tile', 'reference', count, faults);
  return { at: node.at, counts, most };
}

/** `{ count: 3, of: { terrace: 2, steps: 1 } }`; `most` for its count. */
export function readSets(node: Node, faults: Faults): SetsSpec | undefined {
  const fields = readFields(node, { where: 'the sets', keys: ['count', 'of'] }, faults);
  if (fields === undefined) return undefined;
  const { amount } = new Values(faults);
  const count = optional(fields, 'count', (it) =>
    it.kind === 'text' && it.text === 'most' ? { kind: 'most' as const, at: it.at } : amount(it),
  );
  const counts =
    optional(fields, 'of', (it) =>
      readNamed(it, 'the counts of one set', 'reference', (value) => amount(value), faults),
    ) ?? [];
  return { at: node.at, count, counts };
}

/** A list of maps, each with what is made then; the last may make the rest. */
export function readEvenings(node: Node, faults: Faults): readonly EveningSpec[] {
  const { list, text } = new Values(faults);
  const evening = (it: Node): EveningSpec | undefined => {
    const fields = readFields(it, { where: 'an evening', keys: ['title', 'make'] }, faults);
    if (fields === undefined) return undefined;
    const make = optional(fields, 'make', (value) =>
      value.kind === 'text' && value.text === 'rest' ? ('rest' as const) : readEveningMake(value, faults),
    );
    return { at: it.at, title: optional(fields, 'title', text), make };
  };
  return list(node, 'evenings', '[{ make: { wall: 2 } }, { make: rest }]', evening);
}

function readEveningMake(node: Node, faults: Faults): Omit<MakeSpec, 'most'> {
  const { amount } = new Values(faults);
  const counts = readNamed(node, 'the counts by tile', 'reference', (it) => amount(it), faults);
  return { at: node.at, counts };
}

/** So many more of a part, or so many in a hundred. */
export function readSpares(node: Node, faults: Faults): readonly Named<SpareSpec>[] {
  const { amount } = new Values(faults);
  const spare = (it: Node): SpareSpec | undefined => {
    const percent = it.kind === 'text' ? /^(?<number>.+?)\s*%$/u.exec(it.text)?.groups?.number : undefined;
    if (percent === undefined) {
      return it.kind === 'text'
        ? { kind: 'count', count: amount(it) }
        : wrongSort(it, 'a number of spares, or a share of them', '2, or 5%', faults);
    }
    const reading = readMeasure(percent);
    if (reading.kind === 'bare' && reading.number.numerator >= 0n) {
      return { kind: 'percent', at: it.at, percent: reading.number };
    }
    return faults.report(
      diagnose('S53', atSpan(it.at), { found: clipped(it.kind === 'text' ? it.text : '') }),
    );
  };
  return readNamed(node, 'the spares by part', 'reference', spare, faults);
}
