/** The commands and options there are, in words: what help shows, what arguments are held against. */

export interface OptionPage {
  /** As it is typed, long form. */
  readonly flag: string;
  readonly short?: string;
  /** What stands for its value in help; absent: it takes none. */
  readonly value?: string;
  readonly repeats?: boolean;
  /** The words it takes, where the list is closed. */
  readonly choices?: readonly string[];
  readonly says: string;
  readonly builtIn?: string;
}

export const options = {
  output: {
    flag: '--output',
    short: '-o',
    value: 'PATH',
    repeats: true,
    says: 'write to PATH, in the form its ending names, or to a folder of SVG pages: sheets/; repeat it for several forms',
    builtIn: 'text to standard output',
  },
  format: {
    flag: '--format',
    value: 'FORM',
    choices: ['text', 'pdf', 'svg', 'json', 'csv'],
    says: 'text, pdf, svg or json, whatever the ending says',
    builtIn: 'by the ending, else text',
  },
  json: { flag: '--json', says: 'one JSON document on standard output, also on failure' },
  units: {
    flag: '--units',
    value: 'UNIT',
    choices: ['in', 'mm', 'both'],
    says: 'show lengths in: in, mm or both',
    builtIn: 'what the files say',
  },
  ruler: {
    flag: '--ruler',
    value: 'STEP',
    repeats: true,
    says: 'graduation of your rule, e.g. 1/16 or 0.5mm; repeat it for several',
    builtIn: '1/16 in, or 0.5 mm',
  },
  color: {
    flag: '--color',
    value: 'WHEN',
    choices: ['auto', 'always', 'never'],
    says: 'auto, always or never',
    builtIn: 'auto',
  },
  quiet: { flag: '--quiet', short: '-q', says: 'say nothing but errors' },
  force: { flag: '--force', says: 'write over files that exist' },
  dryRun: { flag: '--dry-run', says: 'say what would be written, and write nothing' },
  make: {
    flag: '--make',
    value: "'TILE=COUNT'",
    repeats: true,
    says: 'make COUNT of TILE; repeat it for several tiles',
    builtIn: 'what the session says',
  },
  evening: {
    flag: '--evening',
    value: 'EVENING',
    says: 'make what the session makes that evening: its number or its title',
    builtIn: 'all evenings together',
  },
  with: {
    flag: '--with',
    value: "'MATERIAL=THICKNESS'",
    repeats: true,
    says: 'try another thickness of a material, without editing',
    builtIn: 'what the files say',
  },
  sensitivity: {
    flag: '--sensitivity',
    says: 'say how far each material may be off before a tile stops closing, and what else hangs on it',
  },
  watch: { flag: '--watch', says: 'check again whenever a file is saved, until Ctrl-C' },
  fix: { flag: '--fix', says: 'write the one size that closes a build into its file' },
  effort: {
    flag: '--effort',
    value: 'EFFORT',
    says: 'quick, normal, thorough, or a number of steps',
    builtIn: 'normal',
  },
  work: {
    flag: '--work',
    says: 'lay the parts out in any case: sheets, settings, cuts, metres of cut, where the area goes, what to buy',
  },
  why: { flag: '--why', says: 'say why it takes so many sheets, and what would save one' },
  partial: { flag: '--partial', says: 'write what can be made, though something is wrong' },
  paper: {
    flag: '--paper',
    value: 'SIZE',
    choices: ['a0', 'a1', 'a2', 'a3', 'a4', 'a5', 'letter', 'legal', 'ledger'],
    says: 'a0 to a5, letter, legal or ledger',
    builtIn: 'what A4 and Letter share',
  },
  margin: {
    flag: '--margin',
    value: 'MEASURE',
    says: 'leave so much free on each side of the paper',
    builtIn: '10 mm',
  },
  landscape: { flag: '--landscape', says: 'print with the longer side of the paper across' },
  slips: { flag: '--slips', says: 'a slip for each pile of cut pieces, to sort them by tile and evening' },
  storyStick: {
    flag: '--story-stick',
    says: 'print the marks of each datum edge at full size as well, on strips to lay along the sheet (PDF and SVG)',
  },
  pages: {
    flag: '--pages',
    value: 'PAGES',
    says: 'print only these, by the numbers on them: 2-4,7 or 5- (PDF and SVG)',
    builtIn: 'all',
  },
  bar: {
    flag: '--bar',
    value: "'AXIS=MEASURE'",
    repeats: true,
    says: 'what the 100 mm bar of an earlier print measures, across=99.2mm or up=99.4mm; the pages are scaled to make it true',
    builtIn: 'the printer is true',
  },
  pitch: {
    flag: '--pitch',
    value: 'MEASURE',
    says: 'how far apart the offsets of the text form stand',
    builtIn: '1/4 in, or 5 mm',
  },
  to: {
    flag: '--to',
    value: 'UNIT',
    choices: ['in', 'mm', 'ft', 'thou'],
    says: 'in or mm; a single measure also to ft (feet and inches) or thou',
    builtIn: 'the unit it is not in',
  },
  from: {
    flag: '--from',
    value: 'UNIT',
    choices: ['in', 'mm'],
    says: 'unit of measures that name none',
    builtIn: 'none: they are answered both ways',
  },
  round: {
    flag: '--round',
    value: 'STEP',
    says: 'round the sizes of a kit to STEP, e.g. 0.5mm or 1/16, so that its tiles still close',
    builtIn: 'exact',
  },
  material: {
    flag: '--material',
    value: "'NAME=THICKNESS'",
    repeats: true,
    says: 'the board that you can buy in place of a nominal one; repeat it for several',
    builtIn: 'boards stay what they are',
  },
  scale: {
    flag: '--scale',
    value: 'FACTOR',
    says: 'multiply the sizes of a kit, e.g. by 7/8, for another figure scale',
    builtIn: '1',
  },
  boards: {
    flag: '--boards',
    value: 'WAY',
    choices: ['kept', 'scaled'],
    says: 'with --scale: boards are kept, or scaled as well',
    builtIn: 'kept',
  },
  add: {
    flag: '--add',
    value: "'MATERIAL: SIZE x SIZE'",
    repeats: true,
    says: "put a piece into the drawer: 'greyboard: 8 x 5', 'card: A3', or a block with its thickness: 'foam: 24 x 12 x 2'; or more of a fitting by its name; repeat it for several",
  },
  take: {
    flag: '--take',
    value: 'LABEL',
    repeats: true,
    says: "take the piece with this label out, or one without a label: 'greyboard: 8 x 5', 'foam: 24 x 12 x 2'; or a fitting by its name; repeat it for several",
  },
  where: { flag: '--where', value: 'TEXT', says: 'where it is kept, with --add' },
  label: { flag: '--label', value: 'TEXT', says: 'what is written on it, with --add', builtIn: 'none' },
  count: { flag: '--count', value: 'N', says: 'how many, with --add or --take', builtIn: '1' },
  grain: {
    flag: '--grain',
    value: 'SIDE',
    choices: ['length', 'width', 'unknown'],
    says: 'which side runs with the grain, with --add: length, width or unknown',
    builtIn: 'none is written',
  },
  flutes: {
    flag: '--flutes',
    value: 'SIDE',
    choices: ['length', 'width', 'unknown'],
    says: 'the same of the flutes',
    builtIn: 'none is written',
  },
  uncut: { flag: '--uncut', says: 'what is added is a whole sheet or block, no offcut' },
  fitting: {
    flag: '--fitting',
    says: 'what is added is a fitting: its name, where the drawer does not count it yet',
  },
  undo: { flag: '--undo', says: 'take the last change back' },
  cut: {
    flag: '--cut',
    value: "'SHEETS'",
    repeats: true,
    says: "mark sheets as cut: all, 3, 1-2, 'greyboard 1, 3'; repeat it for several",
  },
  putAway: {
    flag: '--put-away',
    says: 'take what was cut out of the drawer, and put in what is worth keeping',
  },
  job: { flag: '--job', value: 'JOB', says: 'keep the plan in this file, for job and recut' },
  resume: {
    flag: '--resume',
    says: 'with --job: keep what the job has cut, and plan the rest anew after an edit',
  },
  half: {
    flag: '--half',
    value: 'WAY',
    choices: ['up', 'even'],
    says: 'what becomes of a value half way between two marks: up, or to the even one (NIST SP 811)',
    builtIn: 'up',
  },
  table: {
    flag: '--table',
    value: 'STEP',
    says: 'print a table of every STEP in the other unit, e.g. 1/16, 0.5mm or 5mm',
  },
  upto: {
    flag: '--upto',
    value: 'MEASURE',
    says: 'where the table ends',
    builtIn: '1 in or 25 mm; 40 rows of steps larger than 1 in or 1 mm',
  },
  twin: { flag: '--twin', says: 'print where each part of each tile stands, in mm, for a modeller' },
  origin: {
    flag: '--origin',
    value: 'PLACE',
    choices: ['corner', 'centre'],
    says: 'with --twin: origin at a corner of the footprint, or in its centre',
    builtIn: 'corner',
  },
  up: {
    flag: '--up',
    value: 'AXIS',
    choices: ['z', 'y'],
    says: 'with --twin: the axis that is up',
    builtIn: 'z',
  },
  axes: {
    flag: '--axes',
    value: 'HAND',
    choices: ['right', 'left'],
    says: 'with --twin: right-handed or left-handed axes',
    builtIn: 'right',
  },
  clearance: {
    flag: '--clearance',
    value: '[SIDE=]MEASURE',
    repeats: true,
    says: 'with --twin: what to leave free for printing at each side of a tile, or at one',
    builtIn: '0.1 mm, none at bottom and top',
  },
  help: { flag: '--help', short: '-h', says: 'show this page' },
} as const satisfies Record<string, OptionPage>;

