import {
  type Diagnostic,
  diagnose,
  type Evening,
  fine,
  isError,
  type Job,
  type Made,
  type Outcome,
  type Overrides,
  type Spec,
} from '../../model/index.ts';
import { pipeline } from '../../pipeline.ts';
import { cutDocument, type FileOut, printJson } from '../../print/json/index.ts';
import { digestOf } from '../../print/page/index.ts';
import type { Composed, PageChoice } from '../../print/paged/index.ts';
import { printText, printWhy } from '../../print/text/index.ts';
import { jobPlanOf, resumed } from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import { noPaint } from '../colour.ts';
import { type Driver, driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { faultText } from '../faultText.ts';
import { withoutFollowUps } from '../followUps.ts';
import { drawerOf, fromJob, idOf, inputsOf, jobBytes, type OpenJob, readJob, writeJob } from '../jobs.ts';
import { hold } from '../keeping.ts';
import {
  deliver,
  drawnPages,
  type Finished,
  type Output,
  readOutputs,
  refusals,
  withDocument,
} from '../outputs.ts';
import { readOverrides } from '../overrides.ts';
import { isPaged, pagesOfNone, readPages } from '../pageChoice.ts';
import { outputsOverInputs, readFiles } from '../reading.ts';
import { fileLook, type Look } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** Cutting sheets: lays the parts out and writes what a person does, as text, PDF, SVG or JSON. */
export async function cut(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const overrides = readOverrides(request);
  const outputs = readOutputs(request, ['text', 'pdf', 'svg', 'json'], world);
  const choice = readPages(request.pages, ['slips']);
  const asked = [
    ...overrides.diagnostics,
    ...outputs.diagnostics,
    ...choice.diagnostics,
    ...pagesOfNone(request, outputs.value ?? []),
  ];
  if (asked.some(isError) || overrides.value === undefined || outputs.value === undefined) {
    return fail(asked, 'cut', voice);
  }

  const { job } = request.keeping;
  const given = { request, overrides: overrides.value, outputs: outputs.value, choice: choice.value };
  if (request.keeping.resume) return resume(given, world, voice);
  const taken = job === undefined ? [] : refusals([job], request.operands, request.force, world);
  if (taken.length > 0) return fail(taken, 'cut', voice);
  return laidOut(given, undefined, world, voice);
}

/** Goes on with a job: what is cut of it is kept. No other run can change it meanwhile. */
async function resume(given: Asked, world: World, voice: Voice): Promise<ExitCode> {
  const { job: path } = given.request.keeping;
  if (path === undefined) {
    const facts = { option: '--resume', other: '--job', why: 'it says which job is gone on with' };
    return fail([diagnose('C39', { kind: 'argument', argument: '--resume' }, facts)], 'cut', voice);
  }
  const lock = hold(path, world);
  if (lock.value === undefined) return fail(lock.diagnostics, 'cut', voice);
  try {
    const read = await readJob(path, world);
    if (read.value === undefined) return fail(read.diagnostics, 'cut', voice);
    return await laidOut(given, read.value, world, voice);
  } finally {
    lock.value.release();
  }
}

interface Asked {
  readonly request: Request;
  readonly overrides: Overrides;
  readonly outputs: readonly Output[];
  readonly choice: PageChoice | undefined;
}

/** @param before  the job that is gone on with */
async function laidOut(
  { request, overrides, outputs, choice }: Asked,
  before: OpenJob | undefined,
  world: World,
  voice: Voice,
): Promise<ExitCode> {
  const { job } = request.keeping;
  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined) return giveUp(spec.diagnostics, voice);
  const lost = outputsOverInputs([...outputs, { path: job }], spec.value, world);
  if (lost.length > 0) return fail(lost, 'cut', voice);
  const run = await driver.through(
    pipeline(spec.value, overrides, {
      why: request.why,
      ...(before === undefined ? {} : { after: before.job }),
    }),
  );
  const made = run.value;
  const said = [...withoutFollowUps([...spec.diagnostics, ...run.diagnostics])];
  const other = before && made && otherEvening(before.job, made.batch);
  if (other !== undefined) return fail([other], 'cut', voice);
  const wrong = said.some(isError);
  if (made === undefined || (wrong && !request.partial)) return giveUp(said, voice);
  if (made.asked !== undefined) {
    // What no longer fits stands on the sheets as well, but these may be a PDF, or not be written at all.
    for (const it of made.batch.notes.slice(made.asked.notes.length)) await voice.remark(it);
  }
  if (made.batch.materials.length === 0 && before !== undefined) {
    await voice.product('all that is asked for is cut\n');
    return ExitCode.fine;
  }
  if (made.batch.materials.length === 0) return giveUp([...said, nothingToCut(request, spec.value)], voice);

  const files = outputs
    .flatMap(({ path }) => path ?? [])
    .concat(job ?? [])
    .map((path) => ({ path, written: !request.dryRun }));
  const composed = await pagesFor(outputs, made, said, request.storyStick, { driver, world });
  said.push(...composed.diagnostics);
  if (composed.diagnostics.some(isError)) return giveUp(said, voice);
  const sheets: Finished[] = [];
  for (const output of withDocument(outputs, voice)) {
    const given = { made, said, files, composed: composed.value, choice, driver };
    const { value: content, diagnostics } = await render(output, given, voice);
    if (content === undefined) return giveUp([...said, ...diagnostics], voice);
    sheets.push({ path: output.path, content });
  }
  if (job !== undefined) {
    const kept = jobKept(job, made, request, world);
    const next = before === undefined ? kept : resumed(before.job, kept.plan, made.asked ?? made.batch);
    if (before === undefined) sheets.unshift({ path: job, content: jobBytes(next) });
    else if (!request.dryRun) {
      const unwritten = writeJob(before, next, world);
      if (unwritten.length > 0) return fail(unwritten, 'cut', voice);
    }
  }
  const undelivered = await deliver(sheets, request, { driver, voice, world });
  if (request.why) await tellWhy(made, outputs, voice);
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
}

