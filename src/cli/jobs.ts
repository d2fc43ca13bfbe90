import { dirname, join, relative } from 'node:path';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Job,
  type JobEvent,
  type Outcome,
  type Source,
  type Spec,
  type SpecFile,
} from '../model/index.ts';
import { jobDocument, printJson, type SchemaFault, schemaFaults, versions } from '../print/json/index.ts';
import {
  type FrozenJob,
  frozenJob,
  type JournalEntry,
  keyOf,
  sheetsOf,
  strayEvent,
  thawedJob,
} from '../stock/index.ts';
import { digest } from './digest.ts';
import { scanJson } from './jsonPlaces.ts';
import { isTrouble, type World } from './world.ts';

/** A job as it was read, and the text it was read from. */
export interface OpenJob {
  readonly path: string;
  readonly job: Job;
  readonly source: Source;
}

/**
 * Reads a job and holds it against its schema and its seal.
 *
 * @errors C40, K20 no job, K21 newer, K22 not as it was written
 */
export async function readJob(path: string, world: World): Promise<Outcome<OpenJob>> {
  const place = { kind: 'file', path } as const;
  const refused = (it: Diagnostic): Outcome<OpenJob> => ({ value: undefined, diagnostics: [it] });
  const bytes = world.files.read(path);
  if (isTrouble(bytes)) return refused(diagnose('C40', place, { path, reason: bytes.reason }));
  const text = new TextDecoder().decode(bytes);
  const source = { path, text };
  const document = parsed(text);
  if (typeof document === 'string') {
    const { brokenAt } = scanJson(text);
    // What does not begin as an object is no JSON that was damaged.
    const at = document === damaged && brokenAt !== undefined ? atSpan({ source, ...brokenAt }) : place;
    return refused(diagnose('K20', at, { path, why: document }));
  }
  const { schema, version } = document;
  if (schema !== 'cardwright/job') {
    const why =
      typeof schema === 'string' ? `it says that it is ${schema.slice(0, 40)}` : 'it says so nowhere';
    return refused(diagnose('K20', place, { path, why }));
  }
  if (typeof version === 'number' && version > versions.job) {
    return refused(diagnose('K21', place, { path, version, known: versions.job }));
  }
  const [fault] = await schemaFaults('job', document);
  if (fault !== undefined) {
    const at = atSpan({ source, ...scanJson(text, fault.way).found });
    return refused(diagnose('K22', at, { path, what: faultWords(fault, document) }));
  }
  // Its schema has just been held against it.
  const { id, plan, events, seal } = document as unknown as FrozenJob & { readonly seal: string };
  if (sealOf(plan) !== seal) {
    const what = 'the plan does not fit its seal';
    return refused(diagnose('K22', place, { path, what }));
  }
  const job = thawedJob({ id, plan, events }, source);
  const stray = strayEvent(job);
  if (stray !== undefined) return refused(diagnose('K22', place, { path, what: stray }));
  return { value: { path, job, source }, diagnostics: [] };
}

function parsed(text: string): Readonly<Record<string, unknown>> | string {
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read !== 'object' || read === null || Array.isArray(read)) return 'it is no JSON document';
    return read as Readonly<Record<string, unknown>>; // an object has no other keys than texts
  } catch {
    return text.trimStart().startsWith('{') ? damaged : 'it is no JSON document';
  }
}

const damaged = 'its JSON is cut short or damaged';

/** `"events.0.kind" can't be "burnt"` */
function faultWords({ way, wanted }: SchemaFault, document: unknown): string {
  let found: unknown = document;
  for (const step of way) {
    found =
      typeof found === 'object' && found !== null
        ? Object.entries(found).find(([key]) => key === `${step}`)?.[1]
        : undefined;
  }
  const name = `"${way.join('.')}"`;
  if (found === undefined) return `${name} is missing`;
  const words = JSON.stringify(found);
  const short = words.length > 30 ? `${words.slice(0, 30)} …` : words;
  return wanted === undefined ? `${name} can't be ${short}` : `${name} should be ${wanted}, found ${short}`;
}

function sealOf(plan: FrozenJob['plan']): string {
  return digest(JSON.stringify(plan));
}

/** Told from others by what was planned first. */
export function idOf(plan: Job['plan']): string {
  return sealOf(frozenJob({ id: '', plan, events: [] }).plan).slice(0, 12);
}

