import type { cliCodes } from '../../model/catalogue/cli.ts';
import type { Example, ExplainPage } from '../explainPage.ts';

const smallKit = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
tiles:
  floor: { parts: { top: { of: card, size: [square, square] } } }
`;

const onSmallPaper = `${smallKit}print: { paper: A5 }\n`;

const smallShelf = `cardwright: shelf
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
`;

/** A command line beside one small kit. */
function line(...run: readonly string[]): Example {
  return { files: { 'kit.yaml': smallKit }, run };
}

const kitWithMaster = `cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
masters: { drain: { arched: { width: 1 1/2, sides: 2, rise: 1/2 } } }
tiles:
  wall: { footprint: none, parts: { cheek: { of: card, outline: { master: drain } } } }
`;

/** A command line beside a small kit with a master. */
function masterLine(...run: readonly string[]): Example {
  return { files: { 'kit.yaml': kitWithMaster }, run };
}

/** A page for each code of `cli/`; the type holds it complete. */
export const cliPages: Readonly<Record<keyof typeof cliCodes, ExplainPage>> = {
  C01: {
    why: 'The first word that is no option names a command, and this one names none.',
    failing: line('chekc', 'kit.yaml'),
    mended: line('check', 'kit.yaml'),
  },
  C02: {
    why: 'No command takes this option. A file whose name begins with a dash is taken for an option too; put it behind --.',
    failing: line('cut', '--rulre', '1/16', 'kit.yaml'),
    mended: line('cut', '--ruler', '1/16', 'kit.yaml'),
  },
  C03: {
    why: 'The option is the last word of the command line, and its value is missing.',
    failing: line('count', 'kit.yaml', '--units'),
    mended: line('count', 'kit.yaml', '--units', 'mm'),
  },
  C04: {
    why: 'The option takes one of a few words.',
    failing: line('count', 'kit.yaml', '--units', 'cm'),
    mended: line('count', 'kit.yaml', '--units', 'mm'),
  },
  C05: {
    why: 'The command works on what is named behind it, and nothing is. Standard input is named by a dash.',
    failing: line('check'),
    mended: line('check', 'kit.yaml'),
  },
  C06: {
    why: 'The option exists, but means nothing to this command; leaving it out changes nothing.',
    failing: line('check', 'kit.yaml', '--to', 'mm'),
    mended: line('check', 'kit.yaml', '--units', 'mm'),
  },
  C07: {
    why: 'The command is agreed on and will come; this version does not have it yet.',
    failing: line('solids', 'kit.yaml'),
    mended: line('cut', 'kit.yaml'),
  },
  C09: {
    why: 'The command takes fewer words than were given. A name with spaces needs quotes.',
    failing: line('new', 'my', 'kit.yaml'),
    mended: line('new', 'my-kit.yaml'),
  },
  C10: {
    why: 'A dash names standard input, which can be read to its end only once.',
    failing: { ...line('check', '-', '-'), stdin: smallKit },
    mended: { ...line('check', '-'), stdin: smallKit },
  },
  C11: {
    why: 'A tile and its count are joined by an equals sign; the last one counts, as a name may hold others. The count is whole, and a name with spaces needs quotes.',
    failing: line('count', 'kit.yaml', '--make', 'floor'),
    mended: line('count', 'kit.yaml', '--make', 'floor=4'),
  },
  C26: {
    why: 'A material and the thickness to be tried are joined by an equals sign. The thickness names its unit, and a name with spaces needs quotes.',
    failing: line('check', 'kit.yaml', '--with', 'card=1.45'),
    mended: line('check', 'kit.yaml', '--with', 'card=1.45 mm'),
  },
  C27: {
    why: 'check --fix writes what it mends back to the file that it came from. Standard input is no file.',
    failing: { files: {}, stdin: smallKit, run: ['check', '-', '--fix'] },
    mended: line('check', 'kit.yaml', '--fix'),
  },
  C28: {
    why: 'A watch only looks, and goes on until it is stopped. A JSON document has an end, a fix changes the very files that are watched, and standard input can be read once.',
    failing: line('check', 'kit.yaml', '--watch', '--json'),
    mended: line('check', 'kit.yaml', '--json'),
  },
  C39: {
    why: 'Some options tell more of what another option does, and others exclude each other. Nothing was done.',
    failing: {
      files: { 'drawer.yaml': 'cardwright: drawer\nunits: in\n' },
      run: ['drawer', 'drawer.yaml', '--where', 'shoe box'],
    },
    mended: {
      files: { 'drawer.yaml': 'cardwright: drawer\nunits: in\n' },
      run: ['drawer', 'drawer.yaml', '--where', 'shoe box', '--add', 'greyboard: 8 x 5'],
    },
  },
  C29: {
    why: 'The files say what there is to cut from, but nothing that is to be made of it. Sheets without a cut would only waste paper, so none are written.',
    failing: { files: { 'shelf.yaml': smallShelf }, run: ['cut', 'shelf.yaml'] },
    mended: line('cut', 'kit.yaml'),
  },
  C12: {
    why: 'A rule is divided into equal parts of an inch or of a millimetre. A bare fraction is one of an inch; any other number has to say its unit.',
    failing: line('cut', 'kit.yaml', '--ruler', '0.5'),
    mended: line('cut', 'kit.yaml', '--ruler', '0.5mm'),
  },
  C13: {
    why: 'The search for better layouts goes on for a number of steps, never of seconds, so that the same command gives the same sheets everywhere.',
    failing: line('cut', 'kit.yaml', '--effort', 'thorogh'),
    mended: line('cut', 'kit.yaml', '--effort', 'thorough'),
  },
  C14: {
    why: 'The ending of the path says in which form to write, and this one says none.',
    failing: line('cut', 'kit.yaml', '-o', 'sheets.doc'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.pdf'),
  },
  C15: {
    why: 'The form exists, but this command does not make it.',
    failing: line('cut', 'kit.yaml', '-o', 'list.csv'),
    mended: line('count', 'kit.yaml', '-o', 'list.csv'),
  },
  C16: {
    why: 'Two outputs go to one file, so that one of them would be lost.',
    failing: line('cut', 'kit.yaml', '-o', 'a.txt', '-o', 'a.txt'),
    mended: line('cut', 'kit.yaml', '-o', 'a.txt', '-o', 'a.pdf'),
  },
  C17: {
    why: 'A terminal shows the bytes of a PDF as noise, and some of them as commands to itself.',
    failing: { ...line('cut', 'kit.yaml', '--format', 'pdf'), meanwhile: 'standard output is a terminal' },
    mended: { ...line('cut', 'kit.yaml', '-o', 'sheets.pdf'), meanwhile: 'standard output is a terminal' },
  },
  C18: {
    why: 'A code is a letter and two digits, as it stands behind the word error or warning.',
    failing: line('explain', 'C99'),
    mended: line('explain', 'C18'),
  },
  C19: {
    why: 'Each document that --json gives has a schema of the same name.',
    failing: line('schema', 'cuont'),
    mended: line('schema', 'count'),
  },
  C20: {
    why: 'Completions are written for three shells.',
    failing: line('completion', 'bsh'),
    mended: line('completion', 'bash'),
  },
  C22: {
    why: 'Pages are chosen by the numbers that stand on them: single ones and runs, with commas between. A run goes from the lower number to the higher, and may be left open: 5- is all from page 5.',
    failing: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--pages', '2-1'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--pages', '1-'),
  },
  C23: {
    why: 'Text and JSON are one piece; only PDF and SVG have pages to choose from.',
    failing: line('cut', 'kit.yaml', '--pages', '1'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--pages', '1'),
  },
  C24: {
    why: 'The pages are numbered as they are printed, "page 2 of 7", and --pages goes by these numbers. How many there are is known only when all is laid out.',
    failing: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--pages', '9'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--pages', '1'),
  },
  C25: {
    why: 'An SVG file is one picture. Several pages go into a folder, one file each, with each distinct layout full size beside them.',
    failing: { files: { 'kit.yaml': onSmallPaper }, run: ['cut', 'kit.yaml', '-o', 'sheets.svg'] },
    mended: { files: { 'kit.yaml': onSmallPaper }, run: ['cut', 'kit.yaml', '-o', 'sheets/'] },
  },
  C30: {
    why: 'The word behind the file names one of its masters, and there is none of that name.',
    failing: masterLine('masters', 'kit.yaml', 'dran'),
    mended: masterLine('masters', 'kit.yaml', 'drain'),
  },
  C31: {
    why: 'A master is an outline that the kit gives a name to under masters:, so that parts are traced from it. This file names none, so there is nothing to print at full size.',
    failing: line('masters', 'kit.yaml'),
    mended: masterLine('masters', 'kit.yaml'),
  },
  C32: {
    why: 'Every page of masters has a bar of 100 mm across and one up. Print a page, measure both, and say what they measure; the next print is scaled by that, each way by its own. A bar that is off by more than 5 mm comes of a printer that fits the page to the paper: set it to actual size.',
    failing: masterLine('masters', 'kit.yaml', '--bar', 'across=9.92mm'),
    mended: masterLine('masters', 'kit.yaml', '--bar', 'across=99.2mm'),
  },
  C33: {
    why: 'The text form lists how high the outline is at every pitch along its base. A pitch is a measure above zero that names its unit, and not so small that the list gets endless.',
    failing: masterLine('masters', 'kit.yaml', '--pitch', '0mm'),
    mended: masterLine('masters', 'kit.yaml', '--pitch', '5mm'),
  },
  C34: {
    why: 'A story stick is a strip of paper that bears the marks of one edge at full size. It is printed behind the sheets, so it wants a form that has pages.',
    failing: line('cut', 'kit.yaml', '--story-stick'),
    mended: line('cut', 'kit.yaml', '--story-stick', '-o', 'sheets.pdf'),
  },
  C35: {
    why: 'An option of a conversion wants a measure, a factor or a thickness, and what stands behind it is none: a step of nothing, a number without its unit, a board without its thickness.',
    failing: line('convert', 'kit.yaml', '--round', '0'),
    mended: line('convert', 'kit.yaml', '--round', '0.5mm'),
  },
  C36: {
    why: 'Single measures are answered, whole files are written anew, and some options are for the one alone. Ask for one sort at a time. A twin shows where the parts of tiles stand, so it wants files with tiles that have a build.',
    failing: line('convert', 'kit.yaml', '60mm'),
    mended: line('convert', 'kit.yaml'),
  },
  C37: {
    why: 'Each file that is named is written anew, and two of them can neither go to standard output together nor into one file.',
    failing: {
      ...line('convert', 'kit.yaml', 'shelf.yaml'),
      files: { 'kit.yaml': smallKit, 'shelf.yaml': smallShelf },
    },
    mended: {
      files: { 'kit.yaml': smallKit, 'shelf.yaml': smallShelf, 'mm/kit.yaml': smallKit },
      run: ['convert', 'kit.yaml', 'shelf.yaml', '-o', 'mm/', '--force'],
    },
  },
  C38: {
    why: 'Printers leave a few millimetres along each edge of the paper blank. The margin says how much stays free on each side: a measure, zero or more, that names its unit. In a file it is the key margin under print:.',
    failing: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--margin', '8'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.pdf', '--margin', '8mm'),
  },
  C40: {
    why: 'The file is not there, or may not be read, or is a folder. Paths are taken from the folder that the command is run in.',
    failing: line('check', 'kti.yaml'),
    mended: line('check', 'kit.yaml'),
  },
  C41: {
    why: "A file of that name exists. It may be yesterday's sheets, with your notes beside the cuts; so it is only written over when you say so. This is looked at before the work begins.",
    failing: {
      files: { 'kit.yaml': smallKit, 'sheets.txt': 'mine\n' },
      run: ['cut', 'kit.yaml', '-o', 'sheets.txt'],
    },
    mended: {
      files: { 'kit.yaml': smallKit, 'sheets.txt': 'mine\n' },
      run: ['cut', 'kit.yaml', '-o', 'sheets.txt', '--force'],
    },
  },
  C42: {
    why: 'The disk, or the rights to it, did not allow the file to be written. Files are written whole or not at all: what stood there before stands there still.',
    failing: line('cut', 'kit.yaml', '-o', 'nowhere/sheets.txt'),
    mended: line('cut', 'kit.yaml', '-o', 'sheets.txt'),
  },
  C43: {
    why: 'The output would take the place of a file that this run reads. Not even --force allows that.',
    failing: line('cut', 'kit.yaml', '--format', 'text', '-o', 'kit.yaml', '--force'),
    mended: line('cut', 'kit.yaml', '--format', 'text', '-o', 'sheets.txt'),
  },
  C44: {
    why: 'Standard output was led to a file, and its disk took no more. What lies there is cut off somewhere; with -o PATH the file would be whole, or the old one still. A reader that has read enough, as in "| head", is no fault.',
    failing: { ...line('cut', 'kit.yaml'), meanwhile: 'standard output is full' },
    mended: line('cut', 'kit.yaml', '-o', 'sheets.txt'),
  },
  C45: {
    why: 'A folder of pages is replaced as a whole, so that no page of an earlier print is left among the new ones. A folder that holds anything else is never touched, also not with --force.',
    failing: {
      files: { 'kit.yaml': smallKit, 'sheets/notes.txt': 'mine' },
      run: ['cut', 'kit.yaml', '-o', 'sheets/', '--force'],
    },
    mended: {
      files: { 'kit.yaml': smallKit, 'sheets/page-1.svg': '<svg/>' },
      run: ['cut', 'kit.yaml', '-o', 'sheets/', '--force'],
    },
  },
  C70: {
    why: 'Something happened that the program did not foresee. Whatever your files say, it should not have; please tell us what you ran, on which files, and the lines that were printed. Nothing was written.',
    failing: { ...line('cut', 'kit.yaml'), meanwhile: 'a fault of our own' },
    mended: line('cut', 'kit.yaml'),
  },
  C71: {
    why: 'You pressed Ctrl-C. Nothing was written and nothing is left over; the message says how to get the layouts it had by then.',
    failing: { ...line('cut', 'kit.yaml'), meanwhile: 'Ctrl-C is pressed' },
    mended: line('cut', 'kit.yaml'),
  },
  C72: {
    why: 'Another program, or the system as it shuts down, asked the run to end. Nothing was written and nothing is left over.',
    failing: { ...line('cut', 'kit.yaml'), meanwhile: 'the process is asked to end' },
    mended: line('cut', 'kit.yaml'),
  },
};
