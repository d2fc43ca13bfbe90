import type { expandCodes } from '../../model/catalogue/expand.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';
import { cornerPages } from './corners.ts';
import { letIn } from './letIn.ts';
import { slopePages } from './slopes.ts';

/** A kit with one material and a grid of 3 in, to which an example adds what it is about. */
function small(text: string): Example {
  return kit(`${opening}grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
${text}`);
}

/** The small kit with a tile of one part, for examples about what stands beside it. */
function walled(text: string): Example {
  return small(`${text}${wall}`);
}

/** A kit that brings its own material and sheets. */
function onFoot(text: string): Example {
  return kit(`${opening}grid: { square: 3 }
${text}${wall}`);
}

/** A session of loose parts alone. */
function session(text: string): Example {
  return kit(`cardwright: session
units: in
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
loose: { post: { of: greyboard, size: [2, 1/2], count: 12 } }
${text}`);
}

/** What an example of a build adds to its kit. */
interface Additions {
  /** More keys of the turf. */
  readonly ofTurf?: string;
  /** More parts of the tile. */
  readonly more?: string;
  readonly last?: string;
  readonly above?: string;
}

/** A kit with a tile of a slab and a turf, and what an example says of how they stand. */
function standing(text: string, { ofTurf = '', more, last, above = '' }: Additions = {}): Example {
  const parts = [
    'slab: { of: foam, size: [3, 3] }',
    `turf: { of: greyboard, size: [3, 3]${ofTurf} }`,
    ...(more === undefined ? [] : [more]),
    ...(last === undefined ? [] : [last]),
  ];
  return kit(`${opening}grid: { square: 3 }
${above}materials:
  greyboard: { thickness: 1/16 }
  foam: { thickness: 1/2 }
  twinwall: { thickness: 3/16, flutes: yes }
sheets:
  greyboard: [{ size: [16, 12] }]
  foam: [{ size: [24, 12] }]
  twinwall: [{ size: [24, 16], flutes: length }]
tiles:
  terrace:
    parts:
${parts.map((part) => `      ${part}\n`).join('')}${text.replace(/^(?=.)/gm, '    ')}`);
}

/** A kit with a part that is traced from a master. */
function traced(master: string): Example {
  return kit(`${opening}materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
masters: { shoulder: { quarter round: 3 } }
tiles:
  ramp: { footprint: [3, 3], parts: { cheek: { of: greyboard, outline: { master: ${master} } } } }
`);
}

/** A kit with a part of that size or outline, or both. */
function shaped(text: string): Example {
  return kit(`${opening}materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles:
  wall: { footprint: [3, 3], parts: { sill: { of: greyboard, ${text} } } }
`);
}

const opening = 'cardwright: kit\nunits: in\n';
const wall = 'tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2] } } } }\n';

