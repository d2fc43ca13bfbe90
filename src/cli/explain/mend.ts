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
};
