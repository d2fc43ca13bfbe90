import { atSpan, diagnose, levelSides, type SlopeSpec } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readFields } from './fields.ts';
import { optional, Values } from './values.ts';
import type { Node } from './yaml/node.ts';

/** `{ to: back, rise: 3/4, ends: plumb }`, or `levels: [valley, terrace]` in place of the rise. */
export function readSlope(node: Node, faults: Faults): SlopeSpec | undefined {
  const keys = ['to', 'rise', 'levels', 'run', 'ends'];
  const fields = readFields(node, { where: 'a slope', keys }, faults);
  if (fields === undefined) return faults.tear();
  const { amount, pair, word } = new Values(faults);
  const to = optional(fields, 'to', word(levelSides));
  const levels = optional(fields, 'levels', pair);
  const by = optional(fields, 'rise', amount);
  const run = optional(fields, 'run', amount);
  const ends = optional(fields, 'ends', word(['plumb', 'square'] as const));
  if (!fields.has('to')) {
    return faults.report(diagnose('S54', atSpan(node.at), { why: 'no direction' })) ?? faults.tear();
  }
  if ((by === undefined) === (levels === undefined)) {
    const at = fields.get('levels')?.key.at ?? node.at;
    const why = by === undefined ? 'no rise' : 'rise and levels';
    return faults.report(diagnose('S54', atSpan(at), { why })) ?? faults.tear();
  }
  const rise =
    levels === undefined
      ? by && { kind: 'rise' as const, by }
      : { kind: 'levels' as const, at: levels.at, low: levels.first, high: levels.second };
  return to && rise && { at: node.at, to, rise, run, ends };
}