/** The bytes of a job's file, the same for the same job everywhere. */
export function jobBytes(job: Job): Uint8Array {
  const frozen = frozenJob(job);
  return new TextEncoder().encode(printJson(jobDocument(frozen, sealOf(frozen.plan))));
}

/** Writes a job in place of the one that was read; K41 where another program changed it meanwhile. */
export function writeJob({ path, source }: OpenJob, job: Job, { files }: World): readonly Diagnostic[] {
  const place = { kind: 'file', path } as const;
  const now = files.read(path);
  if (isTrouble(now) || new TextDecoder().decode(now) !== source.text) {
    return [diagnose('K41', place, { path })];
  }
  const trouble = files.write(path, jobBytes(job));
  return trouble === undefined ? [] : [diagnose('C42', place, { path, reason: trouble.reason })];
}

/** What a job was made from: every file but the drawer, which putting away changes. Paths go from the job's folder. */
export function inputsOf(spec: Spec, jobPath: string): Job['plan']['inputs'] {
  const files = new Set<SpecFile>(spec.files);
  for (const file of files) for (const used of file.uses) files.add(used);
  return [...files]
    .filter(({ kind }) => kind !== 'drawer')
    .map(({ source }) => ({ path: fromJob(source.path, jobPath), digest: digest(source.text) }));
}

/** The drawer of a session, from the job's folder. */
export function drawerOf({ files }: Spec, jobPath: string): string | undefined {
  const drawer = files.flatMap((it) => it.drawer ?? [])[0];
  return drawer && fromJob(drawer.source.path, jobPath);
}

export function fromJob(path: string, jobPath: string): string {
  return path === '<stdin>' ? path : relative(dirname(jobPath), path).replaceAll('\\', '/');
}

export function besideJob(path: string, jobPath: string): string {
  return join(dirname(jobPath), path);
}

/** The files that say something else now than when the job was made. */
export function changedInputs({ path, job }: OpenJob, { files }: World): readonly string[] {
  return job.plan.inputs
    .filter(({ path: input, digest: then }) => {
      if (input === '<stdin>') return false;
      const bytes = files.read(besideJob(input, path));
      return isTrouble(bytes) || digest(new TextDecoder().decode(bytes)) !== then;
    })
    .map((it) => it.path);
}

/** What the journal of the drawer says of a job that the job itself does not say. */
export interface CaughtUp {
  readonly job: Job;
  /** In words: what a run put away that was stopped before it could tell the job. */
  readonly putAway: readonly string[];
  /** In words: what was put away, and then undone in the drawer. */
  readonly undone: readonly string[];
}

/** The drawer is written before the job, and can be changed without it. The journal says what came to be. */
export function reconciled(job: Job, journal: readonly JournalEntry[]): CaughtUp {
  const own = journal.filter((it) => it.job?.id === job.id);
  const undone = new Set(journal.flatMap(({ undoes }) => undoes ?? []));
  const known = new Set(job.events.flatMap((it) => (it.kind === 'put away' ? [it.entry] : [])));
  const missed = own.filter(
    ({ number, undoes }) => undoes === undefined && !undone.has(number) && !known.has(number),
  );
  const gone = job.events.flatMap((it) => (it.kind === 'put away' && undone.has(it.entry) ? [it] : []));
  if (missed.length + gone.length === 0) return { job, putAway: [], undone: [] };
  const events = job.events.filter((it) => it.kind !== 'put away' || !gone.includes(it));
  const isCut = new Set(sheetsOf(job).flatMap((it) => (it.isCut ? [keyOf(it)] : [])));
  const found = missed.flatMap(({ number, job: of }): readonly JobEvent[] => {
    const sheets = of?.sheets ?? [];
    // A run that marks sheets as cut and puts them away at once tells the job of neither before the drawer is written.
    const cut = sheets.filter((it) => !isCut.has(keyOf(it)));
    const away: JobEvent = { kind: 'put away', entry: number, sheets };
    return cut.length === 0 ? [away] : [{ kind: 'cut', sheets: cut }, away];
  });
  return {
    job: { ...job, events: [...events, ...found] },
    putAway: missed.map(({ what }) => what),
    undone: gone.map(
      ({ entry }) => journal.find(({ number }) => number === entry)?.what ?? `change ${entry}`,
    ),
  };
}
