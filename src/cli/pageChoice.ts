import { diagnose, fine, type Outcome, refused } from '../model/index.ts';
import type { PageChoice, PageRun } from '../print/paged/index.ts';

/** Reads `2-4,7`, `5-`; undefined where all pages are wanted. */
export function readPages(typed: string | undefined): Outcome<PageChoice | undefined> {
  if (typed === undefined) return fine(undefined);
  const runs = typed.split(',').map(readRun);
  const faults = runs.flatMap((it) => (typeof it === 'string' ? [it] : []));
  const [why] = faults;
  if (why !== undefined) {
    const place = { kind: 'argument', argument: `--pages ${typed}` } as const;
    return refused(diagnose('C22', place, { found: typed, why }));
  }
  return fine(runs.flatMap((it) => (typeof it === 'string' ? [] : [it])));
}

/** The run, or why it is none. */
function readRun(typed: string): PageRun | string {
  const text = typed.trim();
  if (text === '') return 'a number is missing';
  const found = /^(\d{1,6})\s*(-|–)?\s*(\d{1,6})?$/.exec(text);
  if (found === null || (found[2] === undefined && found[3] !== undefined))
    return `"${text}" is neither a page nor a run of pages`;
  const first = Number(found[1]);
  const last = found[2] === undefined ? first : found[3] === undefined ? undefined : Number(found[3]);
  if (first === 0 || last === 0) return 'the first page is 1';
  if (last !== undefined && last < first) return `"${text}" runs backwards`;
  return { first, last };
}
