import type { specCodes } from '../../model/catalogue/spec.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';
import { letIn } from './letIn.ts';

const head = 'cardwright: kit\nunits: in\n';
const body = `grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
tiles: { wall: { parts: { face: { of: card, size: [3, 2] } } } }
`;

/** A kit that is sound but for the lines that are added to it. */
function added(lines: string): Example {
  return kit(`${head}${body}${lines}\n`);
}

/** The same kit with one length that may be written well or not. */
function sum(text: string): Example {
  return kit(`${head}${body}lengths: { rise: 3/4, core: ${text} }\n`);
}

/** The same kit with one more entry in its part. */
function part(entry: string): Example {
  return kit(`${head}${body.replace('size: [3, 2]', `size: [3, 2], ${entry}`)}`);
}

/** A deck of 3, 4 and 5 that slopes, and a cheek under it. */
function ramp(slope: string, place = 'under: deck'): Example {
  return kit(`${head}grid: { square: 4 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
tiles:
  ramp:
    parts:
      base:  { of: card, size: [4, 4] }
      deck:  { of: card, size: [4, rest] }
      cheek: { of: card, size: [rest, rest] }
    build: { up: [base, { part: deck, slope: ${slope} }] }
    added: [{ part: cheek, ${place} }]
`);
}

/** The same kit, its part standing in a build. */
function build(row: string): Example {
  const tile = `{ parts: { face: { of: card, size: [3, 3] } }, build: { ${row} } }`;
  return kit(`${head}${body.replace(/tiles: .*/, `tiles: { wall: ${tile} }`)}`);
}

/** Walls of card round a room of 3 in. */
function framed(walls: string): Example {
  const tile = `{ parts: { face: { of: card, size: [rest, 1] }, end: { of: card, size: [rest, 1] } }, build: { frame: ${walls} } }`;
  return kit(`${head}${body.replace(/tiles: .*/, `tiles: { yard: ${tile} }`)}`);
}

function together(files: Readonly<Record<string, string>>): Example {
  return { files, run: ['check', 'kit.yaml'] };
}

const shelf = 'cardwright: shelf\nunits: in\nmaterials: { felt: { thickness: 1/16 } }\n';

/** A wall of bricks. */
function coursed(counts: string): Example {
  return kit(`cardwright: kit
units: in
materials: { foam: { thickness: 1/4 } }
sheets: { foam: [{ size: [12, 6] }] }
tiles:
  wall:
    footprint: [3, 1/4]
    parts:
      brick: { of: foam, size: [1/2, 1/4] }
      half brick: { of: foam, size: [1/4, 1/4] }
    build: { courses: brick, half: half brick, ${counts} }
`);
}

