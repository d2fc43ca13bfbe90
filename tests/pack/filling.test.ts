import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type {
  CutTree,
  Layout,
  MaterialDemand,
  MaterialLayouts,
  PartKind,
  PartMember,
} from '../../src/model/index.ts';
import { fillingFlaws, fillLeftovers, pack, verify } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, mm, type PartLine, type RuleLine, type SheetLine } from './demand.ts';
import { mostTogether, type Size } from './exhaustive.ts';

interface FillerLine extends Omit<PartLine, 'count'> {
  readonly most?: number;
  readonly share?: number;
}

function fillerOf(line: FillerLine, i: number): PartKind {
  const [kind] = demandOf([{ label: `filler ${i}`, ...line }], []).parts;
  const { most, share = 1 } = line;
  const members = kind.members.map(
    (it): PartMember => ({ ...it, count: 0, each: 0, asFits: { most, share } }),
  ) as unknown as PartKind['members']; // one line gives one member
  return { ...kind, count: 0, members };
}

interface Asked {
  readonly parts: readonly PartLine[];
  readonly sheets: readonly SheetLine[];
  readonly fillers: readonly FillerLine[];
  readonly rules?: RuleLine;
  readonly keep?: readonly [number, number];
}

function demandFor({ parts, sheets, fillers, rules, keep }: Asked): MaterialDemand {
  const demand = demandOf(parts, sheets, rules);
  const worthKeeping = keep === undefined ? undefined : { long: mm(keep[0]), short: mm(keep[1]) };
  return { ...demand, rules: { ...demand.rules, worthKeeping }, fillers: fillers.map(fillerOf) };
}

function filledFrom(demand: MaterialDemand): {
  readonly plain: MaterialLayouts;
  readonly filled: MaterialLayouts;
} {
  const plain = runToEnd(pack(demand, 0)).value!;
  const { value, diagnostics } = runToEnd(fillLeftovers(plain));
  expect(diagnostics).toEqual([]);
  return { plain, filled: value! };
}

/** Layouts as given, not searched for. */
function laid(demand: MaterialDemand, layouts: readonly Layout[]): MaterialLayouts {
  const sheets = layouts.reduce((all, { times }) => all + times, 0);
  return {
    demand,
    layouts,
    unplaced: [],
    bound: { sheets, argument: 'as given' },
    proof: { kind: 'fewest' },
    steps: 0,
  };
}

const part = (index = 0): CutTree => ({ kind: 'part', part: index, turned: false });
const rest: CutTree = { kind: 'left over' };

function fittedOf(layouts: MaterialLayouts, filler = 0) {
  const { kind, most, isEnough } = layouts.fitted![filler]!;
  return { count: kind.count, most, isEnough };
}

