import type { mendCodes } from '../../model/catalogue/mend.ts';
import type { ExplainPage } from '../explainPage.ts';

const kit = (core: string) => `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  wall:
    parts:
      face: { of: greyboard, size: [3, 1] }
      core: { of: foam, size: [3, ${core}], lies: yes }
    build: { along: [face, core, face] }
`;

const sizes = (core: string) => `cardwright: kit
units: in
lengths: { depth: ${core} }
`;

const remark = (text: string) => `${sizes('3')}levels: { top: 3/4 }   # ${text}\n`;

const usingKit = {
  'kit.yaml': kit('depth').replace('units: in', 'units: in\nuses: [sizes.yaml]'),
};

/** More gaps than are decided together, and a height that no whole millimetre makes. */
const manyGaps = `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles:
  grating:
    height: 1/16
    parts: { bar: { of: greyboard, size: [3, 1/16], lies: yes } }
    build: { along: [${Array.from({ length: 21 }, () => 'bar, gap 1/16').join(', ')}, gap rest, bar] }
`;

const shelf = `cardwright: shelf
units: in
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
`;

const usingShelf = kit('(square - 2 x thickness of greyboard)')
  .replace('units: in', 'units: in\nuses: [shelf.yaml]')
  .replace(/^(?:materials|sheets): .*\n/gm, '');

const flagstones = `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles:
  floor:
    parts: { flag: { of: greyboard, size: [1, 1], lies: yes } }
    build: { along: [{ across: [3 x flag], times: 3 }] }
`;

