import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutTree, MaterialDemand, MaterialLayouts } from '../../src/model/index.ts';
import { pack } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, mm, type PartLine, type RuleLine, type SheetLine } from './demand.ts';

function packed(parts: readonly PartLine[], sheets: readonly SheetLine[], rules?: RuleLine, steps = 2000) {
  return runToEnd(pack(demandOf(parts, sheets, rules), steps));
}

/** Code and message of every diagnostic. */
function said(parts: readonly PartLine[], sheets: readonly SheetLine[], rules?: RuleLine): string[] {
  return packed(parts, sheets, rules).diagnostics.map(({ code, message }) => `${code} ${message}`);
}

function sheetsOf({ layouts }: MaterialLayouts): number[] {
  const used: number[] = [];
  for (const { sheet, times } of layouts) used[sheet] = (used[sheet] ?? 0) + times;
  return used;
}

describe('faults', () => {
  it('names a part larger than every sheet, with both sizes', () => {
    expect(said([{ size: [300, 20], label: 'riser' }], [{ size: [200, 100] }, { size: [90, 90] }])).toEqual([
      'P01 "riser" needs 300 × 20 mm; the sheet that comes closest has 200 × 100 mm',
    ]);
  });

  it('shows sizes in inches where they are round in inches', () => {
    expect(said([{ size: ['2921/8', '127/5'] }], [{ size: ['1524/5', '1143/5'] }])).toEqual([
      'P01 "part 0" needs 14 3/8 × 1 in; the sheet that comes closest has 12 × 9 in',
    ]);
  });

  it('shows in its own unit what is in another than the sheet', () => {
    // A4 after ISO 216; 12 × 3 in is 304.8 × 76.2 mm.
    expect(said([{ size: ['1524/5', '381/5'] }], [{ size: [297, 210] }])).toEqual([
      'P01 "part 0" needs 12 × 3 in (304.8 × 76.2 mm); the sheet that comes closest has 297 × 210 mm',
    ]);
    expect(said([{ size: ['1524/5', 21] }], [{ size: [297, 210] }])).toEqual([
      'P01 "part 0" needs 12 in × 21 mm (304.8 × 21 mm); the sheet that comes closest has 297 × 210 mm',
    ]);
    expect(said([{ size: [300, 21] }], [{ size: ['1397/5', '1143/5'] }])).toEqual([
      'P01 "part 0" needs 300 × 21 mm; the sheet that comes closest has 11 × 9 in (279.4 × 228.6 mm)',
    ]);
    // Five inches, and 127 mm just as well.
    expect(said([{ size: [127, 20] }], [{ size: [100, 90] }])).toEqual([
      'P01 "part 0" needs 127 × 20 mm; the sheet that comes closest has 100 × 90 mm',
    ]);
  });

  it('tells a part that fits only against its grain from one that is too large', () => {
    expect(said([{ size: [190, 20], grain: 'width' }], [{ size: [200, 100], grain: 'length' }])).toEqual([
      'P02 laid with its grain as asked, "part 0" takes 20 × 190 mm; the sheet that comes closest has 200 × 100 mm',
    ]);
    const turned = packed([{ size: [190, 20], grain: 'width' }], [{ size: [200, 100], grain: 'length' }]);
    expect(turned.diagnostics.flatMap(({ hints }) => hints)).toEqual([
      'grain: any  if the material allows it; or a sheet of that size with   grain: width',
    ]);
    // Of one size with the sheet, it is told the way it would have to lie.
    expect(said([{ size: [12, 9], grain: 'width' }], [{ size: [12, 9], grain: 'length' }])).toEqual([
      'P02 laid with its grain as asked, "part 0" takes 9 × 12 mm; the sheet that comes closest has 12 × 9 mm',
    ]);
  });

  it('refuses grain and flutes that ask for two different ways of lying', () => {
    const part: PartLine = { size: [20, 10], grain: 'length', flutes: 'length' };
    expect(said([part], [{ size: [200, 100], grain: 'length', flutes: 'width' }])[0]).toContain(
      'its grain and flutes as asked',
    );
  });

  it('puts onto a sheet of unknown grain only parts that may turn freely', () => {
    const sheet: SheetLine = { size: [200, 100], grain: 'unknown', isOffcut: true };
    expect(said([{ size: [20, 10], grain: 'length' }], [sheet])[0]).toBe(
      'P02 no sheet that is large enough lets "part 0" lie with its grain as asked',
    );
    expect(said([{ size: [20, 10] }], [sheet])).toEqual([]);
  });

  it('tells a part that fits but for the trim', () => {
    expect(said([{ size: [200, 20] }], [{ size: [200, 100], trim: [1, 0, 0, 0] }])).toEqual([
      'P03 "part 0" needs 200 × 20 mm; the trim leaves 199 × 100 mm of a sheet of 200 × 100 mm',
    ]);
  });

  it('counts the parts for which sheets ran out, and lays the others out', () => {
    const { value, diagnostics } = packed(
      [{ size: [60, 60], count: 5, label: 'face' }],
      [{ size: [100, 100], available: 3 }],
    );
    expect(diagnostics.map(({ message }) => message)).toEqual([
      'the sheets of "greyboard" are used up; 2 parts find no place: 2 × "face"',
    ]);
    expect(value!.unplaced).toEqual([{ part: 0, count: 2 }]);
    expect(value!.proof).toEqual({ kind: 'none' });
    expect(sheetsOf(value!)).toEqual([3]);
  });

  it('says that a material has no sheets', () => {
    expect(said([{ size: [20, 10] }], [])).toEqual([
      'P05 there is no sheet of "greyboard" to cut its parts from',
    ]);
  });

  it('names the odd measure where the steps become too fine', () => {
    const sizes: PartLine[] = [{ size: [20, 10] }, { size: ['200000001/10000000', 10] }];
    expect(said(sizes, [{ size: [100, 100] }])).toEqual([
      'P06 the measures of "greyboard" have no common step that goes into 100 mm at most 67108864 times; 20.0000001 mm is the odd one',
    ]);
  });

  it('refuses a part narrower than the least strip, unless the sheet is no wider', () => {
    expect(said([{ size: [50, 4] }], [{ size: [100, 100] }], { leastStrip: 5 })).toEqual([
      'P07 "part 0" is 50 × 4 mm; no strip under 5 mm may be cut off',
    ]);
    expect(said([{ size: [50, 4] }], [{ size: [100, 4] }], { leastStrip: 5 })).toEqual([]);
  });

  it('refuses a sheet that no short cut opens', () => {
    expect(said([{ size: [50, 40] }], [{ size: [100, 100] }], { longestCut: 90 })).toEqual([
      `P08 "part 0" of 50 × 40 mm can't be cut from a sheet of 100 × 100 mm with cuts of at most 90 mm`,
    ]);
  });

  it('refuses a kerf as wide as a part', () => {
    expect(said([{ size: [50, 4] }], [{ size: [100, 100] }], { kerf: 4 })).toEqual([
      'P09 the kerf of 4 mm is wider than "part 0", which is 50 × 4 mm',
    ]);
  });

  it('reports all of them in one run, and still lays out what can be made', () => {
    const { value, diagnostics } = packed(
      [{ size: [500, 20] }, { size: [20, 20] }, { size: [2, 20] }],
      [{ size: [100, 100] }],
      { leastStrip: 5 },
    );
    expect(diagnostics.map(({ code }) => code)).toEqual(['P01', 'P07']);
    expect(value!.unplaced.map(({ part }) => part)).toEqual([0, 2]);
    expect(value!.layouts).toHaveLength(1);
  });
});

