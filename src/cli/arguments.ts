import { Command, CommanderError, Option } from 'commander';
import { type Diagnostic, diagnose, didYouMean, type Place } from '../model/index.ts';
import type { ColourChoice } from './colour.ts';
import {
  type CommandName,
  type CommandPage,
  commands,
  commandsToCome,
  isCommand,
  type OptionName,
  type OptionPage,
  options,
} from './commandTable.ts';

/** What a command was asked to do; every option as it was typed. */
export interface Request {
  readonly command: CommandName;
  readonly operands: readonly string[];
  readonly output: readonly string[];
  readonly format: string | undefined;
  readonly units: string | undefined;
  readonly ruler: readonly string[];
  readonly make: readonly string[];
  readonly evening: string | undefined;
  /** What only layouts tell is counted too. */
  readonly work: boolean;
  /** Thicknesses to be tried. */
  readonly with: readonly string[];
  readonly fix: boolean;
  readonly sensitivity: boolean;
  readonly watch: boolean;
  readonly effort: string | undefined;
  readonly paper: string | undefined;
  readonly margin: string | undefined;
  readonly pages: string | undefined;
  /** What the bars of 100 mm measure on paper. */
  readonly bar: readonly string[];
  readonly pitch: string | undefined;
  readonly landscape: boolean;
  readonly storyStick: boolean;
  readonly slips: boolean;
  readonly to: string | undefined;
  readonly from: string | undefined;
  /** A step that sizes are rounded to. */
  readonly round: string | undefined;
  readonly scale: string | undefined;
  readonly boards: string | undefined;
  /** What becomes of a half: `up` or `even`. */
  readonly half: string | undefined;
  /** The step of a reference table, and how far it goes. */
  readonly table: string | undefined;
  readonly upto: string | undefined;
  readonly twin: boolean;
  readonly origin: string | undefined;
  readonly up: string | undefined;
  readonly axes: string | undefined;
  readonly clearance: readonly string[];
  /** Boards that can be bought, in place of nominal ones. */
  readonly material: readonly string[];
  readonly force: boolean;
  readonly dryRun: boolean;
  readonly partial: boolean;
  readonly why: boolean;
  readonly json: boolean;
  readonly keeping: KeepingRequest;
}

/** What is asked of a drawer or a job. */
export interface KeepingRequest {
  /** Pieces that come into the drawer: `greyboard: 8 x 5`. */
  readonly add: readonly string[];
  /** Labels of what goes out of it. */
  readonly take: readonly string[];
  readonly where: string | undefined;
  readonly label: string | undefined;
  readonly count: string | undefined;
  readonly grain: string | undefined;
  readonly flutes: string | undefined;
  /** What is added is a whole sheet. */
  readonly uncut: boolean;
  /** What is added or taken out is a fitting, whether it is counted already or not. */
  readonly fitting: boolean;
  readonly undo: boolean;
  /** Sheets of a job that are cut: `all`, `greyboard 3`. */
  readonly cut: readonly string[];
  readonly putAway: boolean;
  /** Where a plan is kept. */
  readonly job: string | undefined;
  /** The job is there, and is gone on with. */
  readonly resume: boolean;
}

export type Intent =
  | { readonly kind: 'run'; readonly request: Request }
  | { readonly kind: 'help'; readonly command: CommandName | undefined }
  | { readonly kind: 'version' };

/** How to speak, which has to be known even where the rest is not understood. */
export interface Manner {
  readonly json: boolean;
  readonly quiet: boolean;
  readonly color: ColourChoice;
  /** The command, as far as it could be told. */
  readonly command: CommandName | undefined;
}

