import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Ran, run } from '../cli/memoryWorld.ts';

/** The demo kits, each with one thing broken; and what is said of it, and nothing else. */
const shipped = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const shelf = { 'shared/card-and-foam.yaml': shipped('shared/card-and-foam.yaml') };
const hillside = shipped('specs/hillside.yaml');
const tramStop = shipped('specs/tram-stop.yaml');

async function check(kit: string, ...more: readonly string[]): Promise<Ran> {
  return run(['check', 'specs/kit.yaml', ...more], { files: { ...shelf, 'specs/kit.yaml': kit } });
}

function broken(kit: string, from: string, to: string): string {
  if (!kit.includes(from)) throw new Error(`the kit no longer says ${from}`);
  return kit.replace(from, to);
}

const told = ({ stderr }: Ran) =>
  [...stderr.matchAll(/: (?:error|warning) ([A-Z]\d\d): "([^"]*)"/g)].map(
    ([, code, tile]) => `${code} ${tile}`,
  );

describe('the demo kits', () => {
  it.each([hillside, tramStop])('are sound', async (kit) => {
    const ran = await check(kit);
    expect(ran.stderr).toBe('');
    expect(ran.code).toBe(0);
    expect(ran.stdout).not.toMatch(/^no /m);
  });

  it.each([
    [
      'a core as wide as the square',
      hillside,
      'core: (square - 2 x thickness of greyboard)',
      'core: square',
      ['F01 retaining wall', 'F01 grassed wall'],
    ],
    [
      'a layer too many',
      hillside,
      '2 x layer, 2 x fill',
      '3 x layer, 2 x fill',
      ['F01 retaining wall', 'F01 grassed wall'],
    ],
    [
      'a wall lower than its core',
      hillside,
      'size: [square, upper]\n        cuts: [{ hole: { master: drain }, bottom: (terrace + 1/16) }]',
      'size: [square, terrace]',
      ['F12 retaining wall', 'F12 grassed wall', 'F06 retaining wall', 'F06 grassed wall'],
    ],
    ['treads that are not there', hillside, 'tread 3], flush: back', 'tread 3]', ['F06 steps']],
    [
      'a cistern with walls as high as their kerbs',
      hillside,
      'size: [rest, (terrace - thickness of twinwall - thickness of greyboard)] }',
      'size: [rest, (terrace - thickness of twinwall)] }',
      ['F03 cistern', 'F06 cistern'],
    ],
    ['a ramp of four fills', hillside, '5 x fill', '4 x fill', ['F01 shoulder ramp']],
    [
      'flutes lying in a liner that bears a skin',
      hillside,
      'outline: { master: shoulder }, flutes: upright',
      'outline: { master: shoulder }, flutes: length',
      ['F09 shoulder ramp'],
    ],
    [
      'a kerb of the wrong height',
      tramStop,
      'kerb:   { of: bookboard, size: [tile across, platform]',
      'kerb:   { of: bookboard, size: [tile across, 13]',
      ['F01 platform'],
    ],
    [
      'a deck without its kerb',
      tramStop,
      'along: [kerb, { name: deck',
      'along: [{ name: deck',
      ['F01 platform', 'F01 shelter'],
    ],
    [
      'a roof that hangs in the air',
      tramStop,
      '- { part: roof, length: along, facing: top, overhang: { back: 2 } }',
      '- gap 1\n          - { part: roof, length: along, facing: top, overhang: { back: 2 } }',
      ['F05 shelter'],
    ],
    [
      'a roof whose lip is folded down where the panel stands',
      tramStop,
      'facing: top, overhang: { back: 2 } }',
      'facing: top, overhang: { back: 1 } }',
      ['F04 shelter'],
    ],
    [
      'a roof that is folded upwards',
      tramStop,
      'angles: [{ rise: 3, run: 4 }, 90], width: (posts + 4), laps: yes }',
      'angles: [{ rise: 3, run: 4 }, 90], width: (posts + 4) }',
      ['F05 shelter'],
    ],
    ['a rail too many', tramStop, 'gap groove, rail, verge]', 'gap groove, 2 x rail, verge]', []],
    [
      'planks for a planter',
      tramStop,
      'size: [24, 10], grain: length, floor: no }',
      'size: [62, 10], grain: length, floor: no }',
      ['F03 planter'],
    ],
    [
      'a wall that is declared where nothing goes up',
      hillside,
      'edges: { front: valley, back: terrace }',
      'edges: { front: { foot: valley }, back: terrace }',
      ['F12 steps'],
    ],
    [
      'banks that nobody stands on',
      hillside,
      'bank:  { of: greyboard,',
      'bank:  { floor: no, of: greyboard,',
      ['F07 stream'],
    ],
    [
      'a level that no layers add up to',
      hillside,
      'valley: 1/4, terrace',
      'valley: 5/16, terrace',
      ['F06 steps', 'F01 stream'],
    ],
    [
      'rails across the grain',
      tramStop,
      'thickness of foamboard], grain: length }',
      'thickness of foamboard], grain: width }',
      ['F10 rails'],
    ],
    [
      'a kerb too high for its rule',
      tramStop,
      'title: Tram stop\n',
      'title: Tram stop\nprint: { ruler: 1/16 in }\n',
      ['F02 street', 'F02 rails', 'F02 platform', 'F02 shelter', 'F02 planter', 'F02 kiosk'],
    ],
    [
      'a deck clad at its front edge',
      tramStop,
      'paving: { of: thin card, size: [tile across, deck depth] }',
      'paving: { of: thin card, size: [tile across, deck depth], clad: { bottom: thin card } }',
      ['F01 platform', 'F01 shelter'],
    ],
    [
      'a kiosk that is folded too wide for its square',
      tramStop,
      'to: 22 }]\n            to: 30',
      'to: 22 }]\n            to: 62',
      ['F03 kiosk'],
    ],
    ['a low rack', tramStop, '[255, 190, 95]', '[255, 190, 40]', ['F08 shelter']],
  ] as const)('broken by %s', async (_, kit, from, to, verdicts) => {
    const ran = await check(broken(kit, from, to));
    const expected = [...new Set<string>(verdicts)];
    expect([...new Set(told(ran).filter((it) => !it.startsWith('E')))], ran.stderr).toEqual(expected);
    expect(ran.code).toBe(verdicts.some((it) => /^F0[1-8]/.test(it)) ? 1 : ran.code);
  });
});