/** A job is gone on with on its own evening, whether that is asked for by its number or its title. */
function otherEvening({ plan: { asked } }: Job, { evenings }: Made['batch']): Diagnostic | undefined {
  if (evenings === undefined) return undefined;
  const then = asked.evening === undefined ? undefined : eveningCalled(asked.evening, evenings.all);
  // The evening may have been renamed since.
  if (then === -1 || then === evenings.now) return undefined;
  const words = (index: number | undefined): string =>
    index === undefined ? 'all evenings together' : `evening ${index + 1}`;
  const facts = { makes: words(then), wanted: words(evenings.now), evening: asked.evening };
  return diagnose('K37', { kind: 'argument', argument: '--resume' }, facts);
}

function eveningCalled(name: string, all: readonly Evening[]): number {
  const byTitle = all.findIndex(({ title }) => title === name);
  const byNumber = all.findIndex((_, index) => name === `${index + 1}`);
  return byTitle >= 0 ? byTitle : byNumber;
}

/** The plan as a job's file holds it. */
function jobKept(path: string, made: Made, { operands, make, evening }: Request, { about }: World): Job {
  const plan = jobPlanOf(made, {
    madeBy: about.version,
    inputs: inputsOf(made.spec, path),
    asked: {
      files: operands.map((it) => (it === '-' ? '<stdin>' : fromJob(it, path))),
      make,
      evening,
    },
    drawer: drawerOf(made.spec, path),
    mark: digestOf(made),
  });
  return { id: idOf(plan), plan, events: [] };
}

/** A shelf alone, as a rule. */
function nothingToCut({ operands }: Request, { files }: Spec): Diagnostic {
  const path = operands[0] === '-' ? '<stdin>' : (operands[0] ?? '');
  const isShelf = files.every(({ tiles, loose }) => tiles.length + loose.length === 0);
  const why = isShelf ? 'there are no tiles and no loose parts in it' : 'no tile of it is made';
  return diagnose('C29', { kind: 'file', path }, { path, why });
}

/** For however many outputs want them; undefined where none does. */
async function pagesFor(
  outputs: readonly Output[],
  made: Made,
  said: readonly Diagnostic[],
  sticks: boolean,
  { driver, world }: { readonly driver: Driver; readonly world: World },
): Promise<Outcome<Composed | undefined>> {
  if (!outputs.some(({ form }) => isPaged(form))) return fine(undefined);
  const { compose } = await import('../../print/paged/index.ts');
  const readFont = (name: string): Uint8Array => world.files.shipped(`shared/fonts/${name}`);
  const program = { version: world.about.version, readFont };
  return driver.atOnce(() => compose(made, said, program, { sticks }));
}

/** Text and JSON hold the reasons; beside a PDF they are told on standard output, if that is not the PDF. */
async function tellWhy(made: Made, outputs: readonly Output[], voice: Voice): Promise<void> {
  if (voice.json || outputs.some(({ form }) => !isPaged(form))) return;
  if (outputs.some(({ path }) => path === undefined))
    await voice.remark(printWhy(made, voice.look).trimEnd());
  else await voice.product(printWhy(made, voice.look));
}

/** With errors no sheet is written; where sheets are short, --partial is the way to those that can be made. */
async function giveUp(said: readonly Diagnostic[], voice: Voice): Promise<ExitCode> {
  const diagnostics = said.map((it) =>
    it.code === 'P04' ? { ...it, hints: [...it.hints, 'cut --partial   for what can be made'] } : it,
  );
  const exitCode = exitCodeOf(diagnostics);
  if (exitCode !== ExitCode.specWrong) return fail(diagnostics, 'cut', voice);
  if (voice.json) await voice.product(printJson(cutDocument(undefined, diagnostics)));
  await voice.faults(diagnostics);
  return exitCode;
}

interface Content {
  readonly made: Made;
  readonly said: readonly Diagnostic[];
  readonly files: readonly FileOut[];
  readonly composed: Composed | undefined;
  readonly choice: PageChoice | undefined;
  readonly driver: Driver;
}

async function render(
  output: Output,
  { made, said, files, composed, choice, driver }: Content,
  voice: Voice,
): Promise<Outcome<Finished['content']>> {
  switch (output.form) {
    case 'text': {
      const look = output.path === undefined ? voice.look : fileLook;
      return fine(driver.atOnce(() => warned(said, look) + printText(made, look)));
    }
    case 'json':
      return fine(driver.atOnce(() => printJson(cutDocument(made, said, files))));
    case 'csv':
      throw new Error('lists alone are given as CSV, and that was told before');
    case 'pdf':
    case 'svg':
      return drawnPages(output, composed!, choice, driver); // composed for those that have pages
  }
}

/** A sheet that is not as asked says so before all else. */
function warned(said: readonly Diagnostic[], look: Look): string {
  const errors = said.filter(isError);
  if (errors.length === 0) return '';
  return `NOT AS ASKED: these sheets leave out what could not be made\n\n${faultText(errors, look, noPaint)}\n`;
}
