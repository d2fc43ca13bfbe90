import { areaBound, type Bound } from '../bounds/index.ts';
import { areaOf, type Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { copiesOf } from '../search/copies.ts';
import type { Filling } from '../search/filling.ts';
import type { Repeated } from '../search/repeat.ts';
import { copiesIn, type FilledSheet } from '../search/search.ts';
import type { Copies } from '../search/sheet.ts';
import { copyAsItIs, type Node, nodeCount, Shape } from '../search/tree.ts';
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
 * Picks sheets that the search may take apart again, the emptiest first: few copies that were left over by
 * chance seldom go together well. So many are picked that there are some hundred copies to play with, and
 * that their area would go onto as many sheets as the bound leaves for them.
 *
 * @returns  how often each sheet of `from` stays as it is, and the others one by one
 */
export function* givenBack(
  job: Job,
  from: Repeated,
  bound: Bound,
  wantedCopies: number,
): Generator<void, { readonly kept: FilledSheet[]; readonly given: FilledSheet[] }> {
  const pace = new Pace();
  const rest = [...from.rest];
  const available = [...from.available];
  const times = from.sheets.map((sheet) => sheet.times);
  const counts: number[][] = [];
  for (const sheet of from.sheets) {
    const pattern = toPattern(job, sheet);
    counts.push([...pattern.counts]);
    if (pace.isDue(workOfPart * nodeCount(pattern.root))) yield;
  }
  const fills = from.sheets.map(({ kind }, i) => {
    const filled = counts[i]!.reduce((sum, count, part) => sum + count * areaOf(job.kinds[part]!), 0);
    return filled / areaOf(job.sheets[kind]!);
  });
  const emptiestFirst = [...times.keys()].sort((a, b) => fills[a]! - fills[b]! || a - b);
  const mayReachBound = () => {
    const used = from.sheets.reduce((sum, it, i) => sum + (job.sheets[it.kind]!.cost > 0 ? times[i]! : 0), 0);
    const sheets = job.sheets.map((sheet, i) => ({ ...sheet, available: available[i]! }));
    return used + areaBound({ ...job, sheets }, rest).sheets <= bound.sheets;
  };
  const given: FilledSheet[] = [];
  for (let round = 0; round < mostBack; round++) {
    for (const i of emptiestFirst) {
      if (pace.isDue(from.sheets.length + 8 * job.kinds.length)) yield;
      const most = mayReachBound() ? wantedCopies : 3 * wantedCopies;
      if (times[i] === 0 || copiesIn(rest) + copiesIn(counts[i]!) > most) continue;
      times[i]!--;
      available[from.sheets[i]!.kind]!++;
      counts[i]!.forEach((count, kind) => {
        rest[kind]! += count;
      });
      given.push({ ...from.sheets[i]!, times: 1 });
    }
  }
  const kept = from.sheets.flatMap((sheet, i) => (times[i]! > 0 ? [{ ...sheet, times: times[i]! }] : []));
  return { kept, given };
}

/** Copying a part's node, in rounds and calls. */
const workOfPart = 6;
/** Of the same pattern no more than this are given back. */
const mostBack = 6;

/**
 * Sheets whose trees come from different places as one filling of numbered copies.
 *
 * @param leftOut  by kind
 */
export function asFilling(
  job: Job,
  sheets: readonly FilledSheet[],
  leftOut: readonly number[],
): { readonly copies: Copies; readonly filling: Filling } {
  const patterns = sheets.map((sheet) => toPattern(job, sheet));
  const counts = leftOut.map((count, kind) => patterns.reduce((sum, it) => sum + it.counts[kind]!, count));
  const copies = copiesOf(job, counts);
  let all = 0;
  const next = counts.map((count) => {
    all += count;
    return all - count;
  });
  const take = (kind: number) => next[kind]!++;
  const number = (node: Node): number => {
    if (node.shape !== Shape.part) return node.kids.reduce((sum, kid) => sum + number(kid), 0);
    node.part = take(node.part);
    return copies.area[node.part]!;
  };
  const open = patterns.map(({ sheet, root }) => ({ kind: sheet, root, filled: number(root) }));
  const left = leftOut.flatMap((count, kind) => Array.from({ length: count }, () => take(kind)));
  return { copies, filling: { sheets: open, leftOut: left } };
}

/** A filled sheet as a pattern, its tree holding kinds in place of copies. */
export function toPattern(job: Job, { kind, root, kindOf }: FilledSheet): Pattern {
  const withKinds = (node: Node) => copyAsItIs(node, (part) => kindOf[part]!);
  return patternOf(job, kind, withKinds(root));
}