describe('kerf and edges', () => {
  // Source: computed; n pieces of w with kerf k between them fit a side W exactly if n (w + k) ≤ W + k.
  it('fits ten strips of 30 in 300 without kerf, nine with a kerf of 1/2', () => {
    const strips: PartLine[] = [{ size: [30, 50], count: 10, grain: 'length' }];
    expect(sheetsOf(packed(strips, [{ size: [300, 50] }]).value!)).toEqual([1]);
    expect(sheetsOf(packed(strips, [{ size: [300, 50] }], { kerf: '1/2' }).value!)).toEqual([2]);
    expect(sheetsOf(packed(strips, [{ size: ['609/2', 50] }], { kerf: '1/2' }).value!)).toEqual([1]);
  });

  it('loses what is no wider than the kerf', () => {
    const [layout] = packed([{ size: [30, 50] }], [{ size: [32, 50] }], { kerf: 2 }).value!.layouts;
    const part: CutTree = { kind: 'part', part: 0, turned: false };
    expect(layout!.tree).toEqual({ kind: 'crosscut', at: mm(30), near: part, far: undefined });
  });
});

describe('which sheets are used', () => {
  it('takes offcuts before sheets, and of several the smallest that will do', () => {
    const sheets: SheetLine[] = [
      { size: [400, 300], isOffcut: true },
      { size: [120, 120], isOffcut: true },
      { size: [130, 130], isOffcut: true },
      { size: [500, 400] },
    ];
    expect(sheetsOf(packed([{ size: [100, 100] }], sheets).value!)).toEqual([undefined, 1]);
  });

  it('fills an offcut also where sheets are needed as well', () => {
    const sheets: SheetLine[] = [{ size: [100, 100] }, { size: [60, 60], isOffcut: true }];
    expect(sheetsOf(packed([{ size: [55, 55], count: 2 }], sheets).value!)).toEqual([1, 1]);
  });

  it('takes the cheaper way, whether that is one large sheet or two small ones', () => {
    const parts: PartLine[] = [{ size: [50, 50], count: 2 }];
    const dear: SheetLine[] = [
      { size: [100, 50], price: 5 },
      { size: [50, 50], price: 2 },
    ];
    expect(sheetsOf(packed(parts, dear).value!)).toEqual([undefined, 2]);
    const cheap: SheetLine[] = [
      { size: [100, 50], price: 3 },
      { size: [50, 50], price: 2 },
    ];
    expect(sheetsOf(packed(parts, cheap).value!)).toEqual([1]);
  });

  it('takes the smaller of two sheets that cost the same', () => {
    const sheets: SheetLine[] = [{ size: [500, 400] }, { size: [110, 110] }, { size: [300, 300] }];
    expect(sheetsOf(packed([{ size: [100, 100] }], sheets).value!)).toEqual([undefined, 1]);
  });
});

