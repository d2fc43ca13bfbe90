import type { ListedFittings, SpecFile } from '../../model/index.ts';
import { endOfLine, leadOf, lineEndOf, quoted, type Splice, trimmedEnd } from './splicing.ts';

/** So many of a fitting were used, of which packs that were missing had been bought. */
export interface FittingsUsed {
  readonly name: string;
  readonly count: number;
  /** So many are sold together. */
  readonly pack: number;
}

/** How many of a fitting lie in the drawer before and after some were used. */
export interface FittingsChange {
  readonly listed: ListedFittings;
  readonly count: number;
  /** So many of these were bought. */
  readonly bought: number;
}

/** What using these does to a drawer; of what it does not list nothing is known. */
export function fittingsAfter(
  used: readonly FittingsUsed[],
  listed: readonly ListedFittings[],
): readonly FittingsChange[] {
  return used.flatMap(({ name, count, pack }): readonly FittingsChange[] => {
    const it = listed.find((entry) => entry.name === name);
    if (it === undefined) return [];
    const bought = Math.ceil(Math.max(0, count - it.count) / pack) * pack;
    return [{ listed: it, count: it.count + bought - count, bought }];
  });
}

/** The new count in place of the one that is written; undefined where none is. */
export function recounting({ listed: { countAt }, count }: FittingsChange): readonly Splice[] | undefined {
  return countAt && [{ start: countAt.start, end: countAt.end, text: `${count}` }];
}

/** A fitting that is counted from now on. */
export type NewFittings = Pick<ListedFittings, 'name' | 'count' | 'where'>;

/**
 * What lists a fitting that the drawer did not count so far: behind the last of its fittings, else at the end.
 * Undefined where they stand in a way that can't be edited safely.
 */
export function listing(
  fitting: NewFittings,
  { fittingsAtHand = [], source }: SpecFile,
): readonly Splice[] | undefined {
  const { text } = source;
  const lineEnd = lineEndOf(text);
  const item = entryText(fitting);
  const last = fittingsAtHand.at(-1);
  if (last !== undefined) {
    const { start, end: after } = last.value.at;
    const end = trimmedEnd(text, start, after);
    const lead = leadOf(text, last.at.start);
    if (!/^[ \t]+$/u.test(lead)) return [{ start: end, end, text: `, ${item}` }];
    const at = endOfLine(text, end);
    return at === undefined ? undefined : [{ start: at, end: at, text: `${lineEnd}${lead}${item}` }];
  }
  const empty = /^fittings:[ \t]*\{\s*\}/mu.exec(text);
  if (empty !== null) {
    const start = empty.index;
    return [{ start, end: start + empty[0].length, text: `fittings: { ${item} }` }];
  }
  const gap = text === '' || /[\r\n]$/u.test(text) ? '' : lineEnd;
  return [{ start: text.length, end: text.length, text: `${gap}fittings:${lineEnd}  ${item}${lineEnd}` }];
}

function entryText({ name, count, where }: NewFittings): string {
  const kept = where === undefined ? `${count}` : `{ count: ${count}, where: ${quoted(where)} }`;
  return `${quoted(name)}: ${kept}`;
}
