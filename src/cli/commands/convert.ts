import {
  type ConvertedArguments,
  type ConvertOptions,
  conversionLines,
  conversionRecord,
  convertArguments,
  convertLine,
  type PlaceWithin,
  type WantedUnit,
} from '../../measure/index.ts';
import { type Diagnostic, diagnose, isError } from '../../model/index.ts';
import { convertDocument, printJson } from '../../print/json/index.ts';
import type { Request } from '../arguments.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { readRulers } from '../overrides.ts';
import { inAscii } from '../terminal.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** Measures in the other unit, exactly and on a rule; `-` reads one a line. */
export async function convert(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const rulers = readRulers(request);
  if (rulers.value === undefined || rulers.diagnostics.length > 0)
    return fail(rulers.diagnostics, 'convert', voice);
  const files = request.operands.filter((it) => /\.ya?ml$/i.test(it));
  const amiss = notTogether(request, files);
  if (amiss.length > 0) return fail(amiss, 'convert', voice);
  if (request.table !== undefined)
    return (await import('./convertTable.ts')).convertTable(request, rulers.value, world, voice);
  if (request.twin) return (await import('./convertTwin.ts')).convertTwin(request, world, voice);
  if (files.length > 0) return (await import('./convertFiles.ts')).convertFiles(request, world, voice);
  const options: ConvertOptions = { ...unitsOf(request), ruler: rulers.value, halves: halvesOf(request) };
  const [only, ...others] = request.operands;
  if (only === '-' && others.length === 0) return convertLines(options, world, voice);

  const converted = convertArguments(request.operands, options, voice.json ? 'one' : 'all');
  const { conversions } = converted;
  const said = conversions.flatMap((it) => (it.kind === 'refused' ? [it.diagnostic] : []));
  if (voice.json) {
    const records = conversions.map((it) => conversionRecord(it, options));
    await voice.product(printJson(convertDocument(records, said)));
  } else if (!said.some(isError)) {
    // One faulty argument may have changed the sense of its neighbours: `3 apples` is no 3.
    await voice.product(answers(converted, options, voice));
  }
  await voice.faults(said);
  return exitCodeOf(said);
}

/** What belongs to measures, to files, to a table or to a twin alone. */
function notTogether(request: Request, files: readonly string[]): readonly Diagnostic[] {
  const [file] = files;
  const measures = request.operands.filter((it) => !files.includes(it));
  const [measure] = measures;
  const forFiles = typed(request, ['round', 'scale', 'boards', 'material', 'partial']);
  const forTwin = typed(request, ['origin', 'up', 'axes', 'clearance']);
  const forMeasures = typed(request, ['from', 'half', 'ruler']);
  const forPages = typed(request, ['format', 'paper', 'landscape']);
  const said = (some: readonly string[], other: string, why: string) =>
    some.map((one) => apart(one, other, why));
  if (request.table !== undefined) {
    const otherwise = [...forFiles, ...forTwin, ...typed(request, ['to', 'from', 'units', 'twin'])];
    return said(
      [...request.operands, ...otherwise],
      '--table',
      'a table needs nothing but its step, its end and a rule',
    );
  }
  const noTable = said(typed(request, ['upto']), 'anything but --table', 'it is where a table ends');
  if (file !== undefined && measure !== undefined)
    return [apart(file, `the measure "${measure}"`, 'files and measures are converted one sort at a time')];
  if (request.twin) {
    const twin = said([...forFiles, ...forMeasures], '--twin', 'a twin shows a kit as it is');
    const other =
      measure === undefined ? [] : [apart(measure, '--twin', 'it is for kits, which end in .yaml')];
    return [
      ...noTable,
      ...twin.filter(({ place }) => place.kind !== 'argument' || place.argument !== '--round'),
      ...other,
      ...missing(request),
    ];
  }
  const noTwin = said(forTwin, 'anything but --twin', 'it is about places in a tile');
  if (file !== undefined) {
    const others = [...forMeasures, ...forPages, ...typed(request, ['units'])];
    return [
      ...noTable,
      ...noTwin,
      ...said(others, 'whole files', 'a file says itself how it is shown and printed'),
    ];
  }
  const written = [...forFiles, ...forPages, ...typed(request, ['output', 'units'])];
  return [
    ...noTable,
    ...noTwin,
    ...said(written, 'single measures', 'it is for kits, which end in .yaml'),
    ...missing(request),
  ];
}