const batch = fc.record({
  parts: fc.array(
    fc.record({
      size: fc.tuple(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 5, max: 60 })),
      count: fc.integer({ min: 1, max: 4 }),
      grain: fc.constantFrom<'any' | 'length' | 'width'>('any', 'length', 'width'),
    }),
    { minLength: 2, maxLength: 7 },
  ),
  kerf: fc.integer({ min: 0, max: 2 }),
});

const count = ({ layouts }: MaterialLayouts) => layouts.reduce((sum, { times }) => sum + times, 0);
const solve = (demand: MaterialDemand, steps = 300) => runToEnd(pack(demand, steps)).value!;

describe('what changes nothing', () => {
  it('gives the same layouts on every run', () => {
    fc.assert(
      fc.property(batch, ({ parts, kerf }) => {
        const demand = demandOf(parts, [{ size: [100, 80] }], { kerf });
        expect(solve(demand)).toEqual(solve(demand));
      }),
      { numRuns: 30 },
    );
  });

  it('gives the same layouts, measured in another unit', () => {
    fc.assert(
      fc.property(batch, ({ parts, kerf }) => {
        const here = solve(demandOf(parts, [{ size: [100, 80] }], { kerf }));
        const thirds = parts.map((part) => ({
          ...part,
          size: [`${part.size[0]}/3`, `${part.size[1]}/3`] as const,
        }));
        const there = solve(demandOf(thirds, [{ size: ['100/3', '80/3'] }], { kerf: `${kerf}/3` }));
        const shapeOf = (tree: CutTree): unknown =>
          tree.kind === 'rip' || tree.kind === 'crosscut'
            ? [tree.kind, shapeOf(tree.near), tree.far === undefined ? undefined : shapeOf(tree.far)]
            : tree;
        expect(there.layouts.map(({ tree }) => shapeOf(tree))).toEqual(
          here.layouts.map(({ tree }) => shapeOf(tree)),
        );
      }),
      { numRuns: 30 },
    );
  });

  it('proves the same bound with the sheet turned, parts in another order, or a kind split in two', () => {
    fc.assert(
      fc.property(batch, ({ parts, kerf }) => {
        const here = solve(demandOf(parts, [{ size: [100, 80], grain: 'length' }], { kerf }), 4000);
        const turned = solve(demandOf(parts, [{ size: [80, 100], grain: 'width' }], { kerf }), 4000);
        const reversed = solve(
          demandOf([...parts].reverse(), [{ size: [100, 80], grain: 'length' }], { kerf }),
          4000,
        );
        expect(turned.bound.sheets).toBe(here.bound.sheets);
        expect(reversed.bound.sheets).toBe(here.bound.sheets);
        if (here.proof.kind === 'fewest') {
          expect(count(turned)).toBe(count(here));
          expect(count(reversed)).toBe(count(here));
        }
      }),
      { numRuns: 30 },
    );
  });

  it('never gets worse with more steps', () => {
    fc.assert(
      fc.property(batch, ({ parts, kerf }) => {
        const demand = demandOf(parts, [{ size: [100, 80] }], { kerf });
        const used = [0, 50, 400, 3000].map((steps) => count(solve(demand, steps)));
        expect(used).toEqual([...used].sort((a, b) => b - a));
      }),
      { numRuns: 30 },
    );
  });

  it('names the steps that give the same result again', () => {
    fc.assert(
      fc.property(batch, ({ parts, kerf }) => {
        const demand = demandOf(parts, [{ size: [100, 80] }], { kerf });
        const first = solve(demand, 5000);
        expect(solve(demand, first.steps)).toEqual(first);
      }),
      { numRuns: 20 },
    );
  });
});

