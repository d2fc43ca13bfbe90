import type { outlineCodes } from '../../model/catalogue/outline.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';
import { foldPages } from './folds.ts';

const head = `cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
`;

/** A kit with one part of that outline. */
function outline(text: string): Example {
  return kit(`${head}tiles:
  wall:
    footprint: [3, 3]
    parts:
      face: { of: card, outline: ${text} }
`);
}

/** A kit with one part, 3 in long and 2 in wide, and one cut in it. */
function cut(text: string): Example {
  return kit(`${head}tiles:
  wall:
    footprint: [3, 3]
    parts:
      face: { of: card, size: [3, 2], cuts: [${text}] }
`);
}

/** The same part with a mark on it. */
function marked(text: string): Example {
  return kit(`${head}tiles:
  wall:
    footprint: [3, 3]
    parts:
      face: { of: card, size: [3, 2], marks: [${text}] }
`);
}

/** A page for each code of `outline/`; the type holds it complete. */
export const outlinePages: Readonly<Record<keyof typeof outlineCodes, ExplainPage>> = {
  T01: {
    why: 'A radius, a diameter or a depth of nothing draws nothing, and one below nothing can not be drawn. Leave the thing out where there is none of it.',
    failing: outline('{ circle: 0 }'),
    mended: outline('{ circle: 1 1/2 }'),
  },
  T02: {
    why: 'The arc of an arch stands over its whole width. At a rise of half the width it is half a circle; beyond that it would swell out over its sides, wider than its foot. Where that is what you want, as round a keyhole, a path takes an arc of any rise.',
    failing: outline('{ arched: { width: 2, sides: 1, rise: 1 1/4 } }'),
    mended: outline('{ arched: { width: 2, sides: 1, rise: 1 } }'),
  },
  T03: {
    why: 'A circle reaches no farther than twice its radius, so a smaller one has no arc between two points that lie farther apart.',
    failing: outline('{ arched: { width: 2, sides: 1, radius: 3/4 } }'),
    mended: outline('{ arched: { width: 2, sides: 1, radius: 1 1/4 } }'),
  },
  T04: {
    why: 'A polygon has three points or more, a curve two or more: with fewer there is nothing to run between.',
    failing: outline('{ polygon: [[0, 0], [3, 1]] }'),
    mended: outline('{ polygon: [[0, 0], [3, 0], [3, 1]] }'),
  },
  T05: {
    why: 'Between two points in the same place runs no edge. The outline closes by itself, so its first point is not given again at the end.',
    failing: outline('{ polygon: [[0, 0], [3, 0], [3, 1], [0, 0]] }'),
    mended: outline('{ polygon: [[0, 0], [3, 0], [3, 1]] }'),
  },
  T06: {
    why: 'The points of a smooth top edge are given from left to right, each farther along than the one before it, so that the edge has one height at each place. An edge that turns back is a path.',
    failing: outline('{ through: [[0, 1/4], [2, 1/2], [1, 3/4], [3, 1]] }'),
    mended: outline('{ through: [[0, 1/4], [1, 1/2], [2, 3/4], [3, 1]] }'),
  },
  T07: {
    why: 'Where the top edge comes down to the straight bottom, nothing of the part is left. Only at one of its ends may it do so.',
    failing: outline('{ through: [[0, 1/2], [1 1/2, 0], [3, 1/2]] }'),
    mended: outline('{ through: [[0, 1/2], [1 1/2, 1/8], [3, 1/2]] }'),
  },
  T08: {
    why: 'An edge that crosses itself has no inside and no outside there. Mostly two points are given in the wrong order.',
    failing: outline('{ polygon: [[0, 0], [3, 1], [3, 0], [0, 1]] }'),
    mended: outline('{ polygon: [[0, 0], [3, 0], [3, 1], [0, 1]] }'),
  },
  T09: {
    why: 'All points lie on one straight line, so nothing lies between them.',
    failing: outline('{ polygon: [[0, 0], [1, 1], [2, 2]] }'),
    mended: outline('{ polygon: [[0, 0], [2, 1], [2, 2]] }'),
  },
  T10: {
    why: 'Each corner takes as much of both sides that meet in it as its radius is, or as is clipped. Two corners at one side can not take more than there is of it.',
    failing: cut('{ round: { top left: 1 3/4, top right: 1 3/4 } }'),
    mended: cut('{ round: { top left: 1 1/2, top right: 1 1/2 } }'),
  },
  T11: {
    why: 'Corners are rounded or clipped where two straight edges meet squarely in a corner of the box around the part. Other corners are drawn by points, arcs and paths.',
    failing: kit(`${head}tiles:
  wall:
    footprint: [3, 3]
    parts:
      face: { of: card, outline: { circle: 2 }, cuts: [{ round: 1/4 }] }
`),
    mended: cut('{ round: 1/4 }'),
  },
  T12: {
    why: 'A cut and all its repeats have to lie on the edge that they are cut into, with what is kept clear at one end of it.',
    failing: cut('{ notch: { size: [1, 1/2] }, edge: top, times: 3, every: 1 1/4 }'),
    mended: cut('{ notch: { size: [1/2, 1/2] }, edge: top, times: 3, every: 1 1/4 }'),
  },
  T13: {
    why: 'After the cut the part would be in pieces. Make the cut shallower, or make two parts of it. From which depth on it severs the part is found by trying.',
    failing: cut(
      '{ hole: { rectangle: [2, 1] } }, { notch: { size: [5/8, 1 7/8] }, edge: top, left: 1/4 }, { notch: { size: [5/8, 1 7/8] }, edge: bottom, right: 1/4 }',
    ),
    mended: cut('{ hole: { rectangle: [2, 1] } }, { notch: { size: [5/8, 1/4] }, edge: top, left: 1/4 }'),
  },
  T14: {
    why: 'A hole lies wholly inside the part, with some of the part all round it, and clear of other holes. What is open at an edge is a notch or an arch.',
    failing: cut('{ hole: { circle: 1 }, left: 0 }'),
    mended: cut('{ hole: { circle: 1 }, left: 1/4 }'),
  },
  T15: {
    why: 'Nothing would be left to be cut out: what is taken away is as large as the outline, or larger.',
    failing: outline('{ circle: 1, smaller all round: 1/2 }'),
    mended: outline('{ circle: 1, smaller all round: 1/4 }'),
  },
  T16: {
    why: 'An outline is one piece. Describe each of the pieces as a part, or take less away.',
    failing: outline('{ whole: { rectangle: [3, 1] }, cut away: { rectangle: [1, 2] } }'),
    mended: outline('{ whole: { rectangle: [3, 1] }, cut away: { circle: 1/2 } }'),
  },
  T17: {
    why: 'What is repeated runs into its own repeat where the pitch is no more than its size. every is from start to start, apart is what is left between them.',
    failing: cut('{ hole: { circle: 1/2 }, times: 3, every: 1/2 }'),
    mended: cut('{ hole: { circle: 1/2 }, times: 3, every: 3/4 }'),
  },
  T18: {
    why: 'half is mirrored at its right side, and joined to its mirror image there. It needs a straight upright edge there; else the two would only touch.',
    failing: outline('{ half: { quarter round: 1 } }'),
    mended: outline('{ half: { quarter round: 1, mirrored: yes } }'),
  },
  T19: {
    why: 'The cut lies where the part has nothing. That may be as it is meant, but mostly a place or a size is wrong.',
    failing: outline('{ whole: { circle: 2 }, cut away: { rectangle: [1/8, 1/8] }, at: [0, 0] }'),
    mended: outline('{ whole: { circle: 2 }, cut away: { rectangle: [1/8, 1/8] } }'),
  },
  T20: {
    why: 'A notch or an arch goes into an edge and leaves some of the part behind it.',
    failing: cut('{ notch: { size: [1/2, 2] }, edge: top }'),
    mended: cut('{ notch: { size: [1/2, 1] }, edge: top }'),
  },
  T40: {
    why: 'A mark is drawn on the part and stays on it: its points count along the length and up the width from the left bottom corner of the part. One beyond its edges is a slip, and would be drawn on what is cut away or on the next part.',
    failing: marked('{ cross: [3 1/2, 1] }'),
    mended: marked('{ cross: [1 1/2, 1] }'),
  },
  ...foldPages,
};