export type OptionName = keyof typeof options;

export interface CommandPage {
  readonly usage: string;
  readonly summary: string;
  readonly about: readonly string[];
  /** How many operands it takes. */
  readonly operands: { readonly least: number; readonly most: number; readonly what: string };
  readonly options: readonly OptionName[];
  /** What an option says here, where it can do less than elsewhere. */
  readonly here?: Partial<Record<OptionName, string>>;
  /** Each runs from the folder of the package, on files that ship with it. */
  readonly examples: readonly { readonly line: string; readonly says: string }[];
}

const many = Number.POSITIVE_INFINITY;
const everywhere = ['json', 'color', 'quiet', 'help'] as const;
const working = ['units', 'ruler', 'make'] as const;
const making = [...working, 'evening'] as const;
const writing = ['output', 'format', 'force', 'dryRun'] as const;

export const commands = {
  cut: {
    usage: 'cardwright cut [options] FILE…',
    summary: 'cutting sheets: what to cut from which sheet, in which order',
    about: [
      'Lays the parts of a kit or a session out on sheets, with cuts that run from edge to edge, and prints labelled cutting sheets. Of a kit alone one of each tile is made.',
    ],
    operands: { least: 1, most: many, what: 'FILE' },
    options: [
      ...writing,
      ...making,
      'effort',
      'why',
      'partial',
      'job',
      'resume',
      'storyStick',
      'slips',
      'paper',
      'landscape',
      'margin',
      'pages',
      ...everywhere,
    ],
    here: {
      pages: 'print only these, by the numbers on them: 2-4,7 or 5-, or the pile slips: slips (PDF and SVG)',
    },
    examples: [
      { line: 'cardwright cut examples/vineyard.yaml', says: 'the sheets as text' },
      {
        line: 'cardwright cut examples/vineyard.yaml -o sheets.pdf --force',
        says: 'to print at actual size',
      },
      {
        line: 'cardwright cut examples/vineyard.yaml -o sheets/ --force',
        says: 'each page and each layout as SVG, into a folder',
      },
      {
        line: "cardwright cut specs/hillside.yaml --make 'retaining wall=6'",
        says: 'six of one tile instead of one of each',
      },
      {
        line: 'cardwright cut examples/vineyard.yaml --story-stick -o sheets.pdf --force',
        says: 'with paper strips that bear the marks',
      },
      { line: 'cardwright cut examples/vineyard.yaml --why', says: 'could it be a sheet less?' },
    ],
  },
  count: {
    usage: 'cardwright count [options] FILE…',
    summary: 'what a batch needs: parts by tile, totals by material',
    about: [
      'Lists tiles, parts and fittings with their counts and sizes, and the work: sheets, settings, cuts, what to buy. What is more than a batch for an evening is laid out only with --work. Its signs are plain ASCII everywhere, for tools that count columns.',
    ],
    operands: { least: 1, most: many, what: 'FILE' },
    options: [
      ...writing,
      ...making,
      'work',
      'effort',
      'paper',
      'landscape',
      'margin',
      'pages',
      ...everywhere,
    ],
    here: {
      output: 'write to PATH, as text, PDF, SVG, JSON or CSV by its ending; repeat it for several',
      format: 'text, pdf, svg, json or csv (RFC 4180), whatever the ending says',
    },
    examples: [
      { line: 'cardwright count examples/vineyard.yaml', says: 'the list' },
      {
        line: 'cardwright count examples/vineyard.yaml --work',
        says: 'laid out however long that takes',
      },
      {
        line: 'cardwright count examples/vineyard.yaml --format csv',
        says: 'for a program that opens tables',
      },
      { line: 'cardwright count examples/vineyard.yaml -o list.pdf --force', says: 'to print' },
      { line: 'cardwright count --units mm examples/tram-stop.yaml', says: 'sizes in millimetres' },
    ],
  },
  check: {
    usage: 'cardwright check [options] FILE…',
    summary: 'is the kit sound? every fault with its place and what would do',
    about: [
      'Reads the files, works all sums out, and says of each tile how it stands and of each fault what would do. Writes nothing without --fix.',
    ],
    operands: { least: 1, most: many, what: 'FILE' },
    options: [...working, 'with', 'sensitivity', 'watch', 'fix', 'dryRun', ...everywhere],
    examples: [
      { line: 'cardwright check specs/hillside.yaml', says: 'a kit' },
      {
        line: "cardwright check specs/tram-stop.yaml --with 'thin card=0.45 mm'",
        says: 'does it still close with thinner card?',
      },
      { line: 'cardwright check - < specs/tram-stop.yaml', says: 'a kit from standard input' },
    ],
  },
  masters: {
    usage: 'cardwright masters [options] FILE [NAME]',
    summary: 'masters at full size, to cut out, keep and trace; or offsets to mark out by',
    about: [
      'Prints each master of the file, or the one called NAME, at exactly 1:1, over several pages where it has to, with crosses to join them by. Every page has bars across and up: measure them before you cut, and where they are off say so with --bar.',
      'Without -o it lists the masters in text: size, parts, offsets to mark out by with a rule, and compass steps.',
    ],
    operands: { least: 1, most: 2, what: 'FILE and NAME' },
    options: [...writing, ...working, 'paper', 'landscape', 'margin', 'pages', 'bar', 'pitch', ...everywhere],
    examples: [
      { line: 'cardwright masters specs/hillside.yaml', says: 'sizes, parts and offsets as text' },
      {
        line: 'cardwright masters specs/hillside.yaml -o masters.pdf --force',
        says: 'all of them, to print at actual size',
      },
      {
        line: 'cardwright masters specs/hillside.yaml -o masters.pdf --bar across=99.2mm --bar up=99.4mm --force',
        says: 'again, for a printer that is off',
      },
    ],
  },
  job: {
    usage: 'cardwright job [options] JOB',
    summary: 'a plan that was printed: what is cut, put away, undone',
    about: [
      'Shows what has become of a job that cut --job keeps, sheet by sheet, or tells it what was done. It never plans anew: the plan on paper stays the plan in the file.',
      'Putting away writes the drawer and its journal; --undo takes the last thing back that was done.',
    ],
    operands: { least: 1, most: 1, what: 'JOB' },
    options: ['cut', 'putAway', 'undo', 'dryRun', ...everywhere],
    examples: [
      { line: 'cardwright job examples/evening.job.json', says: 'what is cut, what is next' },
      {
        line: 'cardwright job examples/evening.job.json --cut all --dry-run',
        says: 'what marking all sheets would say',
      },
    ],
  },
  recut: {
    usage: 'cardwright recut [options] JOB LABEL [COUNT]',
    summary: 'spoiled pieces, laid out on the leftovers of the job first',
    about: [
      'Lays COUNT pieces with this label out anew, one where no COUNT is given, and prints one small sheet: on leftovers of sheets that are cut, then on the other leftovers of the job, then on the drawer, then on what can be bought. The job keeps it; job JOB --undo takes it back.',
    ],
    operands: { least: 2, most: 3, what: 'JOB, LABEL and COUNT' },
    options: [...writing, ...everywhere],
    examples: [
      {
        line: "cardwright recut examples/evening.job.json 'RW face' --dry-run",
        says: 'where would it come from?',
      },
      { line: "cardwright recut examples/evening.job.json 'RW face' 2 --dry-run", says: 'the same for two' },
    ],
  },
  drawer: {
    usage: 'cardwright drawer [options] FILE',
    summary: 'what is at hand: sheets and offcuts, listed, added, taken out',
    about: [
      'Lists the drawer, or changes it without an editor: only the entry that changes is written anew, remarks stay. A drawer that is not there is begun with the first --add.',
      'Each change stands in FILE.journal and can be undone, the last one first. Two runs never change a drawer at once.',
    ],
    operands: { least: 1, most: 1, what: 'FILE' },
    options: [
      ...(['add', 'take', 'where', 'label', 'count', 'grain', 'flutes', 'uncut', 'fitting', 'undo'] as const),
      ...(['units', 'dryRun'] as const),
      ...everywhere,
    ],
    here: {
      units: 'show lengths in: in, mm or both; of --add the unit of bare sizes where the file names none',
    },
    examples: [
      { line: 'cardwright drawer examples/drawer.yaml', says: 'what is there' },
      {
        line: "cardwright drawer examples/drawer.yaml --add 'greyboard: 8 x 5' --where 'shoe box' --dry-run",
        says: 'what would be written for one more offcut',
      },
      {
        line: "cardwright drawer examples/drawer.yaml --add 'foam: 24 x 12 x 2' --uncut --dry-run",
        says: 'the same for a block, to be sliced',
      },
      {
        line: 'cardwright drawer examples/drawer.yaml --add skewer --fitting --count 40 --dry-run',
        says: 'count the skewers from now on',
      },
    ],
  },
  convert: {
    usage: 'cardwright convert [options] MEASURE…|FILE…',
    summary: 'measures or whole kits in the other unit, exactly or rounded so that they close',
    about: [
      'A MEASURE is written as people write it: 2 3/8 in, 2-3/8", 60.325mm. With - it reads one measure a line from standard input; with --json each then gives a line of JSON.',
      'Measures below zero come behind --, e.g. cardwright convert -- -1/4in.',
      'A FILE, which ends in .yaml or .yml, is written anew in the other unit: nothing in it changes but its measures. Without --round each of them is exact. With --round the base sizes are rounded together, each up or down, so that every tile stands as before with the least drift.',
      'With --table it needs neither, and prints a table for the wall; with --twin it prints for a modeller where each part of a FILE stands.',
    ],
    operands: { least: 0, most: many, what: 'MEASURE or FILE' },
    options: [
      'to',
      'from',
      'ruler',
      'half',
      'table',
      'upto',
      'round',
      'material',
      'scale',
      'boards',
      'twin',
      'origin',
      'up',
      'axes',
      'clearance',
      'units',
      ...writing,
      'partial',
      'paper',
      'landscape',
      ...everywhere,
    ],
    here: {
      output: 'write the kit, the table or the twin to PATH; several kits go into the folder PATH/',
      format: 'of a table or a twin: text, pdf, svg or json, whatever the ending says',
      units: 'with --twin: mm, or both for inches as well',
      partial: 'write the kit, though something stands worse than before',
    },
    examples: [
      { line: 'cardwright convert 2 3/8 in', says: 'quotes are not needed here' },
      { line: 'cardwright convert 60mm --ruler 1/32', says: 'on a rule in thirty-seconds' },
      { line: 'cardwright convert 2.5 --from in --to mm', says: 'a number that names no unit' },
      { line: 'cardwright convert --table 1/16 --upto 3', says: 'a table for the wall' },
      { line: 'cardwright convert specs/tram-stop.yaml --to in', says: 'a whole kit, exactly' },
      {
        line: 'cardwright convert specs/hillside.yaml --round 0.1mm -o specs/hillside-mm.yaml --force',
        says: 'rounded, and still closing',
      },
      { line: 'cardwright convert specs/hillside.yaml --twin', says: 'for a modeller' },
    ],
  },
  new: {
    usage: 'cardwright new [options] [FILE]',
    summary: 'a starter kit with remarks, which cuts as it stands',
    about: ['Writes the kit to FILE, or to standard output without one.'],
    operands: { least: 0, most: 1, what: 'FILE' },
    options: ['force', 'dryRun', ...everywhere],
    examples: [
      { line: 'cardwright new', says: 'look at it' },
      { line: 'cardwright new my-kit.yaml --force', says: 'keep it' },
    ],
  },
  explain: {
    usage: 'cardwright explain [CODE]',
    summary: 'what a code such as S11 means, with an example that fails and one that is mended',
    about: ['Without CODE it lists all codes, room by room.'],
    operands: { least: 0, most: 1, what: 'CODE' },
    options: [...everywhere],
    examples: [
      { line: 'cardwright explain', says: 'all codes' },
      { line: 'cardwright explain C01', says: 'one of them' },
    ],
  },
  schema: {
    usage: 'cardwright schema [NAME]',
    summary: 'the JSON Schema of a document that --json gives',
    about: ['Without NAME it lists the names.'],
    operands: { least: 0, most: 1, what: 'NAME' },
    options: [...everywhere],
    examples: [
      { line: 'cardwright schema', says: 'all names' },
      { line: 'cardwright schema count', says: 'the schema of what count --json gives' },
    ],
  },
  completion: {
    usage: 'cardwright completion SHELL',
    summary: 'what lets bash, zsh or fish complete commands, options and files',
    about: [
      'Prints a script; have your shell read it at start, e.g. in ~/.bashrc: source <(cardwright completion bash)',
    ],
    operands: { least: 1, most: 1, what: 'SHELL' },
    options: [...everywhere],
    examples: [
      { line: 'cardwright completion bash', says: 'for bash' },
      { line: 'cardwright completion fish', says: 'for fish' },
    ],
  },
  help: {
    usage: 'cardwright help [COMMAND]',
    summary: 'the page of a command',
    about: ['The same as COMMAND --help.'],
    operands: { least: 0, most: 1, what: 'COMMAND' },
    options: [...everywhere],
    examples: [
      { line: 'cardwright help', says: 'all commands' },
      { line: 'cardwright help cut', says: 'one of them' },
    ],
  },
} as const satisfies Record<string, CommandPage>;

export type CommandName = keyof typeof commands;

export function isCommand(word: string): word is CommandName {
  return Object.hasOwn(commands, word);
}

/** Agreed on, but not there yet. */
export const commandsToCome: readonly string[] = ['solids', 'gauge'];

export const exitCodes: readonly (readonly [number, string])[] = [
  [0, 'all is well; warnings are no failure'],
  [1, 'the files say something that is wrong, or does not fit'],
  [2, 'the command line is not understood'],
  [3, 'a file could not be read or written'],
  [70, 'a fault of cardwright itself'],
  [130, 'interrupted (Ctrl-C); 143 when asked to end. Nothing is written'],
];

export const environmentVariables: readonly (readonly [string, string])[] = [
  ['NO_COLOR', 'not empty: no colour, unless --color says otherwise'],
  ['FORCE_COLOR', 'not empty: colour, also where there is no terminal'],
  ['COLUMNS', 'width of text where there is no terminal'],
  ['LC_ALL, LC_CTYPE, LANG', 'plain ASCII is written unless one promises UTF-8'],
];
