import { describe, expect, it } from 'vitest';
import type { CutTree } from '../../src/model/index.ts';
import { pack } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, type PartLine, type RuleLine, type SheetLine } from './demand.ts';

// Counted by hand; that a person cuts long strips first is common practice, no source.
describe('parts in strips', () => {
  it('cuts a mixed sheet into strips, so that it takes three rounds of cuts and few widths', () => {
    const trees = treesOf(
      [
        { size: [30, 30], count: 5 },
        { size: [30, 29], count: 10 },
        { size: [25, 5], count: 4 },
        { size: [5, 3], count: 60 },
      ],
      [{ size: [240, 120] }],
      { kerf: 1 },
    );
    expect(trees).toHaveLength(1);
    const [tree] = trees;
    // Strips, then parts; the third round frees those that are narrower than their strip.
    expect(roundsOf(tree!)).toBeLessThanOrEqual(3);
    // 30, 29, 25, 5 and 3 are the sizes of the parts; one more may free the rest of the sheet.
    expect(widthsOf(tree!).size).toBeLessThanOrEqual(6);
  });

  it('lays parts whose grain is bound only as they may lie', () => {
    const [tree] = treesOf(
      [{ size: [30, 10], count: 20, grain: 'length' }],
      [{ size: [100, 100], grain: 'width' }],
    );
    // The part's length runs with the sheet's width: three of 30 that way, seven of 10 the other.
    expect(partsOf(tree!).every(({ turned }) => turned)).toBe(true);
    expect(partsOf(tree!)).toHaveLength(20);
  });
});

// By hand: each offcut holds one of the three parts, so a sheet has to be bought anyway, and it holds all three.
describe('offcuts', () => {
  const parts: PartLine[] = [{ size: [30, 30], count: 3 }];
  const offcut = (side: number): SheetLine => ({ size: [side, side], isOffcut: true });

  it('are left whole where they save no sheet', () => {
    expect(usedOf(parts, [offcut(40), offcut(40), { size: [120, 120] }])).toEqual([2]);
  });

  it('are used, the smallest that will do, where they save one', () => {
    expect(usedOf([{ size: [30, 30], count: 1 }], [offcut(90), offcut(40), { size: [120, 120] }])).toEqual([
      1,
    ]);
  });
});

function usedOf(parts: readonly PartLine[], sheets: readonly SheetLine[]): number[] {
  return runToEnd(pack(demandOf(parts, sheets), 2000)).value!.layouts.map(({ sheet }) => sheet);
}

function treesOf(parts: readonly PartLine[], sheets: readonly SheetLine[], rules?: RuleLine): CutTree[] {
  const { value, diagnostics } = runToEnd(pack(demandOf(parts, sheets, rules), 2000));
  expect(diagnostics).toEqual([]);
  return value!.layouts.map(({ tree }) => tree);
}

function partsOf(tree: CutTree): Extract<CutTree, { kind: 'part' }>[] {
  if (tree.kind === 'part') return [tree];
  if (tree.kind === 'left over') return [];
  return [...partsOf(tree.near), ...(tree.far === undefined ? [] : partsOf(tree.far))];
}

function widthsOf(tree: CutTree, into = new Set<string>()): Set<string> {
  if (tree.kind === 'part' || tree.kind === 'left over') return into;
  into.add(`${tree.at.numerator}/${tree.at.denominator}`);
  widthsOf(tree.near, into);
  if (tree.far !== undefined) widthsOf(tree.far, into);
  return into;
}

/** How often the direction of cutting changes, at most, on the way to a part. */
function roundsOf(tree: CutTree, before?: 'rip' | 'crosscut'): number {
  if (tree.kind === 'part' || tree.kind === 'left over') return 0;
  const own = tree.kind === before ? 0 : 1;
  const far = tree.far === undefined ? 0 : roundsOf(tree.far, tree.kind);
  return own + Math.max(roundsOf(tree.near, tree.kind), far);
}

// A width that must be held can let a strip lose room again; the trees of the search have to bear that.
describe('the least strip', () => {
  it('is kept to in a crowded batch', () => {
    const { value } = runToEnd(
      pack(
        demandOf(
          [
            { size: [96, 48], count: 4 },
            { size: [48, 48], count: 9 },
            { size: [48, 46], count: 13 },
            { size: [40, 8], count: 4 },
            { size: [8, 4], count: 144 },
          ],
          [{ size: [380, 188] }],
          { kerf: '1/2', leastStrip: 4 },
        ),
        3000,
      ),
    );
    expect(value!.unplaced).toEqual([]);
  });
});
