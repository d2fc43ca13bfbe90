import { areaOf, type Job } from '../job.ts';
import type { Repeated } from '../search/repeat.ts';
import type { FilledSheet } from '../search/search.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import type { Mix } from './columns.ts';
import { type Pattern, patternOf } from './pattern.ts';

/** Takes each pattern of a mix a whole number of times, rounded down; what is then missing is the rest. */
export function roundDown(job: Job, counts: readonly number[], mix: Mix): Repeated {
  const rest = [...counts];
  const available = job.sheets.map((sheet) => sheet.available);
  const kindOf = Int32Array.from(job.kinds.keys());
  const sheets: FilledSheet[] = [];
  const byLevel = mix.patterns.map((it, order) => ({ ...it, order }));
  byLevel.sort((a, b) => b.level - a.level || a.order - b.order);
  for (const { pattern, level } of byLevel) {
    let times = Math.min(Math.floor(level + 1e-6), available[pattern.sheet]!);
    pattern.counts.forEach((each, kind) => {
      if (each > 0) times = Math.min(times, Math.floor(rest[kind]! / each));
    });
    if (times <= 0) continue;
    pattern.counts.forEach((each, kind) => {
      rest[kind]! -= each * times;
    });
    available[pattern.sheet]! -= times;
    sheets.push({ kind: pattern.sheet, root: pattern.root, kindOf, times });
  }
  return { sheets, rest, available };
}

/**
 * Gives sheets back to the search, the emptiest first, until it has some hundred copies to play with: few
 * copies that were left over by chance seldom go together well.
 */
export function giveBack(job: Job, from: Repeated, wantedCopies: number): Repeated {
  const rest = [...from.rest];
  const available = [...from.available];
  const times = from.sheets.map((sheet) => sheet.times);
  const counts = from.sheets.map((sheet) => toPattern(job, sheet).counts);
  const inOrder = [...times.keys()].sort((a, b) => fillOf(job, from, a) - fillOf(job, from, b) || a - b);
  let copies = rest.reduce((sum, count) => sum + count, 0);
  for (let round = 0; round < mostBack; round++) {
    for (const i of inOrder) {
      const each = counts[i]!.reduce((sum, count) => sum + count, 0);
      if (times[i] === 0 || copies + each > wantedCopies) continue;
      times[i]!--;
      available[from.sheets[i]!.kind]!++;
      copies += each;
      counts[i]!.forEach((count, kind) => {
        rest[kind]! += count;
      });
    }
  }
  const sheets = from.sheets.flatMap((sheet, i) => (times[i]! > 0 ? [{ ...sheet, times: times[i]! }] : []));
  return { sheets, rest, available };
}

/** Of the same pattern no more than this are given back. */
const mostBack = 3;

function fillOf(job: Job, { sheets }: Repeated, i: number): number {
  const { counts } = toPattern(job, sheets[i]!);
  const filled = counts.reduce((sum, count, kind) => sum + count * areaOf(job.kinds[kind]!), 0);
  return filled / areaOf(job.sheets[sheets[i]!.kind]!);
}

/** A filled sheet as a pattern, its tree holding kinds in place of copies. */
export function toPattern(job: Job, { kind, root, kindOf }: FilledSheet): Pattern {
  const withKinds = (node: Node): Node =>
    node.shape === Shape.part
      ? leaf(kindOf[node.part]!, node.width, node.height, node.turned)
      : lineOf(node.shape, node.kids.map(withKinds), job.rules);
  return patternOf(job, kind, withKinds(root));
}
