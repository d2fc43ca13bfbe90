import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { millimetres, rational, toFraction } from '../../src/measure/index.ts';
import type { Build, Length, Outline, PartKind, StandingPart } from '../../src/model/index.ts';
import { mirrored, outlineKey } from '../../src/outline/index.ts';
import { kernelOfSolids } from '../fit/bodiesByHand.ts';
import { batchOf, check, expandText } from './check.ts';

const head = `cardwright: kit
units: mm
materials: { board: { thickness: 1.5, grain: yes }, card: { thickness: 1/2 } }
sheets: { board: [{ size: A3, grain: length }], card: [{ size: A3 }] }
`;
/** A tile with one part that is folded. */
const part = (folds: string, more = ''): string => `${head}tiles:
  bits:
    footprint: none
    parts:
      strip: { of: board, folds: ${folds}${more} }
`;
/** The same part standing in a tile of 200 by 200. */
const built = (folds: string, row: string, more = ''): string => `${head}tiles:
  hall:
    footprint: [200, 200]
    parts:
      strip: { of: board, folds: ${folds}${more} }
    build: ${row}
`;

const rulerStep = millimetres(rational(1n, 2n));
const kindOf = (text: string): PartKind => batchOf(text).materials[0]!.parts[0]!;
const sizeOf = ({ length, width }: { length: Length; width: Length }): string =>
  `${toFraction(length)} × ${toFraction(width)}`;
const drawnOf = (kind: PartKind) => kind.members[0].drawn!;
const buildOf = (text: string): Build => {
  const { value, diagnostics } = expandText(text);
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  return value!.builds[0]!;
};
const onlyPart = (text: string): StandingPart => buildOf(text).parts[0]!;
const blockOf = ({ block: { low, high } }: StandingPart): string =>
  (['across', 'along', 'up'] as const)
    .map((way) => `${toFraction(low[way])}..${toFraction(high[way])}`)
    .join(' ');
const corners = ({ rim }: Outline): readonly string[] =>
  rim.map(({ from }) => `${toFraction(from.x)},${toFraction(from.y)}`).sort();

describe('a folded part', () => {
  it('is cut to its panels less what its folds take, with its grain along them', () => {
    // Source: computed. 12 + 30 + 12 less two thicknesses of 1.5 a fold.
    const kind = kindOf(part('{ panels: [12, 30, 12], angles: [90, 90], width: 40 }'));
    expect(sizeOf(kind)).toBe('48 × 40');
    expect(kind.grain).toBe('width');
    expect(drawnOf(kind).outline!.marks).toHaveLength(2);
    expect(sizeOf(kindOf(part('{ panels: [12, 30, 12], angles: [90, 90], width: 40, by: crease }')))).toBe(
      '51 × 40',
    );
    expect(sizeOf(kindOf(part('{ panels: [12, 30, 12], angles: [90, 90], width: 40, allowance: 1 }')))).toBe(
      '52 × 40',
    );
  });

  it('folds its tabs as the fold beside them, where nothing else is said', () => {
    const ways = (folds: string) =>
      drawnOf(kindOf(part(folds))).outline!.marks.map((it) => (it.kind === 'fold' ? it.way : ''));
    expect(ways('{ panels: [12, 30], angles: [-90], width: 40, tab: 6 }')).toEqual(['toward', 'toward']);
    expect(ways('{ panels: [12, 30], angles: [-90, 45], width: 40, tab: 6 }')).toEqual(['toward', 'away']);
    expect(ways('{ panels: [12, 30], angles: [-90], width: 40, tab: [6, 6] }')).toEqual(
      Array(3).fill('toward'),
    );
    expect(
      drawnOf(kindOf(part('{ panels: [12, 30], angles: [90], width: 40, tab: [6, 6] }'))).folds?.tabs,
    ).toEqual([0, 3]);
  });

  it('is rounded outward where no rule has its length, and what it truly is stands beside it', () => {
    // Source: computed. 40 − 3 · tan 22.5° = 38.757…, up to the next 0.1 mm.
    const kind = kindOf(part('{ panels: [20, 20], angles: [45], width: 30 }', ', good side: yes'));
    expect(sizeOf(kind)).toBe('194/5 × 30');
    const { folds, roundedTo } = drawnOf(kind);
    expect(toFraction(roundedTo!)).toBe('1/10');
    const truly = folds!.developed;
    expect(toFraction(truly.lo)).not.toBe(toFraction(truly.hi));
  });

  it('has its sizes in sums, and takes cuts and marks in the flat', () => {
    const text = `${head}tiles:
  bits:
    footprint: none
    parts:
      strip: { of: board, folds: { panels: [12, 30, 12], angles: [90, 90], width: 40 }, cuts: [{ hole: { circle: 10 } }] }
      twin: { of: card, size: [(length of strip), (width of strip)] }
`;
    const [board, card] = batchOf(text).materials;
    expect(sizeOf(card!.parts[0]!)).toBe('48 × 40');
    expect(drawnOf(board!.parts[0]!).outline!.holes).toHaveLength(1);
  });

  it('is changed as a whole by a part that is like it', () => {
    const text = `${head}tiles:
  bits:
    footprint: none
    parts:
      strip: { of: board, folds: { panels: [12, 30, 12], angles: [90, 90], width: 40 } }
      flat: { like: strip, folds: none, size: [30, 40] }
      other: { like: strip, folds: { panels: [12, 12], angles: [90], width: 40 } }
`;
    // Parts that may turn freely lie with their longer size along.
    expect(batchOf(text).materials[0]!.parts.map(sizeOf).sort()).toEqual(['40 × 21', '40 × 30', '48 × 40']);
  });

  it('is told apart from its other hand, panel by panel', () => {
    const folds = '{ panels: [5, 30, 12], angles: [90, 90], width: 40 }';
    const one = drawnOf(kindOf(part(folds, ', good side: yes')));
    const other = drawnOf(kindOf(part(folds, ', mirrored: yes')));
    expect(other.folds!.panels.map(toFraction)).toEqual(one.folds!.panels.map(toFraction).reverse());
    expect(outlineKey(other.outline!)).toBe(outlineKey(mirrored(one.outline!)));
    expect(outlineKey(other.outline!)).not.toBe(outlineKey(one.outline!));
  });
});

