import { ownBlanks } from '../../blank/index.ts';
import { expand } from '../../expand/index.ts';
import { type Batch, type Diagnostic, isError } from '../../model/index.ts';
import { countDocument, printJson } from '../../print/json/index.ts';
import { printCount } from '../../print/text/index.ts';
import type { Request } from '../arguments.ts';
import { driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { withoutFollowUps } from '../followUps.ts';
import { deliver, readOutputs } from '../outputs.ts';
import { readOverrides } from '../overrides.ts';
import { readFiles } from '../reading.ts';
import { fileLook } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** What a batch needs: parts by tile, totals by material. */
export async function count(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const overrides = readOverrides(request);
  const outputs = readOutputs(request, ['text', 'json'], world);
  const asked = [...overrides.diagnostics, ...outputs.diagnostics];
  if (asked.some(isError) || overrides.value === undefined || outputs.value === undefined) {
    return fail(asked, 'count', voice);
  }

  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined) return giveUp(spec.diagnostics, voice);
  const expanded = driver.atOnce(expand.bind(undefined, spec.value, overrides.value));
  const batch = expanded.value && asBlanks(expanded.value);
  const said = withoutFollowUps([...spec.diagnostics, ...expanded.diagnostics]);
  if (batch === undefined || said.some(isError)) return giveUp(said, voice);

  const document = (): string => driver.atOnce(() => printJson(countDocument(batch, said)));
  const list = (path: string | undefined): string =>
    driver.atOnce(() => printCount(batch, path === undefined ? voice.look : fileLook));
  const lists = outputs.value.map(({ path, form }) => ({
    path,
    content: form === 'json' ? document() : list(path),
  }));
  const goesToStdout = lists.some(({ path }) => path === undefined);
  const all = voice.json && !goesToStdout ? [...lists, { path: undefined, content: document() }] : lists;
  const undelivered = await deliver(all, request, { driver, voice, world });
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
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
