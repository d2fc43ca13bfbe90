import { ownBlanks } from '../../blank/index.ts';
import { expand } from '../../expand/index.ts';
import {
  type Batch,
  type Diagnostic,
  isError,
  type Outcome,
  type Overrides,
  type Spec,
} from '../../model/index.ts';
import { printCountCsv, type Work } from '../../print/count/index.ts';
import { countDocument, printJson } from '../../print/json/index.ts';
import { printCount } from '../../print/text/index.ts';
import type { Request } from '../arguments.ts';
import { type Driver, driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { withoutFollowUps } from '../followUps.ts';
import { deliver, type Output, readOutputs } from '../outputs.ts';
import { readOverrides } from '../overrides.ts';
import { readFiles } from '../reading.ts';
import { fileLook } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** What a batch needs: parts by tile, totals by material. */
export async function count(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const overrides = readOverrides(request);
  const outputs = readOutputs(request, ['text', 'json', 'csv'], world);
  const asked = [...overrides.diagnostics, ...outputs.diagnostics];
  if (asked.some(isError) || overrides.value === undefined || outputs.value === undefined) {
    return fail(asked, 'count', voice);
  }

  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined) return giveUp(spec.diagnostics, voice);
  const alone = driver.atOnce(expandedAlone.bind(undefined, spec.value, overrides.value));
  // As many as possible, or as fit, are known only once they are laid out.
  const { value, diagnostics } =
    request.work || (alone.value !== undefined && isOpen(alone.value.batch))
      ? await laidOut(spec.value, overrides.value, driver)
      : alone;
  const said = withoutFollowUps([...spec.diagnostics, ...diagnostics]);
  if (value === undefined || said.some(isError)) return giveUp(said, voice);

  const batch = asBlanks(value.batch);
  const work = request.work ? value.work : undefined;
  const document = (): string => driver.atOnce(() => printJson(countDocument(batch, said, work)));
  const contentOf = ({ path, form }: Output): string => {
    if (form === 'json') return document();
    if (form === 'csv') return driver.atOnce(() => printCountCsv(batch));
    return driver.atOnce(() => printCount(batch, path === undefined ? voice.look : fileLook, work));
  };
  const lists = outputs.value.map((it) => ({ path: it.path, content: contentOf(it) }));
  const goesToStdout = lists.some(({ path }) => path === undefined);
  const all = voice.json && !goesToStdout ? [...lists, { path: undefined, content: document() }] : lists;
  const undelivered = await deliver(all, request, { driver, voice, world });
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
}

function isOpen({ most, materials, fillersAlone }: Batch): boolean {
  return most !== undefined || fillersAlone !== undefined || materials.some((it) => it.fillers !== undefined);
}

interface Counted {
  readonly batch: Batch;
  /** Undefined where nothing was laid out. */
  readonly work: Work | undefined;
}

function expandedAlone(spec: Spec, overrides: Overrides): Outcome<Counted> {
  const { value, diagnostics } = expand(spec, overrides);
  return { value: value && { batch: value, work: undefined }, diagnostics };
}

/** The packer is loaded only where something is laid out. */
async function laidOut(spec: Spec, overrides: Overrides, driver: Driver): Promise<Outcome<Counted>> {
  const { pipeline } = await import('../../pipeline.ts');
  const { workOf } = await import('../../print/count/index.ts');
  const { value, diagnostics } = await driver.through(pipeline(spec, overrides));
  return { value: value && { batch: value.batch, work: workOf(value) }, diagnostics };
}

/** Sizes are those of the blanks, as they are cut; a blank that two parts may share is still two here. */
function asBlanks(batch: Batch): Batch {
  return { ...batch, materials: batch.materials.map(ownBlanks) };
}

async function giveUp(diagnostics: readonly Diagnostic[], voice: Voice): Promise<ExitCode> {
  const exitCode = exitCodeOf(diagnostics);
  if (exitCode !== ExitCode.specWrong) return fail(diagnostics, 'count', voice);
  if (voice.json) await voice.product(printJson(countDocument(undefined, diagnostics)));
  await voice.faults(diagnostics);
  return exitCode;
}
