import type { fitCodes } from '../../model/catalogue/fit.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';
import { letIn } from './letIn.ts';

/** A kit with one board and a grid of 3 in, and what an example says of its one tile. */
function tile(text: string, grid = '{ square: 3 }'): Example {
  return kit(`cardwright: kit
units: in
grid: ${grid}
materials:
  greyboard: { thickness: 1/16 }
  twinwall: { thickness: 3/16, flutes: yes }
  foam: { thickness: 1/2 }
sheets:
  greyboard: [{ size: [16, 12] }]
  twinwall: [{ size: [24, 16], flutes: length }]
  foam: [{ size: [24, 12] }]
tiles:
  terrace:
${text.replace(/^/gm, '    ').trimEnd()}
`);
}

/** The same block, where it needn't fill its square. */
function loosely(place: string, more: { fitting?: string; edges?: string; size?: string } = {}): Example {
  const fitting =
    more.fitting === undefined ? {} : { fitting: `diameter: 6 mm, depth: 2 mm, ${more.fitting}` };
  return letIn(place, { ...more, ...fitting, slack: '1' });
}

const slab = 'slab: { of: foam, size: [3, 3] }';

/** A page for each code of `fit/`; the type holds it complete. */
export const fitPages: Readonly<Record<keyof typeof fitCodes, ExplainPage>> = {
  F01: {
    why: 'The members of a row, pressed together, have to fill the room that the row has from the footprint, the height or its own to: short of it by no more than the slack of the grid, and never over, or the tile would not lie beside its neighbours. The sum shows what adds up to what; each size that would close it alone is named, of what slopes its run, of what is folded its panels. Rows that one place says, as courses and repeats, are told together where they miss alike. Where only thicknesses make the sum, no size can mend it. What laps counts as thick as its panel is: its folded sides fill no row. A row with a gap rest is over where a rest inside one of its members was given a share like the gaps, though a stated size beside it needs more: say that size in its place.',
    failing:
      tile(`parts: { wall: { of: greyboard, size: [3, 1] }, core: { of: foam, size: [3, 3], lies: yes } }
build: { along: [wall, core, wall] }
`),
    mended:
      tile(`parts: { wall: { of: greyboard, size: [3, 1] }, core: { of: foam, size: [3, 2 7/8], lies: yes } }
build: { along: [wall, core, wall] }
`),
  },
  F02: {
    why: 'The sizes add up exactly, but some of them have no mark on the rule at hand, and cut to the nearest mark they no longer do. All marks are chosen together; none of this rule serve. The marks of finer rules that would serve are named: put such a rule under print: ruler:, or give it with --ruler; or allow more slack. A tile that does close as marked is cut to the marks that were chosen for it.',
    failing: tile(
      `parts: { wall: { of: greyboard, size: [3, 1] }, core: { of: foam, size: [3, 72.9 mm], lies: yes } }
build: { along: [wall, core, wall] }
`,
      '{ square: [3, 76.075 mm], slack: 0 }',
    ),
    mended: tile(
      `parts: { wall: { of: greyboard, size: [3, 1] }, core: { of: foam, size: [3, 2 7/8], lies: yes } }
build: { along: [wall, core, wall] }
`,
      '{ square: 3, slack: 0 }',
    ),
  },
  F03: {
    why: 'Nothing may reach out of the footprint, above the height of the tile (or the tallest that the grid allows) or below the table, but by what beyond: allows at that side. A skin whose ends are square may reach past the edges that it lies on; with plumb ends it is trimmed flush with them.',
    failing: tile(`parts: { ${slab}, eaves: { of: greyboard, size: [3, 1] } }
build: { up: [slab] }
added: [{ part: eaves, against: top of slab, overhang: { front: 1/4 } }]
`),
    mended: tile(`parts: { ${slab}, eaves: { of: greyboard, size: [3, 1] } }
build: { up: [slab] }
added: [{ part: eaves, against: top of slab, overhang: { front: 1/4 } }]
beyond: { front: 1/4 }
`),
  },
  F04: {
    why: "Two parts take up the same space, as they are shaped: what lies in the hole or the notch of another is in nobody's way. How deep is that of the box round what both take up. Rows never do that by themselves; it comes from an exact at:, from repeats every so much that are wider than that, or from something set against another thing where a third stands.",
    failing: tile(`parts: { ${slab}, crate: { of: foam, size: [1, 1] } }
build: { up: [slab] }
added: [{ part: crate, at: [1, 1, 3/8] }]
`),
    mended: tile(`parts: { ${slab}, crate: { of: foam, size: [1, 1] } }
build: { up: [slab] }
added: [{ part: crate, at: [1, 1, 1/2] }]
`),
  },
  F05: {
    why: 'Every part has to touch the rest of its tile over some area, or glue can not hold it. Parts that touch only at an edge, a corner or the crest of a curve touch nothing.',
    failing: tile(`parts: { ${slab}, crate: { of: foam, size: [1, 1] } }
build: { up: [slab] }
added: [{ part: crate, at: [1, 1, 5/8] }]
`),
    mended:
      tile(`parts: { ${slab}, crate: { of: foam, size: [1, 1], accepted: { floating: hangs on a thread } } }
build: { up: [slab] }
added: [{ part: crate, at: [1, 1, 5/8] }]
`),
  },
  F06: {
    why: 'At each side that declares a level, the highest floor that reaches the side is as high as its layers really add up to, with their measured thickness. It has to be at its level within the lip of the grid, or feet and wheels will trip over the joint. Of a part with an outline counts what it really reaches there: the height at its end, or all its upper edge where it stands along the side. Where two levels are declared, the floor begins at the one, ends at the other, and never leaves what lies between them. Parts that nobody stands on say floor: no.',
    failing: tile(`parts: { ${slab}, turf: { of: greyboard, size: [3, 3] } }
build: { up: [slab, turf] }
edges: { back: 5/8 }
`),
    mended: tile(`parts: { ${slab}, turf: { of: greyboard, size: [3, 3] } }
build: { up: [slab, turf] }
edges: { back: 9/16 }
`),
  },
  F07: {
    why: 'A side that declares a level needs a floor part that reaches it. A side that is closed says wall, one where a wall goes up from the floor of its neighbour says { foot: LEVEL }, and one that is left out is not checked.',
    failing: tile(`parts: { slab: { of: foam, size: [3, 3], floor: no } }
build: { up: [slab] }
edges: { back: 1/2 }
`),
    mended: tile(`parts: { ${slab} }
build: { up: [slab] }
edges: { back: 1/2 }
`),
  },
  F08: {
    why: 'The tile names a rack under store:, and is larger than the inside of that rack less its clearance, however it is turned on the table.',
    failing: kit(rackKit('[3, 3, 2]')),
    mended: kit(rackKit('[7, 4, 2]')),
  },
  F09: {
    why: 'Corrugated board bears weight along its flutes and bends where they lie. A wall of it that carries something wants its flutes upright. That is common practice, no measure, so a part may say that it is let pass, and why.',
    failing:
      tile(`parts: { wall: { of: twinwall, size: [3, 1], flutes: length }, cap: { of: foam, size: [3, 3] } }
build: { up: [{ along: [16 x wall] }, cap] }
`),
    mended:
      tile(`parts: { wall: { of: twinwall, size: [3, 1], flutes: upright }, cap: { of: foam, size: [3, 3] } }
build: { up: [{ along: [16 x wall] }, cap] }
`),
  },
  F10: {
    why: 'A strip no wider than six thicknesses, and six times as long as wide or more, snaps or tears where the grain or the flutes run across it, or may do so. That is common practice, no measure, so a part may say that it is let pass, and why.',
    failing:
      tile(`parts: { ${slab}, rail: { of: twinwall, size: [3, 3/8], flutes: width, accepted: { bare flutes: painted over } } }
build: { up: [slab] }
added: [{ part: rail, against: top of slab }]
`),
    mended:
      tile(`parts: { ${slab}, rail: { of: twinwall, size: [3, 3/8], flutes: length, accepted: { bare flutes: painted over } } }
build: { up: [slab] }
added: [{ part: rail, against: top of slab }]
`),
  },
  F11: {
    why: 'The open ends of flutes look unfinished and take up moisture. At the sides of the footprint the next tile hides them; elsewhere a strip or filler does. That is common practice, no measure, so a part may say that it is let pass, and why.',
    failing: tile(`parts: { ${slab}, step: { of: twinwall, size: [2, 2], flutes: length } }
build: { up: [slab, step] }
`),
    mended:
      tile(`parts: { ${slab}, step: { of: twinwall, size: [2, 2], flutes: length, accepted: { bare flutes: filled with plaster } } }
build: { up: [slab, step] }
`),
  },
  F12: {
    why: 'A side that says wall is closed: all along it, parts go up from the table to whatever is highest there. One that says { foot: LEVEL } is closed just above that level, where a wall goes up from the floor of its neighbour. Where no part reaches the side, or there is a gap under one that does, the tile claims what it is not.',
    failing: tile(`parts: { ${slab}, wall: { of: foam, size: [2, 1] } }
build: { up: [slab, { along: [wall], to: free }], flush: back }
edges: { back: { foot: 1/2 } }
`),
    mended: tile(`parts: { ${slab}, wall: { of: foam, size: [3, 1] } }
build: { up: [slab, { along: [wall], to: free }], flush: back }
edges: { back: { foot: 1/2 } }
`),
  },
  F13: {
    why: 'Areas and heights of curves have no exact figures, so a curve is checked with straight edges within it and with straight edges around it, nowhere further from it than 0.01 mm. Where the two disagree, the answer hangs on less than that, and nobody could cut to it. Parts that are traced from one master and lie against each other along it are no such case: they touch.',
    failing: tile(plug('0.004 mm')),
    mended: tile(plug('1/64')),
  },
  F14: {
    why: 'A side that goes from one level to another is a slope: a foot or a wheel goes up it. On its way the floor may not jump by more than the lip of the grid. Steps present no level at their sides, so these are left out of the edges.',
    failing: tile(ramp('[[0, 0], [3, 0], [3, 1], [1 1/2, 1], [1 1/2, 1/2], [0, 1/2]]')),
    mended: tile(ramp('[[0, 0], [3, 0], [3, 1], [0, 1/2]]')),
  },
  F20: {
    why: 'A hole for a fitting needs material all round it, and behind it where it ends in a part. How much is said by the least wall of the fitting; without one it is enough that the hole does not break out. How much foam or board needs is a matter of the material and the tool: try it on an offcut.',
    failing: loosely('{ into: left of slab, at: [[1, 1/8]] }', { fitting: 'least wall: 1 mm' }),
    mended: loosely('{ into: left of slab, at: [[1, 1/4]] }', { fitting: 'least wall: 1 mm' }),
  },
  F21: {
    why: 'As deep as a hole goes, some part has to be round it, and one that neither slopes nor bends nor is folded: nobody could say where to set the drill on one that does.',
    failing: loosely('{ into: left of tile, at: [[1, 1/4]] }', { size: '[2, 3]' }),
    mended: loosely('{ into: left of slab, at: [[1, 1/4]] }', { size: '[2, 3]' }),
  },
  F22: {
    why: 'Two holes that run into each other leave nothing to hold either fitting, and between two the least wall has to stay. All that one place says are told at once. Those square to each other are looked at by the boxes round them, which is on the safe side.',
    failing: loosely('{ into: left of slab, at: [[1, 1/4], [1 1/8, 1/4]] }'),
    mended: loosely('{ into: left of slab, at: [[1, 1/4], [2, 1/4]] }'),
  },
  F23: {
    why: 'Tiles may lie against each other with any two sides that present the same heights, each side also against itself on a second tile turned about. What is let into such sides has to meet its like there: seen from outside, what is left on the one is right on the other. Sides without fittings ask for nothing.',
    failing: loosely('{ into: left of slab, at: [[1, 1/4]] }', { edges: '{ left: 1/2 }' }),
    mended: loosely('{ into: left of slab, at: [[1, 1/4], [2, 1/4]] }', { edges: '{ left: 1/2 }' }),
  },
  F24: {
    why: 'Where two sides lie against each other, the one magnet has to look out with the pole that the other hides. One pole out left of the middle and the other as far right of it does that in every turn.',
    failing: loosely('{ into: left of slab, at: [[1, 1/4], [2, 1/4]], pole: out }', {
      edges: '{ left: 1/2 }',
      fitting: 'poles: yes',
    }),
    mended: loosely('{ into: left of slab, at: [[1, 1/4], [2, 1/4]], pole: [out, in] }', {
      edges: '{ left: 1/2 }',
      fitting: 'poles: yes',
    }),
  },
  F25: {
    why: 'What a part lets pass is not told of it any more. Where it stands in no tile so that it would be told, the words only wait to hide what comes later. This is told where all tiles of the files are made, since another may need it.',
    failing: tile(`parts: { slab: { of: foam, size: [3, 3], accepted: { floating: held by its neighbour } } }
build: { up: [slab] }
`),
    mended: tile(`parts: { ${slab} }
build: { up: [slab] }
`),
  },
};

/** A round hole, and what is set into it with so much of a gap all round. */
function plug(play: string): string {
  return `lengths: { play: ${play} }
parts:
  ${slab}
  wall: { of: foam, size: [3, 1], cuts: [{ hole: { circle: 1/2 }, left: 1, bottom: 1/8 }] }
  plug: { of: foam, outline: { circle: 1/2, smaller all round: play }, accepted: { floating: set in filler } }
build: { up: [slab, { along: [wall], to: free }], flush: front }
added: [{ part: plug, at: [(1 + play), 0, (5/8 + play)], thickness: along }]
`;
}

/** Two sides that go up from 1/2 to 1. */
function ramp(points: string): string {
  return `parts:
  cheek: { of: foam, outline: { polygon: ${points} } }
build: { across: [6 x cheek] }
edges: { left: [1/2, 1], right: [1/2, 1] }
`;
}

function rackKit(inside: string): string {
  return `cardwright: kit
units: in
grid: { square: 3 }
racks: { flat case: { inside: ${inside}, clearance: 1/8 } }
materials: { foam: { thickness: 1/2 } }
sheets: { foam: [{ size: [24, 12] }] }
tiles:
  terrace:
    parts: { ${slab} }
    build: { up: [slab] }
    store: flat case
`;
}
