import { ownBlanks } from '../../blank/index.ts';
import { expand } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import {
  type Batch,
  type Diagnostic,
  fine,
  isError,
  type Outcome,
  type Overrides,
  type Pause,
  refused,
  type Spec,
} from '../../model/index.ts';
import { printCountCsv, type Work } from '../../print/count/index.ts';
import { countDocument, printJson } from '../../print/json/index.ts';
import type { Composed } from '../../print/paged/index.ts';
import { printCount } from '../../print/text/index.ts';
import type { Request } from '../arguments.ts';
import { type Driver, driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { withoutFollowUps } from '../followUps.ts';
import { deliver, drawnPages, type Finished, type Output, readOutputs, withDocument } from '../outputs.ts';
import { readOverrides } from '../overrides.ts';
import { pagesOfNone, readPages } from '../pageChoice.ts';
import { readFiles } from '../reading.ts';
import { fileLook, type Look } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** What a batch needs: parts by tile, totals by material. */
export async function count(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const overrides = readOverrides(request);
  const outputs = readOutputs(request, ['text', 'pdf', 'svg', 'json', 'csv'], world);
  const choice = readPages(request.pages);
  const asked = [
    ...overrides.diagnostics,
    ...outputs.diagnostics,
    ...choice.diagnostics,
    ...pagesOfNone(request, outputs.value ?? []),
  ];
  if (asked.some(isError) || overrides.value === undefined || outputs.value === undefined) {
    return fail(asked, 'count', voice);
  }

  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined) return giveUp(spec.diagnostics, voice);
  const alone = driver.atOnce(expandedAlone.bind(undefined, spec.value, overrides.value));
  const isListed = outputs.value.some(({ form }) => form !== 'csv') || voice.json;
  const { value, diagnostics } = await withWork(
    spec.value,
    overrides.value,
    alone,
    { isAsked: request.work, isOfUse: isListed },
    driver,
  );
  const said = [...withoutFollowUps([...spec.diagnostics, ...diagnostics])];
  if (value === undefined || said.some(isError)) return giveUp(said, voice);

  const batch = asBlanks(value.batch);
  const { work, remark } = value;
  const document = (): string =>
    driver.atOnce(() => printJson(countDocument(batch, said, typeof work === 'string' ? undefined : work)));
  const contentOf = async (output: Output): Promise<Outcome<Finished['content']>> => {
    const { path, form } = output;
    if (form === 'json') return fine(document());
    if (form === 'csv') return fine(driver.atOnce(() => printCountCsv(batch)));
    if (form === 'text')
      return fine(
        driver.atOnce(() => printCount(batch, path === undefined ? voice.look : fileLook, work, remark)),
      );
    const composed = await pagesOf(value, batch, world);
    if (composed.value === undefined) return refused(...composed.diagnostics);
    return drawnPages(output, composed.value, choice.value, driver);
  };
  const finished: Finished[] = [];
  for (const output of withDocument(outputs.value, voice)) {
    const content = await contentOf(output);
    said.push(...content.diagnostics);
    if (content.value !== undefined) finished.push({ path: output.path, content: content.value });
  }
  if (said.some(isError)) return giveUp(said, voice);
  const undelivered = await deliver(finished, request, { driver, voice, world });
  await voice.faults([...said, ...undelivered]);
  return exitCodeOf([...said, ...undelivered]);
}

function isOpen({ most, materials, fillersAlone }: Batch): boolean {
  return most !== undefined || fillersAlone !== undefined || materials.some((it) => it.fillers !== undefined);
}

/** What draws is loaded only where pages are asked for. */
async function pagesOf({ work, remark }: Counted, batch: Batch, world: World): Promise<Outcome<Composed>> {
  const { composeTables, leastRoom } = await import('../../print/tables/index.ts');
  const { countSheet } = await import('../../print/text/index.ts');
  const { paperFault } = await import('../../print/page/index.ts');
  const fault = paperFault(batch.settings, leastRoom);
  if (fault !== undefined) return refused(fault);
  const readFont = (name: string): Uint8Array => world.files.shipped(`shared/fonts/${name}`);
  const { paper, margin } = batch.settings;
  const sheet = countSheet(batch, work, onPaper, remark);
  const program = { version: world.about.version, readFont };
  return fine(composeTables(sheet, paper.value, program, toDrawnMm(margin.value)));
}