describe('fillers', () => {
  // Computed by hand: behind a part of 20 on a sheet of 50 × 10 lie 30 × 10, in which 6 of 10 × 5 lie side by side.
  it('go into what is left of a sheet that is cut anyway', () => {
    const { filled } = filledFrom(
      demandFor({ parts: [{ size: [20, 10] }], sheets: [{ size: [50, 10] }], fillers: [{ size: [10, 5] }] }),
    );
    expect(fittedOf(filled)).toEqual({ count: 6, most: 6, isEnough: false });
    expect(filled.demand.parts.map(({ count }) => count)).toEqual([1, 6]);
    expect(verify(filled)).toEqual([]);
  });

  it('leave what is worth keeping whole', () => {
    const asked = {
      parts: [{ size: [20, 10] }],
      sheets: [{ size: [50, 10] }],
      fillers: [{ size: [10, 5] }],
    } as const;
    expect(fittedOf(filledFrom(demandFor({ ...asked, keep: [30, 10] })).filled)).toEqual({
      count: 0,
      most: 0,
      isEnough: false,
    });
    expect(fittedOf(filledFrom(demandFor({ ...asked, keep: [31, 10] })).filled).count).toBe(6);
  });

  it('come in the order in which they are listed: the second has what the first leaves', () => {
    const asked = { parts: [{ size: [20, 10] }], sheets: [{ size: [55, 10] }] } as const;
    const large = { size: [10, 10] } as const;
    const small = { size: [5, 5] } as const;
    const { filled } = filledFrom(demandFor({ ...asked, fillers: [large, small] }));
    expect([fittedOf(filled, 0).count, fittedOf(filled, 1).count]).toEqual([3, 2]);
    const other = filledFrom(demandFor({ ...asked, fillers: [small, large] })).filled;
    expect([fittedOf(other, 0).count, fittedOf(other, 1).count]).toEqual([14, 0]);
  });

  // Computed by hand: 380 × 297 and 40 × 257 are free, or 420 × 257 and 370 × 40: 122 740 square units either way.
  it.each<[number | string, number]>([
    [1, 122_740],
    ['1/10', 12_274_000],
  ])('stop at a number where far more would go in, and say so: %s', (side, most) => {
    const { filled } = filledFrom(
      demandFor({
        parts: [{ size: [50, 40] }],
        sheets: [{ size: [420, 297] }],
        fillers: [{ size: [side, side] }, { size: [2, 2] }, { size: [2, 2], most: 7 }],
      }),
    );
    expect(verify(filled)).toEqual([]);
    expect(filled.fitted![0]).toMatchObject({ most, isEnough: false, stoppedAt: 5000 });
    expect(filled.fitted!.map(({ kind }) => kind.count)).toEqual([5000, 0, 0]);
    expect(filled.fitted!.map(({ stoppedAt }) => stoppedAt)).toEqual([5000, 5000, 5000]);
  });

  it('need not stop where fewer are asked for', () => {
    const { filled } = filledFrom(
      demandFor({
        parts: [{ size: [50, 40] }],
        sheets: [{ size: [420, 297] }],
        fillers: [
          { size: ['1/10', '1/10'], most: 30 },
          { size: [1, 1], most: 9000 },
        ],
      }),
    );
    expect(filled.fitted![0]).toMatchObject({ most: 30, isEnough: true });
    expect(filled.fitted![0]?.stoppedAt).toBeUndefined();
    expect(filled.fitted![1]).toMatchObject({ most: 9000, isEnough: false, stoppedAt: 5000 });
    expect(filled.fitted![1]?.kind.count).toBe(4970);
  });

  it.each<RuleLine>([
    { kerf: '1/5' },
    { longestCut: 300 },
    { rounds: 2 },
    { leastStrip: 1, kerf: '1/5' },
    { rounds: 3, longestCut: 300, leastStrip: 1 },
  ])('keep within the limits where they stop: %j', (rules) => {
    const { filled } = filledFrom(
      demandFor({
        parts: [{ size: [50, 40] }],
        sheets: [{ size: [420, 297] }],
        fillers: [{ size: [1, 1] }],
        rules,
      }),
    );
    expect(verify(filled)).toEqual([]);
    const [it] = filled.fitted!;
    expect(it?.stoppedAt).toBe(5000);
    expect(it?.kind.count).toBeGreaterThan(1000);
  });

  it('are as many as asked for at most, out of the smallest leftovers', () => {
    const demand = demandFor({
      parts: [{ size: [20, 10], count: 2 }],
      sheets: [{ size: [40, 20] }],
      fillers: [{ size: [5, 5], most: 3 }],
    });
    const tree: CutTree = {
      kind: 'rip',
      at: mm(10),
      near: { kind: 'crosscut', at: mm(20), near: part(), far: rest },
      far: {
        kind: 'crosscut',
        at: mm(30),
        near: { kind: 'crosscut', at: mm(20), near: part(), far: rest },
        far: rest,
      },
    };
    const filled = runToEnd(fillLeftovers(laid(demand, [{ sheet: 0, tree, times: 1 }]))).value!;
    expect(fittedOf(filled)).toEqual({ count: 3, most: 3, isEnough: true });
    // The 20 × 10 behind the first part stays as it was.
    expect(filled.layouts[0]?.tree).toMatchObject({ near: { far: rest } });
  });

  it('stay the same on sheets that are cut alike; only the last few of a number are not', () => {
    const demand = demandFor({
      parts: [{ size: [20, 10], count: 5 }],
      sheets: [{ size: [35, 10] }],
      fillers: [{ size: [5, 10], most: 13 }],
    });
    const tree: CutTree = { kind: 'crosscut', at: mm(20), near: part(), far: rest };
    const plain = laid(demand, [{ sheet: 0, tree, times: 5 }]);
    const filled = runToEnd(fillLeftovers(plain)).value!;
    expect(fittedOf(filled)).toEqual({ count: 13, most: 13, isEnough: true });
    expect(filled.layouts.map(({ times }) => times)).toEqual([3, 2]);
    const all = { ...plain, demand: { ...demand, fillers: [fillerOf({ size: [5, 10] }, 0)] } };
    expect(runToEnd(fillLeftovers(all)).value!.layouts.map(({ times }) => times)).toEqual([5]);
  });

  it('share what fits by the tiles they are for, whole columns of sheets that are cut alike', () => {
    const [wall, ramp] = [
      fillerOf({ size: [5, 10], label: 'wall', share: 2 }, 0),
      fillerOf({ size: [5, 10], label: 'ramp' }, 1),
    ];
    const both: PartKind = { ...wall, members: [wall.members[0], ramp.members[0]] };
    const demand = {
      ...demandFor({ parts: [{ size: [20, 10], count: 4 }], sheets: [{ size: [40, 10] }], fillers: [] }),
      fillers: [both],
    };
    const tree: CutTree = { kind: 'crosscut', at: mm(20), near: part(), far: rest };
    const filled = runToEnd(fillLeftovers(laid(demand, [{ sheet: 0, tree, times: 4 }]))).value!;
    // 4 on each of 4 sheets; two thirds of 16 are 10 2/3, and 12 are 3 on each sheet.
    expect(filled.fitted![0]!.kind.members.map(({ count }) => count)).toEqual([12, 4]);
  });

  it('run with the grain, and never across the rounds, strips and cuts that are asked', () => {
    const asked = {
      parts: [{ size: [20, 10] }],
      sheets: [{ size: [30, 10] }],
      fillers: [{ size: [4, 2], grain: 'width' }],
    } as const;
    // Laid with its width along the length, 2 × 4: five columns of two.
    expect(fittedOf(filledFrom(demandFor(asked)).filled).count).toBe(10);
    // A round of crosscuts frees the leftover and columns of it, the next one rips these.
    expect(fittedOf(filledFrom(demandFor({ ...asked, rules: { rounds: 2 } })).filled).count).toBe(10);
    expect(fittedOf(filledFrom(demandFor({ ...asked, rules: { leastStrip: 2 } })).filled).count).toBe(10);
  });

  // A tree that is too wide once strips can be held was taken for one that reaches across all.
  it('never lie in a tree that is wider than its leftover', () => {
    const demand = demandFor({
      parts: [{ size: [10, 294] }],
      sheets: [{ size: ['513/10', 294] }],
      fillers: [{ size: ['73/10', '59/10'] }],
      rules: { kerf: '3/10', leastStrip: 3, rounds: 8 },
    });
    const tree: CutTree = { kind: 'crosscut', at: mm(10), near: part(), far: rest };
    const { value } = runToEnd(fillLeftovers(laid(demand, [{ sheet: 0, tree, times: 1 }])));
    expect(verify(value!)).toEqual([]);
    expect(fittedOf(value!).count).toBeGreaterThan(200);
  });

  it('are told like any other part where no sheet at all could hold one', () => {
    const demand = demandFor({
      parts: [{ size: [20, 10] }],
      sheets: [{ size: [50, 10] }],
      fillers: [{ size: [60, 5] }],
    });
    const plain = runToEnd(pack(demand, 0)).value!;
    const { value, diagnostics } = runToEnd(fillLeftovers(plain));
    expect(diagnostics.map(({ code }) => code)).toEqual(['P01']);
    expect(value?.layouts).toEqual(plain.layouts);
  });
});

