import { describe, expect, it } from 'vitest';
import type { Overrides } from '../../src/model/index.ts';
import { batchOf, check } from './check.ts';

const opening = `cardwright: session
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
`;

function fillersOf(text: string, overrides: Overrides = {}) {
  const { materials } = batchOf(`${opening}${text}`, {}, overrides);
  return materials.flatMap(({ material, fillers = [] }) =>
    fillers.map(({ count, members }) => ({
      of: material.name,
      count,
      members: members.map(({ label, asFits }) => ({ label, ...asFits })),
    })),
  );
}

describe('a part that is made as often as it fits', () => {
  it('stands beside the parts, uncounted, with what is asked at most of it for each tile', () => {
    const fillers = fillersOf(`
tiles:
  wall:
    parts:
      fill: { of: foam, size: [3, 3] }
      stones: { of: foam, size: [1/2, 1/4], count: as fits up to (2 x 12) }
make: { wall: 4 }
`);
    expect(fillers).toEqual([
      { of: 'foam', count: 0, members: [{ label: 'WA stones', most: 96, share: 4 }] },
    ]);
  });

  it('comes in the order in which it is listed, not by size; the same to the knife is one', () => {
    const fillers = fillersOf(`
tiles:
  wall:
    parts: { fill: { of: foam, size: [3, 3] }, chips: { of: foam, size: [1/4, 1/4], count: as fits } }
  ramp:
    parts: { fill: { of: foam, size: [3, 2] }, chips: { of: foam, size: [1/4, 1/4], count: as fits } }
make: { wall: 3, ramp: 1 }
loose: { bricks: { of: foam, size: [1/2, 1/4], count: as fits up to 7 } }
`);
    expect(fillers.map(({ members }) => members)).toEqual([
      [
        { label: 'RA chips', most: undefined, share: 1 },
        { label: 'WA chips', most: undefined, share: 3 },
      ],
      [{ label: 'bricks', most: 7, share: 1 }],
    ]);
  });

  it('has nothing to go into where nothing else is cut from its material', () => {
    const batch = batchOf(`${opening}
loose:
  post: { of: greyboard, size: [2, 1] }
  chips: { of: foam, size: [1/4, 1/4], count: as fits }
`);
    expect(batch.materials.map(({ material }) => material.name)).toEqual(['greyboard']);
    expect(
      batch.fillersAlone?.map(({ material, kind }) => `${kind.members[0].label} of ${material}`),
    ).toEqual(['chips of foam']);
  });

  it('is taken over by a part that is like it, and counted there where that says so', () => {
    const fillers = fillersOf(`
tiles:
  wall:
    parts: { fill: { of: foam, size: [3, 3] }, chips: { of: foam, size: [1/4, 1/4], count: as fits } }
  low wall: { like: wall }
  bare wall: { like: wall, parts: { chips: { count: 5 } } }
make: { low wall: 1, bare wall: 1 }
`);
    expect(fillers.flatMap(({ members }) => members.map(({ label }) => label))).toEqual(['LW chips']);
  });

  it('of a tile is cut in each evening that makes the tile, loose in every one', () => {
    const text = `
tiles:
  wall:
    parts: { fill: { of: foam, size: [3, 3] }, chips: { of: foam, size: [1/4, 1/4], count: as fits } }
  ramp: { parts: { fill: { of: foam, size: [3, 2] } } }
make: { wall: 1, ramp: 1 }
loose:
  post: { of: foam, size: [2, 1] }
  bricks: { of: foam, size: [1/2, 1/4], count: as fits }
evenings: [{ make: { wall: 1 } }, { make: rest }]
`;
    const labels = (evening: string) =>
      fillersOf(text, { evening: { name: evening, argument: '--evening' } }).flatMap(({ members }) =>
        members.map(({ label }) => label),
      );
    expect(labels('1')).toEqual(['WA chips', 'bricks']);
    expect(labels('2')).toEqual(['bricks']);
  });
});

describe('what is wrong with one', () => {
  it('is a number of it besides', () => {
    check(`
${opening}tiles:
  wall:
    parts:
      fill: { of: foam, size: [3, 3] }
      face: { of: greyboard, size: [3, 3], count: as fits }
#                                                 ^^^^^^^ error E99: "face" is made as often as it fits, and how many stand in the build is a number
      chips: { of: foam, size: [1/4, 1/4], count: as fits, by eye: 3 }
#                                                                  ^ error E99: "chips" is made as often as it fits, and by eye says how many
      stones: { of: foam, size: [1/2, 1/4], count: as fits }
    build: { up: [fill, face] }
spares: { stones: 10% }
#         ^^^^^^ error E99: "stones" is made as often as it fits, so there is no number to add spares to
`);
  });

  it('is a most that is no whole number of one or more', () => {
    check(`
${opening}loose:
  post: { of: foam, size: [2, 1] }
  a: { of: foam, size: [1/4, 1/4], count: as fits up to -2 }
#                                                       ^^ error E15: parts go from 1 to 1 000 000, not -2
  b: { of: foam, size: [1/4, 1/4], count: as fits up to 1/2 }
#                                                       ^^^ error E14: parts come in whole numbers, not 1/2
  c: { of: foam, size: [1/4, 1/4], count: as fits up to 0 }
#                                                       ^ error E15: parts go from 1 to 1 000 000, not 0
  d: { of: foam, size: [1/4, 1/4], count: as fits up to 2 in }
#                                                       ^^^^ error E08: "2 in" is a length; a plain number is wanted
  e: { of: foam, size: [rest, 1/4], count: as fits }
#                       ^^^^ error E64: the length of "e" is the rest, but no build leaves it any
`);
  });

  it('is no fault of spares that are of counted parts, too', () => {
    const { materials } = batchOf(`${opening}
tiles:
  wall: { parts: { fill: { of: foam, size: [3, 3] }, chips: { of: foam, size: [1/4, 1/4], count: as fits } } }
  ramp: { parts: { chips: { of: foam, size: [1/4, 1/2], count: 10 } } }
spares: { chips: 2 }
`);
    expect(materials[0]?.parts.map(({ count }) => count)).toEqual([1, 12]);
  });
});
