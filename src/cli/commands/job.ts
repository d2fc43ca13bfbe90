import { type Diagnostic, diagnose, type Job, type JobEvent } from '../../model/index.ts';
import { printJson, stateDocument } from '../../print/json/index.ts';
import { printJob } from '../../print/stock/index.ts';
import type { Request } from '../arguments.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { besideJob, changedInputs, type OpenJob, readJob, reconciled, writeJob } from '../jobs.ts';
import { type HeldDrawer, hold, holdDrawer, listening, writeDrawer } from '../keeping.ts';
import type { Voice } from '../voice.ts';
import { isTrouble, type World } from '../world.ts';
import { away, cutting, type Step, undoing } from './jobSteps.ts';

/** A plan that was printed: what is cut of it, what is put away, undone. */
export async function job(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [path = ''] = request.operands;
  const { cut, putAway, undo } = request.keeping;
  if (undo && (putAway || cut.length > 0)) {
    const option = putAway ? '--put-away' : '--cut';
    const facts = { option: '--undo', other: option, why: 'one thing at a time' };
    return fail([diagnose('C39', { kind: 'argument', argument: '--undo' }, facts)], 'job', voice);
  }
  return listening(world, () => whileHeld(path, request, voice, world));
}

async function whileHeld(path: string, request: Request, voice: Voice, world: World): Promise<ExitCode> {
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
    ...(cut.length > 0 ? [(it: Step) => cutting(it, cut, known)] : []),
    ...(putAway ? [(it: Step) => away(it, held, known)] : []),
    ...(undo ? [(it: Step) => undoing(it, held, known)] : []),
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
  await driverOf(voice, world).look();
  const {
    job: now,
    isDrawerWritten,
    diagnostics,
  }: ReturnType<typeof write> = request.dryRun
    ? { job: step.job, diagnostics: [] }
    : write(open, held, step, world);
  if (diagnostics.length === 0) return tell(open, { ...step, job: now }, request, voice, world);
  if (isDrawerWritten) {
    await voice.remark('the drawer is changed already; the next  cardwright job  makes up for it in the job');
  }
  return fail([...step.said, ...diagnostics], 'job', voice);
}

/** The drawer first, and then the job: what it says of the drawer is the journal's. */
function write(
  open: OpenJob,
  held: HeldDrawer | undefined,
  { job: made, drawer }: Step,
  world: World,
): { readonly job: Job; readonly isDrawerWritten?: boolean; readonly diagnostics: readonly Diagnostic[] } {
  let written = made;
  if (drawer !== undefined && held !== undefined) {
    const { text, what, sheets, undoes } = drawer;
    const about = { what, job: { id: made.id, sheets }, undoes };
    const { entry, diagnostics } = writeDrawer(held, text, about, world);
    if (diagnostics.length > 0) return { job: open.job, diagnostics };
    const event: JobEvent = { kind: 'put away', entry: entry.number, sheets };
    if (undoes === undefined) written = { ...made, events: [...made.events, event] };
  }
  if (written === open.job) return { job: written, diagnostics: [] };
  const isDrawerWritten = drawer !== undefined && held !== undefined;
  return { job: written, isDrawerWritten, diagnostics: writeJob(open, written, world) };
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
