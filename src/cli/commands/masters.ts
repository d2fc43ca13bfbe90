import { expand } from '../../expand/index.ts';
import { inches, millimetres, rational } from '../../measure/index.ts';
import {
  type Batch,
  type Diagnostic,
  diagnose,
  didYouMean,
  fine,
  isError,
  type Length,
  type Outcome,
  type Settings,
  type Spec,
} from '../../model/index.ts';
import { printJson } from '../../print/json/index.ts';
import {
  chosen,
  composeMasters,
  type MastersAsked,
  mastersDocument,
  printMasters,
  rowsOf,
} from '../../print/masters/index.ts';
import type { Composed, PageChoice } from '../../print/paged/index.ts';
import type { Request } from '../arguments.ts';
import { type Driver, driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { withoutFollowUps } from '../followUps.ts';
import { pitchFault, readBars, readPitch } from '../masterOptions.ts';
import { deliver, drawnPages, type Finished, type Output, readOutputs, withDocument } from '../outputs.ts';
import { readOverrides } from '../overrides.ts';
import { isPaged, pagesOfNone, readPages } from '../pageChoice.ts';
import { outputsOverInputs, readFiles } from '../reading.ts';
import { fileLook } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** Full-size masters: as pages to print, or as offsets to mark out by. */
export async function masters(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [file = '', name] = request.operands;
  const overrides = readOverrides(request);
  const outputs = readOutputs({ ...request, operands: [file] }, ['text', 'pdf', 'svg', 'json'], world);
  const choice = readPages(request.pages);
  const bars = readBars(request);
  const pitch = readPitch(request);
  const asked = [
    ...overrides.diagnostics,
    ...outputs.diagnostics,
    ...choice.diagnostics,
    ...bars.diagnostics,
    ...pitch.diagnostics,
    ...pagesOfNone(request, outputs.value ?? []),
  ];
  const isUnclear = asked.some(isError) || overrides.value === undefined || bars.value === undefined;
  if (isUnclear || outputs.value === undefined) return fail(asked, 'masters', voice);

  const driver = driverOf(voice, world);
  const spec = await readFiles([file], world, driver);
  if (spec.value === undefined) return giveUp(spec.diagnostics, voice);
  const lost = outputsOverInputs(outputs.value, spec.value, world);
  if (lost.length > 0) return fail(lost, 'masters', voice);
  const { value: batch, diagnostics } = driver.atOnce(expand.bind(undefined, spec.value, overrides.value));
  const said = [...withoutFollowUps([...spec.diagnostics, ...diagnostics])];
  if (batch === undefined || said.some(isError)) return giveUp(said, voice);
  const missing = missingMaster(batch, name, file);
  if (missing !== undefined) return giveUp([...said, missing], voice);

  const step = pitch.value ?? usualPitch(batch.settings);
  const tooFine = tooManyRows(batch, name, step, request.pitch);
  if (tooFine !== undefined) return fail([...said, tooFine], 'masters', voice);
  const wanted: MastersAsked = { batch, name, pitch: step, bars: bars.value };
  const made = { ...wanted, spec: spec.value, mayTurn: !request.landscape };
  const composed = pagesFor(outputs.value, made, world, driver);
  said.push(...composed.diagnostics);
  if (composed.diagnostics.some(isError)) return giveUp(said, voice);

  const files = outputs.value.flatMap(({ path }) => path ?? []);
  const document = (): string =>
    printJson(
      mastersDocument(
        wanted,
        said,
        files.map((path) => ({ path, written: !request.dryRun })),
      ),
    );
  const finished: Finished[] = [];
  for (const output of withDocument(outputs.value, voice)) {
    const given = { asked: wanted, composed: composed.value, choice: choice.value, document, driver };
    const { value: content, diagnostics } = await render(output, given, voice);
    if (content === undefined) return giveUp([...said, ...diagnostics], voice);
    finished.push({ path: output.path, content });
  }
  const undelivered = await deliver(finished, request, { driver, voice, world });
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
}

function missingMaster(batch: Batch, name: string | undefined, file: string): Diagnostic | undefined {
  const names = (batch.masters ?? []).map((it) => it.name);
  const path = file === '-' ? '<stdin>' : file;
  if (names.length === 0) return diagnose('C31', { kind: 'file', path }, { path });
  if (name === undefined || names.includes(name)) return undefined;
  const facts = { name, names: names.join(', '), meant: didYouMean(name, names) };
  return diagnose('C30', { kind: 'argument', argument: name }, facts);
}

function usualPitch({ units, firstUnit }: Settings): Length {
  const unit = units.value === 'both' ? firstUnit : units.value;
  return unit === 'in' ? inches(rational(1n, 4n)) : millimetres(rational(5n));
}

const mostRows = 2000;

function tooManyRows(
  batch: Batch,
  name: string | undefined,
  pitch: Length,
  typed: string | undefined,
): Diagnostic | undefined {
  const rows = Math.max(...chosen(batch, name).map(({ master }) => rowsOf(master.outline, pitch)));
  if (typed === undefined || rows <= mostRows) return undefined;
  return pitchFault(typed, `it takes ${rows} offsets, more than ${mostRows}`);
}

interface ToCompose extends MastersAsked {
  readonly spec: Spec;
  readonly mayTurn: boolean;
}

function pagesFor(
  outputs: readonly Output[],
  { spec, batch, ...choice }: ToCompose,
  world: World,
  driver: Driver,
): Outcome<Composed | undefined> {
  if (!outputs.some(({ form }) => isPaged(form))) return fine(undefined);
  const readFont = (name: string): Uint8Array => world.files.shipped(`shared/fonts/${name}`);
  const program = { version: world.about.version, readFont };
  return driver.atOnce(() => composeMasters({ spec, batch }, choice, program));
}

interface Content {
  readonly asked: MastersAsked;
  readonly composed: Composed | undefined;
  readonly choice: PageChoice | undefined;
  readonly driver: Driver;
  readonly document: () => string;
}

async function render(
  output: Output,
  { asked, composed, choice, document, driver }: Content,
  voice: Voice,
): Promise<Outcome<Finished['content']>> {
  switch (output.form) {
    case 'text':
      return fine(
        driver.atOnce(() =>
          printMasters(asked.batch, asked, output.path === undefined ? voice.look : fileLook),
        ),
      );
    case 'json':
      return fine(driver.atOnce(document));
    case 'csv':
      throw new Error('lists alone are given as CSV, and that was told before');
    case 'pdf':
    case 'svg':
      return drawnPages(output, composed!, choice, driver); // composed for those that have pages
  }
}

async function giveUp(diagnostics: readonly Diagnostic[], voice: Voice): Promise<ExitCode> {
  const exitCode = exitCodeOf(diagnostics);
  if (exitCode !== ExitCode.specWrong) return fail(diagnostics, 'masters', voice);
  if (voice.json) await voice.product(printJson(mastersDocument(undefined, diagnostics)));
  await voice.faults(diagnostics);
  return exitCode;
}
