import {
  equal,
  exactDecimal,
  inches,
  isMultiple,
  millimetres,
  rational,
  showExact,
} from '../../measure/index.ts';
import {
  type Diagnostic,
  type DrawerEntry,
  diagnose,
  didYouMean,
  type FileUnits,
  isError,
  type Length,
  type ListedEntry,
  type Outcome,
} from '../../model/index.ts';
import { drawerDocument, printJson } from '../../print/json/index.ts';
import { printDrawer } from '../../print/stock/index.ts';
import {
  type Change,
  isLike,
  lastToUndo,
  type OpenDrawer,
  openDrawer,
  takenBack,
  withChanges,
} from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import { digest } from '../digest.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { type HeldDrawer, holdDrawer, readDrawer, writeDrawer } from '../keeping.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';
import { readPiece, type TypedPiece } from './typedPiece.ts';

/** What is at hand: listed, or changed without an editor. */
export async function drawer(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const { add, take, undo } = request.keeping;
  const [path = ''] = request.operands;
  const amiss = misused(request);
  if (amiss.length > 0) return fail(amiss, 'drawer', voice);
  if (add.length + take.length === 0 && !undo) {
    const read = readDrawer(path, world);
    if (read.value === undefined || read.diagnostics.some(isError))
      return fail(read.diagnostics, 'drawer', voice);
    return tell(path, { open: read.value, said: read.diagnostics, changes: [] }, request, voice);
  }
  const held = holdDrawer(path, world, add.length > 0 ? emptyDrawer(request.units) : undefined);
  if (held.value === undefined) return fail(held.diagnostics, 'drawer', voice);
  try {
    const made = undo ? undone(held.value) : changed(held.value, request);
    if (made.value === undefined) return fail([...held.diagnostics, ...made.diagnostics], 'drawer', voice);
    const { text, changes, about } = made.value;
    if (!request.dryRun) {
      const written = writeDrawer(held.value, text, { ...about, what: changes.join('; ') }, world);
      if (written.diagnostics.length > 0) return fail(written.diagnostics, 'drawer', voice);
    }
    const after = openDrawer(path, new TextEncoder().encode(text)).value ?? held.value.open;
    const said = [...held.diagnostics, ...made.diagnostics];
    return tell(path, { open: after, said, changes }, request, voice);
  } finally {
    held.value.lock.release();
  }
}

function emptyDrawer(units: string | undefined): string {
  return `cardwright: drawer\n${units === 'in' || units === 'mm' ? `units: ${units}\n` : ''}`;
}

function misused({ keeping, operands }: Request): readonly Diagnostic[] {
  const { add, take, where, label, count, grain, flutes, uncut, undo } = keeping;
  const clash = (option: string, other: string, why: string): Diagnostic =>
    diagnose('C39', { kind: 'argument', argument: option }, { option, other, why });
  const words = { where, label };
  const onlyWithAdd = Object.entries(words).flatMap(([name, value]) =>
    value === undefined ? [] : [`--${name}`],
  );
  const telling = [
    ...(grain === undefined ? [] : ['--grain']),
    ...(flutes === undefined ? [] : ['--flutes']),
    ...(uncut ? ['--uncut'] : []),
  ];
  const counts = Number(count ?? '1');
  return [
    ...(operands.includes('-')
      ? [clash('-', 'standard input', 'a drawer is a file that can be written')]
      : []),
    ...(undo && add.length + take.length > 0
      ? [clash('--undo', add.length > 0 ? '--add' : '--take', 'one change at a time')]
      : []),
    ...(add.length === 0 ? onlyWithAdd.map((it) => clash(it, '--add', 'it tells of what is added')) : []),
    ...(add.length + take.length === 0
      ? telling.map((it) => clash(it, '--add or --take', 'it tells of what is added or taken out'))
      : []),
    ...(label !== undefined && add.length > 1
      ? [clash('--label', '--add', 'one label tells one kind of piece')]
      : []),
    ...(count !== undefined && (add.length + take.length === 0 || !/^[1-9]\d{0,5}$/.test(count) || counts < 1)
      ? [clash('--count', '--add or --take', 'it is a whole number from 1 on')]
      : []),
  ];
}

interface Made {
  readonly text: string;
  /** In words, one a change. */
  readonly changes: readonly string[];
  readonly about: { readonly job: HeldDrawer['journal'][number]['job']; readonly undoes: number | undefined };
}

