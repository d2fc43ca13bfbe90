import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, minus, toFraction } from '../../../src/measure/index.ts';
import type {
  Change,
  CutTree,
  MaterialDemand,
  MaterialLayouts,
  Saving,
  Savings,
} from '../../../src/model/index.ts';
import { changed, findSavings, pack, verify } from '../../../src/pack/index.ts';
import { runToEnd } from '../../../src/pipeline.ts';
import { demandOf, mm, type PartLine } from '../demand.ts';

// Sizes and answers below are worked out by hand; common practice, no source.

function packed(demand: MaterialDemand, steps = 1000): MaterialLayouts {
  return runToEnd(pack(demand, steps)).value!;
}

function savingsOf(demand: MaterialDemand, step = mm(1)): Savings {
  return runToEnd(findSavings([packed(demand)], step))[0]!;
}

function bought({ demand, layouts }: MaterialLayouts): number {
  return layouts.reduce((sum, { sheet, times }) => sum + (demand.sheets[sheet]!.isOffcut ? 0 : times), 0);
}

function ofSort<Kind extends Change['kind']>({ found }: Savings, kind: Kind): readonly Saving[] {
  return found.filter(({ change }) => change.kind === kind);
}

describe('what saves a sheet', () => {
  it('is a tenth off two parts of 3.1 that share a length of 6', () => {
    const demand = demandOf([{ size: ['31/10', 4], count: 2 }], [{ size: [6, 4] }]);
    const savings = savingsOf(demand, mm('1/10'));
    const [saving, ...others] = ofSort(savings, 'smaller part');
    expect(others).toEqual([]);
    expect(saving).toEqual({
      change: { kind: 'smaller part', part: 0, side: 'length', by: mm('1/10') },
      sheets: 1,
      isLeast: true,
    });
    expect(savings).toMatchObject({ bought: 2, ended: 'all tried' });
  });

  it('is what makes a whole sheet of the drawer enough', () => {
    // Five of 30 x 20 on one of 60 x 40: four go in, so that one has to be bought for the fifth.
    const demand = demandOf(
      [{ size: [30, 20], count: 5 }],
      [
        { size: [60, 40], isOffcut: true },
        { size: [60, 40], price: 2 },
      ],
    );
    const [first, second] = demand.sheets;
    const inDrawer = { ...demand, sheets: [{ ...first!, isUncut: true as const }, second!] };
    const savings = savingsOf(inDrawer);
    expect(savings.bought).toBe(1);
    expect(ofSort(savings, 'fewer parts')).toEqual([
      { change: { kind: 'fewer parts', part: 0, count: 1 }, sheets: 0, isLeast: true },
    ]);
  });

  it('is as many graduations as it takes, and no more', () => {
    // Two of 33 on 60: each has to lose 3; three steps of 1, or two of 2.
    const demand = demandOf([{ size: [33, 40], count: 2 }], [{ size: [60, 40] }]);
    const by = (step: number) =>
      ofSort(savingsOf(demand, mm(step)), 'smaller part').map(({ change }) =>
        change.kind === 'smaller part' ? toFraction(change.by) : '',
      );
    expect(by(1)).toEqual(['3']);
    expect(by(2)).toEqual(['4']);
  });

  it('is not a part that would lose more than an eighth', () => {
    // Two of 35 on 60: each would have to lose 5, an eighth is 4.375.
    const demand = demandOf([{ size: [35, 40], count: 2 }], [{ size: [60, 40] }]);
    expect(ofSort(savingsOf(demand), 'smaller part')).toEqual([]);
  });

  it('is turning the part that the grain holds across the others', () => {
    //   60 × 80: the first lies 60 × 40; the second, 40 × 60 with the grain along 40, only fits turned.
    const demand = demandOf(
      [
        { size: [60, 40], grain: 'length' },
        { size: [40, 60], grain: 'length' },
      ],
      [{ size: [60, 80] }],
    );
    expect(ofSort(savingsOf(demand), 'turns freely')).toEqual([
      { change: { kind: 'turns freely', part: 1 }, sheets: 1, isLeast: true },
    ]);
  });

  it('is less trim, as much as it takes', () => {
    // Two of 30 want 60; 64 less 4 and 1 is 59; 1 less off each end leaves 61.
    const demand = demandOf([{ size: [30, 40], count: 2 }], [{ size: [64, 40], trim: [4, 1, 0, 0] }]);
    expect(ofSort(savingsOf(demand), 'less trim')).toEqual([
      { change: { kind: 'less trim', by: mm(1) }, sheets: 1, isLeast: true },
    ]);
  });

  it('is a thinner kerf', () => {
    // 30 + 3 + 30 = 63 on 61: a kerf of 1 will do.
    const demand = demandOf([{ size: [30, 40], count: 2 }], [{ size: [61, 40] }], { kerf: 3 });
    expect(ofSort(savingsOf(demand), 'thinner kerf')).toEqual([
      { change: { kind: 'thinner kerf', to: mm(1) }, sheets: 1, isLeast: true },
    ]);
  });

  it('is a narrower strip that can be held', () => {
    // Beside two of 30 on 63 a strip of 3 comes off, where 5 is the least.
    const demand = demandOf([{ size: [30, 40], count: 2 }], [{ size: [63, 40] }], { leastStrip: 5 });
    expect(ofSort(savingsOf(demand), 'narrower strips').map(({ change }) => change)).toEqual([
      { kind: 'narrower strips', to: mm(3) },
    ]);
  });

  it('is the fewest copies left out', () => {
    // Six to a sheet; 14 take three sheets, 12 take two. An eighth of 14 is two, rounded up.
    const demand = demandOf([{ size: [10, 10], count: 14 }], [{ size: [30, 20] }]);
    expect(ofSort(savingsOf(demand), 'fewer parts')).toEqual([
      { change: { kind: 'fewer parts', part: 0, count: 2 }, sheets: 2, isLeast: true },
    ]);
  });

  it('is a tile fewer, with all its parts', () => {
    // Each wall takes half a sheet for its face and half for its back.
    const demand = demandOf(
      [
        { size: [30, 20], count: 3 },
        { size: [30, 19], count: 3 },
      ],
      [{ size: [30, 41] }],
    );
    const wall: MaterialDemand = {
      ...demand,
      parts: demand.parts.map((part) => ({
        ...part,
        members: part.members.map((it) => ({ ...it, tile: 'wall', each: 1 })),
      })) as unknown as MaterialDemand['parts'], // as many as before
    };
    expect(ofSort(savingsOf(wall), 'fewer tiles')).toEqual([
      { change: { kind: 'fewer tiles', tile: 'wall', count: 1 }, sheets: 2, isLeast: true },
    ]);
  });

  it('is one more of a larger sheet that is used up', () => {
    const demand = demandOf(
      [{ size: [30, 40], count: 4 }],
      [{ size: [60, 40], available: 1 }, { size: [30, 40] }],
    );
    expect(savingsOf(demand).bought).toBe(3);
    expect(ofSort(savingsOf(demand), 'one more sheet')).toEqual([
      { change: { kind: 'one more sheet', sheet: 0 }, sheets: 2, isLeast: true },
    ]);
  });

  it('is a size in which another material comes, where less has to be bought', () => {
    // Two sheets of 60 × 40 for two of 35 × 40; one of 70 × 40 holds both. 120 × 40 is no saving.
    const demand = demandOf([{ size: [35, 40], count: 2 }], [{ size: [60, 40] }]);
    const others = ['70', '120'].map((length) =>
      packed(demandOf([{ size: [10, 10] }], [{ size: [length, 40] }])),
    );
    const [savings] = runToEnd(findSavings([packed(demand), ...others], mm(1)));
    const sizes = ofSort(savings!, 'other sheet').map(({ change }) =>
      change.kind === 'other sheet' ? toFraction(change.sheet.length) : '',
    );
    expect(sizes).toEqual(['70']);
  });

  it('is an offcut that a part fits once it may turn', () => {
    const demand = demandOf(
      [{ size: [60, 40], grain: 'length' }],
      [{ size: [40, 60], isOffcut: true }, { size: [60, 40] }],
    );
    expect(ofSort(savingsOf(demand), 'turns freely')).toEqual([
      { change: { kind: 'turns freely', part: 0 }, sheets: 0, isLeast: true },
    ]);
  });

  it('is first of all a search that was cut short', () => {
    const demand = demandOf([{ size: [30, 40], count: 2 }], [{ size: [60, 40] }]);
    const tree: CutTree = {
      kind: 'crosscut',
      at: mm(30),
      near: { kind: 'part', part: 0, turned: false },
      far: { kind: 'left over' },
    };
    const poor: MaterialLayouts = {
      ...packed(demand),
      layouts: [{ sheet: 0, tree, times: 2 }],
      proof: { kind: 'within', sheets: 1 },
      steps: 0,
    };
    expect(verify(poor)).toEqual([]);
    expect(runToEnd(findSavings([poor], mm(1)))[0]!.found).toEqual([
      { change: { kind: 'longer search', steps: 1000 }, sheets: 1, isLeast: true },
    ]);
  });
});

