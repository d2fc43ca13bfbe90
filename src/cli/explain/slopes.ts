import type { slopeCodes } from '../../model/catalogue/slopes.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';

/** A kit of one tile, 4 in square, of which an example says what it is made of and how it stands. */
function oneTile(tile: string): Example {
  return kit(`cardwright: kit
units: in
grid: { square: 4 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  ramp:
${tile}`);
}

/** A base, a deck that slopes on it, and a cheek. */
function sloping(slope: string, { of = '[4, rest]', more = '', added = cheeks } = {}): Example {
  return oneTile(`    parts:
      base:  { of: greyboard, size: [4, 4] }
      deck:  { of: greyboard, size: ${of} }
      cheek: { of: greyboard, size: [rest, rest] }
    build: { up: [base, { part: deck, slope: ${slope}${more} }] }
    added: ${added}
`);
}

/** A deck as high as it can be over its base. */
function hung(slope: string): Example {
  return oneTile(`    height: 4
    parts:
      base: { of: greyboard, size: [4, 4] }
      deck: { of: greyboard, size: [4, rest], accepted: { floating: glued to the wall behind } }
    build: { up: [base, gap rest, { part: deck, slope: ${slope} }] }
`);
}

function climbing(treads: string): Example {
  return oneTile(`    parts:
      tread: { of: foam, size: [4, 2], lies: yes, accepted: { floating: glued up from behind } }
    build: { along: [${treads}] }
`);
}

const cheeks = '[{ part: cheek, under: deck, flush: left }, { part: cheek, under: deck, flush: right }]';
const under = (name: string) => `[{ part: cheek, under: ${name} }]`;
const threeFourFive = '{ to: back, rise: 3 }';

/** A hump between two cheeks, and a skin over them. */
interface Hump {
  readonly cheek?: string;
  readonly other?: string;
  readonly skin?: string;
  readonly over?: string;
  readonly leastBend?: string;
}

function skinned({
  cheek = arched,
  other = cheek,
  skin = 'size: [3, rest]',
  over = '[cheek, other]',
  leastBend = '1/4',
}: Hump): Example {
  return kit(`cardwright: kit
units: in
grid: { square: 3 }
materials:
  greyboard: { thickness: 1/16 }
  packet card: { thickness: 18 thou, grain: yes, least bend: ${leastBend} }
sheets:
  greyboard: [{ size: [16, 12] }]
  packet card: [{ size: [11, 7], grain: width }]
tiles:
  hump:
    parts:
      cheek: { of: greyboard, outline: ${cheek} }
      other: { of: greyboard, outline: ${other} }
      skin:  { of: packet card, ${skin} }
    build: { across: [cheek, gap rest, other], to: free }
    added: [{ part: skin, over: ${over}, up to: 1/32 }]
`);
}

const arched = '{ through: [[0, 1/2], [1 1/2, 1], [3, 1/2]], ends: flat }';
const steeper = '{ through: [[0, 1/2], [1 1/2, 1 1/4], [3, 1/2]], ends: flat }';

/** The pages of what slopes, climbs or bends. */
export const slopePages: Readonly<Record<keyof typeof slopeCodes, ExplainPage>> = {
  E48: {
    why: 'A slope goes so far level and rises so much on that way, both above zero: with no way to go it would be a wall, with nothing to rise a floor. And a board shorter than it is thick is a post.',
    failing: sloping('{ to: back, rise: 0 }', { added: '[]' }),
    mended: sloping(threeFourFive),
  },
  E49: {
    why: 'How long a part is that slopes, is bent over something or stands under a slope, follows from that. Said twice, it would be wrong as soon as something else changes.',
    failing: sloping(threeFourFive, { of: '[4, 5]', added: under('base') }),
    mended: sloping(threeFourFive),
  },
  E77: {
    why: 'The length of a slope is the root of a sum of squares, that of a curve is worse: no fraction says it, but for a few. It is cut a little longer, up to the next step that is stated, and what it is truly stands beside it.',
    failing: sloping('{ to: back, rise: 3/4 }'),
    mended: sloping('{ to: back, rise: 3/4 }', { more: ', up to: 1/64' }),
  },
  E78: {
    why: 'How high a slope comes hangs on its run, and that on the room it is given; a rest in the same row up hangs on how high it comes. With its run stated, both are known.',
    failing: hung('{ to: back, rise: 3 }'),
    mended: hung('{ to: back, rise: 3, run: 4 }'),
  },
  E79: {
    why: 'A skin lies on all the edges that it is bent over. They stand upright, all the same way, begin and end in line, and have one and the same top edge: best by one outline or one master.',
    failing: skinned({ other: steeper }),
    mended: skinned({}),
  },
  E88: {
    why: 'A skin is laid over an edge from above and bends smoothly: it goes over a crest, also a sharp one, but into no corner, nor into a hollow with a smaller radius than it is thick, and not round below an overhang.',
    failing: skinned({
      cheek: '{ polygon: [[0, 0], [3, 0], [3, 1], [1 1/2, 1/2], [0, 1]] }',
    }),
    mended: skinned({}),
  },
  E89: {
    why: 'The least bend of a material is the smallest radius that it takes without a crease, on the inside of the bend. Over a crest that is the radius of the edge, at a sharp corner none at all; in a hollow the card itself takes its thickness off.',
    failing: skinned({ leastBend: '4' }),
    mended: skinned({}),
  },
  E92: {
    why: 'Card bends evenly across its grain, and board across its flutes; along them it creases. So both run along the axis of the bend: common practice. Where nothing is said of it, they do.',
    failing: skinned({ skin: 'size: [3, rest], grain: width' }),
    mended: skinned({ skin: 'size: [3, rest], grain: length' }),
  },
  E93: {
    why: 'What stands under a part is cut to its slope and takes its sizes from that. Under what lies level a rectangle does, and its sizes are no news.',
    failing: sloping(threeFourFive, { added: under('base') }),
    mended: sloping(threeFourFive),
  },
  E94: {
    why: 'Each repeat of what climbs stands so much higher than the one before. With one there is none before.',
    failing: climbing('{ part: tread, climb: 1/4 }, tread'),
    mended: climbing('{ part: tread, times: 2, climb: 1/4 }'),
  },
};