function undone({ open, journal, path }: HeldDrawer): Outcome<Made> {
  const place = { kind: 'file', path } as const;
  const last = lastToUndo(journal);
  if (last === undefined) return { value: undefined, diagnostics: [diagnose('K05', place, {})] };
  const text = takenBack(last, open.file.source.text, digest);
  if (text === undefined)
    return { value: undefined, diagnostics: [diagnose('K06', place, { what: last.what })] };
  const about = { job: last.job, undoes: last.number };
  return { value: { text, changes: [`undid: ${last.what}`], about }, diagnostics: [] };
}

function changed({ open, path }: HeldDrawer, request: Request): Outcome<Made> {
  const { add, take, count } = request.keeping;
  const many = Number(count ?? '1');
  const units =
    open.drawer.units ?? (request.units === 'in' || request.units === 'mm' ? request.units : undefined);
  const read = [
    ...take.map((text) => takeCalled(text, request, open, { units, path, many })),
    ...add.map((text) => addedBy(text, request, open, units)),
  ];
  const diagnostics = read.flatMap((it) => it.diagnostics);
  const changes = read.flatMap(({ value }) => value ?? []);
  if (diagnostics.some(isError)) return { value: undefined, diagnostics };
  const made = withChanges(open, changes);
  if ('why' in made) {
    const what = wordsFor(made.change, units);
    return { value: undefined, diagnostics: [diagnose('K04', { kind: 'file', path }, { what })] };
  }
  const about = { job: undefined, undoes: undefined };
  return {
    value: { text: made.text, changes: changes.map((it) => wordsFor(it, units)), about },
    diagnostics,
  };
}

/**
 * What has this label; what has none, by its material and size.
 *
 * @errors K01 not there, K02 a label of several, K08 a size of several
 */
function takeCalled(
  text: string,
  { keeping }: Request,
  { drawer: { entries } }: OpenDrawer,
  {
    units,
    path,
    many,
  }: { readonly units: FileUnits | undefined; readonly path: string; readonly many: number },
): Outcome<Change> {
  const place = { kind: 'file', path } as const;
  const labelled = entries.filter((it) => it.label === text);
  const piece = labelled.length > 0 ? 'a label' : readPiece(text, units);
  const found = typeof piece === 'string' ? labelled : ofSize(piece, entries, keeping);
  const [entry] = found;
  if (entry === undefined) {
    const labels = entries.flatMap((it) => it.label ?? []);
    const facts = {
      wanted: `"${text}"`,
      there: typeof piece === 'string' ? 'no such label' : 'none of that size',
      meant: typeof piece === 'string' ? didYouMean(text, labels).replace(/^; /, '') : '',
    };
    return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
  }
  if (found.some((it) => !isLike(it, entry))) {
    const several =
      typeof piece === 'string'
        ? diagnose('K02', place, {
            label: text,
            what: found.map((it) => pieceWords(it, units)).join(' and on '),
          })
        : diagnose('K08', place, { found: text, known: found.map(tellingWords).join(', or ') });
    return { value: undefined, diagnostics: [several] };
  }
  const there = found.reduce((all, it) => (it.count === 'as needed' ? many : all + it.count), 0);
  if (there >= many) return { value: { kind: 'take', entry, count: many }, diagnostics: [] };
  const facts = { wanted: `${many} of "${text}"`, there: `${there}`, meant: '' };
  return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
}

/** Those without a label where there are any, since the others can be told by it. */
function ofSize(
  { material, length, width }: TypedPiece,
  entries: readonly ListedEntry[],
  { uncut, grain, flutes }: Request['keeping'],
): readonly ListedEntry[] {
  const found = entries.filter(
    (it) =>
      it.material === material &&
      it.count !== 0 &&
      equal(it.length, length) &&
      equal(it.width, width) &&
      (!uncut || it.kind === 'sheet') &&
      (grain === undefined || it.grain === grain) &&
      (flutes === undefined || it.flutes === flutes),
  );
  const bare = found.filter(({ label }) => label === undefined);
  return bare.length > 0 ? bare : found;
}

function tellingWords({ kind, grain, flutes, label }: DrawerEntry): string {
  const run = (what: string, side: string | undefined): readonly string[] =>
    side === undefined ? [] : [`--${what} ${side}`];
  const words = [...(kind === 'sheet' ? ['--uncut'] : []), ...run('grain', grain), ...run('flutes', flutes)];
  if (label !== undefined) return `"${label}"`;
  return words.length === 0 ? 'an offcut of which no more is said' : words.join(' ');
}