type Typed =
  | 'round'
  | 'scale'
  | 'boards'
  | 'material'
  | 'partial'
  | 'origin'
  | 'up'
  | 'axes'
  | 'clearance'
  | 'from'
  | 'to'
  | 'twin'
  | 'half'
  | 'ruler'
  | 'format'
  | 'paper'
  | 'landscape'
  | 'upto'
  | 'units'
  | 'output';

/** The flags of the options that were typed. */
function typed(request: Request, names: readonly Typed[]): readonly string[] {
  return names.flatMap((name) => {
    const value = request[name];
    const isTyped = Array.isArray(value) ? value.length > 0 : value !== undefined && value !== false;
    return isTyped ? [name === 'output' ? '-o' : `--${name}`] : [];
  });
}

function missing({ operands }: Request): readonly Diagnostic[] {
  if (operands.length > 0) return [];
  const facts = { command: 'convert', what: 'MEASURE or FILE', help: 'cardwright help convert' };
  return [diagnose('C05', { kind: 'argument', argument: 'convert' }, facts)];
}

function apart(one: string, other: string, why: string): Diagnostic {
  return diagnose('C36', { kind: 'argument', argument: one }, { one, other, why });
}

export function halvesOf({ half }: Pick<Request, 'half'>): 'half up' | 'half even' {
  return half === 'even' ? 'half even' : 'half up';
}

// The choices of --to and --from were held against the table of options.
function unitsOf({ to, from }: Request): Pick<ConvertOptions, 'to' | 'from'> {
  return {
    ...(to === undefined ? {} : { to: to as WantedUnit }),
    ...(from === undefined ? {} : { from: from as 'in' | 'mm' }),
  };
}

function answers(converted: ConvertedArguments, { halves }: ConvertOptions, { look }: Voice): string {
  const lines = conversionLines(converted, halves);
  return lines.map((line) => `${look.ascii ? inAscii(line) : line}\n`).join('');
}

/** So many faulty lines are told in full; the others are counted. */
const mostTold = 100;

/** Streams: memory stays flat however many lines come. */
async function convertLines(options: ConvertOptions, world: World, voice: Voice): Promise<ExitCode> {
  const form = voice.json ? 'json' : 'text';
  const isAscii = voice.look.ascii && !voice.json;
  const told: Diagnostic[] = [];
  let failed = 0;
  let number = 0;
  for await (const lines of linesOf(world.stdin)) {
    let output = '';
    for (const line of lines) {
      number += 1;
      const place = told.length < mostTold ? atLine(number, line) : undefined;
      const result = convertLine(line, options, form, place);
      if (result.output !== undefined) output += `${isAscii ? inAscii(result.output) : result.output}\n`;
      if (result.diagnostic === undefined) continue;
      if (isError(result.diagnostic)) failed += 1;
      if (told.length < mostTold) told.push(result.diagnostic);
    }
    if (output !== '') await voice.product(output);
    if (world.stdout.isClosed) break;
  }
  await voice.faults(told);
  if (failed > told.length) await voice.remark(`${failed - told.length} more lines were refused`);
  return failed > 0 ? ExitCode.specWrong : ExitCode.fine;
}

function atLine(number: number, text: string): PlaceWithin {
  return (start, end) => {
    // Line ends before it give the line its number; made only for lines that are refused.
    const before = '\n'.repeat(number - 1);
    const source = { path: '<stdin>', text: before + text };
    return { kind: 'span', span: { source, start: before.length + start, end: before.length + end } };
  };
}

async function* linesOf(stream: AsyncIterable<Uint8Array>): AsyncGenerator<readonly string[]> {
  const decoder = new TextDecoder();
  let rest = '';
  for await (const chunk of stream) {
    const lines = (rest + decoder.decode(chunk, { stream: true })).split('\n');
    rest = lines.pop() ?? '';
    yield lines;
  }
  rest += decoder.decode();
  if (rest !== '') yield [rest];
}
