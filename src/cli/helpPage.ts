import { wrap } from '../print/columns/index.ts';
import {
  type CommandName,
  type CommandPage,
  commands,
  environmentVariables,
  exitCodes,
  type OptionPage,
  options,
} from './commandTable.ts';
import { inAscii, type Look } from './terminal.ts';

/** The page of one command, or of all. */
export function helpPage(command: CommandName | undefined, look: Look): string {
  const lines = command === undefined ? overview(look.width) : commandLines(command, look.width);
  const text = `${lines.join('\n')}\n`;
  return look.ascii ? inAscii(text) : text;
}

function overview(width: number): readonly string[] {
  const pages: readonly (readonly [string, CommandPage])[] = Object.entries(commands);
  return [
    ...wrap('Usage: cardwright COMMAND [options] FILE…', width),
    '',
    ...wrap(
      'Reads a tile kit written in fractional inches or millimetres and prints the cutting sheets for it. FILE is a kit or a session; several make one session; - is standard input.',
      width,
    ),
    '',
    'Commands',
    ...table(
      pages.map(([name, { summary }]) => [name, summary]),
      width,
    ),
    '',
    'Options',
    ...table(
      [
        ...optionRows(['json', 'color', 'quiet', 'help']),
        ['-V, --version', 'the version; with --json also of node and of the documents'],
      ],
      width,
    ),
    '',
    'Examples',
    ...examples(
      [
        { line: 'cardwright new', says: 'a kit to start from' },
        { line: 'cardwright check specs/hillside.yaml', says: 'is it sound?' },
        { line: 'cardwright cut examples/vineyard.yaml', says: 'the cutting sheets' },
        { line: 'cardwright help cut', says: 'all about cut' },
      ],
      width,
    ),
    '',
    ...tail(width),
  ];
}

function commandLines(command: CommandName, width: number): readonly string[] {
  const page: CommandPage = commands[command];
  return [
    ...wrap(`Usage: ${page.usage}`, width),
    '',
    ...page.about.flatMap((text) => [...wrap(text, width), '']),
    'Options',
    ...table(optionRows(page.options, page.here), width),
    '',
    'Examples',
    ...examples(page.examples, width),
    '',
    ...tail(width),
  ];
}

function optionRows(
  names: CommandPage['options'],
  here: CommandPage['here'] = {},
): readonly (readonly [string, string])[] {
  return names.map((name) => {
    const { short, flag, value, builtIn, ...option }: OptionPage = options[name];
    const says = here[name] ?? option.says;
    const typed = `${short === undefined ? '' : `${short}, `}${flag}${value === undefined ? '' : ` ${value}`}`;
    return [typed, builtIn === undefined ? says : `${says} (default: ${builtIn})`];
  });
}

/** Commands stand on lines of their own, so that they can be copied whole. */
function examples(of: CommandPage['examples'], width: number): readonly string[] {
  return of.flatMap(({ line, says }) => [
    ...wrap(`# ${says}`, width - 2).map((it) => `  ${it}`),
    `  ${line}`,
  ]);
}

function tail(width: number): readonly string[] {
  return [
    'Exit codes',
    ...table(
      exitCodes.map(([code, says]) => [`${code}`, says]),
      width,
    ),
    '',
    'Files',
    ...table(
      [
        ['*.yaml', 'kits, sessions and shelves; specs/LANGUAGE.md in the package tells their language'],
        ['PATH', 'is written whole or not at all, and never over a file that exists without --force'],
      ],
      width,
    ),
    '',
    'Environment',
    ...table(environmentVariables, width),
  ];
}

const widestTerm = 26;

/** Terms on the left, what they mean on the right; where that leaves no room, below them. */
function table(rows: readonly (readonly [string, string])[], width: number): readonly string[] {
  const term = Math.min(widestTerm, Math.max(...rows.map(([name]) => name.length)));
  const indent = width < 60 ? 6 : term + 4;
  return rows.flatMap(([name, says]) => {
    const lines = wrap(says, width - indent).map((it) => ' '.repeat(indent) + it);
    const [first = '', ...rest] = lines;
    if (name.length + 4 > indent) return [`  ${name}`, ...lines];
    return [`  ${name.padEnd(indent - 2)}${first.trimStart()}`, ...rest];
  });
}
