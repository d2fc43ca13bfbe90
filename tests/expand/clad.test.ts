import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import { batchOf, check } from './check.ts';

/** Materials in millimetres, and the parts and build of one tile of 60 x 60. */
function kit(parts: string, build: string, more = ''): string {
  return `cardwright: kit
units: mm
grid: { square: 60${more} }
materials:
  board: { thickness: 2 }
  fluted: { thickness: 3, flutes: yes }
  card: { thickness: 1/2, grain: yes }
tiles:
  tile:
    parts:
${parts.replace(/^/gm, '      ').trimEnd()}
${build.replace(/^/gm, '    ').trimEnd()}
`;
}

function stood(text: string) {
  const batch = batchOf(text);
  const [build] = batch.builds;
  if (build === undefined) throw new Error('nothing stands');
  const cut = batch.materials.flatMap(({ material, parts }) =>
    parts.flatMap(({ length, width, grain, members }) =>
      members.map(
        ({ part, count }) =>
          `${count} ${part}: ${material.name} ${toFraction(length)} x ${toFraction(width)}, ${grain}`,
      ),
    ),
  );
  const blocks = Object.fromEntries(
    build.parts.map(({ name, block: { low, high } }) => [
      name,
      (['across', 'along', 'up'] as const).map((way) => `${toFraction(low[way])}..${toFraction(high[way])}`),
    ]),
  );
  const extent = (['across', 'along', 'up'] as const).map((way) => toFraction(build.row.extent[way]));
  return { cut: cut.filter((it) => it.includes('card')), blocks, extent, pieces: Object.keys(blocks) };
}