/** A page for each code of `expand/`; the type holds it complete. */
export const expandPages: Readonly<Record<keyof typeof expandCodes, ExplainPage>> = {
  ...cornerPages,
  ...slopePages,
  E74: {
    why: 'A part is traced from a master that nothing has by that name: neither this file nor a file it uses.',
    failing: traced('sholder'),
    mended: traced('shoulder'),
  },
  E75: {
    why: 'The size of a part follows from its outline. Said beside it, it is a check, and then it has to be the box around the outline: its length, its width.',
    failing: shaped('size: [2, 1], outline: { half round: 1 }'),
    mended: shaped('outline: { half round: 1 }'),
  },
  E76: {
    why: 'The length of a curve is no fraction of an inch or a millimetre. It is used where the bracket rounds it: up to, down to or nearest, with a step of your rule.',
    failing: walled(
      'masters: { hump: { half round: 1 } }\nlengths: { skin: (developed length of hump + 1/8) }\n',
    ),
    mended: walled(
      'masters: { hump: { half round: 1 } }\nlengths: { skin: (developed length of hump + 1/8 up to 1/32) }\n',
    ),
  },
  E01: {
    why: 'A sum uses a name that nothing has in lengths, numbers or levels: neither the tile, nor this file, nor a file it uses. Materials and parts have sizes, but are no measures themselves: say which one is meant, e.g. (thickness of greyboard).',
    failing: walled('lengths: { rise: 3/4, step: (risee / 3) }\n'),
    mended: walled('lengths: { rise: 3/4, step: (rise / 3) }\n'),
  },
  E02: {
    why: 'A file sees its own names and those of all files it uses. Where two of them give the same name to two things, nobody can tell which is meant; it is told where the name is used. Give one of them another name.',
    failing: walled('lengths: { bay: 3/4, step: (bay / 3) }\nlevels: { bay: 1 }\n'),
    mended: walled('lengths: { bay: 3/4, step: (bay / 3) }\nlevels: { terrace: 1 }\n'),
  },
  E03: {
    why: 'Each of these sums needs the next one, and the last needs the first: none can be worked out. One of them has to get a measure of its own.',
    failing: walled('lengths: { core: (skin x 2), skin: (core / 2) }\n'),
    mended: walled('lengths: { core: (skin x 2), skin: 1/8 }\n'),
  },
  E04: {
    why: 'Behind "thickness of" stands a material or a part, behind "length of" and "width of" a part: of this tile, or a shared one.',
    failing: walled('lengths: { core: (square - 2 x thickness of grayboard) }\n'),
    mended: walled('lengths: { core: (square - 2 x thickness of greyboard) }\n'),
  },
  E05: {
    why: 'Parts, sheets, offcuts and readings name a material that is described under materials: of this file or of one it uses.',
    failing: small('tiles: { wall: { parts: { face: { of: grayboard, size: [3, 2] } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2] } } } }\n'),
  },
  E06: {
    why: 'A bare number takes the unit of its file. This file has none, so each of its lengths has to name its own.',
    failing: kit(`cardwright: kit
materials: { greyboard: { thickness: 1/16 in } }
tiles: { wall: { footprint: none, parts: { face: { of: greyboard, size: [3, 2 in] } } } }
`),
    mended: kit(`cardwright: kit
materials: { greyboard: { thickness: 1/16 in } }
sheets: { greyboard: [{ size: A4 }] }
tiles: { wall: { footprint: none, parts: { face: { of: greyboard, size: [3 in, 2 in] } } } }
`),
  },
  E07: {
    why: 'A bare number alone is a length in the unit of its file, but what x and / make of bare numbers is a plain number, and so is a name of numbers:. Where a length is wanted, one of the factors has to be one.',
    failing: walled('lengths: { double: (2 x 3/4) }\n'),
    mended: walled('lengths: { double: (2 x 3/4 in) }\n'),
  },
  E08: {
    why: 'Where things are counted, and under numbers:, a plain number is wanted. A length divided by a length is one.',
    failing: walled('lengths: { core: 3 }\nnumbers: { bays: core }\n'),
    mended: walled('lengths: { core: 3 }\nnumbers: { bays: (core / 1 in) }\n'),
  },
  E09: {
    why: 'A length times a length is an area. It may stand on the way, as in (half x half / rise), but nothing here is measured in areas.',
    failing: walled('lengths: { half: 1 1/2, odd: (half x half) }\n'),
    mended: walled('lengths: { half: 1 1/2, odd: (half x half / 2 in) }\n'),
  },
  E10: {
    why: 'Lengths go with lengths, plain numbers with plain numbers; only a bare number goes with either. A number divided by a length is nothing that could be cut.',
    failing: walled('lengths: { core: 3, more: (core + bays) }\nnumbers: { bays: 2 }\n'),
    mended: walled('lengths: { core: 3, more: (core x bays) }\nnumbers: { bays: 2 }\n'),
  },
  E11: {
    why: 'What stands behind the / comes to zero.',
    failing: walled('lengths: { core: 3, bay: (core / posts) }\nnumbers: { posts: 0 }\n'),
    mended: walled('lengths: { core: 3, bay: (core / posts) }\nnumbers: { posts: 4 }\n'),
  },
  E12: {
    why: 'A size is above zero; kerf, trim, levels and gaps are at least zero. Only a name of lengths: may stand for less.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, (2 - 2 1/4)] } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, (2 1/4 - 2)] } } } }\n'),
  },
  E13: {
    why: 'Nothing that is cut from card is longer than 100 m: a unit has slipped in, or a factor.',
    failing: walled('lengths: { fence: 101 m }\n'),
    mended: walled('lengths: { fence: 101 mm }\n'),
  },
  E14: {
    why: 'Tiles, parts, sheets and squares are counted in whole numbers. A sum will do where it comes to one.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2], count: (3 / 2) } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2], count: (4 / 2) } } } }\n'),
  },
  E15: {
    why: 'A tile has at least one of each of its parts, and nothing is counted beyond a million. Tiles to make and sheets at hand may be none.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2], count: 0 } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2], count: 1 } } } }\n'),
  },
  E16: {
    why: 'All sums are exact, so products of products grow digits without end. No measure needs 300 of them.',
    failing: walled(`numbers:
${digits(0, '123456789012345678901234567890')}${digits(1, '(n0 x n0 x n0 x n0)')}${digits(2, '(n1 x n1 x n1 x n1)')}`),
    mended: walled(`numbers:
${digits(0, '12')}${digits(1, '(n0 x n0 x n0 x n0)')}${digits(2, '(n1 x n1 x n1 x n1)')}`),
  },
  E17: {
    why: 'A name may lean on a name that leans on a name, but not without end. Put a measure of its own somewhere along the way.',
    failing: walled(`lengths:\n${chain(500)}  l500: 1\n`),
    mended: walled(`lengths:\n${chain(3)}  l3: 1\n`),
  },
  E18: {
    why: '"square", and a tile that states no footprint, go by the grid of this file or of a file it uses. "square" alone is one side of it, so the grid has to be as long as it is wide; else say square across or square along.',
    failing: kit(`${opening}materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
${wall}`),
    mended: walled(''),
  },
  E19: {
    why: '"tile across", "tile along" and "tile height" are sizes of the tile that a sum stands in. They have no worth outside of a tile, and none where the tile does not state them.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, tile height] } } } }\n'),
    mended: small(
      'tiles: { wall: { height: 2, parts: { face: { of: greyboard, size: [3, tile height] } } } }\n',
    ),
  },
  E20: {
    why: 'up to, down to and nearest round to multiples of a step, and a step is above zero.',
    failing: walled('lengths: { third: (square / 3 down to 0) }\n'),
    mended: walled('lengths: { third: (square / 3 down to 1/32) }\n'),
  },
  E21: {
    why: 'like: names another part of the same tile, else one of the shared parts: of this file or of a file it uses. A part that is like its own name takes up the shared part of that name.',
    failing: small(`parts: { bed: { of: greyboard, size: [square, square] } }
tiles: { wall: { parts: { bed: { like: bett } } } }
`),
    mended: small(`parts: { bed: { of: greyboard, size: [square, square] } }
tiles: { wall: { parts: { bed: { like: bed } } } }
`),
  },
  E22: {
    why: 'make:, --make and like: name a tile of this file or of one it uses.',
    failing: {
      files: { 'evening.yaml': evening('{ wal: 2 }') },
      run: ['check', 'evening.yaml'],
    },
    mended: {
      files: { 'evening.yaml': evening('{ wall: 2 }') },
      run: ['check', 'evening.yaml'],
    },
  },
  E23: {
    why: 'Each of these takes what it leaves unsaid from the next one, and the last from the first: one has to stand for itself.',
    failing: small(`tiles:
  wall: { like: fence }
  fence: { like: wall }
`),
    mended: small(`tiles:
  wall: { like: fence }
  fence: { parts: { face: { of: greyboard, size: [3, 2] } } }
`),
  },
  E24: {
    why: 'none takes away what a variant would get from the tile it is like. There is nothing of that name to take.',
    failing: small(`tiles:
  wall: { parts: { face: { of: greyboard, size: [3, 2] }, cap: { of: greyboard, size: [3, 1/2] } } }
  bare wall: { like: wall, parts: { cab: none } }
`),
    mended: small(`tiles:
  wall: { parts: { face: { of: greyboard, size: [3, 2] }, cap: { of: greyboard, size: [3, 1/2] } } }
  bare wall: { like: wall, parts: { cap: none } }
`),
  },
  E25: {
    why: 'A part is cut from a material. It says so itself, or is like a part that does.',
    failing: small('tiles: { wall: { parts: { face: { size: [3, 2] } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2] } } } }\n'),
  },
  E26: {
    why: 'A part has a length and a width, in that order. It states them itself, or is like a part that does.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2] } } } }\n'),
  },
  E27: {
    why: 'The part minds which way the grain or the flutes run, but its material is not said to have any. Either the material should say so, or the part need not mind.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2], grain: length } } } }\n'),
    mended: onFoot(`materials: { greyboard: { thickness: 1/16, grain: yes } }
sheets: { greyboard: [{ size: [16, 12], grain: length }] }
`),
  },
  E28: {
    why: 'A material has a thickness: sums use it, and it tells two lots of card apart. A reading under measured: goes before it in every sum, but does not replace it.',
    failing: onFoot(
      'materials: { greyboard: { tool: knife } }\nsheets: { greyboard: [{ size: [16, 12] }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16, tool: knife } }\nsheets: { greyboard: [{ size: [16, 12] }] }\n',
    ),
  },
  E29: {
    why: 'A sheet has a length and a width, or a named size: A5 to A0, letter, legal, ledger.',
    failing: onFoot('materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ count: 2 }] }\n'),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: A4, count: 2 }] }\n',
    ),
  },
  E30: {
    why: 'The material has grain (or flutes), so each of its sheets says which of its two sides it runs with. Of an offcut it may be unknown; then only parts that may turn freely are cut from it.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16, grain: yes } }\nsheets: { greyboard: [{ size: [16, 12] }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16, grain: yes } }\nsheets: { greyboard: [{ size: [16, 12], grain: length }] }\n',
    ),
  },
  E31: {
    why: 'Which way the grain or the flutes of a new sheet run can be seen when it is bought; only an offcut may have lost it.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16, grain: yes } }\nsheets: { greyboard: [{ size: [16, 12], grain: unknown }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16, grain: yes } }\nsheets: { greyboard: [{ size: [16, 12], grain: width }] }\n',
    ),
  },
  E32: {
    why: 'The sheet says which way its grain or flutes run, but the material is not said to have any.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], flutes: length }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16, flutes: yes } }\nsheets: { greyboard: [{ size: [16, 12], flutes: length }] }\n',
    ),
  },
  E33: {
    why: 'Trim is what is cut off the edges of a sheet to square it up. Here it takes as much as there is. A trim comes from the sheet, its material, or cutting:, whichever is more particular.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], trim: 6 }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], trim: 1/6 }] }\n',
    ),
  },
  E34: {
    why: 'A sheet whose edges are not true has to be squared up before anything is measured from them: on all four sides something is taken off.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], true edges: no }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], true edges: no, trim: 1/8 }] }\n',
    ),
  },
  E35: {
    why: 'A kit by itself asks for one of each of its tiles, a session for what it says under make: and loose:. Here that comes to nothing at all.',
    failing: small(''),
    mended: walled(''),
  },
  E36: {
    why: 'How a material is cut can be said in several places, of which the more particular wins: the sheet, only: of the session, the material, cutting: of the session, cutting: of the kit. Two files of one rank that differ leave it open.',
    failing: twoKits('1/32'),
    mended: twoKits('1/16'),
  },
  E37: {
    why: 'A rule is graduated in equal parts of an inch or of a millimetre.',
    failing: session('print: { ruler: 3/16 }\n'),
    mended: session('print: { ruler: 1/16 }\n'),
  },
  E38: {
    why: 'The margins left and right take the whole width of the paper. With no paper stated, what A4 and Letter share is used.',
    failing: session('print: { margin: 5 }\n'),
    mended: session('print: { margin: 1/2 }\n'),
  },
  E39: {
    why: 'grid: may say how tall a tile may be, say to fit a box; this one states a height above it.',
    failing: heights('2 1/2'),
    mended: heights('2'),
  },
  E40: {
    why: 'A tile without parts can be made at once: nothing is cut for it. That is seldom what was meant.',
    failing: small('tiles: { wall: { note: to be thought out } }\n'),
    mended: walled(''),
  },
  E50: {
    why: 'A build names the parts of its tile and those that the file shares, and so do added members. Nothing of that name is among them.',
    failing: standing('build: { up: [slab, terf] }\n'),
    mended: standing('build: { up: [slab, turf] }\n'),
  },
  E51: {
    why: 'The tile has a build, and this part is neither in it nor in what is added. How many of it are cut follows from the build, so none is.',
    failing: standing('build: { up: [slab] }\n'),
    mended: standing('build: { up: [slab, turf] }\n'),
  },
  E52: {
    why: 'How many pieces of a part are cut follows from the build. A count beside it is a check, and it does not agree.',
    failing: standing('build: { up: [slab, 2 x turf] }\n', { ofTurf: ', count: 3' }),
    mended: standing('build: { up: [slab, 2 x turf] }\n', { ofTurf: ', count: 2' }),
  },
  E53: {
    why: 'A size that is rest takes the room that the build leaves there. Nothing gives a room in that direction: no footprint or height, no to, and no member beside it that states a size.',
    failing: standing('build: { up: [slab, turf, { across: [post], length: up, to: free }] }\n', {
      more: 'post: { of: foam, size: [rest, 3] }',
    }),
    mended: standing('height: 2\nbuild: { up: [slab, turf, { across: [post], length: up, to: free }] }\n', {
      more: 'post: { of: foam, size: [rest, 3] }',
    }),
  },
  E54: {
    why: 'What states its size in a row comes first, and what is left goes to the rests. Here nothing is left, or less than nothing.',
    failing: standing('build: { up: [slab, turf, { along: [2 x wall, core] }] }\n', {
      more: 'wall: { of: foam, size: [3, 1 1/2], lies: yes }',
      last: 'core: { of: foam, size: [3, rest], lies: yes }',
    }),
    mended: standing('build: { up: [slab, turf, { along: [2 x wall, core] }] }\n', {
      more: 'wall: { of: foam, size: [3, 1], lies: yes }',
      last: 'core: { of: foam, size: [3, rest], lies: yes }',
    }),
  },
  E55: {
    why: 'A part is one piece with one size, however often it stands. Its rest comes to different sizes in different places, so it has to be two parts. Both places are named.',
    failing: standing('build: { up: [slab, turf, { along: [fill, wall] }, fill] }\n', {
      more: 'wall: { of: foam, size: [3, 1], lies: yes }',
      last: 'fill: { of: foam, size: [3, rest], lies: yes }',
    }),
    mended: standing('build: { up: [slab, turf, { along: [fill, wall] }, slab] }\n', {
      more: 'wall: { of: foam, size: [3, 1], lies: yes }',
      last: 'fill: { of: foam, size: [3, rest], lies: yes }',
    }),
  },
  E56: {
    why: 'A member lies one way in each direction: flush with one of two sides, centred, inset or overhanging. In the direction of its row it has its place in the order, so there is nothing to align; and repeats stand either every so much or so much apart.',
    failing: standing('build: { up: [slab, { part: turf, flush: [front, back] }] }\n'),
    mended: standing('build: { up: [slab, { part: turf, flush: [front, left] }] }\n'),
  },
  E57: {
    why: 'The three sizes of a part run three different ways. In a row up, the thickness runs up; for the length to run up, the thickness has to be said to run another way.',
    failing: standing('build: { up: [slab, { part: turf, length: up }] }\n'),
    mended: standing('build: { up: [slab, { part: turf, length: up, thickness: along }] }\n'),
  },
  E58: {
    why: 'The good side of a part looks one of the two ways in which its thickness runs: up or down for a part that lies, to the front or the back for a wall seen from the front.',
    failing: standing('build: { up: [slab, { part: turf, facing: left }] }\n'),
    mended: standing('build: { up: [slab, { part: turf, facing: bottom }] }\n'),
  },
  E59: {
    why: 'A name given in a build is a name of its own: no part that stands there is called that, and no other member. Things are set against each other by these names.',
    failing: standing('build: { up: [slab, { part: turf, name: slab }] }\n'),
    mended: standing('build: { up: [slab, { part: turf, name: lawn }] }\n'),
  },
  E60: {
    why: 'What is added is set against something that stands already: a part or a named row of the build, something added above it in the list, or the tile. A part that stands more than once goes by its number: post 1, post 2.',
    failing: standing('build: { up: [slab] }\nadded: [{ part: turf, against: top of slap }]\n'),
    mended: standing('build: { up: [slab] }\nadded: [{ part: turf, against: top of slab }]\n'),
  },
  E61: {
    why: 'Upright is that of the two sizes which stands up in the build. A part that lies has none, a part that stands in no build neither, and one that stands on different sides in different places has two.',
    failing: standing('build: { up: [slab, turf, lid] }\n', {
      more: 'lid: { of: twinwall, size: [3, 3], flutes: upright }',
    }),
    mended: standing('build: { up: [slab, turf, lid] }\n', {
      more: 'lid: { of: twinwall, size: [3, 3], flutes: length }',
    }),
  },
  E62: {
    why: 'Repeats that stand every so much are spaced from start to start, so each needs a size of its own. One that takes the rest has none before they are spaced.',
    failing: standing('build: { up: [slab, turf, { along: [{ part: bar, times: 2, every: 1 }] }] }\n', {
      more: 'bar: { of: foam, size: [3, rest], lies: yes }',
    }),
    mended: standing('build: { up: [slab, turf, { along: [{ part: bar, times: 2, apart: 1 }] }] }\n', {
      more: 'bar: { of: foam, size: [3, rest], lies: yes }',
    }),
  },
  E63: {
    why: 'A tile with footprint: none is a bundle of parts. It has no ground on which a build could stand.',
    failing: standing('footprint: none\nbuild: { up: [slab, turf] }\n'),
    mended: standing('footprint: [3, 3]\nbuild: { up: [slab, turf] }\n'),
  },
  E64: {
    why: 'A size that is rest takes the room that a build leaves. This part stands in no build, so there is nothing that could leave it any.',
    failing: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, rest] } } } }\n'),
    mended: small('tiles: { wall: { parts: { face: { of: greyboard, size: [3, 2] } } } }\n'),
  },
  E65: {
    why: 'A list of levels along a side gives one at each corner and at each joint between squares: one more than the tile has squares there. A single level is the floor all along.',
    failing: standing('build: { up: [slab, turf] }\nedges: { back: [9/16, 9/16, 9/16] }\n'),
    mended: standing('build: { up: [slab, turf] }\nedges: { back: [9/16, 9/16] }\n'),
  },
  E66: {
    why: 'A tile says where it is kept: store: names one of the racks of its file, or of those that the file uses.',
    failing: standing('build: { up: [slab, turf] }\nstore: flat box\n', {
      above: 'racks: { flat case: { inside: [12, 9, 3] } }\n',
    }),
    mended: standing('build: { up: [slab, turf] }\nstore: flat case\n', {
      above: 'racks: { flat case: { inside: [12, 9, 3] } }\n',
    }),
  },
  E67: {
    why: 'The order of gluing follows from the build. A tile that states its own names every part that stands in it, once.',
    failing: standing('build: { up: [slab, turf] }\nglue order: [turf]\n'),
    mended: standing('build: { up: [slab, turf] }\nglue order: [turf, slab]\n'),
  },
  E68: {
    why: 'A rack needs the three sizes of its inside: across, along and up.',
    failing: standing('build: { up: [slab, turf] }\nstore: flat case\n', {
      above: 'racks: { flat case: { clearance: 1/8 } }\n',
    }),
    mended: standing('build: { up: [slab, turf] }\nstore: flat case\n', {
      above: 'racks: { flat case: { inside: [12, 9, 3], clearance: 1/8 } }\n',
    }),
  },
  E71: {
    why: 'Repeats within repeats multiply, and so do courses and the bricks in each. A tile of more than ten thousand pieces is a slip of the pen, and would take long to be told so.',
    failing: standing('build: { up: [slab, turf, { across: [{ part: chip, times: 600 }], times: 20 }] }\n', {
      last: 'chip: { of: foam, size: [1/16, 1/16] }',
    }),
    mended: standing(
      'build: { up: [slab, turf, { across: [{ part: chip, times: 6 }], times: 2, to: free }] }\n',
      {
        last: 'chip: { of: foam, size: [1/16, 1/16] }',
      },
    ),
  },
  E72: {
    why: 'Members that are added stand beside the rows of a build, and an order of gluing is the order of a build. Without one they have no place.',
    failing: standing('added: [{ part: turf, at: [0, 0, 0] }]\n'),
    mended: standing('build: { up: [slab] }\nadded: [{ part: turf, against: top of slab }]\n'),
  },
  E73: {
    why: 'What a tile presents at its edges, what it may stick out and whether it goes in its rack follow from how its parts stand. Without a build nothing of that is checked, and the claim stands on its own.',
    failing: standing('edges: { front: 1/2 }\n'),
    mended: standing('build: { up: [slab, turf] }\nedges: { front: 9/16 }\n'),
  },
  E70: {
    why: 'Strips over exposed flutes are derived: a part of fluted board that says which way its flutes run gets one over each end of them that nothing else covers. Where there are no flutes, or they may run either way, no end can be told; the sides can still be clad by name.',
    failing: standing('build: { up: [slab, turf, step] }\n', {
      last: 'step: { of: twinwall, size: [2, 2], clad: { exposed flutes: greyboard } }',
    }),
    mended: standing('build: { up: [slab, turf, step] }\n', {
      last: 'step: { of: twinwall, size: [2, 2], flutes: length, clad: { exposed flutes: greyboard } }',
    }),
  },
  E69: {
    why: 'Sums are worked out before anything stands, and a rest is known only after. What leaves it the rest can be named instead.',
    failing: standing('build: { up: [slab, turf, { along: [fill, wall] }] }\n', {
      more: 'wall: { of: foam, size: [3, (square - width of fill)], lies: yes }',
      last: 'fill: { of: foam, size: [3, rest], lies: yes }',
    }),
    mended: standing('build: { up: [slab, turf, { along: [fill, wall] }] }\n', {
      more: 'wall: { of: foam, size: [3, (square / 3)], lies: yes }',
      last: 'fill: { of: foam, size: [3, rest], lies: yes }',
    }),
  },
  E81: {
    why: 'Evenings are worked off one after the other. What makes all the rest leaves nothing for those behind it.',
    failing: overEvenings('[{ make: rest }, { make: rest }]'),
    mended: overEvenings('[{ make: { wall: 1 } }, { make: rest }]'),
  },
  E82: {
    why: 'Evenings part what make: or sets: asks for; they do not ask for more.',
    failing: overEvenings('[{ make: { wall: 3 } }]'),
    mended: overEvenings('[{ make: { wall: 2 } }]'),
  },
  E83: {
    why: 'An evening is named by its number, from 1 on, or by its title.',
    failing: overEvenings('[{ title: Friday, make: { wall: 2 } }]', '--evening', 'Monday'),
    mended: overEvenings('[{ title: Friday, make: { wall: 2 } }]', '--evening', 'Friday'),
  },
  E84: {
    why: 'Spares are told by the name of a part. A bare name means that part in every tile that has it; with of and a tile it means that one.',
    failing: withMore('spares: { fase: 2 }'),
    mended: withMore('spares: { face: 2 }'),
  },
  E85: {
    why: 'As many as what is at hand allows can be made of one tile, or of complete sets. Of two, one could have all of it and the other nothing, so that no count is the right one.',
    failing: withMore('sets: { count: most, of: { wall: 1 } }', '{ wall: most }'),
    mended: withMore('sets: { count: 2, of: { wall: 1 } }', '{ wall: 1 }'),
  },
  E99: {
    why: 'What is made as often as it fits goes into what the other parts leave of the sheets, and how often that is only the layouts tell. Its number can not follow from a build as well, or be told by eye, and it has no spares.',
    failing: standing('build: { up: [slab, turf] }\n', { ofTurf: ', count: as fits' }),
    mended: standing('build: { up: [slab, turf] }\n', {
      more: 'stones: { of: foam, size: [1/2, 1/4], count: as fits }',
    }),
  },
  E90: {
    why: 'Sheets are sold in packs: then pack: says how many, and the price is that of a pack. An offcut is what is left of one sheet; how many there are like it is its count.',
    failing: withMore('offcuts: { greyboard: [{ size: [8, 5], pack: 2 }] }'),
    mended: withMore('offcuts: { greyboard: [{ size: [8, 5], count: 2 }] }'),
  },
  E91: {
    why: 'Of what is bought in packs there can only be whole ones, so the number of sheets that can be had is a multiple of the pack. Sheets of a pack that is open are at hand: they belong in the drawer.',
    failing: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], pack: 5, count: 12 }] }\n',
    ),
    mended: onFoot(
      'materials: { greyboard: { thickness: 1/16 } }\nsheets: { greyboard: [{ size: [16, 12], pack: 5, count: 10 }] }\n',
    ),
  },
  E86: {
    why: 'What a tile, a part or a session takes is described once, under fittings, in a file that it sees: then a name misspelt is told, instead of being bought.',
    failing: withMore('fittings: { skewer: {} }\ntakes: { skewers: 2 }'),
    mended: withMore('fittings: { skewer: {} }\ntakes: { skewer: 2 }'),
  },
  E87: {
    why: 'A drawer may keep fittings of other kits, so a name that these files do not know is passed over. This one is so close to a name they know that it may be a slip, and then more would be bought than is missing.',
    failing: withFittings('skewers'),
    mended: withFittings('skewer'),
  },
  E80: {
    why: 'A drawer may keep material of other kits, so a name that these files do not know is passed over. This one is so close to a name they know that it may be a slip, and then the offcuts would be missed.',
    failing: fromDrawer('greybord'),
    mended: fromDrawer('greyboard'),
  },
  E95: {
    why: 'The hole for a fitting that is let in is as wide as the fitting and its clearance, and as deep as the fitting, or as deep says.',
    failing: letIn('{ into: left of slab, at: [[1, 1/4]] }', { fitting: 'depth: 2 mm' }),
    mended: letIn('{ into: left of slab, at: [[1, 1/4]] }', { fitting: 'diameter: 6 mm, depth: 2 mm' }),
  },
  E96: {
    why: 'A fitting is let into the tile itself, or into a part or a row of its build that has a name. A part that stands more than once goes by its number: slab 1, slab 2.',
    failing: letIn('{ into: left of slap, at: [[1, 1/4]] }'),
    mended: letIn('{ into: left of slab, at: [[1, 1/4]] }'),
  },
  E97: {
    why: 'Of a fitting with poles it is said of each which of them looks out of its hole: one word for all, or a list with one for each. Without that nobody could tell whether two tiles attract each other.',
    failing: letIn('{ into: left of slab, at: [[1, 1/4], [2, 1/4]] }', {
      fitting: 'diameter: 6 mm, depth: 2 mm, poles: yes',
    }),
    mended: letIn('{ into: left of slab, at: [[1, 1/4], [2, 1/4]], pole: [out, in] }', {
      fitting: 'diameter: 6 mm, depth: 2 mm, poles: yes',
    }),
  },
  E98: {
    why: 'At an inset sit four, one in each corner of the side, or two, at both ends of its middle line. Any other number has no places that go without saying.',
    failing: letIn('{ into: bottom of slab, inset: 1/2, count: 3 }'),
    mended: letIn('{ into: bottom of slab, inset: 1/2, count: 4 }'),
  },
};

