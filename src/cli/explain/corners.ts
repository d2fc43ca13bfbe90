import type { cornerCodes } from '../../model/catalogue/corners.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';

/** A tile of a base and walls round it, of which an example says what they are and how they meet. */
function framed(parts: string, frame: string): Example {
  return kit(`cardwright: kit
units: in
grid: { square: 3 }
materials:
  greyboard: { thickness: 1/16 }
  foam board: { thickness: 3/16 }
sheets:
  greyboard: [{ size: [16, 12] }]
  foam board: [{ size: [16, 12] }]
tiles:
  box:
    parts:
      base: { of: greyboard, size: [3, 3] }
${parts
  .split('\n')
  .map((line) => `      ${line}`)
  .join('\n')}
    build: { up: [base, ${frame}] }
`);
}

const wall = 'wall: { of: foam board, size: [rest, 1] }';
const all = (corners: string) =>
  `{ frame: { front: wall, back: wall, left: wall, right: wall }, corners: ${corners} }`;
const ends = (corners: string) =>
  `{ frame: { front: wall, back: wall, left: end, right: end }, corners: ${corners} }`;

/** The pages of walls that meet at corners. */
export const cornerPages: Readonly<Record<keyof typeof cornerCodes, ExplainPage>> = {
  E41: {
    why: 'In a mitre each of two walls is cut back by as much as it is thick, half the corner. Where one is thicker, its slant is longer than the other, and the two do not lie on each other. In any other corner thicknesses may differ.',
    failing: framed(`${wall}\nend: { of: greyboard, size: [rest, 1] }`, ends('mitre')),
    mended: framed(`${wall}\nend: { of: greyboard, size: [rest, 1] }`, ends('front through')),
  },
  E42: {
    why: 'What two walls leave of the room between them is the room within. Here there is none, or less than what stands within is said to be: a unit was left out, perhaps. A size of rest is the room that they leave; a stated one may be smaller, and lies in the middle then unless it says where.',
    failing: kit(frameIn('1/4')),
    mended: kit(frameIn('3')),
  },
  E43: {
    why: 'A rebate cuts the foam away from the end of a wall and leaves the paper of its outer face, which then covers the end of the next wall. What stays is that paper: more than nothing and less than the board.',
    failing: framed(`${wall}\nend: { of: foam board, size: [rest, 1] }`, ends('{ rebate: 1/4 }')),
    mended: framed(`${wall}\nend: { of: foam board, size: [rest, 1] }`, ends('{ rebate: 1/32 }')),
  },
  E44: {
    why: 'How long a wall is follows from the room and from how the walls meet, so its length is mostly rest. A stated one is a check, and has to be what the corners ask for: from one end of its outer face to the other.',
    failing: framed('wall: { of: foam board, size: [2 5/8, 1] }', all('mitre')),
    mended: framed('wall: { of: foam board, size: [3, 1] }', all('mitre')),
  },
  E45: {
    why: 'All pieces of one part are cut alike. Here one has a bevel where another has none, or has it at another end, and no turning makes them the same. Make two parts of it: the second may be like the first.',
    failing: framed(wall, '{ frame: { front: wall, left: wall, right: wall }, corners: mitre }'),
    mended: framed(
      `${wall}\nend: { like: wall }`,
      '{ frame: { front: wall, left: end, right: end }, corners: mitre }',
    ),
  },
  E46: {
    why: 'In a mitre the slanted end of each wall lies on that of the other. Where one is higher, its slant shows above the lower one, and what stands on the walls finds no level edge. Where one wall should run past the other, say so.',
    failing: framed(`${wall}\nend: { of: foam board, size: [rest, 3/4] }`, ends('mitre')),
    mended: framed(`${wall}\nend: { of: foam board, size: [rest, 3/4] }`, ends('front through')),
  },
  E47: {
    why: 'An end that is cut at a slant, or down to its paper, is one straight cut from corner to corner of the drawing. A notch there, a round corner, a strip over it or something left larger would be cut off or be in the way.',
    failing: framed(`${wall.replace(' }', ', cuts: [{ clip: { top left: 1/4 } }] }')}`, all('mitre')),
    mended: framed(wall, all('mitre')),
  },
};

/** A frame in a room so wide. */
function frameIn(along: string): string {
  return `cardwright: kit
units: in
materials: { foam board: { thickness: 3/16 } }
sheets: { foam board: [{ size: [16, 12] }] }
tiles:
  box:
    footprint: [3, ${along}]
    parts:
      wall: { of: foam board, size: [rest, 1] }
      end:  { of: foam board, size: [rest, 1] }
    build: { frame: { front: wall, back: wall, left: end, right: end } }
`;
}
