import { inches, millimetres, rational } from '../../measure/index.ts';
import { type Diagnostic, diagnose, type FileUnits, isError, type Outcome } from '../../model/index.ts';
import { drawerDocument, printJson } from '../../print/json/index.ts';
import { printDrawer } from '../../print/stock/index.ts';
import { lastToUndo, type OpenDrawer, openDrawer, takenBack } from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import { digest } from '../digest.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { type HeldDrawer, holdDrawer, listening, readDrawer, writeDrawer } from '../keeping.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';
import { changed, type Made } from './drawerChanges.ts';

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
  return listening(world, () => change(path, request, world, voice));
}

async function change(path: string, request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const { add, undo } = request.keeping;
  const held = holdDrawer(path, world, add.length > 0 ? emptyDrawer(request.units) : undefined);
  if (held.value === undefined) return fail(held.diagnostics, 'drawer', voice);
  try {
    const made = undo ? undone(held.value) : changed(held.value, request);
    if (made.value === undefined) return fail([...held.diagnostics, ...made.diagnostics], 'drawer', voice);
    const { text, changes, about } = made.value;
    if (!request.dryRun) {
      await driverOf(voice, world).look();
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
  const { add, take, where, label, count, grain, flutes, uncut, fitting, undo } = keeping;
  const clash = (option: string, other: string | undefined, why: string): Diagnostic =>
    diagnose('C39', { kind: 'argument', argument: option }, { option, other, why });
  const words = { where, label };
  const onlyWithAdd = Object.entries(words).flatMap(([name, value]) =>
    value === undefined ? [] : [`--${name}`],
  );
  const telling = [
    ...(grain === undefined ? [] : ['--grain']),
    ...(flutes === undefined ? [] : ['--flutes']),
    ...(uncut ? ['--uncut'] : []),
    ...(fitting ? ['--fitting'] : []),
  ];
  return [
    ...(operands.includes('-')
      ? [clash('-', 'standard input', 'a drawer is a file that can be written')]
      : []),
    ...(undo && add.length + take.length > 0
      ? [clash('--undo', add.length > 0 ? '--add' : '--take', 'one change at a time')]
      : []),
    ...(add.length === 0
      ? onlyWithAdd.map((it) => clash(it, undefined, 'it tells of what is put in by --add'))
      : []),
    ...(add.length + take.length === 0
      ? [...telling, ...(count === undefined ? [] : ['--count'])].map((it) =>
          clash(it, undefined, 'it tells of what is put in by --add, or taken out by --take'),
        )
      : []),
    ...(label !== undefined && add.length > 1
      ? [clash('--label', '--add', 'one label tells one kind of piece')]
      : []),
    ...(count !== undefined && !/^[1-9]\d{0,5}$/.test(count)
      ? [
          diagnose(
            'C04',
            { kind: 'argument', argument: '--count' },
            { option: '--count', choices: 'a whole number from 1 to 999999', value: count, meant: '' },
          ),
        ]
      : []),
  ];
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