describe('a folded part in a build', () => {
  const channel = '{ panels: [12, 30, 10], angles: [90, 90], width: 40 }';

  it('stands as what it is folded up to', () => {
    // Lying, its length across, its good side up: it opens downward.
    const piece = onlyPart(built(channel, '{ up: [strip], flush: [left, front] }'));
    expect(blockOf(piece)).toBe('0..30 0..40 0..12');
    expect(piece.profile!.along).toBe('along');
    expect(corners(piece.profile!.outline)).toEqual(
      ['0,0', '0,12', '3/2,0', '3/2,21/2', '57/2,2', '57/2,21/2', '30,12', '30,2'].sort(),
    );
    expect(piece.grain).toBe('along');
  });

  it('runs the other way round where it is flipped, and opens where its good side does not look', () => {
    const outlineOf = (row: string) => corners(onlyPart(built(channel, row)).profile!.outline);
    // Source: computed by hand from the drawing above: x' = 30 − x, y' = 12 − y.
    expect(outlineOf('{ up: [{ part: strip, flip: length }], flush: [left, front] }')).toEqual(
      ['30,12', '30,0', '57/2,12', '57/2,3/2', '3/2,10', '3/2,3/2', '0,0', '0,10'].sort(),
    );
    expect(outlineOf('{ up: [{ part: strip, facing: bottom }], flush: [left, front] }')).toEqual(
      ['0,12', '0,0', '3/2,12', '3/2,3/2', '57/2,10', '57/2,3/2', '30,0', '30,10'].sort(),
    );
  });

  it('stands any way that a part can, with its folds the way of its width', () => {
    const said = fc.record({
      thickness: fc.constantFrom('across', 'along', 'up'),
      length: fc.constantFrom('across', 'along', 'up'),
      flip: fc.constantFrom('', ', flip: length', ', flip: width', ', flip: both'),
    });
    fc.assert(
      fc.property(
        said.filter(({ thickness, length }) => thickness !== length),
        ({ thickness, length, flip }) => {
          const member = `{ part: strip, thickness: ${thickness}, length: ${length}${flip} }`;
          const piece = onlyPart(built(channel, `{ up: [${member}], flush: [left, front] }`));
          const width = ['across', 'along', 'up'].find((it) => it !== thickness && it !== length)!;
          const sizes: Record<string, string> = { [length]: '30', [width]: '40', [thickness]: '12' };
          expect(blockOf(piece)).toBe(['across', 'along', 'up'].map((it) => `0..${sizes[it]}`).join(' '));
          expect(piece.profile!.along).toBe(width);
          // It opens away from where its good side looks: its web lies at that end.
          const isHigh = ['right', 'back', 'top'].includes(piece.facing);
          const [x, y] = ['across', 'along', 'up'].filter((it) => it !== width);
          const at = thickness === x ? 0 : 1;
          const low = corners(piece.profile!.outline).filter((it) => it.split(',')[at] === '0').length;
          expect([x, y]).toContain(thickness);
          expect(low).toBe(2);
          const web = isHigh ? '12' : '0';
          const along = at === 0 ? 1 : 0;
          const ends = corners(piece.profile!.outline)
            .filter((it) => it.split(',')[at] === web)
            .map((it) => it.split(',')[along]);
          expect(ends.sort()).toEqual(['0', '30']);
        },
      ),
    );
  });

  it('takes the rest of its room in its width', () => {
    const piece = onlyPart(
      built(channel.replace('width: 40', 'width: rest'), '{ up: [strip], flush: [left, front] }'),
    );
    expect(blockOf(piece)).toBe('0..30 0..200 0..12');
  });

  it('laps over what it lies on, where it says so', () => {
    const text = `${head}tiles:
  hall:
    footprint: [200, 200]
    parts:
      block: { of: card, size: [27, 40], count: 1 }
      strip: { of: board, folds: { panels: [12, 30, 12], angles: [90, 90], width: 40, laps: yes } }
    build: { up: [block, strip], flush: [left, front] }
`;
    // Lying on the block, half a millimetre thick, its lips hang down past the table: the base counts alone.
    const [, strip] = buildOf(text).parts;
    expect(blockOf(strip!)).toBe('0..30 0..40 -10..2');
    expect(toFraction(buildOf(text).row.extent.up)).toBe('2');
  });
});