/** A page for each code of `spec/`; the type holds it complete. */
export const specPages: Readonly<Record<keyof typeof specCodes, ExplainPage>> = {
  S01: {
    why:
      'A file that is named under uses: is missing, is a folder, or may not be read. Its path goes from the ' +
      'folder of the file that names it, and from the working folder where that file comes from standard input.',
    failing: together({ 'kit.yaml': `${head}uses: [felts.yaml]\n${body}` }),
    mended: together({ 'kit.yaml': `${head}uses: [felts.yaml]\n${body}`, 'felts.yaml': shelf }),
  },
  S02: {
    why:
      'A kit is a text in UTF-8, which is what editors write unless told otherwise. This file is a picture, a ' +
      'program or the like, or a text in another encoding.',
    failing: kit(`${head}note: \u0000\n${body}`),
    mended: added('note: plain words'),
  },
  S03: {
    why: 'Files go to 1 MB, which is some ten thousand tiles. A file that is larger was most likely meant for another program.',
    failing: together({
      'kit.yaml': `${head}uses: [large.yaml]\n${body}`,
      'large.yaml': `${shelf}note: ${'wide '.repeat(200_000)}\n`,
    }),
    mended: together({ 'kit.yaml': `${head}uses: [large.yaml]\n${body}`, 'large.yaml': shelf }),
  },
  S04: {
    why: 'The file holds nothing but spaces and remarks. The command new writes a small kit to start from.',
    failing: kit('# nothing yet\n'),
    mended: added('# one wall for now'),
  },
  S05: {
    why:
      'Characters that control a terminal or turn the direction of writing can make a text look like another ' +
      'one. They have no use in a kit and are refused.',
    failing: added('note: a wall\u202e'),
    mended: added('note: a wall'),
  },
  S06: {
    why: 'One file uses another that leads back to the first. What both need belongs into a third file.',
    failing: together({
      'kit.yaml': `${head}uses: [felts.yaml]\n${body}`,
      'felts.yaml': `${shelf}uses: [kit.yaml]\n`,
    }),
    mended: together({ 'kit.yaml': `${head}uses: [felts.yaml]\n${body}`, 'felts.yaml': shelf }),
  },
  S07: {
    why:
      'A session says what is made tonight, so it stands at the end: it uses kits and shelves, and no file uses ' +
      'it. Several sessions can be named on the command line together.',
    failing: together({
      'kit.yaml': `${head}uses: [evening.yaml]\n${body}`,
      'evening.yaml': 'cardwright: session\n',
    }),
    mended: together({ 'kit.yaml': `${head}uses: [felts.yaml]\n${body}`, 'felts.yaml': shelf }),
  },
  S08: {
    why:
      'Paths under uses: start from the folder of the file that names them and have forward slashes, so that the ' +
      'files can be moved or given away together.',
    failing: added("uses: ['C:\\felts.yaml']"),
    mended: together({ 'kit.yaml': `${head}uses: [felts.yaml]\n${body}`, 'felts.yaml': shelf }),
  },
  S09: {
    why: 'What is at hand is kept in a file of its own, since cutting changes it: sheets go out, offcuts come in. It begins with cardwright: drawer and lists sheets and offcuts by material.',
    failing: together({
      'kit.yaml': `cardwright: session\nunits: in\n${body}drawer: felts.yaml\n`,
      'felts.yaml': shelf,
    }),
    mended: together({
      'kit.yaml': `cardwright: session\nunits: in\n${body}drawer: box.yaml\n`,
      'box.yaml': 'cardwright: drawer\nunits: in\noffcuts: { card: [{ size: [7, 4] }] }\n',
    }),
  },
  S10: {
    why: 'YAML indents with spaces, since nobody agrees how wide a tab is. Most editors can turn tabs into spaces.',
    failing: added('cutting:\n\tkerf: 1/32'),
    mended: added('cutting:\n  kerf: 1/32'),
  },
  S11: {
    why:
      'A quote is opened and the file ends before it is closed. Measures never need quotes; a text needs them ' +
      'only if it starts with one of the signs of YAML.',
    failing: added('note: "a wall'),
    mended: added('note: a wall'),
  },
  S12: {
    why: 'Each [ has its ] and each { has its }. Lines inside a bracket have to be indented further than the key before it.',
    failing: added('cutting: { kerf: 1/32'),
    mended: added('cutting: { kerf: 1/32 }'),
  },
  S13: {
    why:
      'These signs mean something in YAML at the start of a text: * & ! @ % > | \' " # and the backtick. With ' +
      'quotes around it the text is taken as it is.',
    failing: added('note: @home'),
    mended: added("note: '@home'"),
  },
  S14: {
    why:
      'A text in quotes ends with the second one, and more follows. An inch mark needs no quotes: [4", 3] is two ' +
      'measures.',
    failing: kit(`${head}${body.replace('[16, 12]', '["16"", 12]')}`),
    mended: kit(`${head}${body.replace('[16, 12]', '[16", 12]')}`),
  },
  S15: {
    why:
      'The file can not be taken apart at this line. The keys of one map begin in the same column; what belongs to ' +
      'a key is indented further than the key.',
    failing: added('cutting:\n    kerf: 1/32\n  trim: 1/8'),
    mended: added('cutting:\n  kerf: 1/32\n  trim: 1/8'),
  },
  S16: {
    why: 'A key may be there once in each map, else one of the two would be lost without a word.',
    failing: added('title: Walls\ntitle: More walls'),
    mended: added('title: Walls'),
  },
  S17: {
    why: 'Words that start with ! are tags in YAML: they tell programs what to make of a value. Here everything is known by its key.',
    failing: added('note: !important stay clear of the edge'),
    mended: added("note: '!important stay clear of the edge'"),
  },
  S18: {
    why: 'An alias (*name) repeats what was marked (&name) before. Here it stands inside of what it repeats, which would never end.',
    failing: added('print: &all { ruler: *all }'),
    mended: added('print: { ruler: 1/16 }'),
  },
  S19: {
    why:
      'Aliases that repeat aliases grow beyond all bounds within a few lines. More than ten times what is written ' +
      'is refused.',
    failing: added(
      `print: { ruler: [&a [1, 1, 1, 1, 1, 1, 1], ${'bcdef'
        .split('')
        .map((name, i) => `&${name} [${Array(7).fill(`*${'abcde'[i]}`).join(', ')}]`)
        .join(', ')}] }`,
    ),
    mended: added('print: { ruler: [1/16, 1/32] }'),
  },
  S20: {
    why: 'A line of --- begins another YAML document in the same file. One file holds one kit, shelf or session.',
    failing: added('---\ntitle: Walls'),
    mended: added('title: Walls'),
  },
  S21: {
    why: 'Lists and maps may lie 64 deep in each other. No kit comes near it, so something else has gone wrong.',
    failing: added(`note: ${'['.repeat(65)}${']'.repeat(65)}`),
    mended: added('note: plain words'),
  },
  S22: {
    why: 'What stands before a colon is a word or a name. A list, a map or nothing can not be a key.',
    failing: added('lengths: { [rise]: 3/4 }'),
    mended: added('lengths: { rise: 3/4 }'),
  },
  S23: {
    why: 'To YAML a colon ends a key only if a space follows it: kerf:1/32 in braces is a key of that name, without a value.',
    failing: added('cutting: {kerf:1/32}'),
    mended: added('cutting: {kerf: 1/32}'),
  },
  S24: {
    why:
      'A space and a # begin a remark, also in the middle of a text. Quotes keep it together. Two spaces before ' +
      'the # show that a remark is meant.',
    failing: added('note: wall #2'),
    mended: added('note: "wall #2"'),
  },
  S25: {
    why: 'Between double quotes a backslash begins a special sign, and this one is not known. Single quotes leave backslashes alone.',
    failing: added('note: "front\\door"'),
    mended: added("note: 'front\\door'"),
  },
  S26: {
    why: 'A colon and a space end a key, so a text that holds both needs quotes. A map on one line needs braces.',
    failing: added('note: for later: paint it'),
    mended: added('note: "for later: paint it"'),
  },
  S27: {
    why: 'In square brackets and in braces a comma stands between two items, also at the end of a line.',
    failing: part('count: 2 label: front'),
    mended: part('count: 2, label: front'),
  },
  S30: {
    why: 'The first line of a file says what it is: a kit describes tiles, a shelf materials and sheets, a session what to make.',
    failing: kit(`units: in\n${body}`),
    mended: kit(`cardwright: kit\nunits: in\n${body}`),
  },
  S31: {
    why: 'There are four kinds of files: kit, shelf, session and drawer.',
    failing: kit(`cardwright: kitt\nunits: in\n${body}`),
    mended: kit(`cardwright: kit\nunits: in\n${body}`),
  },
  S32: {
    why: 'Whoever opens a file, a person or a program, is to see at once what it is.',
    failing: kit(`units: in\ncardwright: kit\n${body}`),
    mended: kit(`cardwright: kit\nunits: in\n${body}`),
  },
  S57: {
    why: 'Bricks in courses are told by how many a full course has, long, and how many courses there are, high: whole numbers in digits. They run across and are stacked up unless they say otherwise, and never both one way.',
    failing: coursed('long: 6'),
    mended: coursed('long: 6, high: 4'),
  },
  S33: {
    why:
      'The word has its place in the language, but this version can not do it yet. It is refused, since a sheet ' +
      'that leaves it out without a word would be wrong.',
    failing: kit(
      `${head}${body.replace('tiles: { wall: {', 'tiles: { wall: { finish: [{ paint: brown }],')}`,
    ),
    mended: kit(`${head}${body}`),
  },
  S34: {
    why: 'The key is not known in this place. A key that is not known is never passed over: it may be a slip.',
    failing: part('lable: front'),
    mended: part('label: front'),
  },
  S35: {
    why: 'The key is known, but belongs in another kind of file: what is made and what is at hand stand in a session.',
    failing: added('make: { wall: 2 }'),
    mended: kit(`cardwright: session\nunits: in\n${body}make: { wall: 2 }\n`),
  },
  S36: {
    why: 'Each key takes one sort of value: a text, a measure, a list in [ ] or a map in { }. Here stands another sort.',
    failing: added('cutting: 1/32'),
    mended: added('cutting: { kerf: 1/32 }'),
  },
  S37: {
    why:
      'A size is two measures in square brackets. A decimal comma makes three items of them, since a comma parts ' +
      'items: write a point.',
    failing: added('cutting: { worth keeping: [3, 1,5] }'),
    mended: added('cutting: { worth keeping: [3, 1.5] }'),
  },
  S38: {
    why: 'Nothing stands behind the key. Leave it out if there is nothing to say, or if its value begins with # put it in quotes.',
    failing: added('title: #1 wall'),
    mended: added("title: '#1 wall'"),
  },
  S39: {
    why: 'The key takes one of a few words, and this is none of them.',
    failing: part('grain: lenght'),
    mended: part('grain: any'),
  },
  S40: {
    why: 'Flags are yes or no, in small letters.',
    failing: part('good side: true'),
    mended: part('good side: yes'),
  },
  S41: {
    why:
      'Names of materials, parts, lengths, numbers and levels stand in sums, so they have to be told from measures ' +
      'and signs: a letter first, then letters, digits, single spaces, hyphens and apostrophes. Tiles and loose ' +
      'parts may be called anything that can be printed.',
    failing: added('lengths: { 2nd step: 3/4 }'),
    mended: added('lengths: { second step: 3/4 }'),
  },
  S42: {
    why:
      'Some words part names in sums (of, and, to, x, nearest) or mean something where a name could stand (rest, ' +
      'none, all, any, most, free, tile, square, bare, covered, and the units).',
    failing: added('lengths: { height of wall: 3/4 }'),
    mended: added('lengths: { wall height: 3/4 }'),
  },
  S43: {
    why: 'Titles, labels and notes are printed, so they hold characters that can be seen, and at least one of them.',
    failing: added('title: ""'),
    mended: added('title: Walls'),
  },
  S44: {
    why: 'Names go to 80 characters, which is as much as a line of a list holds.',
    failing: added(`lengths: { ${'very '.repeat(16)}long: 3/4 }`),
    mended: added('lengths: { long: 3/4 }'),
  },
  S45: {
    why: 'A price is an amount with a point and the three letters of its money. Nothing is converted, so the letters have to be there.',
    failing: kit(`${head}${body.replace('size: [16, 12]', 'size: [16, 12], price: 2.40 euros')}`),
    mended: kit(`${head}${body.replace('size: [16, 12]', 'size: [16, 12], price: 2.40 EUR')}`),
  },
  S46: {
    why: 'A tile covers so many squares of the grid, or has a footprint of its own. Both would say the same thing twice.',
    failing: kit(`${head}${body.replace('parts:', 'squares: [2, 1], footprint: [6, 3], parts:')}`),
    mended: kit(`${head}${body.replace('parts:', 'squares: [2, 1], parts:')}`),
  },
  S47: {
    why: 'none takes a key away that would come from another part or tile by like. Without like there is nothing to take away.',
    failing: part('note: none'),
    mended: part('note: leave it bare'),
  },
  S48: {
    why: 'A number before x stands for so many of a part in a row, one touching the next. It is a whole number, at least 1.',
    failing: build('up: [0 x face]'),
    mended: build('up: [2 x face]'),
  },
  S49: {
    why: 'A member of a build is one thing: a part, a gap, or a row in one direction. What is added beside the rows says one place for it: against a side of something, or at a corner.',
    failing: build('up: [{ part: face, gap: 1/4 }]'),
    mended: build('up: [{ part: face }]'),
  },
  S50: {
    why: 'A row without members stands for nothing, and nothing would be checked.',
    failing: build('up: []'),
    mended: build('up: [face]'),
  },
  S51: {
    why: 'An outline is one shape, a cut one kind of cut, and each says all that it needs: two of them at once would leave open which one is meant.',
    failing: part('outline: { circle: 3, slot: [3, 1] }'),
    mended: part('cuts: [{ hole: { circle: 1/2 } }]'),
  },
  S52: {
    why: 'Two of width, rise and radius tell an arch; with all three they might disagree. Its upright sides are said beside them, 0 where it has none.',
    failing: part('cuts: [{ arch: { width: 1, sides: 0 }, edge: bottom }]'),
    mended: part('cuts: [{ arch: { width: 1, rise: 1/4, sides: 0 }, edge: bottom }]'),
  },
  S56: {
    why: 'A frame is made of walls that meet: two that stand across each other, at least. A wall alone, or two that face each other, stand in a row.',
    failing: framed('{ front: face, back: face }'),
    mended: framed('{ front: face, left: end }'),
  },
  S53: {
    why: 'A share is a number and a percent sign. So many in a hundred are cut more, rounded up.',
    failing: together({ 'kit.yaml': `cardwright: session\nunits: in\n${body}spares: { face: a few% }\n` }),
    mended: together({ 'kit.yaml': `cardwright: session\nunits: in\n${body}spares: { face: 5% }\n` }),
  },
  S54: {
    why: 'A slope rises to one side, by so much, or from one level to another: both would say the same twice.',
    failing: ramp('{ rise: 3 }'),
    mended: ramp('{ to: back, rise: 3 }'),
  },
  S55: {
    why: 'Some words belong to another: the face that a length is that of is said of what is bent over something.',
    failing: ramp('{ to: back, rise: 3 }', 'against: top of base, face: outer'),
    mended: ramp('{ to: back, rise: 3 }'),
  },
  S60: {
    why: 'A sum stands in round brackets, as on paper, so that it can not be taken for a name or a measure.',
    failing: sum('rise + 1/16'),
    mended: sum('(rise + 1/16)'),
  },
  S61: {
    why:
      'A bracket of a sum has lost its partner. In a list or a map the comma ends an item, and a space and a # end ' +
      'it everywhere, also inside of a sum.',
    failing: sum('((rise + 1/16) x 2'),
    mended: sum('((rise + 1/16) x 2)'),
  },
  S62: {
    why:
      'Signs of sums have a space on both sides, since names may hold hyphens and measures may too: half-round is ' +
      'a name, 2-3/8 is two and three eighths.',
    failing: sum('(rise -1/16)'),
    mended: sum('(rise - 1/16)'),
  },
  S63: {
    why: 'Something is missing: a sign has to have a name, a measure or a bracket on both sides.',
    failing: sum('(rise + )'),
    mended: sum('(rise + 1/16)'),
  },
  S64: {
    why: 'Sums go to 500 characters and 40 brackets in each other. Pieces of it with names of their own read better.',
    failing: sum(`(rise${' + 1/16'.repeat(80)})`),
    mended: sum('(rise + 80 x 1/16 in)'),
  },
  S65: {
    why: 'Sums know + - x / (also as − × * · ÷), brackets, smaller of, larger of, up to, down to and nearest, and nothing else.',
    failing: sum('(rise ^ 2)'),
    mended: sum('(rise x 2)'),
  },
  S66: {
    why: 'up to, down to and nearest round all that stands before them in their bracket, so they end it. More can follow behind the bracket.',
    failing: sum('(rise down to 1/32 + 1/16)'),
    mended: sum('((rise down to 1/32) + 1/16)'),
  },
  S67: {
    why: 'Standing side by side multiplies nothing: 2 rise could as well be a name that lost its letter.',
    failing: sum('(2 (rise + 1/16))'),
    mended: sum('(2 x (rise + 1/16))'),
  },
  S68: {
    why: 'Where a measure may stand there is a measure (2 3/8), a name (rise), or a sum in round brackets.',
    failing: sum('rise!'),
    mended: sum('rise'),
  },
  S69: {
    why: 'Before of stands the size that is asked for: thickness of a material or part, length or width of a part.',
    failing: sum('(2 x thikness of card)'),
    mended: sum('(2 x thickness of card)'),
  },
  S70: {
    why: 'One number is read at two places, by an alias or through a name that means two things, and it is a length at one and a plain number at the other. In another unit the one would change and the other would not.',
    failing: {
      files: {
        'kit.yaml': 'cardwright: kit\nunits: in\nlengths: { rise: &three 3 }\nnumbers: { bays: *three }\n',
      },
      run: ['convert', 'kit.yaml'],
    },
    mended: {
      files: { 'kit.yaml': 'cardwright: kit\nunits: in\nlengths: { rise: 3 }\nnumbers: { bays: 3 }\n' },
      run: ['convert', 'kit.yaml'],
    },
  },
  S71: {
    why: 'Converting writes measures anew where they stand and leaves every other character alone. Within quotes that hold escapes, or in a text over several lines, it can not be told for sure which characters of the file a measure is.',
    failing: {
      files: { 'kit.yaml': 'cardwright: kit\nunits: in\nlengths: { rise: "\\u0033" }\n' },
      run: ['convert', 'kit.yaml'],
    },
    mended: {
      files: { 'kit.yaml': 'cardwright: kit\nunits: in\nlengths: { rise: "3" }\n' },
      run: ['convert', 'kit.yaml'],
    },
  },
  S80: {
    why: 'A fitting is let into a side of something that stands in the tile, at points or at an inset from the corners of that side: it needs to be said into which, and where, once.',
    failing: letIn('{ at: [[1, 1/4]] }'),
    mended: letIn('{ into: left of slab, at: [[1, 1/4]] }'),
  },
  S81: {
    why: 'Evenings part all that make: and sets: ask for. What none of them makes is never on a sheet of an evening, though a count of all evenings together has it.',
    failing: partedOver('[{ make: { wall: 2 } }]'),
    mended: partedOver('[{ make: { wall: 2 } }, { make: rest }]'),
  },
  S82: {
    why: 'An evening is asked for by its number or its title. Where two have one title, the title means the first of them, and the second is reached by its number alone. Give them titles that tell them apart.',
    failing: partedOver('[{ title: walls, make: { wall: 2 } }, { title: walls, make: rest }]'),
    mended: partedOver('[{ title: walls, make: { wall: 2 } }, { title: more walls, make: rest }]'),
  },
};

function partedOver(evenings: string): Example {
  const text = `cardwright: session
units: in
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles: { wall: { footprint: none, parts: { face: { of: greyboard, size: [3, 2] } } } }
make: { wall: 3 }
evenings: ${evenings}
`;
  return { files: { 'kit.yaml': text }, run: ['count', 'kit.yaml'] };
}
