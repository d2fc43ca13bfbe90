import { describe, expect, it } from 'vitest';
import type { CutTree, Layout, MaterialLayouts } from '../../src/model/index.ts';
import { verify } from '../../src/pack/index.ts';
import { demandOf, mm } from './demand.ts';

/**
 * By hand, kerf 2, trim 1 all round, least strip 10, longest cut 60:
 *
 *   60 × 40 after trim          ┌──────────────┬────────┐ 40
 *                               │      b       │        │
 *   rip at 18, then kerf        ├──────────────┤  rest  │ 20
 *                               │   a   │▒│ a  │        │
 *                               └──────────────┴────────┘
 */
const demand = demandOf(
  [
    { size: [20, 18], count: 2, grain: 'length', label: 'a' },
    { size: [42, 20], label: 'b' },
  ],
  [{ size: [62, 42], trim: [1, 1, 1, 1], grain: 'length', flutes: 'width', available: 1 }],
  { kerf: 2, leastStrip: 10, longestCut: 60 },
);

const partA: CutTree = { kind: 'part', part: 0, turned: false };
const partB: CutTree = { kind: 'part', part: 1, turned: false };
const rest: CutTree = { kind: 'left over' };
const lower: CutTree = {
  kind: 'crosscut',
  at: mm(20),
  near: partA,
  far: { kind: 'crosscut', at: mm(20), near: partA, far: rest },
};
const upper: CutTree = { kind: 'crosscut', at: mm(42), near: partB, far: rest };
const tree: CutTree = { kind: 'rip', at: mm(18), near: lower, far: upper };

const sound: MaterialLayouts = {
  demand,
  layouts: [{ sheet: 0, tree, times: 1 }],
  unplaced: [],
  bound: { sheets: 1, argument: 'one is needed' },
  proof: { kind: 'fewest' },
  steps: 0,
};

function withTree(changed: CutTree): MaterialLayouts {
  return withLayout({ tree: changed });
}

function withLayout(change: Partial<Layout>): MaterialLayouts {
  return { ...sound, layouts: [{ ...sound.layouts[0]!, ...change }] };
}

function withDemand(change: Partial<typeof demand>): MaterialLayouts {
  return { ...sound, demand: { ...demand, ...change } };
}

const damaged: Record<string, MaterialLayouts> = {
  'a part is missing': withTree({ ...tree, far: { ...upper, near: rest } }),
  'a part is there twice': withTree({ ...tree, far: { ...upper, far: partB } }),
  'a part of another size': withTree({ ...tree, near: { ...lower, at: mm(19) } }),
  'a part turned against its grain': withTree({
    ...tree,
    near: { ...lower, near: { ...partA, turned: true } },
  }),
  'a part that does not exist': withTree({ ...tree, far: { ...upper, near: { ...partB, part: 7 } } }),
  'a cut outside the piece': withTree({ ...tree, at: mm(41) }),
  'a cut at its very edge': withTree({ ...tree, at: mm(40) }),
  'a cut at nothing': withTree({ ...tree, at: mm(0) }),
  'a piece forgotten behind a cut': withTree({ ...tree, far: { ...upper, far: undefined } }),
  'a piece where only kerf remains': {
    ...withTree({ ...tree, far: { ...upper, near: { kind: 'rip', at: mm(19), near: partB, far: rest } } }),
  },
  'kerf left out of account': withDemand({ rules: { ...demand.rules, kerf: mm(0) } }),
  'more kerf than was allowed for': withDemand({ rules: { ...demand.rules, kerf: mm(3) } }),
  'more trim than was allowed for': withDemand({
    sheets: [{ ...demand.sheets[0]!, trim: { ...demand.sheets[0]!.trim, top: mm(2) } }],
  }),
  'trim that eats the sheet': withDemand({
    sheets: [{ ...demand.sheets[0]!, trim: { ...demand.sheets[0]!.trim, top: mm(41) } }],
  }),
  'a strip under the least': withDemand({ rules: { ...demand.rules, leastStrip: mm(17) } }),
  'a leftover under the least': withDemand({ rules: { ...demand.rules, leastStrip: mm('33/2') } }),
  'a cut longer than the longest': withDemand({ rules: { ...demand.rules, longestCut: mm(59) } }),
  'more rounds of cuts than asked': withDemand({ rules: { ...demand.rules, rounds: 1 } }),
  // 60 × 42, of which 1 comes off below and above, by cuts 60 long; the crosscut behind them is 40 long.
  'a trim with a cut longer than the longest': {
    ...sound,
    demand: demandOf([{ size: [20, 40] }], [{ size: [60, 42], trim: [0, 0, 1, 1] }], { longestCut: 45 }),
    layouts: [{ sheet: 0, tree: { kind: 'crosscut', at: mm(20), near: partA, far: rest }, times: 1 }],
  },
  'a sheet of unknown grain': withDemand({ sheets: [{ ...demand.sheets[0]!, grain: 'unknown' }] }),
  'a sheet whose grain runs the other way': withDemand({
    sheets: [{ ...demand.sheets[0]!, grain: 'width' }],
  }),
  'flutes that run the other way': withDemand({
    parts: [demand.parts[0], { ...demand.parts[1]!, flutes: 'length' }],
  }),
  'more sheets than there are': withLayout({ times: 2 }),
  'a layout cut half a time': withLayout({ times: 0.5 }),
  'a layout cut no times': withLayout({ times: 0 }),
  'a sheet that does not exist': withLayout({ sheet: 1 }),
  'a sheet without parts': { ...sound, layouts: [...sound.layouts, { sheet: 0, tree: rest, times: 1 }] },
  'a part said to be missing that is there': {
    ...sound,
    unplaced: [{ part: 1, count: 1 }],
    proof: { kind: 'none' },
  },
  'a missing part that does not exist': {
    ...sound,
    unplaced: [{ part: 9, count: 1 }],
    proof: { kind: 'none' },
  },
  'a claim though parts are missing': {
    ...withTree({ ...tree, far: { ...upper, near: rest } }),
    unplaced: [{ part: 1, count: 1 }],
  },
  'fewest claimed above the bound': { ...sound, bound: { sheets: 0, argument: '' } },
  'fewer sheets than the bound': { ...sound, bound: { sheets: 2, argument: '' } },
  'a distance from the bound that is not so': { ...sound, proof: { kind: 'within', sheets: 1 } },
  'no word of a bound that is reached': { ...sound, proof: { kind: 'within', sheets: 0 } },
  'steps below zero': { ...sound, steps: -1 },
};

it('counts rounds by changes of direction, not by cuts', () => {
  expect(verify(withDemand({ rules: { ...demand.rules, rounds: 2 } }))).toEqual([]);
});

describe('verify', () => {
  it('finds no flaw in a sound layout', () => {
    expect(verify(sound)).toEqual([]);
  });

  it.each(Object.entries(damaged))('refuses %s', (_, layouts) => {
    expect(verify(layouts)).not.toEqual([]);
  });
});
