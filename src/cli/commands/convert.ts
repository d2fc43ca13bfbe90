import {
  type ConvertedArguments,
  type ConvertOptions,
  conversionLines,
  conversionRecord,
  convertArguments,
  convertLine,
  type PlaceWithin,
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
  if (files.length > 0) return (await import('./convertFiles.ts')).convertFiles(request, world, voice);
  const options: ConvertOptions = { ...unitsOf(request), ruler: rulers.value };
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
    await voice.product(answers(converted, voice));
  }
  await voice.faults(said);
  return exitCodeOf(said);
}

/** Measures are asked for on their own, and files on their own. */
function notTogether(request: Request, files: readonly string[]): readonly Diagnostic[] {
  const [file] = files;
  if (file === undefined) {
    const { round, scale, boards, material, output } = request;
    const ofFiles = [
      ...(round === undefined ? [] : ['--round']),
      ...(scale === undefined ? [] : ['--scale']),
      ...(boards === undefined ? [] : ['--boards']),
      ...(material.length === 0 ? [] : ['--material']),
      ...(output.length === 0 ? [] : ['-o']),
    ];
    return ofFiles.map((one) => apart(one, 'single measures', 'it is for kits, which end in .yaml'));
  }
  const measure = request.operands.find((it) => !files.includes(it));
  if (measure === undefined) return [];
  return [apart(file, `the measure "${measure}"`, 'files and measures are converted one sort at a time')];
}

function apart(one: string, other: string, why: string): Diagnostic {
  return diagnose('C36', { kind: 'argument', argument: one }, { one, other, why });
}

// The choices of --to and --from were held against the table of options.
function unitsOf({ to, from }: Request): Pick<ConvertOptions, 'to' | 'from'> {
  return {
    ...(to === undefined ? {} : { to: to as 'in' | 'mm' }),
    ...(from === undefined ? {} : { from: from as 'in' | 'mm' }),
  };
}

function answers(converted: ConvertedArguments, { look }: Voice): string {
  const lines = conversionLines(converted);
  return lines.map((line) => `${look.ascii ? inAscii(line) : line}\n`).join('');
}

/** So many faulty lines are told in full; the others are counted. */
const mostTold = 100;

/** Streams: memory stays flat however many lines come. */
async function convertLines(options: ConvertOptions, world: World, voice: Voice): Promise<ExitCode> {
  const form = voice.json ? 'json' : 'text';
  const told: Diagnostic[] = [];
  let failed = 0;
  let number = 0;
  for await (const lines of linesOf(world.stdin)) {
    let output = '';
    for (const line of lines) {
      number += 1;
      const place = told.length < mostTold ? atLine(number, line) : undefined;
      const result = convertLine(line, options, form, place);
      if (result.output !== undefined)
        output += `${voice.look.ascii && !voice.json ? inAscii(result.output) : result.output}\n`;
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
  // Line ends before it give the line its number.
  const before = '\n'.repeat(number - 1);
  const source = { path: '<stdin>', text: before + text };
  return (start, end) => ({
    kind: 'span',
    span: { source, start: before.length + start, end: before.length + end },
  });
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
