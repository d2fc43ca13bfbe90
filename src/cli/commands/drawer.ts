import {
  exactDecimal,
  inches,
  isMultiple,
  isPositive,
  millimetres,
  rational,
  readMeasure,
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
    return tell(path, { open: after, said: held.diagnostics, changes }, request, voice);
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
  const words = { where, label, grain, flutes };
  const onlyWithAdd = Object.entries(words).flatMap(([name, value]) =>
    value === undefined ? [] : [`--${name}`],
  );
  const counts = Number(count ?? '1');
  return [
    ...(operands.includes('-')
      ? [clash('-', 'standard input', 'a drawer is a file that can be written')]
      : []),
    ...(undo && add.length + take.length > 0
      ? [clash('--undo', add.length > 0 ? '--add' : '--take', 'one change at a time')]
      : []),
    ...(add.length === 0
      ? [...onlyWithAdd, ...(uncut ? ['--uncut'] : [])].map((it) =>
          clash(it, '--add', 'it tells of what is added'),
        )
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
    ...take.map((label) => takeCalled(label, many, open, path)),
    ...add.map((text) => addedBy(text, request, open, units)),
  ];
  const diagnostics = read.flatMap((it) => it.diagnostics);
  const changes = read.flatMap(({ value }) => value ?? []);
  if (diagnostics.length > 0) return { value: undefined, diagnostics };
  const made = withChanges(open, changes);
  if ('why' in made) {
    const what = wordsFor(made.change, units);
    return { value: undefined, diagnostics: [diagnose('K04', { kind: 'file', path }, { what })] };
  }
  const about = { job: undefined, undoes: undefined };
  return {
    value: { text: made.text, changes: changes.map((it) => wordsFor(it, units)), about },
    diagnostics: [],
  };
}

function takeCalled(
  label: string,
  count: number,
  { drawer: { entries, units } }: OpenDrawer,
  path: string,
): Outcome<Change> {
  const place = { kind: 'file', path } as const;
  const found = entries.filter((it) => it.label === label);
  const [entry] = found;
  if (entry === undefined) {
    const labels = entries.flatMap((it) => it.label ?? []);
    const facts = {
      wanted: `"${label}"`,
      there: 'no such label',
      meant: didYouMean(label, labels).replace(/^; /, ''),
    };
    return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
  }
  if (found.some((it) => !isLike(it, entry))) {
    const what = found.map((it) => pieceWords(it, units)).join(' and on ');
    return { value: undefined, diagnostics: [diagnose('K02', place, { label, what })] };
  }
  const there = found.reduce((all, it) => (it.count === 'as needed' ? count : all + it.count), 0);
  if (there >= count) return { value: { kind: 'take', entry, count }, diagnostics: [] };
  const facts = { wanted: `${count} of "${label}"`, there: `${there}`, meant: '' };
  return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
}

/** `greyboard: 8 x 5`; a unit behind the second size is that of both. */
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
  const colon = text.lastIndexOf(':');
  if (colon < 0) return wrong('there is no colon behind the material');
  const material = text.slice(0, colon).trim();
  if (!/^\p{L}[\p{L}\p{M}0-9 '’-]*$/u.test(material)) return wrong('no material stands before the colon');
  const sides = text
    .slice(colon + 1)
    .split(/\s*(?:\bx\b|×|,|\bby\b)\s*/u)
    .map((it) => it.trim());
  const [first = '', second = ''] = sides;
  if (sides.length !== 2) return wrong('two sizes are wanted, with an x between them');
  const unit = /(?:[a-zµ]+\.?|["″”'′’]+)$/iu.exec(second)?.[0] ?? '';
  const isBare = readMeasure(first).kind === 'bare';
  const length = lengthOf(isBare && unit !== '' ? `${first} ${unit}` : first, units);
  const width = lengthOf(second, units);
  if (typeof length === 'string') return wrong(length);
  if (typeof width === 'string') return wrong(width);
  const entry: DrawerEntry = {
    kind: keeping.uncut ? 'sheet' : 'offcut',
    material,
    length,
    width,
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
  if (other === undefined) return { value: { kind: 'put', entry }, diagnostics: [] };
  const facts = { label: entry.label ?? '', what: pieceWords(other, units) };
  return { value: undefined, diagnostics: [diagnose('K02', place, facts)] };
}

function lengthOf(text: string, units: FileUnits | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return `no size is written as "${text}"`;
  if (reading.kind === 'bare' && units === undefined) return `${text} in or ${text} mm?`;
  const length =
    reading.kind === 'length'
      ? reading.length
      : units === 'in'
        ? inches(reading.number)
        : millimetres(reading.number);
  return isPositive(length) ? length : 'a size is above zero';
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
