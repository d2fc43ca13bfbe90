import { paperNamed } from '../../expand/index.ts';
import {
  compare,
  inches,
  isPositive,
  isSeveral,
  isStepOfTable,
  millimetres,
  ratio,
  rational,
  readMeasure,
  referenceTable,
  scaled,
  unitOfTable,
  whole,
} from '../../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  fine,
  isError,
  type Length,
  type Outcome,
  type Paper,
  type PaperName,
} from '../../model/index.ts';
import { printJson } from '../../print/json/index.ts';
import {
  composeTables,
  printTables,
  referenceSheet,
  type TableSheet,
  tableDocument,
} from '../../print/tables/index.ts';
import type { Request } from '../arguments.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { deliver, drawnPages, type Finished, type Output, readOutputs, withDocument } from '../outputs.ts';
import { fileLook, type Look } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';
import { halvesOf } from './convert.ts';

/** A table of every mark of a rule in the other unit. */
export async function convertTable(
  request: Request,
  ruler: readonly Length[],
  world: World,
  voice: Voice,
): Promise<ExitCode> {
  const wishes = readTable(request);
  const outputs = readOutputs(request, ['text', 'pdf', 'svg', 'json'], world);
  const asked = [...wishes.diagnostics, ...outputs.diagnostics];
  if (asked.some(isError) || wishes.value === undefined || outputs.value === undefined)
    return fail(asked, 'convert', voice);
  const table = referenceTable({ ...wishes.value, ruler, halves: halvesOf(request) });
  const sheet = referenceSheet(table);
  const all = withDocument(outputs.value, voice);
  const files = all.flatMap(({ path }) => (path === undefined ? [] : [{ path, written: !request.dryRun }]));
  const document = () => printJson(tableDocument(table, files));
  return deliverSheet(() => sheet, all, document, request, world, voice);
}

/** Words and tables in whichever forms are asked for. */
export async function deliverSheet(
  sheetIn: (look: Look) => TableSheet,
  outputs: readonly Output[],
  document: () => string,
  request: Request,
  world: World,
  voice: Voice,
): Promise<ExitCode> {
  const readFont = (name: string): Uint8Array => world.files.shipped(`shared/fonts/${name}`);
  const program = { version: world.about.version, readFont };
  const driver = driverOf(voice, world);
  const said: Diagnostic[] = [];
  const finished: Finished[] = [];
  for (const output of outputs) {
    const { path, form } = output;
    if (form === 'json') finished.push({ path, content: document() });
    else if (form === 'text') {
      const look = path === undefined ? voice.look : fileLook;
      finished.push({ path, content: printTables(sheetIn(look), look) });
    } else {
      const composed = composeTables(sheetIn(fileLook), paperOf(request), program);
      const drawn = await drawnPages(output, composed, undefined, driver);
      said.push(...drawn.diagnostics);
      if (drawn.value !== undefined) finished.push({ path, content: drawn.value });
    }
  }
  said.push(...(await deliver(finished, request, { driver, voice, world })));
  await voice.faults(said);
  return exitCodeOf(said);
}

function paperOf({ paper, landscape }: Request): Paper {
  if (paper === undefined) return landscape ? 'shared landscape' : 'shared';
  const named = paperNamed(paper as PaperName); // the choices of --paper were held against the table of options
  if (!landscape || typeof named === 'string') return named;
  return { ...named, width: named.height, height: named.width };
}

const mostRows = 2000;

function readTable({ table = '', upto }: Request): Outcome<{ readonly step: Length; readonly upTo: Length }> {
  const wrong = (option: string, found: string, wanted: string, why: string): Outcome<never> => ({
    value: undefined,
    diagnostics: [
      diagnose('C35', { kind: 'argument', argument: `${option} ${found}` }, { option, found, wanted, why }),
    ],
  });
  const wanted = 'a step that divides 1 in or 1 mm or is made of whole ones, as in 1/16, 0.5mm or 5mm';
  // A bare fraction is one of an inch, as rules are spoken of.
  const step = lengthIn(table, /[/\u2044\u2215\p{No}]/u.test(table) ? 'in' : undefined);
  if (typeof step === 'string') return wrong('--table', table, wanted, step);
  if (!isPositive(step)) return wrong('--table', table, wanted, 'a step is above zero');
  if (!isStepOfTable(step))
    return wrong(
      '--table',
      table,
      wanted,
      'neither an inch nor a millimetre holds it a whole number of times, nor is it a number of these',
    );
  const unit = unitOfTable(step);
  const usual = isSeveral(step) ? scaled(step, whole(usualRows)) : usualEnd[unit];
  const end = upto === undefined ? usual : lengthIn(upto, unit);
  if (typeof end === 'string') return wrong('--upto', upto ?? '', 'a measure', end);
  if (compare(end, step) < 0) return wrong('--upto', upto ?? '', 'a measure', 'the table would have no row');
  if (compare(ratio(end, step) as Length, rational(BigInt(mostRows)) as Length) > 0)
    // two numbers, compared as such
    return wrong('--upto', upto ?? '', 'a measure', `the table would have more than ${mostRows} rows`);
  return fine({ step, upTo: end });
}

/** Of a table that goes by several inches or millimetres at a time. */
const usualRows = 40;
const usualEnd = { in: inches(rational(1n)), mm: millimetres(rational(25n)) } as const;

function lengthIn(text: string, unit: 'in' | 'mm' | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'length') return reading.length;
  if (reading.kind === 'refused') return 'no measure is written so';
  if (unit === undefined)
    return isPositive(reading.number) ? `${text} in or ${text} mm?` : 'a step is above zero';
  return unit === 'in' ? inches(reading.number) : millimetres(reading.number);
}