/** So many characters of a line of text go into the width of a page. */
const onPaper: Look = { width: 84, ascii: false };

interface Counted {
  readonly batch: Batch;
  /** Or why nothing was laid out. */
  readonly work: Work | string;
  /** What there is to say of how it was laid out. */
  readonly remark?: string;
}

function expandedAlone(spec: Spec, overrides: Overrides): Outcome<Counted> {
  const { value, diagnostics } = expand(spec, overrides);
  return { value: value && { batch: value, work: notAsked }, diagnostics };
}

const notAsked = 'sheets, settings, cuts and what to buy: count --work lays it all out';
const notCut = 'not all of this can be cut from the sheets there are: count --work says why';

const mayDoBetter = 'laid out without much of a search: cut may do better; count --work searches as cut does';

/** Of kinds of parts, and of parts: what is more is no evening's batch, and is laid out where that is asked for. */
const mostKinds = 100;
const mostParts = 1000;
/** Pauses come after counted work, so that these are as much of it on every machine. */
const mostPauses = 1000;
/** A search that ends by itself before it has taken so many finds what a longer one finds: it is the same search. */
const mostSteps = 32;

/**
 * What only layouts tell, where it is asked for, or soon known: an ordinary evening is laid out in the time in which
 * the program starts, with the first steps of the search. Mostly these end it, with the fewest sheets, and then it is
 * what `cut` does; else that is said. What takes longer is given up after so much work, never after so many seconds,
 * so that two runs say the same.
 */
async function withWork(
  spec: Spec,
  overrides: Overrides,
  alone: Outcome<Counted>,
  { isAsked, isOfUse }: { readonly isAsked: boolean; readonly isOfUse: boolean },
  driver: Driver,
): Promise<Outcome<Counted>> {
  const { value, diagnostics } = alone;
  // As many as possible, or as fit, are known only once they are laid out.
  if (isAsked || (value !== undefined && isOpen(value.batch)))
    return laidOut(spec, overrides, driver, undefined);
  if (value === undefined || diagnostics.some(isError) || !isOfUse || !isSmall(value.batch)) return alone;
  const effort = overrides.effort ?? { name: 'quick', steps: mostSteps };
  const laid = await laidOut(spec, { ...overrides, effort }, driver, mostPauses);
  if (laid.value === undefined) return { value: { ...value, work: notAsked }, diagnostics };
  if (laid.diagnostics.some(isError)) return { value: { ...value, work: notCut }, diagnostics };
  const { batch, work, isOver } = laid.value;
  const isBest = isOver || overrides.effort !== undefined;
  return {
    value: {
      batch: { ...batch, settings: value.batch.settings },
      work,
      ...(isBest ? {} : { remark: mayDoBetter }),
    },
    diagnostics: laid.diagnostics,
  };
}

function isSmall({ materials }: Batch): boolean {
  const kinds = materials.flatMap(({ parts }) => parts);
  return kinds.length <= mostKinds && kinds.reduce((all, { count: of }) => all + of, 0) <= mostParts;
}

/**
 * The packer is loaded only where something is laid out.
 *
 * @param most  of pauses; undefined: as many as it takes. There is no value where more are wanted
 */
async function laidOut(
  spec: Spec,
  overrides: Overrides,
  driver: Driver,
  most: number | undefined,
): Promise<Outcome<Counted & { readonly isOver: boolean }>> {
  const { pipeline } = await import('../../pipeline.ts');
  const { workOf } = await import('../../print/count/index.ts');
  const outcome = await driver.through(within(pipeline(spec, overrides), most));
  if (outcome === undefined) return { value: undefined, diagnostics: [] };
  const { value, diagnostics } = outcome;
  // What is dropped for what was found sooner can't be better than the fewest sheets.
  const isOver =
    value?.layouts.every(({ proof, steps }) => proof.kind === 'fewest' && steps < mostSteps) ?? false;
  return { value: value && { batch: value.batch, work: workOf(value), isOver }, diagnostics };
}

/** The same work, given up where it takes more pauses than these. */
function* within<T>(
  run: Generator<Pause, T>,
  most = Number.POSITIVE_INFINITY,
): Generator<Pause, T | undefined> {
  for (let pauses = 0; pauses <= most; pauses++) {
    const step = run.next();
    if (step.done) return step.value;
    yield step.value;
  }
  return undefined;
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
