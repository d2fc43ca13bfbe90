import { drawerIn } from '../../expand/index.ts';
import { toFraction } from '../../measure/index.ts';
import type {
  Drawer,
  DrawerEntry,
  ListedEntry,
  ListedFittings,
  Outcome,
  SpecFile,
} from '../../model/index.ts';
import { readSpec } from '../../spec/index.ts';
import {
  type FittingsChange,
  type FittingsUsed,
  fittingsAfter,
  listing,
  type NewFittings,
  recounting,
} from './fittings.ts';
import { puttingIn, type Splice, spliced, takingOut } from './splicing.ts';

/** One thing that goes out of a drawer, or comes in. */
export type Change =
  | { readonly kind: 'take'; readonly entry: DrawerEntry; readonly count: number }
  | { readonly kind: 'put'; readonly entry: DrawerEntry };

/** The same drawer with a fitting that it did not count so far; undefined where that can't be written in place. */
export function withListed(open: OpenDrawer, fitting: NewFittings): OpenDrawer | undefined {
  const splices = listing(fitting, open.file);
  const next = splices && reread(open, splices);
  if (next === undefined) return undefined;
  const listed = [...(open.drawer.fittings ?? []), { ...fitting, note: undefined }];
  const isSound =
    isSameFittings(next.drawer.fittings, listed) && isSame(open.drawer.entries, next.drawer.entries);
  return isSound ? next : undefined;
}

/** A drawer as it was read, with the text that it was read from. */
export interface OpenDrawer {
  readonly file: SpecFile;
  readonly drawer: Drawer;
}

const anyFile = { kind: 'bytes', bytes: new TextEncoder().encode('cardwright: shelf\n') } as const;

/** Reads a drawer by itself. @param bytes  with their byte order mark, if there is one */
export function openDrawer(path: string, bytes: Uint8Array): Outcome<OpenDrawer> {
  // A drawer uses no files; of what is none all that counts is that it says so.
  const read = readSpec([{ path, bytes }], () => anyFile);
  if (read.value === undefined) return { value: undefined, diagnostics: read.diagnostics };
  const [file] = read.value.files;
  const { value, diagnostics } = drawerIn(read.value);
  return {
    value: value === undefined ? undefined : { file, drawer: value },
    diagnostics: [...read.diagnostics, ...diagnostics],
  };
}

/** A change that could not be made: what was to go out is not there, or the file can't be edited in place. */
export interface NotMade {
  readonly change: Change | FittingsChange;
  readonly why: 'not there' | 'not in place';
}

/**
 * Makes changes in the text of a drawer, one after the other, and touches nothing else in it. What comes out
 * is read again: it must list exactly what it should, or no change is made at all.
 *
 * @param used  fittings that were used
 */
export function withChanges(
  open: OpenDrawer,
  changes: readonly Change[],
  used: readonly FittingsUsed[] = [],
): { readonly text: string; readonly fittings: readonly FittingsChange[] } | NotMade {
  let now = open;
  for (const change of changes) {
    const next = changed(now, change);
    if ('why' in next) return next;
    now = next;
  }
  const fittings = fittingsAfter(used, open.drawer.fittings ?? []);
  for (const { name } of used) {
    const [change] = fittingsAfter(
      used.filter((it) => it.name === name),
      now.drawer.fittings ?? [],
    );
    if (change === undefined) continue;
    const next = recounted(now, change);
    if (next === undefined) return { change, why: 'not in place' };
    now = next;
  }
  return { text: now.file.source.text, fittings };
}

function changed(open: OpenDrawer, change: Change): OpenDrawer | NotMade {
  let now = open;
  let left = change.kind === 'take' ? change.count : 1;
  while (left > 0) {
    const step = stepOf(now, change, left);
    if (step === undefined) return { change, why: 'not there' };
    if (step.splices === undefined) return { change, why: 'not in place' };
    const next = reread(now, step.splices);
    if (next === undefined || !isSame(step.expected, next.drawer.entries))
      return { change, why: 'not in place' };
    now = next;
    left -= step.made;
  }
  return now;
}

/** The same drawer with another count of one fitting, if nothing else in it is another by that. */
function recounted(open: OpenDrawer, change: FittingsChange): OpenDrawer | undefined {
  const splices = recounting(change);
  const next = splices && reread(open, splices);
  const expected = open.drawer.fittings?.map((it) =>
    it.name === change.listed.name ? { ...it, count: change.count } : it,
  );
  const isSound =
    next !== undefined &&
    isSameFittings(next.drawer.fittings, expected) &&
    isSame(open.drawer.entries, next.drawer.entries);
  return isSound ? next : undefined;
}

type FittingsKept = Pick<ListedFittings, 'name' | 'count' | 'where' | 'note'>;

function isSameFittings(a: readonly FittingsKept[] = [], b: readonly FittingsKept[] = []): boolean {
  const all = (fittings: readonly FittingsKept[]): string =>
    JSON.stringify(fittings.map(({ name, count, where, note }) => [name, count, where, note]));
  return all(a) === all(b);
}

interface Step {
  readonly splices: readonly Splice[] | undefined;
  readonly expected: readonly DrawerEntry[];
  /** So much of the change is made by it. */
  readonly made: number;
}

/** As much of a change as one entry can bear; undefined where none of what is to go out is there. */
function stepOf({ file, drawer }: OpenDrawer, change: Change, left: number): Step | undefined {
  const { entries } = drawer;
  if (change.kind === 'put')
    return { splices: puttingIn(change.entry, file), expected: [...entries, change.entry], made: 1 };
  const entry = entries.find((it) => isLike(it, change.entry) && it.count !== 0);
  if (entry === undefined) return undefined;
  if (entry.count === 'as needed') return { splices: [], expected: entries, made: left };
  const made = Math.min(left, entry.count);
  const count = entry.count - made;
  const expected = entries.flatMap((it) => (it !== entry ? [it] : count === 0 ? [] : [{ ...it, count }]));
  return { splices: takingOut(entry, made, file), expected, made };
}

function reread({ file }: OpenDrawer, splices: readonly Splice[]): OpenDrawer | undefined {
  const text = spliced(file.source.text, splices);
  const { value, diagnostics } = openDrawer(file.source.path, new TextEncoder().encode(text));
  return diagnostics.some(({ severity }) => severity !== 'note' && severity !== 'warning')
    ? undefined
    : value;
}

/** The same piece of material, wherever it is kept now. */
export function isLike(a: DrawerEntry, b: DrawerEntry): boolean {
  return likenessOf(a) === likenessOf(b);
}

function likenessOf({ kind, material, length, width, thick, grain, flutes, label }: DrawerEntry): string {
  const run = (it: DrawerEntry['grain']): string => it ?? 'none';
  return JSON.stringify([
    kind,
    material,
    toFraction(length),
    toFraction(width),
    ...(thick === undefined ? [] : [toFraction(thick)]),
    run(grain),
    run(flutes),
    label,
  ]);
}

function isSame(a: readonly DrawerEntry[], b: readonly ListedEntry[]): boolean {
  const all = (entries: readonly DrawerEntry[]): readonly string[] =>
    entries.map((it) => JSON.stringify([likenessOf(it), it.count, it.where, it.note])).sort();
  return all(a).join('\n') === all(b).join('\n');
}
