import { showExact } from '../../measure/index.ts';
import {
  type Diagnostic,
  type DrawerEntry,
  diagnose,
  type FileUnits,
  type Job,
  type JobEvent,
  type JobSheet,
  nowhere,
  type Outcome,
} from '../../model/index.ts';
import { printJson, stateDocument } from '../../print/json/index.ts';
import { printJob } from '../../print/stock/index.ts';
import {
  type Change,
  lastToUndo,
  puttingAway,
  sheetsMeant,
  sheetsOf,
  takenBack,
  withChanges,
} from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import { digest } from '../digest.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import {
  besideJob,
  type CaughtUp,
  changedInputs,
  type OpenJob,
  readJob,
  reconciled,
  writeJob,
} from '../jobs.ts';
import { type HeldDrawer, hold, holdDrawer, writeDrawer } from '../keeping.ts';
import type { Voice } from '../voice.ts';
import { isTrouble, type World } from '../world.ts';

/** A plan that was printed: what is cut of it, what is put away, undone. */
export async function job(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [path = ''] = request.operands;
  const { cut, putAway, undo } = request.keeping;
  if (undo && (putAway || cut.length > 0)) {
    const option = putAway ? '--put-away' : '--cut';
    const facts = { option: '--undo', other: option, why: 'one thing at a time' };
    return fail([diagnose('C39', { kind: 'argument', argument: '--undo' }, facts)], 'job', voice);
  }
  const lock = hold(path, world);
  if (lock.value === undefined) return fail(lock.diagnostics, 'job', voice);
  try {
    const read = await readJob(path, world);
    if (read.value === undefined) return fail(read.diagnostics, 'job', voice);
    return await withDrawer(read.value, request, voice, world);
  } finally {
    lock.value.release();
  }
}

/** The drawer is held where there is one, so that nothing happens to it between looking and writing. */
async function withDrawer(open: OpenJob, request: Request, voice: Voice, world: World): Promise<ExitCode> {
  const { drawer } = open.job.plan;
  const path = drawer === undefined ? undefined : besideJob(drawer, open.path);
  const isWanted = request.keeping.putAway || request.keeping.undo;
  const isThere = path !== undefined && !isTrouble(world.files.read(path));
  const held = path !== undefined && (isWanted || isThere) ? holdDrawer(path, world) : undefined;
  if (held !== undefined && held.value === undefined) return fail(held.diagnostics, 'job', voice);
  try {
    return await work(open, held?.value, request, voice, world);
  } finally {
    held?.value?.lock.release();
  }
}

/** A job on its way: what it became, and what is to be written of the drawer. */
interface Step {
  readonly job: Job;
  /** In words. */
  readonly changes: readonly string[];
  readonly said: readonly Diagnostic[];
  readonly drawer?: {
    readonly text: string;
    readonly sheets: readonly JobSheet[];
    readonly undoes: number | undefined;
  };
}

async function work(
  open: OpenJob,
  held: HeldDrawer | undefined,
  request: Request,
  voice: Voice,
  world: World,
): Promise<ExitCode> {
  const { cut, putAway, undo } = request.keeping;
  const known = reconciled(open.job, held?.journal ?? []);
  const begun: Step = { job: known.job, changes: [], said: [] };
  for (const what of known.putAway) await voice.remark(`put away by a run that was interrupted: ${what}`);
  for (const what of known.undone) await voice.remark(`undone in the drawer: ${what}`);
  const steps = [
    ...(cut.length > 0 ? [(it: Step) => cutting(it, cut)] : []),
    ...(putAway ? [(it: Step) => away(it, held, known)] : []),
    ...(undo ? [(it: Step) => undoing(it, held)] : []),
  ];
  let step = begun;
  for (const next of steps) {
    const made = next(step);
    if (made.value === undefined) {
      // What the journal told is kept all the same, or each run would tell it again.
      const unwritten = request.dryRun ? [] : write(open, undefined, begun, world).diagnostics;
      return fail([...step.said, ...made.diagnostics, ...unwritten], 'job', voice);
    }
    step = made.value;
  }
  const written = request.dryRun ? { job: step.job, diagnostics: [] } : write(open, held, step, world);
  if (written.diagnostics.length > 0) return fail([...step.said, ...written.diagnostics], 'job', voice);
  return tell(open, { ...step, job: written.job }, request, voice, world);
}

/** The drawer first, and then the job: what it says of the drawer is the journal's. */
function write(
  open: OpenJob,
  held: HeldDrawer | undefined,
  { job: made, changes, drawer }: Step,
  world: World,
): { readonly job: Job; readonly diagnostics: readonly Diagnostic[] } {
  let written = made;
  if (drawer !== undefined && held !== undefined) {
    const { text, sheets, undoes } = drawer;
    const about = { what: changes.join('; '), job: { id: made.id, sheets }, undoes };
    const { entry, diagnostics } = writeDrawer(held, text, about, world);
    if (diagnostics.length > 0) return { job: open.job, diagnostics };
    const event: JobEvent = { kind: 'put away', entry: entry.number, sheets };
    if (undoes === undefined) written = { ...made, events: [...made.events, event] };
  }
  if (written === open.job) return { job: written, diagnostics: [] };
  return { job: written, diagnostics: writeJob(open, written, world) };
}

function cutting({ job: of, changes, said }: Step, texts: readonly string[]): Outcome<Step> {
  const { value: sheets, diagnostics } = sheetsMeant(of, texts);
  if (sheets === undefined) return { value: undefined, diagnostics };
  const event: JobEvent = { kind: 'cut', sheets };
  const words = sheets.map(({ material, number }) => `${material} ${number}`).join(', ');
  return {
    value: { job: { ...of, events: [...of.events, event] }, changes: [...changes, `cut: ${words}`], said },
    diagnostics: [],
  };
}

