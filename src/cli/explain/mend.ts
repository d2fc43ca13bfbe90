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
};