/** @errors K03 no piece, K02 another's label; warnings: K09 a strange material, K10 a side that all others say */
function addedBy(
  text: string,
  { keeping }: Request,
  { drawer: { entries } }: OpenDrawer,
  units: FileUnits | undefined,
): Outcome<Change> {
  const place = { kind: 'argument', argument: `--add '${text}'` } as const;
  const wrong = (why: string): Outcome<Change> => ({
    value: undefined,
    diagnostics: [diagnose('K03', place, { found: text, why })],
  });
  const piece = readPiece(text, units);
  if (typeof piece === 'string') return wrong(piece);
  const entry: DrawerEntry = {
    kind: keeping.uncut ? 'sheet' : 'offcut',
    ...piece,
    // The choices of --grain and --flutes were held against the table of options.
    grain: keeping.grain as DrawerEntry['grain'],
    flutes: keeping.flutes as DrawerEntry['flutes'],
    count: Number(keeping.count ?? '1'),
    label: keeping.label,
    where: keeping.where,
    note: undefined,
    price: undefined,
    trim: undefined,
    trueEdges: true,
  };
  const other = entries.find(
    (it) => it.label !== undefined && it.label === entry.label && !isLike(it, entry),
  );
  if (other === undefined) {
    return { value: { kind: 'put', entry }, diagnostics: doubtsOf(entry, entries, place) };
  }
  const facts = { label: entry.label ?? '', what: pieceWords(other, units) };
  return { value: undefined, diagnostics: [diagnose('K02', place, facts)] };
}

/** What is taken as it is told, but is likely to be meant otherwise. */
function doubtsOf(
  entry: DrawerEntry,
  entries: readonly DrawerEntry[],
  place: Diagnostic['place'],
): readonly Diagnostic[] {
  const { material } = entry;
  const others = entries.filter((it) => it.material === material);
  if (others.length === 0) {
    const known = entries.map((it) => it.material);
    const meant = didYouMean(material, known);
    return meant === '' ? [] : [diagnose('K09', place, { material, meant })];
  }
  return (['grain', 'flutes'] as const).flatMap((what) => {
    const isMissing = entry[what] === undefined && others.every((it) => it[what] !== undefined);
    return isMissing ? [diagnose('K10', place, { material, what })] : [];
  });
}

function wordsFor(change: Change, units: FileUnits | undefined): string {
  const { entry } = change;
  const count = change.kind === 'take' ? change.count : entry.count;
  const label = entry.label === undefined ? '' : ` (${entry.label})`;
  return `${change.kind === 'take' ? 'took out' : 'put in'} ${count} x ${pieceWords(entry, units)}${label}`;
}

function pieceWords({ material, length, width }: DrawerEntry, units: FileUnits | undefined): string {
  const areInches = [length, width].every((it) => isMultiple(it, oneSixtyFourth));
  const unit =
    areInches && units !== 'mm' ? 'in' : exactDecimal(length) === undefined ? (units ?? 'mm') : 'mm';
  return `${material} ${showExact(length, unit).replace(/ \S+$/, '')} x ${showExact(width, unit)}`;
}

const oneSixtyFourth: Length = inches(rational(1n, 64n));

interface Told {
  readonly open: OpenDrawer;
  readonly said: readonly Diagnostic[];
  readonly changes: readonly string[];
}

async function tell(
  path: string,
  { open, said, changes }: Told,
  request: Request,
  voice: Voice,
): Promise<ExitCode> {
  const { dryRun, units } = request;
  if (voice.json) {
    const files = changes.length === 0 ? [] : [{ path, written: !dryRun }];
    await voice.product(printJson(drawerDocument(open.drawer, said, changes, files)));
  } else if (changes.length > 0) {
    const lines = changes.map((it) => `${dryRun ? 'would do  ' : ''}${it}\n`).join('');
    await voice.product(lines);
    await voice.remark(`${dryRun ? 'would write' : 'wrote'} ${path}`);
  } else {
    const own = open.drawer.units ?? 'mm';
    const shown = units === 'in' || units === 'mm' || units === 'both' ? units : own;
    const first: FileUnits = shown === 'both' ? own : shown;
    const ruler = [inches(rational(1n, 16n)), millimetres(rational(1n, 2n))] as const;
    const style = {
      units: { value: shown, from: 'built-in' },
      firstUnit: first,
      ruler: { value: ruler, from: 'built-in' },
    } as const;
    await voice.product(printDrawer(path, open.drawer, style, voice.look));
  }
  await voice.faults(said);
  return exitCodeOf(said);
}
