import { type Code, catalogue, diagnose, didYouMean } from '../../model/index.ts';
import { wrap } from '../../print/columns/index.ts';
import type { ExplainedCode } from '../../print/json/index.ts';
import type { Request } from '../arguments.ts';
import { ExitCode } from '../exitCode.ts';
import { explainPage } from '../explain/index.ts';
import type { Example, ExplainPage } from '../explainPage.ts';
import { fail } from '../failing.ts';
import { visible } from '../faultText.ts';
import { inAscii } from '../terminal.ts';
import type { Voice } from '../voice.ts';

const codes = Object.keys(catalogue) as readonly Code[]; // its keys are what `Code` is made of

const rooms: Readonly<Record<string, string>> = {
  M: 'Measures',
  T: 'Outlines',
  S: 'The spec language',
  E: 'Parts, counts and sums',
  F: 'Builds',
  N: 'Mending',
  P: 'Layouts',
  L: 'Cut plans',
  K: 'The drawer and the job',
  V: 'Solids',
  O: 'Printing',
  C: 'The command line and files',
};

/** What a code means; without one, all of them by room. */
export async function explain(request: Request, voice: Voice): Promise<ExitCode> {
  const [typed] = request.operands;
  const code = codes.find((it) => it === typed?.toUpperCase());
  if (typed !== undefined && code === undefined) {
    const facts = { code: typed, meant: didYouMean(typed, codes) };
    return fail([diagnose('C18', { kind: 'argument', argument: typed }, facts)], 'explain', voice);
  }
  const page = code && (await explainPage(code));
  if (voice.json) {
    const { explainDocument, printJson } = await import('../../print/json/index.ts');
    const told = code === undefined ? codes.map((it) => explained(it, undefined)) : [explained(code, page)];
    await voice.product(printJson(explainDocument(told)));
    return ExitCode.fine;
  }
  const { width } = voice.look;
  const lines = code === undefined || page === undefined ? listOfCodes(width) : pageLines(code, page, width);
  const text = `${lines.join('\n')}\n`;
  await voice.product(voice.look.ascii ? inAscii(text) : text);
  return ExitCode.fine;
}

function explained(code: Code, page: ExplainPage | undefined): ExplainedCode {
  const { severity, title } = catalogue[code];
  return { code, severity, title, page };
}

function listOfCodes(width: number): readonly string[] {
  const letters = [...new Set(codes.map((it) => it.charAt(0)))];
  const lists = letters.flatMap((letter) => [
    rooms[letter] ?? letter,
    ...codes
      .filter((it) => it.startsWith(letter))
      .flatMap((it) =>
        wrap(catalogue[it].title, width - 7).map((line, i) => `  ${i === 0 ? it : '   '}  ${line}`),
      ),
    '',
  ]);
  return [...lists, ...wrap('cardwright explain CODE\u00a0\u00a0 tells all about one of them', width)];
}

function pageLines(code: Code, { why, failing, mended }: ExplainPage, width: number): readonly string[] {
  const { severity, title } = catalogue[code];
  return [
    ...wrap(`${code}\u00a0 ${title}\u00a0 (${severity === 'fatal' ? 'error' : severity})`, width),
    '',
    ...why.split('\n').flatMap((paragraph) => wrap(paragraph, width)),
    '',
    'Fails',
    ...exampleLines(failing),
    '',
    'Mended',
    ...exampleLines(mended),
  ];
}

/** Other files than the first are in the example's folder, but beside the point. */
function exampleLines({ files, before = [], run, stdin, meanwhile }: Example): readonly string[] {
  const [first] = Object.entries(files);
  const typed = (argv: readonly string[]): string => `  $ cardwright ${argv.map(quoted).join(' ')}`;
  return [
    ...(first === undefined ? [] : [`  ${first[0]}:`, ...indented(shortened(first[1]))]),
    ...(stdin === undefined ? [] : ['  standard input:', ...indented(shortened(stdin))]),
    ...before.map(typed),
    typed(run),
    ...(meanwhile === undefined ? [] : [`  (meanwhile: ${meanwhile})`]),
  ];
}

function quoted(word: string): string {
  return /^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`;
}

function indented(text: string): readonly string[] {
  return text
    .trimEnd()
    .split(/\r?\n/)
    .map((line) => `    ${visible(line)}`.trimEnd());
}

/** An example of a file that is too long is not printed at its full length. */
function shortened(text: string): string {
  const lines = text.split('\n');
  const few = lines.length > 60 ? [...lines.slice(0, 20), `… (${lines.length - 20} more lines)`] : lines;
  return few
    .map((line) => (line.length > 300 ? `${line.slice(0, 80)}… (${line.length - 80} more)` : line))
    .join('\n');
}