describe('a build that can not be', () => {
  it.each([
    [
      'a part that is not there',
      'build: { up: [bed, fill, turf] }',
      'build: { up: [bed, fil, turf] }',
      'E50',
    ],
    ['a part that stands nowhere', 'build: { up: [bed, fill, turf] }', 'build: { up: [bed, turf] }', 'E51'],
    [
      'counts that disagree',
      '2 1/2, 1/4], grain: width, by eye: 6',
      '2 1/2, 1/4], grain: width, by eye: 6, count: 5',
      'E52',
    ],
    [
      'an empty row',
      'build: { up: [bed, fill, turf] }',
      'build: { up: [bed, { across: [] }, fill, turf] }',
      'S50',
    ],
    ['variants in a loop', '  retaining wall:   ', '  retaining wall:\n    like: grassed wall #', 'E23'],
    ['alignments that contradict', 'tread 3], flush: back }', 'tread 3], flush: [back, front] }', 'E56'],
    [
      'a part that looks where it has no face',
      '{ part: cheek, facing: left }',
      '{ part: cheek, facing: top }',
      'E58',
    ],
    [
      'a basin as wide as the square',
      'water: { of: packet card, size: [rest, rest], note',
      'water: { of: packet card, size: [square, square], note',
      'E42',
    ],
    [
      'a mitre between foam and board',
      'front: wall, back: wall, left: wall, right: wall',
      'front: wall, back: wall, left: kerb, right: kerb',
      'E41',
    ],
    [
      'three mitred walls of one part',
      'back: wall, left: wall, right: wall',
      'left: wall, right: wall',
      'E45',
    ],
    ['two lots of room', 'size: [square, core], note: one', 'size: [square, rest], note: one', undefined],
  ] as const)('is refused: %s', async (_, from, to, code) => {
    const ran = await check(broken(hillside, from, to));
    if (code === undefined) return expect(ran.code).toBe(0);
    expect(ran.stderr).toMatch(new RegExp(`(?:error|warning) ${code}:`));
    if (code === 'E51') return;
    expect(ran.code).toBe(1);
    // Nothing is said to fit while something is not understood.
    expect(ran.stdout).not.toMatch(/^ok/m);
  });
});