describe('what is wrong with folds', () => {
  /** @param at  the characters that it points at, from where they first stand behind their key */
  const bits = (folds: string, key: string, at: string, message: string): void => {
    const line = `      strip: { of: board, folds: ${folds} }`;
    const start = line.indexOf(at, line.indexOf(`${key}:`) + key.length + 1);
    check(`
cardwright: kit
units: mm
materials: { board: { thickness: 1.5, grain: yes } }
tiles:
  bits:
    footprint: none
    parts:
${line}
#${' '.repeat(start - 1)}${'^'.repeat(at.length)} error ${message}
`);
  };

  it.each([
    [
      '{ panels: [20, 3, 20], angles: [90, 90], width: 9 }',
      ...['panels', '3', 'T30: panel 2 is 3 mm on its outside, and the folds beside it take 3 mm of that'],
      ', in material 1.5 mm thick',
    ],
    [
      '{ panels: [20, 10], angles: [90], width: 9, tab: 1 }',
      ...['tab', '1', 'T30: the tab is 1 mm on its outside, and the folds beside it take 1.5 mm of that'],
      ', in material 1.5 mm thick',
    ],
    [
      '{ panels: [20, 10, 20, 11], angles: [90, 90, 90], width: 9 }',
      ...['panels', '11', 'T31: folded, panel 4 runs into panel 1: they share 1.5 mm by 1.5 mm', ''],
    ],
    [
      '{ panels: [20, 10], angles: [90, 90, 90], width: 9, tab: 6 }',
      ...['angles', '[90, 90, 90]', 'T32: 2 panels fold at 1 or 2, and 3 angles are given', ''],
    ],
    [
      '{ panels: [20], angles: [], width: 9 }',
      ...['angles', '[]', 'T32: 1 panel without a tab has no fold, and 0 angles are given', ''],
    ],
    [
      '{ panels: [20, 10], angles: [-180], width: 9 }',
      ...['angles', '-180', 'T33: a fold of -180° is none, or leaves no room for the thickness', ''],
    ],
    [
      '{ panels: [20, 10], angles: [{ rise: 0, run: 4 }], width: 9 }',
      ...[
        'angles',
        '{ rise: 0, run: 4 }',
        'T33: a fold of 0 in 4 is none',
        ', or leaves no room for the thickness',
      ],
    ],
    [
      '{ panels: [20, 10], angles: [90], width: 9, base: 3 }',
      ...['base', '3', 'T34: there is no panel 3: the strip has 2', ''],
    ],
    [
      '{ panels: [20, 20], angles: [90], width: 9, laps: yes }',
      ...[
        'laps',
        'yes',
        'T37: no panel of it lies level, so nothing can be said to lap over what it lies on',
        '',
      ],
    ],
    [
      '{ tray: [60, 40], high: 12, tab: 14 }',
      ...['tab', '14', 'T38: the tab of the tray is 14 mm; it has to be less than 12 mm', ''],
    ],
  ] as const)('is told where it is written: %s', (folds, key, at, message, rest) => {
    bits(folds, key, at, `${message}${rest}`);
  });

  it('is told of keys that lack, or stand beside what they do not go with', () => {
    const codes = (text: string) => expandText(text).diagnostics.map(({ code }) => code);
    expect(codes(part('{ panels: [12, 30], angles: [90], width: 40 }', ', grain: length'))).toEqual(['T36']);
    expect(
      codes(
        part(
          '{ panels: [12, 30], angles: [90], width: 40 }',
          ', grain: length, accepted: { folds across: a narrow strip }',
        ),
      ),
    ).toEqual([]);
    expect(codes(part('{ panels: [12, 30], angles: [90], width: 40 }', ', size: [42, 40]'))).toEqual(['T35']);
  });
});