// Sizes of strips and sums: computed by hand.
describe('parts that are clad by side', () => {
  it('get strips of their own, whose thickness counts', () => {
    const { cut, blocks, extent } = stood(
      kit('slab: { of: board, size: [40, 30], clad: { left: card, right: card } }', 'build: { up: [slab] }'),
    );
    expect(cut).toEqual([
      '1 slab left strip: card 30 x 2, length',
      '1 slab right strip: card 30 x 2, length',
    ]);
    expect(extent).toEqual(['41', '30', '2']);
    expect(blocks.slab).toEqual(['10..50', '15..45', '0..2']);
    expect(blocks['slab left strip']).toEqual(['19/2..10', '15..45', '0..2']);
  });

  it('have the strips at bottom and top over the ends of the others', () => {
    const { cut, extent } = stood(
      kit(
        'slab: { of: board, size: [40, 30], clad: { left: card, right: card, bottom: card, top: board } }',
        'build: { up: [slab] }',
      ),
    );
    expect(extent).toEqual(['41', '65/2', '2']);
    expect(cut).toContain('1 slab bottom strip: card 41 x 2, length');
    expect(cut).toHaveLength(3);
  });

  it('leave their strips room where they take the rest', () => {
    const { blocks, extent } = stood(
      kit(
        'slab: { of: board, size: [rest, rest], clad: { left: card, top: card } }',
        'build: { up: [slab] }',
      ),
    );
    expect(extent).toEqual(['60', '60', '2']);
    expect(blocks.slab).toEqual(['1/2..60', '0..119/2', '0..2']);
    expect(blocks['slab top strip']).toEqual(['0..60', '119/2..60', '0..2']);
  });

  it('have glue between part and strip where there is a glue line', () => {
    const { extent, cut } = stood(
      kit(
        'slab: { of: board, size: [40, 30], clad: { left: card, right: card, top: card } }',
        'build: { up: [slab] }',
        ', glue line: 1/10',
      ),
    );
    expect(extent).toEqual(['206/5', '153/5', '2']);
    expect(cut).toContain('1 slab top strip: card 206/5 x 2, length');
  });

  it('carry what stands against them on their strips', () => {
    const { blocks } = stood(
      kit(
        'wall: { of: board, size: [60, 10], clad: { top: card } }\ncap: { of: board, size: [10, 10] }',
        'build: { up: [{ along: [wall], to: free }] }\nadded: [{ part: cap, against: top of wall }]',
      ),
    );
    expect(blocks['wall top strip']?.[2]).toBe('10..21/2');
    expect(blocks.cap?.[2]).toBe('21/2..25/2');
  });

  it('have their sides where the drawing has them, turned end for end', () => {
    const { blocks } = stood(
      kit(
        'slab: { of: board, size: [40, 30], clad: { left: card } }',
        'build: { up: [{ part: slab, flip: length }] }',
      ),
    );
    expect(blocks['slab left strip']?.[0]).toBe('199/4..201/4');
  });

  it('stand every so much with their strips, and keep their numbers', () => {
    const { blocks, pieces } = stood(
      kit(
        'post: { of: board, size: [10, 10], clad: { right: card } }',
        'build: { across: [{ part: post, times: 3, every: 20, thickness: up, length: across }], to: free }',
      ),
    );
    expect(pieces).toEqual([
      'post 1',
      'post right strip 1',
      'post 2',
      'post right strip 2',
      'post 3',
      'post right strip 3',
    ]);
    expect(['post 1', 'post 2', 'post 3'].map((it) => blocks[it]?.[0])).toEqual([
      '19/4..59/4',
      '99/4..139/4',
      '179/4..219/4',
    ]);
  });

  it('are cut without a build, too', () => {
    const { materials } = batchOf(`cardwright: session
units: mm
materials: { board: { thickness: 2 }, fluted: { thickness: 3, flutes: yes }, card: { thickness: 1/2 } }
loose:
  plate: { of: board, size: [40, 30], count: 4, clad: { left: card, bottom: card } }
  step: { of: fluted, size: [20, 10], flutes: length, clad: { exposed flutes: card } }
`);
    const card = materials.find(({ material }) => material.name === 'card');
    const strips = card?.parts.flatMap(({ length, members }) =>
      members.map(({ part, count }) => `${count} ${part} ${toFraction(length)}`),
    );
    expect(strips).toEqual([
      '4 plate bottom strip 81/2',
      '4 plate left strip 30',
      '1 step left strip 10',
      '1 step right strip 10',
    ]);
  });

  it('get another name where one is taken', () => {
    const { pieces } = stood(
      kit(
        'slab: { of: board, size: [60, 60], clad: { left: card } }\nslab left strip: { of: board, size: [9, 9] }',
        'build: { up: [slab, slab left strip] }',
      ),
    );
    expect(pieces).toEqual(['slab left strip 2', 'slab', 'slab left strip']);
  });

  it('pass their strips on to variants, which may take them away', () => {
    const text = `${kit('slab: { of: board, size: [60, 60], clad: { left: card } }', 'build: { up: [slab] }')}
  same: { like: tile }
  bare: { like: tile, parts: { slab: { clad: none } } }
`;
    expect(batchOf(text).builds.map(({ parts }) => parts.length)).toEqual([2, 2, 1]);
  });
});

describe('parts that are clad and have an outline', () => {
  const wall = (clad: string) =>
    `wall: { of: board, size: [60, 30], cuts: [{ arch: { width: 20, sides: 4, rise: 5 }, edge: bottom }], clad: ${clad} }`;
  it('have strips over their straight sides', () => {
    const { cut, blocks } = stood(
      kit(wall('{ top: card, left: card }'), 'build: { along: [wall], to: free }'),
    );
    expect(cut).toEqual([
      '1 wall top strip: card 121/2 x 2, length',
      '1 wall left strip: card 30 x 2, length',
    ]);
    expect(blocks['wall top strip']?.[2]).toBe('30..61/2');
  });
  it('have none over a side that is cut into', () => {
    const build = 'build: { along: [wall], to: free }';
    const text = kit(wall('{ bottom: card }'), build).split('\n');
    const line = text.findIndex((it) => it.includes('wall: {'));
    const column = text[line]!.indexOf('{ bottom');
    const mark = `#${' '.repeat(column - 1)}^^^^^^^^^^^^^^^^ error S33: "clad over its bottom, which is cut into or bent" belongs to the language but is not built yet`;
    check([...text.slice(0, line + 1), mark, ...text.slice(line + 1)].join('\n'));
  });
});

