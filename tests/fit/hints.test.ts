import { describe, expect, it } from 'vitest';
import { run } from '../cli/memoryWorld.ts';

const wellHouse = (core: string, side = 'floor: no', gap = 'gap rest') => `cardwright: kit
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  well house:
    height: 9/16
    parts:
      paving: { of: greyboard, size: [square, square] }
      front:  { of: greyboard, size: [1 7/8, rest], floor: no }
      side:   { of: greyboard, size: [1 3/4, rest], ${side} }
      core:   { of: foam, size: [${core}, rest], floor: no }
    build:
      up:
        - paving
        - across: [${gap}, side, { along: [front, { up: [core] }, front], to: 1 3/4 }, side, ${gap}]
          flush: front
    edges: { front: 1/16 }
`;
const check = (text: string, ...more: readonly string[]) =>
  run(['check', 'it.yaml', ...more], { files: { 'it.yaml': text } });

describe('a rest beside a gap rest', () => {
  it('is told as the cause, and no size that only hides it', async () => {
    const { stderr } = await check(wellHouse('rest'));
    // (3 - 2 x 1/16) / 3 = 23/24: computed.
    expect(stderr).toContain(
      'length of core: its rest is a share of what is left, like each gap rest: 15/16 in full (+0.021)',
    );
    expect(stderr).toContain('Say   length of front   in its place');
    expect(stderr).not.toContain('closes it');
  });

  it('is not mended by changing what is right', async () => {
    const ran = await check(wellHouse('rest'), '--fix');
    expect(ran.text('it.yaml')).toBe(wellHouse('rest'));
  });

  it('closes with the size that is named', async () => {
    expect((await check(wellHouse('length of front'))).stderr).toBe('');
  });

  it('is not told where no gap shares', async () => {
    const { stderr } = await check(wellHouse('length of front', 'floor: no', 'gap 1/8'));
    expect(stderr).toContain('error F01');
    expect(stderr).not.toContain('its rest');
  });
});

describe('a row of thicknesses that is short', () => {
  const stack = (row: string) => wellHouse('length of front').replace(/{ up: \[core\] }/, row);

  it('may be filled with layers, or left open', async () => {
    const { stderr } = await check(stack('core'));
    expect(stderr).toContain(
      'thicknesses add up to it; more layers do, or   gap rest   where it may stay open',
    );
    expect((await check(stack('gap rest, core, gap rest'))).stderr).not.toContain('error F01');
  });
});

describe('a clad part in the way of another', () => {
  const yard = (across: string) => `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 }, wavy: { thickness: 1/4, flutes: yes } }
sheets: { card: [{ size: [16, 12] }], wavy: [{ size: [16, 12], flutes: length }] }
tiles:
  yard:
    parts:
      ground: { of: card, size: [3, 3] }
      block:  { of: wavy, size: [2, 1], flutes: length, accepted: { bare flutes: painted } }
      step:   { of: wavy, size: [1, 1/2], flutes: length, clad: { left: card, right: card } }
    build: { up: [ground] }
    added:
      - { part: block, at: [0, 1, 1/16] }
      - { part: step, at: [${across}, 1, 1/16] }
`;
  const overlaps = async (across: string) =>
    (await check(yard(across))).stderr.match(/"[^"]*" and "[^"]*" are in one place/g);

  it('is told once, its strips not for themselves', async () => {
    expect(await overlaps('1/2')).toEqual(['"block" and "step" are in one place']);
  });

  it('is told of the strip where that alone is in the way', async () => {
    expect(await overlaps('(2 - 1/32)')).toEqual(['"block" and "step left strip" are in one place']);
  });
});

describe('a level that a wall makes', () => {
  it('asks whether anybody stands there', async () => {
    const { stderr } = await check(wellHouse('length of front', 'good side: no'));
    expect(stderr).toContain('if nobody stands on "side 1", say   floor: no   of that part');
    const mended = wellHouse('length of front');
    expect((await check(mended)).stderr).not.toContain('F06');
  });

  it('asks nothing of a floor that is a little high', async () => {
    const { stderr } = await check(wellHouse('length of front').replace('front: 1/16', 'front: 1/32'));
    expect(stderr).toContain('error F06');
    expect(stderr).toContain('  try   a floor may be off its level by the lip, 1/64 in');
    expect(stderr).not.toContain('if nobody stands');
  });
});

/** A tile of foam and board on a square of 4 in, of which a case says its parts and how they stand. */
const onFour = (parts: string, build: string, more = '') => `cardwright: kit
units: in
grid: { square: 4 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  it:
    parts: { ${parts} }
    build: ${build}
${more}`;

