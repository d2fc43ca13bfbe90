import { describe, expect, it } from 'vitest';
import { showExact } from '../../src/measure/index.ts';
import { batchOf, check, expandText } from './check.ts';

const kit = `cardwright: kit
units: in
cutting: { kerf: 1/16, trim: 1/4, longest cut: 20 }
grid: { square: 3 }
materials:
  card: { thickness: 1/16, tool: knife, kerf: 1/32, trim: 3/16 }
  foam: { thickness: 1/2 }
sheets:
  card: [{ size: [8, 5] }, { size: [9, 5], trim: { left: 1/8 }, count: 3, price: 1.10 EUR }]
  foam: [{ size: A4 }]
tiles: { hut: { parts: { a: { of: card, size: [2, 1] }, b: { of: foam, size: [1, 1] } } } }
`;

function demands(session: string) {
  const batch = batchOf(`cardwright: session\nunits: in\nuses: [kit.yaml]\nmake: { hut: 1 }\n${session}`, {
    'kit.yaml': kit,
  });
  return Object.fromEntries(
    batch.materials.map(({ material, rules, sheets }) => [
      material.name,
      {
        tool: rules.tool,
        kerf: showExact(rules.kerf, 'in'),
        longest: rules.longestCut && showExact(rules.longestCut, 'in'),
        least: showExact(rules.leastStrip, 'in'),
        trims: sheets.map(({ trim }) => `${showExact(trim.left, 'in')} ${showExact(trim.right, 'in')}`),
      },
    ]),
  );
}

describe('the more particular wins', () => {
  it('material over kit, sheet over material', () => {
    expect(demands('')).toEqual({
      card: {
        tool: 'knife',
        kerf: '1/32 in',
        longest: '20 in',
        least: '0 in',
        trims: ['3/16 in 3/16 in', '1/8 in 0 in'],
      },
      foam: { tool: undefined, kerf: '1/16 in', longest: '20 in', least: '0 in', trims: ['1/4 in 1/4 in'] },
    });
  });

  it('session over kit, but not over the material', () => {
    const { card, foam } = demands('cutting: { kerf: 1/10, trim: 0, least strip: 1/4 }\n');
    expect(card).toMatchObject({
      kerf: '1/32 in',
      trims: ['3/16 in 3/16 in', '1/8 in 0 in'],
      least: '1/4 in',
    });
    expect(foam).toMatchObject({ kerf: '1/10 in', trims: ['0 in 0 in'] });
  });

  it('the session’s only over all but the sheet', () => {
    const { card, foam } = demands(
      'cutting: { kerf: 1/10, only: { card: { kerf: 0, trim: 1/2, tool: scissors } } }\n',
    );
    expect(card).toMatchObject({ kerf: '0 in', tool: 'scissors', trims: ['1/2 in 1/2 in', '1/8 in 0 in'] });
    expect(foam).toMatchObject({ kerf: '1/10 in', tool: undefined });
  });
});

describe('the rounds of cuts', () => {
  const rounds = (session: string) =>
    batchOf(`cardwright: session\nunits: in\nuses: [kit.yaml]\nmake: { hut: 1 }\n${session}`, {
      'kit.yaml': kit,
    }).materials.map((it) => it.rules.rounds);

  it('are unlimited, or the more particular place says how many', () => {
    expect(rounds('')).toEqual([undefined, undefined]);
    expect(rounds('cutting: { rounds: 3, only: { card: { rounds: 2 } } }\n')).toEqual([2, 3]);
  });
});

describe('offcuts and sheets', () => {
  it('come from every file, offcuts first; an offcut has no trim and is there once', () => {
    const text =
      'cardwright: session\nunits: in\nuses: [kit.yaml]\nmake: { hut: 1 }\noffcuts: { card: [{ size: [4, 3], label: C1 }] }\nsheets: { card: [{ size: [20, 10] }] }\n';
    const sheets = batchOf(text, { 'kit.yaml': kit }).materials[0]?.sheets ?? [];
    expect(
      sheets.map(({ isOffcut, length, available, trim, label }) => [
        isOffcut,
        showExact(length, 'in'),
        available,
        showExact(trim.left, 'in'),
        label,
      ]),
    ).toEqual([
      [true, '4 in', 1, '0 in', 'C1'],
      [false, '20 in', 'as needed', '3/16 in', undefined],
      [false, '8 in', 'as needed', '3/16 in', undefined],
      [false, '9 in', 3, '1/8 in', undefined],
    ]);
  });

  // Source: ISO 216, A4 = 210 x 297 mm.
  it('have named sizes, whatever the unit of the file', () => {
    const foam = batchOf(kit).materials.find(({ material }) => material.name === 'foam');
    expect(
      foam?.sheets.map(({ length, width }) => [showExact(length, 'mm'), showExact(width, 'mm')]),
    ).toEqual([['297 mm', '210 mm']]);
  });

  it('may be missing altogether: that is for the packing to say', () => {
    const batch = batchOf(
      'loose: { post: { of: greyboard, size: [2, 1/2] } }\n'.replace(
        /^/,
        `cardwright: session
units: in
materials: { greyboard: { thickness: 1/16 } }
`,
      ),
    );
    expect(batch.materials[0]?.sheets).toEqual([]);
  });
});

describe('two files of one rank', () => {
  const fence = (kerf: string) => `cardwright: kit\nunits: in\ncutting: { kerf: ${kerf} }\n`;
  const yard = `cardwright: kit
units: in
uses: [fence.yaml]
cutting: { kerf: 1/16 }
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
tiles: { hut: { parts: { a: { of: card, size: [2, 1] } } } }
`;

  it('may say the same', () => {
    expect(expandText(yard, { 'fence.yaml': fence('2/32') }).diagnostics).toEqual([]);
  });

  it('may not differ (E36)', () => {
    expect(expandText(yard, { 'fence.yaml': fence('1/32') }).diagnostics).toMatchObject([
      { code: 'E36', message: 'two files say something different about the kerf' },
    ]);
  });
});

it('has the measured thickness in every sum, and keeps the nominal one', () => {
  const batch = batchOf(`cardwright: session
units: mm
materials: { card: { thickness: 1.5, measured: 1.6 } }
measured: { card: 1.45 }
loose: { post: { of: card, size: [(10 x thickness of card), 5] } }
`);
  const [demand] = batch.materials;
  expect(
    demand &&
      [demand.material.nominal, demand.material.measured, demand.material.thickness].map(
        (it) => it && showExact(it, 'mm'),
      ),
  ).toEqual(['1.5 mm', '1.45 mm', '1.45 mm']);
  expect(demand && showExact(demand.parts[0].length, 'mm')).toBe('14.5 mm');
});

it('tells the faults of kerfs and trims, used tonight or not', () => {
  check(`
cutting: { kerf: (0 - 1), only: { card: { trim: nope } } }
#                ^^^^^^^ error E12: comes to -1 in; it has to be at least zero
#                                               ^^^^ error E01: unknown name "nope"
`);
});
