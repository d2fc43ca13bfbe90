import {
  type Diagnostic,
  diagnose,
  fine,
  nowhere,
  type Outcome,
  type Place,
  refused,
} from '../model/index.ts';
import type { Counted, PageChoice, PageRun } from '../print/paged/index.ts';
import type { Request } from './arguments.ts';
import type { Form, Output } from './outputs.ts';

/** Pages that are asked for by what they are, printed for that alone. */
export function namesSlips(typed = ''): boolean {
  return typed.split(',').some((it) => it.trim() === 'slips');
}

/**
 * Reads `2-4,7`, `5-`; undefined where all pages are wanted.
 *
 * @param named  what else pages may be called: `slips`
 */
export function readPages(
  typed: string | undefined,
  named: readonly 'slips'[] = [],
): Outcome<PageChoice | undefined> {
  if (typed === undefined) return fine(undefined);
  const runs = typed.split(',').map((it) => readRun(it, named));
  const faults = runs.flatMap((it) => (typeof it === 'string' ? [it] : []));
  const [why] = faults;
  if (why !== undefined) {
    const place = { kind: 'argument', argument: `--pages ${typed}` } as const;
    return refused(diagnose('C22', place, { found: typed, why }));
  }
  return fine(runs.flatMap((it) => (typeof it === 'string' ? [] : [it.of])));
}

/** The run, or why it is none. */
function readRun(typed: string, named: readonly 'slips'[]): { readonly of: PageRun | 'slips' } | string {
  const text = typed.trim();
  const name = named.find((it) => it === text);
  if (name !== undefined) return { of: name };
  if (text === '') return 'a number is missing';
  const found = /^(\d{1,6})\s*(-|–)?\s*(\d{1,6})?$/.exec(text);
  if (found === null || (found[2] === undefined && found[3] !== undefined))
    return `"${text}" is neither a page nor a run of pages${named.map((it) => `, nor "${it}"`).join('')}`;
  const first = Number(found[1]);
  const last = found[2] === undefined ? first : found[3] === undefined ? undefined : Number(found[3]);
  if (first === 0 || last === 0) return 'the first page is 1';
  if (last !== undefined && last < first) return `"${text}" runs backwards`;
  return { of: { first, last } };
}

/** Only what is drawn on pages can be chosen from, or have strips of paper behind it. */
export function pagesOfNone(
  { pages, storyStick }: Pick<Request, 'pages' | 'storyStick'>,
  outputs: readonly Output[],
): readonly Diagnostic[] {
  if (outputs.length === 0 || outputs.some(({ form }) => isPaged(form))) return [];
  const forms = [...new Set(outputs.map(({ form }) => (form === 'json' ? 'JSON' : form)))].join(' and ');
  const at = (argument: string): Place => ({ kind: 'argument', argument });
  return [
    ...(pages === undefined ? [] : [diagnose('C23', at(`--pages ${pages}`), { forms })]),
    ...(storyStick ? [diagnose('C34', at('--story-stick'), { forms })] : []),
  ];
}

export function isPaged(form: Form): boolean {
  return form === 'pdf' || form === 'svg';
}

/** There are no such pages, or they don't go into the file: known when they are counted. */
export function faultsOfChoice(
  choice: PageChoice | undefined,
  { drawn, of }: Counted,
  { form, isFolder }: Output,
): readonly Diagnostic[] {
  const beyond = (choice ?? []).flatMap((it) => {
    if (it === 'slips') return [];
    const { first, last = first } = it;
    return last > of ? [`${Math.max(first, of + 1)}`] : [];
  });
  if (beyond.length > 0) return beyond.map((page) => diagnose('C24', nowhere, { page, count: `${of}` }));
  if (drawn > 1 && form === 'svg' && !isFolder) return [diagnose('C25', nowhere, { count: `${drawn}` })];
  return [];
}