function digits(index: number, worth: string): string {
  return `  n${index}: ${worth}\n`;
}

function chain(count: number): string {
  return Array.from({ length: count }, (_, index) => `  l${index}: l${index + 1}\n`).join('');
}

function evening(make: string): string {
  return `cardwright: session
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
${wall}make: ${make}
`;
}

function twoKits(kerf: string): Example {
  return {
    files: {
      'yard.yaml': `cardwright: kit
units: in
uses: [fence.yaml]
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
cutting: { kerf: 1/16 }
${wall}`,
      'fence.yaml': `cardwright: kit\nunits: in\ncutting: { kerf: ${kerf} }\n`,
    },
    run: ['check', 'yard.yaml'],
  };
}

function heights(height: string): Example {
  return kit(`cardwright: kit
units: in
grid: { square: 3, tallest: 2 }
materials: { greyboard: { thickness: 1/16 } }
sheets: { greyboard: [{ size: [16, 12] }] }
tiles: { wall: { height: ${height}, parts: { face: { of: greyboard, size: [3, 2] } } } }
`);
}

function fromDrawer(material: string): Example {
  return {
    files: {
      'evening.yaml': `${evening('{ wall: 2 }')}drawer: drawer.yaml\n`,
      'drawer.yaml': `cardwright: drawer\nunits: in\noffcuts: { ${material}: [{ size: [7, 4] }] }\n`,
    },
    run: ['check', 'evening.yaml'],
  };
}

function withFittings(kept: string): Example {
  return {
    files: {
      'evening.yaml': `${evening('{ wall: 2 }')}fittings: { skewer: {} }\ntakes: { skewer: 2 }\ndrawer: drawer.yaml\n`,
      'drawer.yaml': `cardwright: drawer\nunits: in\nfittings: { ${kept}: 8 }\n`,
    },
    run: ['count', 'evening.yaml'],
  };
}

function overEvenings(evenings: string, ...options: readonly string[]): Example {
  const files = { 'evening.yaml': `${evening('{ wall: 2 }')}evenings: ${evenings}\n` };
  return { files, run: ['count', 'evening.yaml', ...options] };
}

function withMore(line: string, make = '{ wall: 2 }'): Example {
  return { files: { 'evening.yaml': `${evening(make)}${line}\n` }, run: ['count', 'evening.yaml'] };
}