describe('the check of what was filled', () => {
  const demand = demandFor({
    parts: [{ size: [20, 10], count: 4 }],
    sheets: [{ size: [60, 20] }],
    fillers: [{ size: [5, 5], most: 7 }],
    keep: [35, 10],
  });
  const { fillers: _, ...without } = demand;
  // 20 × 10 twice below and 20 × 10 left over; one above, and 40 × 10 that are worth keeping.
  const tree: CutTree = {
    kind: 'rip',
    at: mm(10),
    near: {
      kind: 'crosscut',
      at: mm(20),
      near: part(),
      far: { kind: 'crosscut', at: mm(20), near: part(), far: rest },
    },
    far: { kind: 'crosscut', at: mm(20), near: part(), far: rest },
  };
  const alone: CutTree = { kind: 'crosscut', at: mm(20), near: part(), far: rest };
  const single: CutTree = { kind: 'rip', at: mm(10), near: alone, far: rest };
  const layouts = [
    { sheet: 0, tree, times: 1 },
    { sheet: 0, tree: single, times: 1 },
  ];
  const plain = laid(without, layouts);
  const filled = runToEnd(fillLeftovers(laid(demand, layouts))).value!;
  const [fit] = filled.fitted!;
  const filler = filled.demand.parts[1]!;
  const cutUp = (it: CutTree): CutTree => ({ kind: 'crosscut', at: mm(5), near: it, far: rest });
  const withFirst = (it: CutTree): MaterialLayouts => ({
    ...filled,
    layouts: [{ ...filled.layouts[0]!, tree: it }, ...filled.layouts.slice(1)],
  });
  const counted = (count: number): PartKind => ({
    ...filler,
    count,
    members: [{ ...filler.members[0], count }],
  });
  const withKind = (kind: PartKind): MaterialLayouts => ({
    ...filled,
    demand: { ...filled.demand, parts: [filled.demand.parts[0], kind] },
    fitted: [{ ...fit!, kind, most: kind.count }],
  });
  const damaged: Readonly<Record<string, MaterialLayouts>> = {
    'a part that was moved': withFirst({ ...tree, at: mm(9) }),
    'a part that was left out': withFirst(single),
    'a part that a filler stands in for': withFirst({ ...tree, far: { ...alone, near: part(1) } }),
    'what is worth keeping cut up': withFirst({ ...tree, far: { ...alone, far: cutUp(part(1)) } }),
    'a sheet more': { ...filled, layouts: [...filled.layouts, filled.layouts[0]!] },
    'a layout cut more often': { ...filled, layouts: filled.layouts.map((it) => ({ ...it, times: 2 })) },
    'more of a filler than is asked for': withKind(counted(8)),
    'more of a filler than is said to be possible': { ...filled, fitted: [{ ...fit!, most: 6 }] },
    'labels that do not add up': withKind({ ...counted(7), count: 6 }),
    'a filler that nobody said fits': { ...filled, fitted: [] },
    'other parts than before': {
      ...filled,
      demand: { ...filled.demand, parts: [{ ...filled.demand.parts[0] }, filler] },
    },
  };

  it('lets what is sound pass', () => {
    expect(fit!.kind.count).toBe(7);
    expect(fillingFlaws(plain, filled)).toEqual([]);
  });

  it.each(Object.entries(damaged))('finds %s', (_name, layouts) => {
    expect(fillingFlaws(plain, layouts)).not.toEqual([]);
  });
});