describe('a slope whose stated run does not fill its row', () => {
  const deck = (slope: string) =>
    onFour(
      'base: { of: greyboard, size: [4, 4] }, deck: { of: greyboard, size: [4, rest] }, cheek: { of: greyboard, size: [rest, rest] }',
      `{ up: [base, { along: [{ part: deck, slope: ${slope}, up to: 1/64 }] }] }`,
      '    added: [{ part: cheek, under: deck, up to: 1/64 }]\n',
    );

  it('is told its run, and no shims or layers', async () => {
    const { stderr } = await check(deck('{ to: back, rise: 2 1/4, run: 3 }'));
    expect(stderr).toContain('error F01');
    expect(stderr).toContain('run of the slope of deck: 4 in [101.6 mm] closes it');
    expect(stderr).not.toContain('shims');
    expect(stderr).not.toContain('thicknesses add up');
  });

  it('is mended by that run, and only by it', async () => {
    const ran = await check(deck('{ to: back, rise: 2 1/4, run: 3 }'), '--fix');
    expect(ran.text('it.yaml')).toBe(deck('{ to: back, rise: 2 1/4, run: 4 }'));
    expect(ran.code).toBe(0);
  });
});

describe('bricks in courses', () => {
  const garden = (courses: string) =>
    onFour(
      'brick: { of: foam, size: [1/2, 1/4] }, half brick: { like: brick, size: [1/4, 1/4] }',
      `{ courses: brick, ${courses} }\n    footprint: [3, 1/2]`,
    );

  it('that miss their room alike are told once, with how many bricks would do', async () => {
    const { stderr, stdout } = await check(garden('half: half brick, long: 7, high: 4'));
    expect(stderr.match(/error F01/g)).toHaveLength(1);
    expect(stderr).toContain('1/2 in [12.7 mm] over, in each of 4 rows');
    expect(stderr).toContain('1 brick less in each row closes it');
    expect(stdout.match(/3 1\/2 in .* 1\/2 in over/g)).toHaveLength(2); // once in each view
    expect((await check(garden('half: half brick, long: 6, high: 4'))).stderr).toBe('');
  });

  it('that miss it in two ways are told for each', async () => {
    const { stderr } = await check(
      garden('half: half brick, long: 6, high: 4').replace('[1/4, 1/4]', '[1/8, 1/4]'),
    );
    // 5 x 1/2 + 2 x 1/8 = 2 3/4, where the full courses are right: computed.
    expect(stderr.match(/error F01/g)).toHaveLength(1);
    expect(stderr).toContain('1/4 in [6.35 mm] short, in each of 2 rows');
    expect(stderr).toContain('length of half brick: 1/4 in [6.35 mm] closes it');
  });
});

describe('a folded part that is too wide for its room', () => {
  it('is told which panel makes it fit, and that its size is that of its folds', async () => {
    const roof = (panel: string) =>
      onFour(
        `fill: { of: foam, size: [4, 4] }, roof: { of: greyboard, folds: { panels: [1/2, ${panel}, 1/2], angles: [90, 90], width: 4 } }`,
        '{ up: [fill, roof] }',
      );
    const { stderr } = await check(roof('4 1/4'));
    expect(stderr).toContain('error F01');
    expect(stderr).toContain('panel 2 of roof: 4 in [101.6 mm] closes it');
    expect(stderr).toContain('roof is 4 1/4 in across by its folds: other panels or angles');
    expect((await check(roof('4'))).stderr).not.toContain('F01');
  });

  it('or which size of a tray', async () => {
    const lid = (width: string) =>
      onFour(
        `fill: { of: foam, size: [3 3/4, 3 7/8] }, lid: { of: greyboard, folds: { tray: [4, ${width}], high: 9/16, tab: 1/4, laps: yes } }`,
        '{ up: [fill, lid] }',
      );
    const { stderr } = await check(lid('4 1/8'));
    expect(stderr).toContain('width of the tray of lid: 4 in [101.6 mm] closes it');
    expect(stderr).toContain('lid is 4 1/8 in along by its tray: another size of that');
    expect((await check(lid('4 1/8'), '--fix')).text('it.yaml')).toBe(lid('4'));
  });
});