describe('exposed flutes', () => {
  it('are those that a hole in a neighbour leaves bare, too', () => {
    const step = 'step: { of: fluted, size: [20, 20], flutes: length, clad: { exposed flutes: card } }\n';
    const beside = (cuts: string) =>
      stood(
        kit(
          `${step}plate: { of: board, size: [20, 3]${cuts} }`,
          'build: { across: [plate, { part: step, thickness: up }, plate], to: free }',
        ),
      ).pieces;
    expect(beside('')).toEqual(['plate 1', 'step', 'plate 2']);
    expect(beside(', cuts: [{ hole: { circle: 1 } }]')).toContain('step left strip');
  });

  const step = 'step: { of: fluted, size: [20, 20], flutes: length, clad: { exposed flutes: card } }';
  const upright = 'wall: { of: fluted, size: [60, 20], flutes: upright, clad: { exposed flutes: card } }';
  const base = 'base: { of: board, size: [60, 60] }';

  it('are the ends of flutes that nothing covers', () => {
    const { cut } = stood(kit(`${base}\n${upright}`, 'build: { up: [base, { along: [wall], to: free }] }'));
    expect(cut).toEqual(['1 wall top strip: card 60 x 3, length']);
  });

  it('are none where the table or a neighbour covers them', () => {
    const { cut } = stood(
      kit(`${base}\n${upright}`, 'build: { up: [{ along: [20 x wall], to: free }, base] }'),
    );
    expect(cut).toEqual([]);
  });

  it('are also those that are covered in part', () => {
    const { cut, extent } = stood(
      kit(
        `${base}\n${upright}\nlath: { of: board, size: [60, 1] }`,
        'build: { up: [base, { along: [wall], to: free }, lath] }',
      ),
    );
    expect(cut).toEqual(['1 wall top strip: card 60 x 3, length']);
    expect(extent[2]).toBe('49/2'); // 2 + 20 + 0.5 + 2
  });

  it('are found piece by piece', () => {
    const { pieces, extent } = stood(
      kit(step, 'build: { across: [{ part: step, times: 3, thickness: up }], to: free }'),
    );
    expect(pieces).toEqual(['step left strip', 'step 1', 'step 2', 'step 3', 'step right strip']);
    expect(extent[0]).toBe('61');
  });

  it('follow from where the pieces stand with their strips', () => {
    // The cap is as wide as the wall only: clad itself, it covers the top of the wall as before.
    const { pieces } = stood(
      kit(
        `${upright}\ncap: { of: fluted, size: [60, 3], flutes: width, clad: { exposed flutes: card } }`,
        'build: { up: [{ along: [wall], to: free }, cap] }',
      ),
    );
    expect(pieces).toEqual(['wall', 'cap bottom strip', 'cap', 'cap top strip']);
  });

  it('can not be told where flutes may run any way, or there are none', () => {
    check(`
tiles:
  tile:
    footprint: none
    parts:
      a: { of: greyboard, size: [2, 2], clad: { exposed flutes: greyboard } }
#                                                               ^^^^^^^^^ error E70: "a" has no flutes to be exposed: "greyboard" has none
      b: { of: card, size: [2, 2], clad: { exposed flutes: greyboard } }
#                                                          ^^^^^^^^^ error E70: which way do the flutes of "b" run? only then can their exposed ends be told
      c: { of: greyboard, size: [2, 2], clad: { top: grayboard } }
#                                                    ^^^^^^^^^ error E05: unknown material "grayboard"; did you mean "greyboard"?
`);
  });
});