const side = (most: number) => fc.integer({ min: 1, max: most });
const wish = fc.constantFrom<'any' | 'length' | 'width'>('any', 'any', 'length', 'width');
const anyRules = fc.record({
  kerf: fc.constantFrom(0, 0, 1, 2),
  leastStrip: fc.constantFrom(0, 0, 0, 1, 2, 3),
  longestCut: fc.constantFrom(undefined, undefined, 12, 20),
  rounds: fc.constantFrom(undefined, undefined, 2, 3, 4),
});

const anyBatch = fc.record({
  parts: fc.array(fc.record({ size: fc.tuple(side(14), side(10)), count: side(4), grain: wish }), {
    minLength: 1,
    maxLength: 4,
  }),
  sheet: fc.tuple(fc.integer({ min: 12, max: 24 }), fc.integer({ min: 8, max: 16 })),
  trim: fc.constantFrom(0, 0, 1),
  offcuts: fc.constantFrom(0, 0, 1),
  fillers: fc.array(
    fc.record({
      size: fc.tuple(side(5), side(5)),
      grain: wish,
      most: fc.option(fc.integer({ min: 0, max: 12 }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  rules: anyRules,
  keep: fc.option(fc.tuple(side(9), side(6)), { nil: undefined }),
});

describe('filling any batch', () => {
  it('takes no sheet, moves no part, shreds nothing worth keeping, and counts what it cuts', () => {
    let fit = 0;
    fc.assert(
      fc.property(anyBatch, ({ parts, sheet, trim, offcuts, fillers, rules, keep }) => {
        const whole: SheetLine = { size: sheet, trim: [trim, trim, trim, trim] };
        const sheets = [
          whole,
          ...Array.from({ length: offcuts }, (): SheetLine => ({ size: [10, 7], isOffcut: true })),
        ];
        const { longestCut, rounds, kerf, leastStrip } = rules;
        const limits: RuleLine = {
          kerf,
          leastStrip,
          ...(longestCut === undefined ? {} : { longestCut }),
          ...(rounds === undefined ? {} : { rounds }),
        };
        const capped = fillers.map(({ most, ...it }) => ({ ...it, ...(most === undefined ? {} : { most }) }));
        const demand = demandFor({
          parts,
          sheets,
          fillers: capped,
          rules: limits,
          ...(keep === undefined ? {} : { keep }),
        });
        const plain = runToEnd(pack(demand, 0)).value!;
        const { value: filled } = runToEnd(fillLeftovers(plain));
        const { fillers: _, ...without } = plain.demand;
        expect(verify(filled!)).toEqual([]);
        expect(fillingFlaws({ ...plain, demand: without }, filled!)).toEqual([]);
        expect(sheetsIn(filled!)).toBe(sheetsIn(plain));
        for (const { kind, most } of filled!.fitted!) {
          fit += kind.count;
          expect(kind.count).toBeLessThanOrEqual(most);
          const index = filled!.demand.parts.indexOf(kind);
          expect(piecesIn(filled!, index)).toBe(kind.count);
        }
        expect(runToEnd(fillLeftovers(plain)).value).toEqual(filled);
      }),
      { numRuns: 300 },
    );
    expect(fit).toBeGreaterThan(500);
  });

  it('gives as many as are asked for wherever as many go in, also onto some of the sheets that are cut alike', () => {
    let some = 0;
    fc.assert(
      fc.property(
        anyBatch,
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 1, max: 40 }),
        (any, most, more) => {
          const [first] = any.fillers;
          const { longestCut, rounds, ...rules } = any.rules;
          const asked = (limit: { readonly most?: number }) =>
            demandFor({
              parts: any.parts.map((it) => ({ ...it, count: it.count * more })),
              sheets: [{ size: any.sheet }],
              fillers: [{ size: first!.size, grain: first!.grain, ...limit }],
              rules: {
                ...rules,
                ...(longestCut === undefined ? {} : { longestCut }),
                ...(rounds === undefined ? {} : { rounds }),
              },
            });
          const all = filledOrNone(asked({}));
          const few = filledOrNone(asked({ most }));
          fc.pre(all !== undefined && few !== undefined);
          expect(few!.count).toBe(Math.min(most, all!.count));
          expect(few!.isEnough).toBe(few!.count === most);
          if (few!.count > 0 && few!.count < all!.count) some++;
        },
      ),
      { numRuns: 100 },
    );
    expect(some).toBeGreaterThan(10);
  });

  // Independent: every way of cutting the leftovers is tried, as the rules are written down.
  it('gives what every way of cutting the leftovers gives at most, and says so', () => {
    let proved = 0;
    let all = 0;
    fc.assert(
      fc.property(anyLeftover, ({ leftover, size, mayTurn, kerf, leastStrip, longestCut }) => {
        fc.pre(Math.min(...size) >= leastStrip && kerf < Math.min(...size));
        const allowed = { kerf, leastStrip, longestCut, rounds: Number.POSITIVE_INFINITY };
        const fits = mostIn(leftover, size, mayTurn, allowed);
        // The sheet is a strip that the part fills, and behind it the leftover.
        const strip: Size = [4, leftover[1]];
        const demand = demandFor({
          parts: [{ size: strip }],
          sheets: [{ size: [strip[0] + kerf + leftover[0], leftover[1]] }],
          fillers: [{ size, ...(mayTurn ? {} : { grain: 'length' }) }],
          rules: { kerf, leastStrip, ...(Number.isFinite(longestCut) ? { longestCut } : {}) },
        });
        fc.pre(leftover[1] <= longestCut && leastStrip <= 4 && leftover[0] >= leastStrip);
        const tree: CutTree = { kind: 'crosscut', at: mm(4), near: part(), far: rest };
        const { value, diagnostics } = runToEnd(fillLeftovers(laid(demand, [{ sheet: 0, tree, times: 1 }])));
        fc.pre(diagnostics.length === 0);
        const { count, most } = fittedOf(value!);
        all++;
        if (count === most) proved++;
        expect(most).toBeGreaterThanOrEqual(fits);
        expect(count).toBe(fits);
      }),
      { numRuns: 400 },
    );
    expect(proved).toBe(all);
  });

  it('is never said to be possible with less than every way of cutting gives, with rounds counted too', () => {
    let best = 0;
    let all = 0;
    fc.assert(
      fc.property(
        anyLeftover,
        fc.integer({ min: 1, max: 3 }),
        ({ leftover, size, mayTurn, kerf }, rounds) => {
          fc.pre(kerf < Math.min(...size));
          const demand = demandFor({
            parts: [{ size: [4, leftover[1]] }],
            sheets: [{ size: [4 + kerf + leftover[0], leftover[1]] }],
            fillers: [{ size, ...(mayTurn ? {} : { grain: 'length' }) }],
            rules: { kerf, rounds },
          });
          const tree: CutTree = { kind: 'crosscut', at: mm(4), near: part(), far: rest };
          const { value, diagnostics } = runToEnd(
            fillLeftovers(laid(demand, [{ sheet: 0, tree, times: 1 }])),
          );
          fc.pre(diagnostics.length === 0);
          const allowed = { kerf, leastStrip: 0, longestCut: Number.POSITIVE_INFINITY, rounds: rounds - 1 };
          // One more crosscut is of the round that freed the leftover.
          const fits = Math.max(
            mostIn(leftover, size, mayTurn, allowed),
            mostInColumns(leftover, size, mayTurn, allowed),
          );
          const { count, most } = fittedOf(value!);
          all++;
          if (count === fits) best++;
          expect(most).toBeGreaterThanOrEqual(fits);
          expect(count).toBeLessThanOrEqual(fits);
        },
      ),
      { numRuns: 300 },
    );
    // Nearly always it is the best there is.
    expect(best / all).toBeGreaterThan(0.95);
  });
});

function filledOrNone(demand: MaterialDemand) {
  const plain = runToEnd(pack(demand, 0)).value!;
  const { value } = runToEnd(fillLeftovers(plain));
  return value?.fitted?.[0] === undefined ? undefined : fittedOf(value);
}

const anyLeftover = fc.record({
  leftover: fc.tuple(side(15), side(9)),
  size: fc.tuple(side(6), side(5)),
  mayTurn: fc.boolean(),
  kerf: fc.constantFrom(0, 0, 1, 2),
  leastStrip: fc.constantFrom(0, 0, 1, 2, 3),
  longestCut: fc.constantFrom(9, 12, Number.POSITIVE_INFINITY),
});

type Allowed = Parameters<typeof mostTogether>[2];

/** The most of one size, in both ways of lying or as it is, of one sheet: as of two kinds that are counted together. */
function mostIn(sheet: Size, [length, width]: Size, mayTurn: boolean, allowed: Allowed): number {
  const kinds: Size[] =
    mayTurn && length !== width
      ? [
          [length, width],
          [width, length],
        ]
      : [[length, width]];
  return Math.max(...mostTogether(kinds, sheet, allowed).map(([a, b]) => a + b));
}

/** The most where the leftover is crosscut once more, in the round that freed it, and each column then cut on its own. */
function mostInColumns(sheet: Size, size: Size, mayTurn: boolean, allowed: Allowed): number {
  const best = Array.from({ length: sheet[0] + 1 }, (_, across) =>
    across === 0 ? 0 : mostWithoutCrosscut([across, sheet[1]], size, mayTurn, allowed),
  );
  for (let across = 1; across <= sheet[0]; across++) {
    for (let at = 1; at <= across; at++) {
      const behind = across - at - allowed.kerf;
      best[across] = Math.max(best[across]!, best[at]! + (behind > 0 ? best[behind]! : 0));
    }
  }
  return best[sheet[0]]!;
}

/** A column begins with rips, which are the next round, or is a part. */
function mostWithoutCrosscut(sheet: Size, size: Size, mayTurn: boolean, allowed: Allowed): number {
  return mostIn(sheet, size, mayTurn, allowed);
}

function sheetsIn({ layouts }: MaterialLayouts): number {
  return layouts.reduce((all, { times }) => all + times, 0);
}

function piecesIn({ layouts }: MaterialLayouts, index: number): number {
  const inTree = (tree: CutTree): number =>
    tree.kind === 'part'
      ? Number(tree.part === index)
      : tree.kind === 'left over'
        ? 0
        : inTree(tree.near) + (tree.far === undefined ? 0 : inTree(tree.far));
  return layouts.reduce((all, { tree, times }) => all + inTree(tree) * times, 0);
}
