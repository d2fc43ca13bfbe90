import type { packCodes } from '../../model/catalogue/pack.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';

/** A page for each code of `pack/`; the type holds it complete. */
export const packPages: Readonly<Record<keyof typeof packCodes, ExplainPage>> = {
  P01: {
    why: 'The part is larger than every sheet of its material, whichever way it is laid. Trim and grain were not looked at yet. Get a larger sheet, or make the part of two pieces that meet where a seam does not show.',
    failing: wall({ size: '[14 3/8, 2]', sheet: '{ size: [12, 9] }' }),
    mended: wall({ size: '[14 3/8, 2]', sheet: '{ size: [16, 12] }' }),
  },
  P02: {
    why: 'The part would fit, but only lying so that its grain or its flutes run the wrong way. Either the rule matters (a wall with upright flutes), and a longer sheet is needed, or it does not, and the part may say any.',
    failing: wall({
      size: '[11, 2], grain: width',
      sheet: '{ size: [12, 9], grain: length }',
      material: ', grain: yes',
    }),
    mended: wall({
      size: '[11, 2], grain: length',
      sheet: '{ size: [12, 9], grain: length }',
      material: ', grain: yes',
    }),
  },
  P03: {
    why: 'The part fits the sheet as bought, but not what is left once its edges are trimmed. Where the factory edge is straight and square, that edge needs no trim.',
    failing: wall({ size: '[12, 2]', sheet: '{ size: [12, 9], trim: 1/8 }' }),
    mended: wall({ size: '[12, 2]', sheet: '{ size: [12, 9], trim: { bottom: 1/8, top: 1/8 } }' }),
  },
  P04: {
    why: 'There are fewer sheets than the parts need. The parts that found no place are named with their number; with --partial the others are laid out all the same.',
    failing: wall({ size: '[6, 4]', count: 5, sheet: '{ size: [12, 9], count: 1 }' }),
    mended: wall({ size: '[6, 4]', count: 5, sheet: '{ size: [12, 9], count: 2 }' }),
  },
  P05: {
    why: 'Parts are to be cut from a material of which no sheet is known. Write the sheet you have under sheets: with its size.',
    failing: {
      files: {
        'kit.yaml': `cardwright: kit
units: in
materials: { greyboard: { thickness: 1/16 } }
tiles:
  wall: { footprint: none, parts: { face: { of: greyboard, size: [3, 2] } } }
`,
      },
      run: ['cut', 'kit.yaml'],
    },
    mended: wall({ size: '[3, 2]', sheet: '{ size: [12, 9] }' }),
  },
  P06: {
    why: 'All lengths of a material are counted in steps of one common measure, so that nothing is ever rounded. Here that measure is so fine that a sheet would have more steps than can be counted exactly. The message names the length that does not go with the others; round it to what you can mark.',
    failing: wall({ size: '[3.000000017, 2]', sheet: '{ size: [12 1/64, 9] }' }),
    mended: wall({ size: '[3, 2]', sheet: '{ size: [12 1/64, 9] }' }),
  },
  P07: {
    why: 'A strip so narrow can not be held while it is cut: that is what least strip says. Make the part wider, or lower the limit.',
    failing: wall({ size: '[3, 1/8]', sheet: '{ size: [12, 9] }', cutting: '{ least strip: 1/4 }' }),
    mended: wall({ size: '[3, 3/8]', sheet: '{ size: [12, 9] }', cutting: '{ least strip: 1/4 }' }),
  },
  P08: {
    why: 'Each cut goes from edge to edge of the piece in hand. Every row of cuts that would free this part has one that is longer than the longest cut, or leaves a strip narrower than the least; or the rounds of cuts are too few, as a part that is smaller than its sheet both ways takes two.',
    failing: wall({ size: '[3, 2]', sheet: '{ size: [24, 18] }', cutting: '{ longest cut: 16 }' }),
    mended: wall({ size: '[3, 2]', sheet: '{ size: [24, 15] }', cutting: '{ longest cut: 16 }' }),
  },
  P09: {
    why: 'The tool would take out more than the part itself is wide. That is nearly always a slip: a kerf in the wrong unit, or a saw named where a knife is used.',
    failing: wall({ size: '[3, 1/4]', sheet: '{ size: [12, 9] }', cutting: '{ kerf: 1/2 }' }),
    mended: wall({ size: '[3, 1/4]', sheet: '{ size: [12, 9] }', cutting: '{ kerf: 1/32 }' }),
  },
  P11: {
    why: 'thick says that the sheet is a block, to be sliced into layers as thick as the material. Of a block that is thinner there is no layer.',
    failing: wall({ size: '[6, 4]', sheet: '{ size: [12, 9], thick: 1/32 }' }),
    mended: wall({ size: '[6, 4]', sheet: '{ size: [12, 9], thick: 2 }' }),
  },
  P10: {
    why: 'Squaring a sheet up means cuts along its edges, and these are longer than the longest cut allows, whichever edges come first. Say that the edges need no trim, if they are good, or use sheets that your rule is long enough for.',
    failing: wall({ size: '[3, 2]', sheet: '{ size: [24, 18], trim: 1/8 }', cutting: '{ longest cut: 20 }' }),
    mended: wall({
      size: '[3, 2]',
      sheet: '{ size: [24, 18], trim: { left: 1/8, right: 1/8 } }',
      cutting: '{ longest cut: 20 }',
    }),
  },
};

interface Wall {
  /** The part's size, and its grain where that matters. */
  readonly size: string;
  readonly sheet: string;
  readonly count?: number;
  /** More keys of the material. */
  readonly material?: string;
  readonly cutting?: string;
}

/** One part of greyboard, cut from one kind of sheet. */
function wall({ size, sheet, count = 1, material = '', cutting }: Wall): Example {
  const lines = [
    'cardwright: kit',
    'units: in',
    `materials: { greyboard: { thickness: 1/16${material} } }`,
    `sheets: { greyboard: [${sheet}] }`,
    'tiles:',
    `  wall: { footprint: none, parts: { face: { of: greyboard, size: ${size}, count: ${count} } } }`,
    ...(cutting === undefined ? [] : [`cutting: ${cutting}`]),
  ];
  return { ...kit(`${lines.join('\n')}\n`), run: ['cut', 'kit.yaml'] };
}