describe('a tray', () => {
  it('is cut from a blank with its corners notched', () => {
    const kind = kindOf(part('{ tray: [60, 40], high: 12, tab: 8 }'));
    expect(sizeOf(kind)).toBe('78 × 58');
    expect(drawnOf(kind).folds!.isTray).toBe(true);
  });

  const tray = '{ tray: [60, 40], high: 12, tab: 8 }';

  it('stands as its outer sizes, open where its good side does not look', () => {
    const { parts } = buildOf(built(tray, '{ up: [strip], flush: [left, front] }'));
    expect(parts.map(({ name }) => name)).toEqual([
      'strip',
      ...[1, 2].map((it) => `strip, end wall ${it}`),
      ...[1, 2, 3, 4].map((it) => `strip, tab ${it}`),
    ]);
    expect(parts.slice(0, 4).map(blockOf)).toEqual([
      '0..60 0..40 0..12',
      '0..3/2 3/2..77/2 0..21/2',
      '117/2..60 3/2..77/2 0..21/2',
      '3/2..3 3/2..8 0..21/2',
    ]);
    const up = buildOf(built(tray, '{ up: [{ part: strip, facing: bottom }], flush: [left, front] }'));
    expect(blockOf(up.parts[1]!)).toBe('0..3/2 3/2..77/2 3/2..12');
  });

  it('is cut once, however many walls it has', () => {
    const text = built(tray, '{ up: [2 x strip], flush: [left, front] }');
    const { value } = expandText(text);
    expect(value!.materials[0]!.parts.map(({ count }) => count)).toEqual([2]);
  });

  it('fills what its walls and tabs fill, and no place twice, any way that it stands', async () => {
    // Source: manifold-3d 3.5.4; the volumes computed: the box less its inside, and four tabs of 6.5 by 10.5 whose
    // lower corner is cut off at 45 degrees, each 1.5 thick.
    const { solid } = await kernelOfSolids();
    const box = 60 * 40 * 12 - 57 * 37 * 10.5;
    const tabs = 4 * 1.5 * (6.5 * 10.5 - 6.5 ** 2 / 2);
    const ways = ['across', 'along', 'up'];
    for (const thickness of ways) {
      for (const length of ways.filter((it) => it !== thickness)) {
        for (const flip of ['', ', flip: length']) {
          const member = `{ part: strip, thickness: ${thickness}, length: ${length}${flip} }`;
          const { parts } = buildOf(built(tray, `{ up: [${member}], flush: [left, front] }`));
          const solids = parts.map((it) => solid(it));
          const whole = solids.reduce((all, it) => all.add(it));
          expect(whole.volume()).toBeCloseTo(box + tabs, 2);
          expect(solids.reduce((all, it) => all + it.volume(), 0)).toBeCloseTo(box + tabs, 2);
        }
      }
    }
  });

  it('laps over a block that its inside just takes', () => {
    const lid = (size: string) => `${head}tiles:
  box:
    footprint: [63, 43]
    parts:
      fill: { of: board, size: ${size}, floor: no, count: 10 }
      lid: { of: board, folds: { tray: [63, 43], high: 12, tab: 8, laps: yes } }
    build: { up: [10 x fill, lid] }
`;
    const overlaps = (size: string) =>
      judge(buildOf(lid(size)), { ruler: [rulerStep], wander: undefined })
        .faults.flatMap((it) => (it.kind === 'overlaps' ? [it.other.name, it.part.name] : []))
        .filter((name) => name.startsWith('lid'));
    // 63 less two walls and two tabs of 1.5; 43 less two walls.
    expect(overlaps('[57, 40]')).toEqual([]);
    expect(new Set(overlaps('[57.5, 40]'))).toEqual(new Set([1, 2, 3, 4].map((it) => `lid, tab ${it}`)));
    expect(overlaps('[57, 40.5]')).toContain('lid');
  });
});