describe('nothing saves a sheet', () => {
  it('where one is the fewest there can be: nothing is looked for', () => {
    expect(savingsOf(demandOf([{ size: [30, 40], count: 2 }], [{ size: [60, 80] }]))).toEqual({
      bought: 1,
      found: [],
      tried: [],
      packings: 0,
      ended: 'nothing to save',
    });
  });

  it('where offcuts are enough', () => {
    const demand = demandOf([{ size: [30, 40] }], [{ size: [30, 40], isOffcut: true }, { size: [60, 40] }]);
    expect(savingsOf(demand)).toMatchObject({ bought: 0, ended: 'nothing to save' });
  });

  it('where parts are missing', () => {
    const demand = demandOf([{ size: [30, 40], count: 3 }], [{ size: [60, 40], available: 1 }]);
    expect(savingsOf(demand)).toMatchObject({ found: [], ended: 'parts missing' });
  });

  it('where the bounds rule it out, without a single layout', () => {
    // Three sheets that are full to the edge: an eighth off one of four kinds leaves more than two.
    const quarters = Array.from({ length: 4 }, (): PartLine => ({ size: [30, 20], count: 3 }));
    const savings = savingsOf(demandOf(quarters, [{ size: [60, 40] }]));
    expect(savings).toMatchObject({ found: [], packings: 0, ended: 'all tried' });
    expect(savings.tried).toEqual(['smaller part', 'fewer parts']);
  });
});

