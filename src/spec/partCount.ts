import { atSpan, diagnose, didYouMean, type Expression, type FitsSpec } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { Values } from './values.ts';
import { clipped, type Node, type TextNode, within } from './yaml/node.ts';

/** How many of a part: `24`, `as fits`, or `as fits up to 60`. */
export function readPartCount(node: Node, faults: Faults): Expression | FitsSpec {
  const { amount } = new Values(faults);
  if (node.kind !== 'text') return amount(node);
  const { fits, most } = /^(?<fits>as fits)(?:\s+up to\s+(?<most>.+))?$/u.exec(node.text)?.groups ?? {};
  if (fits === undefined) return /^as fit/u.test(node.text) ? misspelt(node, faults) : amount(node);
  if (most === undefined) return { kind: 'as fits', at: node.at, most: undefined };
  const at = within(node, node.text.length - most.length, node.text.length);
  return {
    kind: 'as fits',
    at: node.at,
    most: amount({ kind: 'text', at, text: most, isQuoted: node.isQuoted }),
  };
}

function misspelt(node: TextNode, faults: Faults): Expression {
  const meant = didYouMean(node.text, ['as fits']);
  const known = ['24', 'as fits', 'as fits up to 60'];
  faults.report(diagnose('S39', atSpan(node.at), { found: clipped(node.text), key: 'count', meant, known }));
  return { kind: 'faulty', at: node.at };
}