/** A page for each code of `mend/`; the type holds it complete. */
export const mendPages: Readonly<Record<keyof typeof mendCodes, ExplainPage>> = {
  N01: {
    why: 'check --fix writes a size in place where exactly that one size closes a build and breaks no other. Here nothing is wrong that one size would mend: all is well, or several sizes would do, or none.',
    failing: { files: { 'kit.yaml': kit('2 7/8') }, run: ['check', 'kit.yaml', '--fix'] },
    mended: { files: { 'kit.yaml': kit('2 3/4') }, run: ['check', 'kit.yaml', '--fix'] },
  },
  N02: {
    why: 'check --fix writes only to files that are named on the command line. The size that would close the build stands in a file that the named ones use, and others may use it too. Name it as well, if it is to change for all of them.',
    failing: { files: { ...usingKit, 'sizes.yaml': sizes('2 3/4') }, run: ['check', 'kit.yaml', '--fix'] },
    mended: {
      files: { ...usingKit, 'sizes.yaml': sizes('2 3/4') },
      run: ['check', 'kit.yaml', 'sizes.yaml', '--fix'],
    },
  },
  N03: {
    why: 'The file says its units, and some measures in it name another: a board as the calipers have it, say. Only what is in the unit of the file is converted; what names its own unit keeps it, and is as exact as before.',
    failing: { files: { 'kit.yaml': sizes('1.55 mm') }, run: ['convert', 'kit.yaml', '--to', 'in'] },
    mended: { files: { 'kit.yaml': sizes('1/16') }, run: ['convert', 'kit.yaml'] },
  },
  N04: {
    why: 'Remarks, titles and notes are left as they are, whatever they speak of. Where a remark holds figures it may speak of measures that are written in another unit now: look at the lines that are named.',
    failing: { files: { 'kit.yaml': remark('3 less two walls') }, run: ['convert', 'kit.yaml'] },
    mended: {
      files: { 'kit.yaml': remark('the square less two walls') },
      run: ['convert', 'kit.yaml'],
    },
  },
  N05: {
    why: 'The exact worth of the measure in the other unit has more digits than any measure that is read. A shorter one is meant, or one that is rounded.',
    failing: {
      files: { 'kit.yaml': sizes('0.1234567890123456789').replace('units: in', 'units: mm') },
      run: ['convert', 'kit.yaml'],
    },
    mended: {
      files: { 'kit.yaml': sizes('0.125').replace('units: in', 'units: mm') },
      run: ['convert', 'kit.yaml'],
    },
  },
  N06: {
    why: 'Rounded one by one, sizes that close exactly may not close any more. So they are chosen together, each the next step up or down; here every such choice was ruled out, by a sum that does not come out or by putting the tile together. Where a finer step would do, it is named.',
    failing: { files: { 'kit.yaml': kit('2 7/8') }, run: ['convert', 'kit.yaml', '--round', '1mm'] },
    mended: { files: { 'kit.yaml': kit('2 7/8') }, run: ['convert', 'kit.yaml', '--round', '0.5mm'] },
  },
  N07: {
    why: 'No choice of sizes was found with which every tile stands as before. As many sizes as lean on each other here are more than are decided for sure, so there may be one all the same: a finer step is likelier to do.',
    failing: { files: { 'kit.yaml': manyGaps }, run: ['convert', 'kit.yaml', '--round', '1mm'] },
    mended: { files: { 'kit.yaml': manyGaps }, run: ['convert', 'kit.yaml'] },
  },
  N08: {
    why: 'With another board, or at another scale while the boards stay, some tiles do not close, touch or meet as they did. Nothing is written, unless --partial asks for it. Sizes that are sums of the thickness follow the board; those that are written as plain measures do not, but with --round they are chosen anew. A kit that is scaled may have its boards scaled with it: --boards scaled.',
    failing: {
      files: { 'kit.yaml': kit('2 7/8') },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=2 mm'],
    },
    mended: {
      files: { 'kit.yaml': kit('(square - 2 x thickness of greyboard)') },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=2 mm'],
    },
  },
  N09: {
    why: 'The option names the board to be replaced by the name that the files give it.',
    failing: {
      files: { 'kit.yaml': kit('2 7/8') },
      run: ['convert', 'kit.yaml', '--material', 'graybord=1.6 mm', '--round', '0.5mm'],
    },
    mended: {
      files: { 'kit.yaml': kit('2 7/8') },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=1.6 mm', '--round', '0.5mm'],
    },
  },
  N10: {
    why: 'A board is written where it is defined, and only files that are named are written: what they use may be used by others too. Name that file as well, and both go into a folder.',
    failing: {
      files: { 'kit.yaml': usingShelf, 'shelf.yaml': shelf, 'mm/kit.yaml': usingShelf },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=2 mm'],
    },
    mended: {
      files: { 'kit.yaml': usingShelf, 'shelf.yaml': shelf, 'mm/kit.yaml': usingShelf },
      run: ['convert', 'kit.yaml', 'shelf.yaml', '--material', 'greyboard=2 mm', '-o', 'mm/', '--force'],
    },
  },
  N11: {
    why: 'A measured thickness is that of the board on the table. If another board is bought, its reading goes too: take it out of the file first.',
    failing: {
      files: { 'kit.yaml': kit('2 7/8').replace('thickness: 1/16', 'thickness: 1/16, measured: 1.6 mm') },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=1.5 mm', '--round', '0.5mm', '--partial'],
    },
    mended: {
      files: { 'kit.yaml': kit('2 7/8') },
      run: ['convert', 'kit.yaml', '--material', 'greyboard=1.6 mm', '--round', '0.5mm'],
    },
  },
  N12: {
    why: 'A file that does not say its rule, slack or lip goes by what is usual in its units: sixteenths and 1/64 in, or half millimetres and 0.4 mm. In the other unit that would be another, and here a tile would stand otherwise by it. So it is written out; put what you have at hand in its place.',
    failing: { files: { 'kit.yaml': flagstones }, run: ['convert', 'kit.yaml'] },
    mended: {
      files: { 'kit.yaml': `${flagstones}print: { ruler: 1/16 }\n` },
      run: ['convert', 'kit.yaml'],
    },
  },
};