describe('large batches', () => {
  it('works by the kinds, not by the copies', () => {
    const kinds: [number, number][] = [
      [300, 200],
      [150, 120],
      [77, 45],
      [210, 90],
    ];
    const of = (each: number) =>
      packed(
        kinds.map((size) => ({ size, count: each })),
        [{ size: [1000, 700] }],
        { kerf: 2 },
        200,
      ).value!;
    const [some, many] = [of(500), of(50_000)];
    expect(many.layouts.length).toBeLessThan(40);
    expect(count(many) - many.bound.sheets).toBeLessThanOrEqual(1);
    expect(count(some) - some.bound.sheets).toBeLessThanOrEqual(1);
  });
});

describe('layouts that a person likes to cut', () => {
  it('rips first where that costs nothing', () => {
    const { value } = packed(
      [{ size: [20, 10], count: 12, grain: 'length' }],
      [{ size: [80, 30], grain: 'length' }],
    );
    expect(value!.layouts[0]!.tree.kind).toBe('rip');
  });

  it('leaves one large rectangle rather than several strips', () => {
    const { value } = packed(
      [{ size: [50, 20], count: 3, grain: 'length' }],
      [{ size: [100, 100], grain: 'length' }],
    );
    const leftovers = (tree: CutTree): number =>
      tree.kind === 'left over'
        ? 1
        : tree.kind === 'part'
          ? 0
          : leftovers(tree.near) + (tree.far === undefined ? 0 : leftovers(tree.far));
    expect(leftovers(value!.layouts[0]!.tree)).toBeLessThanOrEqual(2);
  });

  it('leaves what is over on one sheet, also where all of them are needed', () => {
    const { value } = packed(
      [
        { size: [60, 60], count: 3 },
        { size: [40, 40], count: 2 },
      ],
      [{ size: [100, 100] }],
    );
    const kinds = value!.layouts.map(({ tree }) => partsOf(tree).length).sort();
    expect(kinds).toEqual([1, 3]);
  });

  it('merges layouts that are cut alike', () => {
    const { value } = packed([{ size: [60, 60], count: 7 }], [{ size: [100, 100] }]);
    expect(value!.layouts.map(({ times }) => times)).toEqual([7]);
  });
});

function partsOf(tree: CutTree): number[] {
  if (tree.kind === 'part') return [tree.part];
  if (tree.kind === 'left over') return [];
  return [...partsOf(tree.near), ...(tree.far === undefined ? [] : partsOf(tree.far))];
}