describe('holes for fittings', () => {
  const magnets = (into: string, points: string, more = '') =>
    onFour(
      'slab: { of: foam, size: [4, 4] }',
      '{ up: [slab] }',
      `    fittings: { magnet: { into: ${into}, at: [${points}]${more} } }\n`,
    ).replace('tiles:', 'fittings: { magnet: { diameter: 6 mm, depth: 2 mm, least wall: 1 mm } }\ntiles:');

  it('that come too near each other are told once, each pair with its numbers', async () => {
    const { stderr } = await check(magnets('left of slab', '[1, 1/4], [1 1/8, 1/4], [1 1/4, 1/4]'));
    expect(stderr.match(/error F22/g)).toHaveLength(1);
    // 3.175 mm from middle to middle and 6 mm wide: 2.825 mm in; 6.35 mm: 0.35 mm left. Computed.
    expect(stderr).toContain(
      '(3 in along, 1/4 in up) and (2 7/8 in along, 1/4 in up) run 1/8 in scant (-0.014) into each other',
    );
    expect(stderr).toContain(
      '(3 in along, 1/4 in up) and (2 3/4 in along, 1/4 in up) leave ~0.0138 in (-0.00002), and 1 mm is the least wall',
    );
    expect(stderr).toContain('middles at least 7 mm apart');
    expect((await check(magnets('left of slab', '[1, 1/4], [(1 + 7 mm), 1/4]'))).stderr).toBe('');
    expect((await check(magnets('left of slab', '[1, 1/4], [(1 + 6.999 mm), 1/4]'))).stderr).toContain('F22');
  });

  it('that come from two sides, one over the other, run into each other by what is less', async () => {
    // Of 5/16 deep from both faces of 1/2, 1/8 is shared in depth; beside each other they would share 6 mm.
    const through = magnets('top of slab', '[1, 1]', ', deep: 5/16').replace(
      'into: top of slab,',
      'into: [top of slab, bottom of slab],',
    );
    const { stderr } = await check(through);
    expect(stderr).toContain('run 1/8 in into each other');
  });

  it('are told which part slopes there, how much, and what does not', async () => {
    const ramp = magnets('back of deck', '[2, 2 1/2]')
      .replace('slab: {', 'base: { of: foam, size: [4, 4] }, deck: {')
      .replace('size: [4, 4] } }', 'size: [4, rest] } }')
      .replace('[slab]', '[base, { part: deck, slope: { to: back, rise: 3 } }]');
    const { stderr } = await check(ramp);
    expect(stderr).toContain('comes to "deck" from 0 in to');
    expect(stderr).toContain('that rises 3 in over 4 in, so no hole goes square into it');
    expect(stderr).toContain('let it into what neither slopes nor bends nor is folded: base');
  });

  it('that go on beyond all parts are told how deep they may go', async () => {
    const { stderr } = await check(magnets('bottom of slab', '[1, 1]', ', deep: 3/4'));
    expect(stderr).toContain('has no part around it from 1/2 in to 3/4 in deep');
    expect(stderr).toContain('or less deep:   deep: 1/2 in');
  });
});

describe('what sticks out', () => {
  it('of a skin over an arc is trimmed by plumb ends', async () => {
    const hump = (ends: string) =>
      onFour(
        'cheek: { of: greyboard, outline: { arched: { width: 4, sides: 1/4, rise: 3/4 } } }, skin: { of: greyboard, size: [4, rest] }',
        '{ across: [cheek, gap rest, cheek] }',
        `    added: [{ part: skin, over: [cheek 1, cheek 2], up to: 1/32${ends} }]\n`,
      );
    const { stderr } = await check(hump(''));
    expect(stderr).toContain('error F03');
    expect(stderr).toContain('ends: plumb   or allow it:   beyond: { front: … }');
    expect((await check(hump(', ends: plumb'))).stderr).toBe('');
    // Over half a circle its ends stand upright: there is nothing to trim.
    const half = (await check(hump('').replace('rise: 3/4', 'rise: 2'))).stderr;
    expect(half).toContain('"skin" sticks out 1/16 in [1.5875 mm] at the front');
    expect(half).toContain('move it, or allow it:   beyond: { front: … }');
    expect(half).not.toContain('plumb');
  });

  const lidded = (fill: string, more = '') =>
    onFour(
      `slab: { of: greyboard, size: [4, 4] }, fill: { of: foam, size: [3 3/4, 3 7/8] }, lid: { of: greyboard, folds: { tray: [4, 4], high: 1, tab: 1/4, laps: yes } }`,
      `{ up: [${fill}] }`,
      more,
    ).replace('slab: { of: greyboard, size: [4, 4] }, ', '');

  it('of a tray that laps over too little is told as its sides, with what is room', async () => {
    const { stderr } = await check(lidded('fill, lid'));
    expect(stderr).toContain('the folded sides of "lid" stick out 7/16 in [11.1125 mm] at the bottom');
    expect(stderr).toContain('sides of at most 9/16 in, or more to lie on');
    expect((await check(lidded('fill, lid').replace('high: 1,', 'high: 9/16,'))).stderr).toBe('');
  });

  it('and what such a tray is not filled to is told with how high it is', async () => {
    const box = lidded('{ part: lid, facing: bottom }, fill', '    height: 1\n');
    const { stderr } = await check(box);
    expect(stderr).toContain('error F01');
    expect(stderr).toContain(`the sides of "lid" are 1 in high, and don't count since it laps`);
    expect(stderr).not.toContain('thicknesses add up');
    expect((await check(box.replace('fill] }', 'fill], to: free }'))).stderr).toBe('');
  });
});

