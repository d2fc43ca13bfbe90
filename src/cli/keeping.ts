import { type Diagnostic, diagnose, isError, type Outcome } from '../model/index.ts';
import {
  entryFor,
  type JournalEntry,
  nextNumber,
  type OpenDrawer,
  openDrawer,
  readJournal,
  settled,
  writeJournal,
} from '../stock/index.ts';
import { digest } from './digest.ts';
import { isTrouble, type Lock, type World } from './world.ts';

/** A drawer that no other run can change until it is released, with its journal. */
export interface HeldDrawer {
  readonly path: string;
  readonly open: OpenDrawer;
  /** The changes that came to be. */
  readonly journal: readonly JournalEntry[];
  readonly lock: Lock;
}

/** Beside the drawer itself, so that there is one, by however many links it is called. */
function journalPathOf(path: string, { files }: World): string {
  return `${files.behindLinks(path)}.journal`;
}

/**
 * Listens for signals while files are held, so that none ends the process with a lock lying there: whoever holds
 * looks for them before it writes.
 */
export async function listening<T>({ signals }: World, work: () => Promise<T>): Promise<T> {
  const release = signals.listen();
  try {
    return await work();
  } finally {
    release();
  }
}

/** Holds a file; K40 where another run does. */
export function hold(path: string, { files }: World): Outcome<Lock> {
  const lock = files.lock(path);
  const place = { kind: 'file', path } as const;
  if ('reason' in lock) {
    return { value: undefined, diagnostics: [diagnose('C42', place, { path, reason: lock.reason })] };
  }
  if (lock.kind === 'locked') return { value: lock, diagnostics: [] };
  const facts = { path, by: lock.by, lock: lock.lockPath };
  return { value: undefined, diagnostics: [diagnose('K40', place, facts)] };
}

/** @param empty  the text of a drawer to begin, where the file is missing; without one it has to be there */
export function readDrawer(path: string, world: World, empty?: string): Outcome<OpenDrawer> {
  const read = world.files.read(path);
  const place = { kind: 'file', path } as const;
  if (isTrouble(read) && (read.kind !== 'missing' || empty === undefined)) {
    return { value: undefined, diagnostics: [diagnose('C40', place, { path, reason: read.reason })] };
  }
  const { value, diagnostics } = openDrawer(path, isTrouble(read) ? new TextEncoder().encode(empty) : read);
  if (value === undefined || value.file.kind === 'drawer') return { value, diagnostics };
  const { kind } = value.file;
  return { value: undefined, diagnostics: [diagnose('K07', place, { path, kind })] };
}

/** Reads a drawer and its journal, and keeps other runs away from both until the lock is released. */
export function holdDrawer(path: string, world: World, empty?: string): Outcome<HeldDrawer> {
  const { value: lock, diagnostics } = hold(path, world);
  if (lock === undefined) return { value: undefined, diagnostics };
  const open = readDrawer(path, world, empty);
  const journal = open.value && readJournalOf(path, open.value.file.source.text, world);
  if (open.value === undefined || journal?.value === undefined || open.diagnostics.some(isError)) {
    lock.release();
    return { value: undefined, diagnostics: [...open.diagnostics, ...(journal?.diagnostics ?? [])] };
  }
  return {
    value: { path, open: open.value, journal: journal.value, lock },
    diagnostics: open.diagnostics,
  };
}

/** The changes of a drawer that came to be. @param text  of the drawer as it is */
export function readJournalOf(path: string, text: string, world: World): Outcome<readonly JournalEntry[]> {
  const journalPath = journalPathOf(path, world);
  const bytes = world.files.read(journalPath);
  const place = { kind: 'file', path: journalPath } as const;
  if (isTrouble(bytes)) {
    if (bytes.kind === 'missing') return { value: [], diagnostics: [] };
    const facts = { path: journalPath, reason: bytes.reason };
    return { value: undefined, diagnostics: [diagnose('C40', place, facts)] };
  }
  const read = readJournal(new TextDecoder().decode(bytes));
  if ('line' in read) {
    return { value: undefined, diagnostics: [diagnose('K42', place, { path: journalPath, ...read })] };
  }
  return { value: settled(read, text, digest), diagnostics: [] };
}

/**
 * Writes a drawer's new text: the journal first, then the drawer. A run that is stopped between the two has changed
 * nothing, since the drawer alone says whether the last entry came to be.
 *
 * @returns  what went wrong; then the drawer is as it was
 */
export function writeDrawer(
  { path, open, journal }: HeldDrawer,
  text: string,
  about: Pick<JournalEntry, 'what' | 'job' | 'undoes'>,
  world: World,
): { readonly entry: JournalEntry; readonly diagnostics: readonly Diagnostic[] } {
  const before = open.file.source.text;
  const entry = entryFor({ before, after: text }, { ...about, number: nextNumber(journal) }, digest);
  const { files } = world;
  const journalPath = journalPathOf(path, world);
  const encoded = (it: string): Uint8Array => new TextEncoder().encode(it);
  const failed = (at: string, reason: string) => ({
    entry,
    diagnostics: [diagnose('C42', { kind: 'file', path: at }, { path: at, reason })],
  });

  const bytes = files.read(path);
  const isMissing = isTrouble(bytes) && bytes.kind === 'missing';
  if (isTrouble(bytes) && !isMissing) return failed(path, bytes.reason);
  const now = isTrouble(bytes) ? '' : new TextDecoder().decode(bytes);
  if (!isMissing && now !== before)
    return { entry, diagnostics: [diagnose('K41', { kind: 'file', path }, { path })] };
  const refusal = files.refusal(path);
  if (refusal !== undefined) return failed(path, refusal.reason);

  const noted = files.write(journalPath, encoded(writeJournal([...journal, entry])), path);
  if (noted !== undefined) return failed(journalPath, noted.reason);
  const hasMark = !isTrouble(bytes) && bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const trouble = files.write(path, encoded(hasMark ? `\ufeff${text}` : text));
  if (trouble === undefined) return { entry, diagnostics: [] };
  // The entry would be dropped when it is next read; without it nobody wonders.
  files.write(journalPath, encoded(writeJournal(journal)));
  return failed(path, trouble.reason);
}