function away(
  { job: of, changes, said }: Step,
  held: HeldDrawer | undefined,
  known: CaughtUp,
): Outcome<Step> {
  if (of.plan.drawer === undefined || held === undefined) {
    return { value: undefined, diagnostics: [diagnose('K29', nowhere, {})] };
  }
  const { sheets, changes: made, elsewhere } = puttingAway(of);
  if (sheets.length === 0) {
    if (known.putAway.length === 0) {
      const isOver = sheetsOf(of).every(({ isCut }) => isCut);
      return { value: undefined, diagnostics: [diagnose('K28', nowhere, { isOver })] };
    }
    const words = 'put away: the run that was interrupted had done it';
    return { value: { job: of, changes: [...changes, words], said }, diagnostics: [] };
  }
  const { units } = held.open.drawer;
  const after = withChanges(held.open, made);
  const place = { kind: 'file', path: held.path } as const;
  if ('why' in after) {
    const what = pieceWords(after.change, units);
    const code = after.why === 'not there' ? 'K35' : 'K04';
    return { value: undefined, diagnostics: [diagnose(code, place, { what })] };
  }
  const warnings = elsewhere.map(({ sheet, material }) => {
    const what = `${material} ${sizeWords(sheet, units)}${sheet.label === undefined ? '' : ` (${sheet.label})`}`;
    return diagnose('K32', nowhere, { what, where: 'the session' });
  });
  const words =
    made.length === 0
      ? ['put away: nothing goes out, nothing comes in']
      : made.map((it) => wordsFor(it, units));
  return {
    value: {
      job: of,
      changes: [...changes, ...words],
      said: [...said, ...warnings],
      drawer: { text: after.text, sheets, undoes: undefined },
    },
    diagnostics: [],
  };
}

/** The last thing that was done; putting away only where the drawer is as it was left. */
function undoing({ job: of, changes, said }: Step, held: HeldDrawer | undefined): Outcome<Step> {
  const last = of.events.at(-1);
  if (last === undefined) return { value: undefined, diagnostics: [diagnose('K30', nowhere, {})] };
  const before = { ...of, events: of.events.slice(0, -1) };
  if (last.kind !== 'put away') {
    const words =
      last.kind === 'cut'
        ? `cut ${last.sheets.map(({ material, number }) => `${material} ${number}`).join(', ')}`
        : `${last.count} x ${last.label} again`;
    return { value: { job: before, changes: [...changes, `undid: ${words}`], said }, diagnostics: [] };
  }
  if (held === undefined) return { value: undefined, diagnostics: [diagnose('K29', nowhere, {})] };
  const place = { kind: 'file', path: held.path } as const;
  const entry = held.journal.find(({ number }) => number === last.entry);
  if (entry === undefined || lastToUndo(held.journal)?.number !== last.entry) {
    const what = entry?.what ?? `change ${last.entry} of the drawer`;
    const facts = { what, isKnown: entry !== undefined };
    return { value: undefined, diagnostics: [diagnose('K31', place, facts)] };
  }
  const text = takenBack(entry, held.open.file.source.text, digest);
  if (text === undefined) {
    return { value: undefined, diagnostics: [diagnose('K06', place, { what: entry.what })] };
  }
  const drawer = { text, sheets: last.sheets, undoes: entry.number };
  return {
    value: { job: before, changes: [...changes, `undid: ${entry.what}`], said, drawer },
    diagnostics: [],
  };
}

function wordsFor(change: Change, units: FileUnits | undefined): string {
  return `${change.kind === 'take' ? 'out' : 'in'}: ${pieceWords(change, units)}`;
}

function pieceWords(change: Change, units: FileUnits | undefined): string {
  const { entry } = change;
  const count = change.kind === 'take' ? change.count : entry.count;
  const label = entry.label === undefined ? '' : ` (${entry.label})`;
  return `${count} x ${entry.material} ${sizeWords(entry, units)}${label}`;
}

/** In inches where these are short, but never of a drawer that is written in millimetres. */
function sizeWords(
  { length, width }: Pick<DrawerEntry, 'length' | 'width'>,
  units: FileUnits | undefined,
): string {
  const [inLength, inWidth] = [showExact(length, 'in'), showExact(width, 'in')];
  const isShort = units !== 'mm' && inLength.length + inWidth.length <= 22;
  if (isShort) return `${inLength.replace(/ in$/, '')} x ${inWidth}`;
  return `${showExact(length, 'mm').replace(/ mm$/, '')} x ${showExact(width, 'mm')}`;
}

async function tell(
  open: OpenJob,
  { job: made, changes, said }: Step,
  { dryRun }: Request,
  voice: Voice,
  world: World,
): Promise<ExitCode> {
  const changed = changedInputs(open, world);
  const all = [
    ...said,
    ...(changed.length === 0
      ? []
      : [
          diagnose(
            'K23',
            { kind: 'file', path: open.path },
            { paths: changed.map((it) => `"${it}"`).join(', ') },
          ),
        ]),
  ];
  if (voice.json) {
    const files = changes.length === 0 ? [] : [{ path: open.path, written: !dryRun }];
    await voice.product(printJson(stateDocument({ job: made, changed, changes }, all, files)));
  } else if (changes.length > 0) {
    await voice.product(changes.map((it) => `${dryRun ? 'would do  ' : ''}${it}\n`).join(''));
  } else {
    await voice.product(printJob(open.path, made, voice.look));
  }
  await voice.faults(all);
  return exitCodeOf(all);
}
