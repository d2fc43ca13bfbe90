import { spliced } from './splicing.ts';

/**
 * What was done to a drawer, one change after the other, each with what takes it back. The journal is written
 * before the drawer: whether its last entry came to be is told by the drawer itself.
 *
 *   journal + entry ──→ drawer replaced ──→ job replaced
 *        │ stopped here      │ stopped here
 *        ▼                   ▼
 *   the drawer is as       the drawer is as `after` says: the entry stands,
 *   `before` says: the     and the job is told of it when it is next looked at
 *   entry is dropped
 */
export interface JournalEntry {
  readonly number: number;
  /** A line for people. */
  readonly what: string;
  /** Digests of the drawer's text. */
  readonly before: string;
  readonly after: string;
  /** Where the text changed, what stood there, what stands there now. */
  readonly at: number;
  readonly removed: string;
  readonly inserted: string;
  /** The sheets of a job that were put away with it. */
  readonly job: { readonly id: string; readonly sheets: readonly JobSheetName[] } | undefined;
  /** The number of the entry that it takes back. */
  readonly undoes: number | undefined;
}

export interface JobSheetName {
  readonly material: string;
  readonly number: number;
}

export type Digest = (text: string) => string;

/** The entry for a change of the whole text, as the one place in it that differs. */
export function entryFor(
  texts: { readonly before: string; readonly after: string },
  about: Pick<JournalEntry, 'number' | 'what' | 'job' | 'undoes'>,
  digest: Digest,
): JournalEntry {
  const { before, after } = texts;
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return {
    ...about,
    before: digest(before),
    after: digest(after),
    at: head,
    removed: before.slice(head, before.length - tail),
    inserted: after.slice(head, after.length - tail),
  };
}

/** The entries that came to be. @param text  of the drawer as it is now */
export function settled(
  entries: readonly JournalEntry[],
  text: string,
  digest: Digest,
): readonly JournalEntry[] {
  const last = entries.at(-1);
  if (last === undefined || last.before === last.after || last.before !== digest(text)) return entries;
  return entries.slice(0, -1);
}

/** The last change that is not taken back yet. */
export function lastToUndo(entries: readonly JournalEntry[]): JournalEntry | undefined {
  const undone = new Set(entries.flatMap(({ undoes }) => undoes ?? []));
  return entries.findLast(({ number, undoes }) => undoes === undefined && !undone.has(number));
}

/** The text before a change; undefined where it has been changed by other hands since. */
export function takenBack(entry: JournalEntry, text: string, digest: Digest): string | undefined {
  const { at, removed, inserted } = entry;
  const before = spliced(text, [{ start: at, end: at + inserted.length, text: removed }]);
  return digest(before) === entry.before ? before : undefined;
}

export function nextNumber(entries: readonly JournalEntry[]): number {
  return (entries.at(-1)?.number ?? 0) + 1;
}

export function writeJournal(entries: readonly JournalEntry[]): string {
  return entries
    .map(({ job, undoes, ...rest }) =>
      JSON.stringify({ schema, version, ...rest, job: job ?? null, undoes: undoes ?? null }),
    )
    .map((line) => `${line}\n`)
    .join('');
}

const schema = 'cardwright/journal';
const version = 1;

/** The entries of a journal, or the number of the line that is none. */
export function readJournal(
  text: string,
): readonly JournalEntry[] | { readonly line: number; readonly isNewer: boolean } {
  const entries: JournalEntry[] = [];
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const entry = readLine(line);
    if (entry === 'newer') return { line: index + 1, isNewer: true };
    if (entry === undefined || entry.number !== nextOf(entries, entry))
      return { line: index + 1, isNewer: false };
    entries.push(entry);
  }
  return entries;
}

/** Numbers go up; one may be missing, of a change that did not come to be. */
function nextOf(entries: readonly JournalEntry[], { number }: JournalEntry): number {
  return number > (entries.at(-1)?.number ?? 0) ? number : Number.NaN;
}

function readLine(line: string): JournalEntry | 'newer' | undefined {
  const read = parsed(line);
  if (read === undefined || read.schema !== schema) return undefined;
  if (typeof read.version === 'number' && read.version > version) return 'newer';
  const { number, what, before, after, at, removed, inserted, job, undoes } = read;
  if (!isCount(number) || !isCount(at) || (undoes !== null && !isCount(undoes))) return undefined;
  if (typeof what !== 'string' || typeof before !== 'string' || typeof after !== 'string') return undefined;
  if (typeof removed !== 'string' || typeof inserted !== 'string') return undefined;
  const putAway = job === null ? null : readPutAway(job);
  if (putAway === undefined) return undefined;
  return {
    number,
    what,
    before,
    after,
    at,
    removed,
    inserted,
    job: putAway ?? undefined,
    undoes: undoes ?? undefined,
  };
}

function readPutAway(job: unknown): JournalEntry['job'] {
  if (!isRecord(job) || typeof job.id !== 'string' || !Array.isArray(job.sheets)) return undefined;
  const sheets: JobSheetName[] = [];
  for (const it of job.sheets as readonly unknown[]) {
    if (!isRecord(it) || typeof it.material !== 'string' || !isCount(it.number)) return undefined;
    sheets.push({ material: it.material, number: it.number });
  }
  return { id: job.id, sheets };
}

function parsed(line: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const read: unknown = JSON.parse(line);
    return isRecord(read) ? read : undefined;
  } catch {
    return undefined; // cut short, or no JSON at all: told with the number of the line
  }
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
}