describe('the JSON of a check', () => {
  it('tells of a contact along a slope its second way', async () => {
    const ramp = onFour(
      'base: { of: greyboard, size: [4, 4] }, deck: { of: greyboard, size: [4, rest] }, cheek: { of: greyboard, size: [rest, rest] }',
      '{ up: [base, { part: deck, slope: { to: back, rise: 3 } }] }',
      '    added: [{ part: cheek, under: deck }]\n',
    );
    const { stdout } = await check(ramp, '--json');
    const { contacts } = JSON.parse(stdout).result.verdicts[0].build;
    // The deck rises to the back, so it lies above the cheek and before it: the one way is not the other.
    const along = contacts.find((it: { slant: unknown }) => it.slant !== null);
    expect(new Set([along.part, along.other])).toEqual(new Set(['deck', 'cheek']));
    const isUp = along.way === 'up';
    expect([along.way, along.slant.way].sort()).toEqual(['along', 'up']);
    expect(along.slant.sameSide).toBe(false);
    expect(isUp ? along.other : along.slant.sameSide ? along.other : along.part).toBe('deck');
    // A cheek on its base touches it squarely.
    expect(contacts.some((it: { slant: unknown }) => it.slant === null)).toBe(true);
  });
});

describe('what is let pass', () => {
  const boards = (accepted: string, flutes: string, more = '') => `cardwright: session
units: in
grid: { square: 3 }
materials: { twinwall: { thickness: 3/16, flutes: yes }, foam: { thickness: 1/2 } }
sheets: { twinwall: [{ size: [24, 16], flutes: length }], foam: [{ size: [24, 12] }] }
parts: { step: { of: twinwall, size: [2, 2], flutes: ${flutes}, accepted: { ${accepted} } } }
tiles:
  plain:
    parts: { slab: { of: foam, size: [3, 3] } }
    build: { up: [slab, step] }
  flush:
    parts: { bed: { of: foam, size: [3, 3] } }
    build: { up: [bed, step], flush: left }
make: { plain: 1, flush: 1${more} }
`;

  it('is told where no tile comes to that, once for all of them', async () => {
    const { stderr, code } = await check(boards('floating: glued, bare flutes: painted', 'length'));
    expect(stderr.match(/F\d\d/g)).toEqual(['F25', 'F25']); // and the page to explain it
    expect(stderr).toContain(
      '6:74: note F25: "step" lets "floating" pass, and in no tile does it come to that',
    );
    expect(code).toBe(0);
  });

  it('is needed where one tile does, and hides that alone', async () => {
    expect((await check(boards('bare flutes: painted', 'length'))).stderr).toBe('');
    expect(
      (await check(boards('weak strip: none', 'length'))).stderr.match(/(?:warning|note) F\d\d/g),
    ).toEqual(['note F25', 'warning F11', 'warning F11']);
  });

  it('is not told where a tile that may need it is not made', async () => {
    const { stderr } = await check(
      boards('floating: glued, bare flutes: painted', 'length').replace('plain: 1, flush: 1', 'flush: 1'),
    );
    expect(stderr).toBe('');
  });
});

describe('pieces of one part that differ', () => {
  const cheeks = (other: string) =>
    onFour(
      'base: { of: greyboard, size: [4, 4] }, deck: { of: greyboard, size: [2, rest] }, low: { of: greyboard, size: [2, rest] }, cheek: { of: greyboard, size: [rest, rest] }',
      `{ up: [base, { across: [{ part: deck, slope: { to: back, rise: 3 } }, { part: low, slope: ${other} }] }] }`,
      '    added: [{ part: cheek, under: deck }, { part: cheek, under: low }]\n',
    );

  it('under two slopes are told with what each would be, and no size that can not be said', async () => {
    const { stderr } = await check(cheeks('{ to: back, rise: 1 1/6 }'));
    expect(stderr).toContain(
      'error E55: "it": the width of "cheek" would be 3 in as "cheek 1" and 1 1/6 in as "cheek 2"',
    );
    expect(stderr).not.toContain('say its width');
    expect((await check(cheeks('{ to: front, rise: 3 }'))).stderr).toContain(
      'error E55: "it": "cheek" would be cut to 4 in x 3 in as "cheek 1" and cut to another slope as "cheek 2"',
    );
    expect((await check(cheeks('{ to: back, rise: 3 }'))).stderr).not.toContain('E55');
  });
});