describe('whatever the demand', () => {
  const anySide = fc.integer({ min: 8, max: 60 });
  const anyPart: fc.Arbitrary<PartLine> = fc.record({
    size: fc.tuple(anySide, anySide),
    count: fc.integer({ min: 1, max: 5 }),
    grain: fc.constantFrom('any', 'length', 'width'),
  });
  const anyDemand = fc
    .tuple(
      fc.array(anyPart, { minLength: 1, maxLength: 4 }),
      fc.integer({ min: 0, max: 2 }),
      fc.integer({ min: 0, max: 3 }),
    )
    .map(([parts, kerf, trim]) =>
      demandOf(parts, [{ size: [80, 70], trim: [trim, trim, trim, trim] }], { kerf }),
    );

  it('each saving can be laid out with as few sheets as it says, and passes the checker', () => {
    let seen = 0;
    fc.assert(
      fc.property(anyDemand, (demand) => {
        const now = packed(demand, 200);
        const [savings] = runToEnd(findSavings([now], mm(1)));
        expect(savings!.bought).toBe(bought(now));
        for (const { change, sheets } of savings!.found) {
          seen++;
          expect(sheets).toBeLessThan(savings!.bought);
          const anew = packed(changed(demand, change)!, 1000);
          expect(verify(anew)).toEqual([]);
          expect(anew.unplaced).toEqual([]);
          expect(bought(anew)).toBe(sheets);
        }
      }),
      { numRuns: 25, seed: 7 },
    );
    expect(seen).toBeGreaterThan(10);
  });

  it('the least of a sort saves nothing one graduation or one part below', () => {
    let seen = 0;
    fc.assert(
      fc.property(anyDemand, (demand) => {
        const now = packed(demand, 1000);
        const [savings] = runToEnd(findSavings([now], mm(1)));
        for (const { change, isLeast } of savings!.found) {
          const below = isLeast ? oneLess(change) : undefined;
          if (below === undefined) continue;
          seen++;
          expect(bought(packed(changed(demand, below)!, 1000))).toBeGreaterThanOrEqual(savings!.bought);
        }
      }),
      { numRuns: 25, seed: 11 },
    );
    expect(seen).toBeGreaterThan(5);
  });

  it('is found anew the same', () => {
    const demand = demandOf([{ size: [33, 40], count: 2 }], [{ size: [60, 40] }]);
    const once = savingsOf(demand);
    expect(savingsOf(demand)).toEqual(once);
  });

  it('reports the layouts there are while it looks for others', () => {
    const now = packed(demandOf([{ size: [33, 40], count: 2 }], [{ size: [60, 40] }]));
    const run = findSavings([now], mm(1));
    let reports = 0;
    for (let next = run.next(); !next.done; next = run.next()) {
      reports++;
      expect(next.value).toEqual({
        material: 'greyboard',
        step: now.steps,
        sheets: bought(now),
        bound: now.bound.sheets,
      });
    }
    expect(reports).toBeGreaterThan(0);
  });
});

/** The rung below, on a rule of 1 mm; undefined on the lowest. */
function oneLess(change: Change): Change | undefined {
  if (change.kind === 'smaller part' && compare(change.by, mm(1)) > 0) {
    return { ...change, by: minus(change.by, mm(1)) };
  }
  if (change.kind === 'fewer parts' && change.count > 1) return { ...change, count: change.count - 1 };
  return undefined;
}

describe('a changed demand', () => {
  it('counts as many parts as its members', () => {
    const demand = demandOf([{ size: [30, 40], count: 5 }], [{ size: [60, 40] }]);
    const less = changed(demand, { kind: 'fewer parts', part: 0, count: 2 })!;
    expect(less.parts[0]!.count).toBe(3);
    expect(less.parts[0]!.members.map(({ count }) => count)).toEqual([3]);
  });

  it('is nothing where its last part is left out', () => {
    const demand = demandOf([{ size: [30, 40] }], [{ size: [60, 40] }]);
    expect(changed(demand, { kind: 'fewer parts', part: 0, count: 1 })).toBe(undefined);
  });
});
