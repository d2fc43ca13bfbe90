import { type Diagnostic, diagnose, isError, type ListedEntry, type Outcome } from '../../model/index.ts';
import { cutDocument, printJson } from '../../print/json/index.ts';
import { printAgain } from '../../print/stock/index.ts';
import { printText } from '../../print/text/index.ts';
import { recut as layOut, type Recut } from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { besideJob, type OpenJob, readJob, writeJob } from '../jobs.ts';
import { hold, listening, readDrawer } from '../keeping.ts';
import { deliver, drawnPages, type Finished, readOutputs, withDocument } from '../outputs.ts';
import { fileLook } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** Lays spoiled pieces out on the job's own leftovers first, and prints one small sheet. */
export async function recut(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [path = '', label = '', typed = '1'] = request.operands;
  const outputs = readOutputs(request, ['text', 'pdf', 'svg', 'json'], world);
  const amiss: Diagnostic[] = [...outputs.diagnostics];
  if (!/^[1-9]\d{0,3}$/.test(typed)) {
    amiss.push(diagnose('K34', { kind: 'argument', argument: typed }, { found: typed }));
  }
  if (amiss.some(isError) || outputs.value === undefined) return fail(amiss, 'recut', voice);
  const { value } = outputs;
  return listening(world, () =>
    whileHeld({ path, label, count: Number(typed) }, request, value, world, voice),
  );
}

async function whileHeld(
  { path, label, count }: { readonly path: string; readonly label: string; readonly count: number },
  request: Request,
  outputs: NonNullable<ReturnType<typeof readOutputs>['value']>,
  world: World,
  voice: Voice,
): Promise<ExitCode> {
  const lock = hold(path, world);
  if (lock.value === undefined) return fail(lock.diagnostics, 'recut', voice);
  try {
    const read = await readJob(path, world);
    if (read.value === undefined) return fail(read.diagnostics, 'recut', voice);
    const entries = atHand(read.value, world);
    if (entries.value === undefined) return fail(entries.diagnostics, 'recut', voice);
    const { job, source } = read.value;
    const wanted = { label, count };
    const driver = driverOf(voice, world);
    const { value, diagnostics } = await driver.through(layOut(job, wanted, entries.value, source));
    if (value === undefined) return fail(diagnostics, 'recut', voice);
    return await give(read.value, value, diagnostics, request, { outputs, voice, world });
  } finally {
    lock.value.release();
  }
}

/** What the drawer lists now; nothing where the job has none, or it is not there. */
function atHand({ job, path }: OpenJob, world: World): Outcome<readonly ListedEntry[]> {
  const { drawer } = job.plan;
  if (drawer === undefined) return { value: [], diagnostics: [] };
  const file = besideJob(drawer, path);
  if (world.files.kindOf(file) === 'nothing') return { value: [], diagnostics: [] };
  const { value, diagnostics } = readDrawer(file, world);
  return { value: value?.drawer.entries, diagnostics };
}

async function give(
  open: OpenJob,
  { made, event }: Recut,
  said: readonly Diagnostic[],
  request: Request,
  {
    outputs,
    voice,
    world,
  }: {
    readonly outputs: NonNullable<ReturnType<typeof readOutputs>['value']>;
    readonly voice: Voice;
    readonly world: World;
  },
): Promise<ExitCode> {
  const files = outputs.flatMap(({ path }) => path ?? []).map((path) => ({ path, written: !request.dryRun }));
  const finished: Finished[] = [];
  for (const output of withDocument(outputs, voice)) {
    const { path, form } = output;
    if (form === 'text') {
      finished.push({ path, content: printText(made, path === undefined ? voice.look : fileLook) });
    } else if (form === 'json') {
      finished.push({ path, content: printJson(cutDocument(made, said, files)) });
    } else {
      const { compose } = await import('../../print/paged/index.ts');
      const readFont = (name: string): Uint8Array => world.files.shipped(`shared/fonts/${name}`);
      const composed = compose(made, said, { version: world.about.version, readFont }, {});
      if (composed.value === undefined) return fail(composed.diagnostics, 'recut', voice);
      const drawn = await drawnPages(output, composed.value, undefined, driverOf(voice, world));
      if (drawn.value === undefined) return fail(drawn.diagnostics, 'recut', voice);
      finished.push({ path, content: drawn.value });
    }
  }
  if (request.dryRun) {
    if (!voice.json) await voice.product(printAgain(event, open.job, voice.look));
  } else {
    const job = { ...open.job, events: [...open.job.events, event] };
    await driverOf(voice, world).look();
    const unwritten = writeJob(open, job, world);
    if (unwritten.length > 0) return fail(unwritten, 'recut', voice);
  }
  const undelivered = await deliver(finished, request, { driver: driverOf(voice, world), voice, world });
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
}