export interface ReadArguments {
  readonly manner: Manner;
  /** Undefined where a diagnostic says why. */
  readonly intent: Intent | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** @param argv what stands behind the program's name */
export function readArguments(argv: readonly string[]): ReadArguments {
  const { operands, unknown, typed, missing } = parse(argv);
  const [word, ...rest] = operands;
  const command = word !== undefined && isCommand(word) ? word : undefined;
  const manner: Manner = {
    json: typed.json === true,
    quiet: typed.quiet === true,
    color: colourOf(typed.color),
    command,
  };
  const faults = [
    ...missing,
    ...unknown.map((it) => unknownOption(it, command)),
    ...(word === undefined || command !== undefined ? [] : [unknownCommand(word)]),
  ];
  const done = (intent: Intent): ReadArguments =>
    faults.length > 0
      ? { manner, intent: undefined, diagnostics: faults }
      : { manner, intent, diagnostics: [] };

  if (typed.version === true) return done({ kind: 'version' });
  if (typed.help === true && command !== undefined) return done({ kind: 'help', command });
  if (command === 'help') {
    const [about] = rest;
    if (about === undefined) return done({ kind: 'help', command: undefined });
    if (isCommand(about)) return done({ kind: 'help', command: about });
    faults.push(unknownCommand(about));
    return done({ kind: 'help', command: undefined });
  }
  if (command === undefined) return done({ kind: 'help', command });

  faults.push(...strange(command, typed), ...outsideChoices(typed));
  // What was not understood may have been the file.
  if (faults.length === 0) faults.push(...operandFaults(command, rest));
  const texts = (value: unknown): readonly string[] => (Array.isArray(value) ? value.map(String) : []);
  const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
  return done({
    kind: 'run',
    request: {
      command,
      operands: rest,
      output: texts(typed.output),
      format: text(typed.format)?.toLowerCase(),
      units: text(typed.units)?.toLowerCase(),
      ruler: texts(typed.ruler),
      make: texts(typed.make),
      evening: text(typed.evening),
      work: typed.work === true,
      with: texts(typed.with),
      fix: typed.fix === true,
      sensitivity: typed.sensitivity === true,
      watch: typed.watch === true,
      effort: text(typed.effort),
      paper: text(typed.paper)?.toLowerCase(),
      margin: text(typed.margin),
      pages: text(typed.pages),
      bar: texts(typed.bar),
      pitch: text(typed.pitch),
      landscape: typed.landscape === true,
      storyStick: typed.storyStick === true,
      slips: typed.slips === true,
      to: text(typed.to)?.toLowerCase(),
      from: text(typed.from)?.toLowerCase(),
      round: text(typed.round),
      scale: text(typed.scale),
      boards: text(typed.boards)?.toLowerCase(),
      half: text(typed.half)?.toLowerCase(),
      table: text(typed.table),
      upto: text(typed.upto),
      twin: typed.twin === true,
      origin: text(typed.origin)?.toLowerCase(),
      up: text(typed.up)?.toLowerCase(),
      axes: text(typed.axes)?.toLowerCase(),
      clearance: texts(typed.clearance),
      material: texts(typed.material),
      force: typed.force === true,
      dryRun: typed.dryRun === true,
      partial: typed.partial === true,
      why: typed.why === true,
      json: manner.json,
      keeping: {
        add: texts(typed.add),
        take: texts(typed.take),
        where: text(typed.where),
        label: text(typed.label),
        count: text(typed.count),
        grain: text(typed.grain)?.toLowerCase(),
        flutes: text(typed.flutes)?.toLowerCase(),
        uncut: typed.uncut === true,
        fitting: typed.fitting === true,
        undo: typed.undo === true,
        cut: texts(typed.cut),
        putAway: typed.putAway === true,
        job: text(typed.job),
        resume: typed.resume === true,
      },
    },
  });
}

interface Parsed {
  readonly operands: readonly string[];
  readonly unknown: readonly string[];
  readonly typed: Readonly<Record<string, unknown>>;
  readonly missing: readonly Diagnostic[];
}

/**
 * All options of all commands are known here; which of them a command takes is looked at later, so that
 * `cut --to mm` is told apart from `cut --nonsense`.
 */
function parse(argv: readonly string[]): Parsed {
  const program = new Command().exitOverride().configureOutput({ writeErr: () => {}, outputError: () => {} });
  program.helpOption(false).helpCommand(false);
  program.addOption(new Option('-V, --version'));
  const pages: readonly (readonly [string, OptionPage])[] = Object.entries(options);
  for (const [name, page] of pages) {
    const flags = [page.short, page.flag].filter((it) => it !== undefined).join(', ');
    const option = new Option(page.value === undefined ? flags : `${flags} <${name}>`);
    if (page.repeats) {
      option.argParser((value: string, before: unknown) => [...(Array.isArray(before) ? before : []), value]);
    }
    program.addOption(option);
  }

  const missing: Diagnostic[] = [];
  const { operands, unknown } = parseTolerantly(program, argv, missing);
  return { operands, unknown, typed: program.opts(), missing };
}

/** An unknown option does not hide what comes after it: it is set aside and the rest is read on. */
function parseTolerantly(
  program: Command,
  argv: readonly string[],
  missing: Diagnostic[],
): { readonly operands: readonly string[]; readonly unknown: readonly string[] } {
  try {
    const first = program.parseOptions([...argv]);
    const [stranger, ...after] = first.unknown;
    if (stranger === undefined) return { operands: first.operands, unknown: [] };
    const rest = parseTolerantly(program, after, missing);
    return { operands: [...first.operands, ...rest.operands], unknown: [stranger, ...rest.unknown] };
  } catch (error) {
    if (!(error instanceof CommanderError) || error.code !== 'commander.optionMissingArgument') throw error;
    const flag = argv[argv.length - 1] ?? '';
    missing.push(diagnose('C03', argument(flag), { option: flag, value: valueNameOf(flag) }));
    return parseTolerantly(program, argv.slice(0, -1), missing);
  }
}

function valueNameOf(flag: string): string {
  const pages: readonly OptionPage[] = Object.values(options);
  return pages.find((it) => it.flag === flag || it.short === flag)?.value ?? 'VALUE';
}

function argument(text: string): Place {
  return { kind: 'argument', argument: text };
}

function colourOf(typed: unknown): ColourChoice {
  return typed === 'always' || typed === 'never' ? typed : 'auto';
}

function optionsOf(command: CommandName): readonly OptionName[] {
  return commands[command].options;
}

function unknownOption(typed: string, command: CommandName | undefined): Diagnostic {
  const flag = typed.split('=')[0] ?? typed;
  const hints =
    command === 'convert' && /^-[\d.]/.test(typed)
      ? [`cardwright convert -- ${typed}   measures below zero go behind --`]
      : [];
  const names: readonly OptionName[] =
    command === undefined ? (Object.keys(options) as OptionName[]) : optionsOf(command); // keys of our own table
  const known = names.map((name) => options[name].flag);
  const facts = {
    option: flag,
    meant: didYouMean(flag, known),
    help: command === undefined ? 'cardwright help' : `cardwright help ${command}`,
  };
  return diagnose('C02', argument(typed), facts, { hints });
}

function unknownCommand(word: string): Diagnostic {
  if (commandsToCome.includes(word)) return diagnose('C07', argument(word), { command: word });
  return diagnose('C01', argument(word), { command: word, meant: didYouMean(word, Object.keys(commands)) });
}

/** Options that exist, but not here. */
function strange(command: CommandName, typed: Parsed['typed']): readonly Diagnostic[] {
  const taken = optionsOf(command);
  return (Object.keys(options) as OptionName[]) // keys of our own table
    .filter((name) => typed[name] !== undefined && !taken.includes(name))
    .map((name) => {
      const others = (Object.keys(commands) as CommandName[]).filter((it) => optionsOf(it).includes(name));
      return diagnose('C06', argument(options[name].flag), {
        command,
        option: options[name].flag,
        others: others.join(', '),
      });
    });
}

function outsideChoices(typed: Parsed['typed']): readonly Diagnostic[] {
  const pages: readonly (readonly [string, OptionPage])[] = Object.entries(options);
  return pages.flatMap(([name, { flag, choices }]) => {
    const value = typed[name];
    if (choices === undefined || typeof value !== 'string' || choices.includes(value.toLowerCase()))
      return [];
    return [
      diagnose('C04', argument(`${flag} ${value}`), {
        option: flag,
        value,
        choices: listed(choices),
        meant: didYouMean(value, choices),
      }),
    ];
  });
}

function operandFaults(command: CommandName, operands: readonly string[]): readonly Diagnostic[] {
  const page: CommandPage = commands[command];
  const { least, most, what } = page.operands;
  const help = `cardwright help ${command}`;
  if (operands.length < least) return [diagnose('C05', argument(command), { command, what, help })];
  if (operands.length > most) {
    const extra = operands[most] ?? '';
    return [diagnose('C09', argument(extra), { command, extra, most: `${most}`, what })];
  }
  if (operands.filter((it) => it === '-').length > 1) return [diagnose('C10', argument('-'), {})];
  return [];
}

/** `in, mm or both`. */
function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}