describe('added members', () => {
  it.each([
    [
      '{ part: kerb, against: top of wall 4, flush: right }',
      '{ part: kerb, against: top of wall 4, times: 2 }',
      'a place of its own and times contradict',
    ],
    [
      'against: top of wall 1, flush: left',
      'at: [0, 0, (terrace - thickness of greyboard)], flush: left',
      'at and an alignment contradict',
    ],
  ])('never take a word without heeding it: %s', async (from, to, words) => {
    const ran = await check(broken(hillside, from, to));
    expect(ran.stderr).toContain(`error E56: ${words}`);
    expect(ran.stdout).toBe('');
  });
});

describe('check --fix', () => {
  const wrong = broken(hillside, 'core: (square - 2 x thickness of greyboard)', 'core: 3');

  it('writes the one size that closes, and nothing else', async () => {
    const ran = await check(wrong, '--fix');
    expect(ran.text('specs/kit.yaml')).toBe(broken(wrong, 'core: 3', 'core: 2 7/8'));
    expect(ran.stdout).toContain('  - ');
    expect(ran.code).toBe(0);
  });

  it('shows what it would write in a dry run', async () => {
    const ran = await check(wrong, '--fix', '--dry-run');
    expect(ran.text('specs/kit.yaml')).toBe(wrong);
    expect(ran.stdout).toContain('core: 2 7/8');
    // It ends as the real run would.
    expect(ran.code).toBe(0);
  });

  it('says where a measure takes the place of a sum, whose remark may no longer be true', async () => {
    const said = 'a measure in place of a sum: it will follow nothing any more; see whether the remark';
    const kit = broken(
      hillside,
      '(square - 2 x thickness of greyboard) ',
      '(square - thickness of greyboard) ',
    );
    expect((await check(kit, '--fix', '--dry-run')).stdout).toContain(said);
    const plain = broken(hillside, /core: .*/.exec(hillside)?.[0] ?? '', 'core: 3');
    expect((await check(plain, '--fix', '--dry-run')).stdout).not.toContain('in place of a sum');
  });

  it('keeps line ends and a byte order mark', async () => {
    const windows = `\ufeff${wrong.replaceAll('\n', '\r\n')}`;
    const ran = await check(windows, '--fix');
    const bytes = ran.files.get('specs/kit.yaml');
    expect([...(bytes ?? []).slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(ran.text('specs/kit.yaml').replace(/^\ufeff/, '')).toBe(
      broken(windows.slice(1), 'core: 3', 'core: 2 7/8'),
    );
  });

  it('leaves alone what several sizes would mend', async () => {
    const kit = broken(tramStop, 'groove: 1 }', 'groove: 1, side: 14 }').replaceAll(
      '[square, rest], lies',
      '[square, 28], lies',
    );
    const ran = await check(kit, '--fix');
    expect(ran.text('specs/kit.yaml')).toBe(kit);
    expect(ran.stderr).toContain('note N01');
    expect(ran.code).toBe(1);
  });
});

describe('check --with', () => {
  it('tries another thickness in every sum', async () => {
    const ran = await check(tramStop, '--with', 'thin card=1 mm');
    expect([...new Set(told(ran))]).toEqual(['F01 platform', 'F06 shelter']);
    expect((await check(tramStop, '--with', 'bookboard=1.45 mm')).code).toBe(0);
  });

  it('tells once what one thin material does: of a floor only where it is low by something else', async () => {
    const said = told(await check(hillside, '--with', 'twinwall=1/8 in'));
    expect(said.filter((it) => it.endsWith(' terrace'))).toEqual(['F01 terrace']);
    // Short by three layers of card, and low by one of them at the front.
    expect(said.filter((it) => it.endsWith(' steps'))).toEqual(['F01 steps', 'F06 steps']);
  });

  it('goes over what the files have measured', async () => {
    const kit = broken(tramStop, 'thin card: { thickness: 0.5,', 'thin card: { thickness: 0.5, measured: 1,');
    expect((await check(kit)).code).toBe(1);
    expect((await check(kit, '--with', 'thin card=0.5 mm')).code).toBe(0);
  });

  it('knows the materials', async () => {
    const ran = await check(tramStop, '--with', 'thin cord=1 mm');
    expect(ran.stderr).toContain('error E05');
    expect(ran.stderr).toContain('did you mean "thin card"?');
  });

  it('names the shims that a thin stack needs', async () => {
    const kit = broken(hillside, 'up: [bed, fill, turf] }', 'up: [bed, fill] }')
      .replace('packet card, size: [2 1/2, 1/4]', 'greyboard, size: [2 1/2, 1/4]')
      .replace(', grain: width, by eye: 6', ', by eye: 6');
    const ran = await check(kit);
    expect(ran.stderr).toContain('shims close it: 1 of greyboard, 1/16 in each');
  });

  it('shows the thickness of shims as materials are shown everywhere', async () => {
    const ran = await check(hillside, '--with', 'greyboard=1.4 mm');
    expect(ran.stderr).toContain('shims close it: 1 of packet card, 0.018 in each');
  });
});

describe('check --sensitivity', () => {
  it('says how far a material may be off', async () => {
    const ran = await check(tramStop, '--sensitivity');
    // 2 x 5 + 1.5 + 0.5 = 12 is full; the slack of 0.4 mm lets the card be as thin as 0.1 mm: computed.
    expect(ran.stdout).toContain(
      'thin card, 0.5 mm: may measure 0.1 to 0.5 mm; thicker or thinner, platform',
    );
  });

  it('agrees with trying those thicknesses', async () => {
    for (const [thickness, code] of [
      ['0.1', 0],
      ['0.099', 1],
      ['0.5', 0],
      ['0.501', 1],
    ] as const) {
      const ran = await check(tramStop, '--with', `thin card=${thickness} mm`);
      expect([thickness, /error F01/.test(ran.stderr) ? 1 : 0]).toEqual([thickness, code]);
    }
  });

  it('says which parts follow from it where no row closes by it, and what is still right then', async () => {
    const ran = await check(hillside, '--sensitivity');
    const said = ran.stdout.replace(/\s+/g, ' ');
    expect(said).not.toContain('closes nothing');
    // The master of the ramp is lower by the skin, which is of packet card.
    expect(said).toMatch(
      /packet card, 0\.4572 mm: no row closes by it; cut otherwise with it: [^;]*liner of shoulder ramp \(width\)/,
    );
    expect(said).toMatch(/with ~0\.41 \(\+0\.0015\) mm or ~0\.50 \(\+0\.0029\) mm nothing else goes wrong/);
    expect(said).toMatch(/foam, 12\.7 mm: [^:]*: [^:]*kerb of cistern \(length, width\)/);
    expect(said).toMatch(/foam, 12\.7 mm: [^:]*: [^:]*wall of cistern \(bevels\)/);
  });

  it('says what goes wrong before a tile stops closing', async () => {
    // A step of 1/2 in that is to be 1/2 in high, by no more than the lip of 1/64 in; nothing has to close upward.
    const kit = `cardwright: session
units: in
grid: { square: 3, lip: 1/64 }
materials: { foam: { thickness: 1/2 }, card: { thickness: 1/32 }, felt: { thickness: 1/8 } }
sheets: { foam: [{ size: [24, 12] }], card: [{ size: [16, 12] }], felt: [{ size: [16, 12] }] }
tiles:
  step:
    parts: { slab: { of: foam, size: [3, 3] } }
    build: { up: [slab] }
    edges: { front: 1/2, back: 1/2 }
loose: { tag: { of: card, size: [1, 1] }, pad: { of: felt, size: [(1 + thickness of foam), 1] } }
make: { step: 1 }
`;
    const { stdout } = await check(kit, '--sensitivity');
    const said = stdout.replace(/\s+/g, ' ');
    expect(said).toContain('cut otherwise with it: pad (length)');
    expect(said).toContain(
      'with 11.43 mm, step: the floor at the front is off its level and step: the floor at the back is off its level; with 13.97 mm, step: the floor',
    );
    expect(said).toContain('card, ~0.79 (+0.0038) mm: nothing hangs on it, so it may measure what it likes');
    const { result } = JSON.parse((await check(kit, '--sensitivity', '--json')).stdout);
    expect(result.sensitivity[0]).toMatchObject({
      material: 'foam',
      most: null,
      least: null,
      cutOtherwise: [{ tile: null, part: 'pad', what: ['length'] }],
      trials: [
        {
          thickness: { mm: '1143/100' },
          faults: [{ tile: 'step', kind: 'level is off', parts: ['slab'] }, {}],
        },
        { thickness: { mm: '1397/100' }, errors: [] },
      ],
    });
  });

  it('says what can not be worked out with another thickness', async () => {
    const kit = `cardwright: session
units: mm
materials: { board: { thickness: 1.5 } }
sheets: { board: [{ size: A3 }] }
loose: { lid: { of: board, folds: { tray: [60, 40], high: 3.2, tab: 3.1 } } }
`;
    const { stdout } = await check(kit, '--sensitivity');
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'with 1.65 mm, T38 the height of the tray is 3.2 mm; it has to be more than 3.3 mm',
    );
  });
});
