import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { subtract, toFraction } from '../../src/measure/index.ts';
import type { CutTree, Layout, Rational } from '../../src/model/index.ts';
import { toLayouts } from '../../src/pack/emit.ts';
import { gridOf } from '../../src/pack/grid.ts';
import { pack } from '../../src/pack/index.ts';
import { pose } from '../../src/pack/pose.ts';
import { cutsOf, isLiked, likingOfAll } from '../../src/pack/search/liking.ts';
import { inStrips, type StripWay, stripWays } from '../../src/pack/search/strips.ts';
import { countsOf, tidied } from '../../src/pack/search/tidy.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, type PartLine, type RuleLine, type SheetLine } from './demand.ts';

// What a person likes is common practice, no source; each case is worked out by hand beside it.

function layoutsOf(
  parts: readonly PartLine[],
  sheets: readonly SheetLine[],
  rules?: RuleLine,
): readonly Layout[] {
  const { value, diagnostics } = runToEnd(pack(demandOf(parts, sheets, rules), 1000));
  expect(diagnostics).toEqual([]);
  return value!.layouts;
}

type Cut = Extract<CutTree, { readonly at: unknown }>;

function cutsIn(tree: CutTree): readonly Cut[] {
  if (tree.kind === 'part' || tree.kind === 'left over') return [];
  return [tree, ...cutsIn(tree.near), ...(tree.far === undefined ? [] : cutsIn(tree.far))];
}

const widthsIn = (tree: CutTree) => new Set(cutsIn(tree).map(({ at }) => toFraction(at)));

/** Sizes of what is left over, kerf 0, the large first. */
function leftIn(tree: CutTree, length: number, width: number): readonly string[] {
  if (tree.kind === 'part') return [];
  if (tree.kind === 'left over') return [`${Math.max(length, width)} × ${Math.min(length, width)}`];
  const at = Number(tree.at.numerator) / Number(tree.at.denominator);
  const far = (l: number, w: number) => (tree.far === undefined ? [] : leftIn(tree.far, l, w));
  return tree.kind === 'rip'
    ? [...leftIn(tree.near, length, at), ...far(length, width - at)]
    : [...leftIn(tree.near, at, width), ...far(length - at, width)];
}

describe('of layouts that need the same sheets', () => {
  it('one large leftover is liked better than two smaller ones', () => {
    // Side by side they leave 30 × 10 and 10 × 10, one above the other 20 × 20.
    const [only] = layoutsOf([{ size: [10, 10], count: 2 }], [{ size: [30, 20] }]);
    expect(leftIn(only!.tree, 30, 20)).toEqual(['20 × 20']);
  });

  it('fewer widths are liked better, then fewer cuts', () => {
    // Strips of 20 and 10, each cut at 30: two widths, three cuts, nothing left. Turned parts add a width.
    const [only] = layoutsOf(
      [
        { size: [30, 20], count: 2 },
        { size: [30, 10], count: 2 },
      ],
      [{ size: [60, 30] }],
    );
    expect([widthsIn(only!.tree).size, cutsIn(only!.tree).length]).toEqual([2, 3]);
  });

  it.each([
    [2, 2],
    [3, 3],
    [4, 2],
    [2, 5],
  ])('a grid of %i × %i is ripped first: it costs as many cuts either way', (along, across) => {
    const [only] = layoutsOf(
      [{ size: [20, 10], count: along * across, grain: 'length' }],
      [{ size: [20 * along, 10 * across] }],
    );
    expect(only!.tree.kind).toBe('rip');
  });

  it('a grid is crosscut first where that leaves one piece more', () => {
    // Three by two leave 10 × 20 at the end; two rips would make it two squares of 10.
    const [only] = layoutsOf([{ size: [20, 10], count: 6, grain: 'length' }], [{ size: [70, 20] }]);
    expect(leftIn(only!.tree, 70, 20)).toEqual(['20 × 10']);
  });

  it('sheets that can be cut alike are one layout', () => {
    const layouts = layoutsOf([{ size: [20, 10], count: 27 }], [{ size: [60, 30] }]);
    expect(layouts.map(({ times }) => times)).toEqual([3]);
  });
});

const demands = fc
  .record({
    parts: fc.array(
      fc.record({
        size: fc.tuple(fc.integer({ min: 3, max: 30 }), fc.integer({ min: 3, max: 30 })),
        count: fc.integer({ min: 1, max: 8 }),
        grain: fc.constantFrom('any' as const, 'length' as const),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    sheet: fc.tuple(fc.integer({ min: 30, max: 70 }), fc.integer({ min: 30, max: 50 })),
    kerf: fc.constantFrom(0, 1, '1/2'),
  })
  .map(({ parts, sheet, kerf }) => demandOf(parts, [{ size: sheet }], { kerf }));

function jobOf(demand: Parameters<typeof gridOf>[0]) {
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') throw new Error('whole millimetres are never too fine');
  return { grid: measured.grid, job: pose(demand, measured.grid) };
}

function lastOf<T>(run: Generator<void, T>): T {
  let next = run.next();
  while (!next.done) next = run.next();
  return next.value;
}

it('counts the widths and cuts of a sheet as they are written out in the end', () => {
  fc.assert(
    fc.property(demands, fc.constantFrom(...stripWays), (demand, way) => {
      const { grid, job } = jobOf(demand);
      const counts = job.kinds.map(({ count }) => count);
      const laid = lastOf(inStrips(job, counts, new Array(40).fill(0), way)) ?? [];
      for (const sheet of laid) {
        const [{ tree }] = lastOf(toLayouts(job, grid, [sheet])) as [Layout]; // one sheet gives one layout
        const counted = cutsOf(sheet.root, job.sheets[0]!, job.rules);
        expect(counted.cuts).toBe(cutsIn(tree).length);
        expect(counted.widths.size).toBe(widthsIn(tree).size);
        expect(counted.isRipped).toBe(tree.kind === 'rip');
      }
    }),
    { numRuns: 150 },
  );
});

it('moves no part to another batch of sheets, and is never liked less than what it began with', () => {
  fc.assert(
    fc.property(demands, (demand) => {
      const { job } = jobOf(demand);
      const counts = job.kinds.map(({ count }) => count);
      const laidIn = (way: StripWay) => lastOf(inStrips(job, counts, new Array(40).fill(0), way));
      const ways = stripWays.flatMap((way) => laidIn(way) ?? []);
      const laid = laidIn(stripWays[0]!);
      if (laid === undefined || ways.length === 0) return;
      const tidy = lastOf(tidied(job, laid));
      expect(tidy.length).toBeLessThanOrEqual(laid.length);
      expect(countsOf(job, tidy)).toEqual(counts);
      expect(isLiked(likingOfAll(laid, job), likingOfAll(tidy, job))).toBe(false);
    }),
    { numRuns: 60 },
  );
});

it('lays equal strips side by side, and equal layouts down once', () => {
  fc.assert(
    fc.property(demands, (demand) => {
      const { value } = runToEnd(pack(demand, 200));
      const { length, width } = value!.demand.sheets[0]!;
      const kerf = demand.rules.kerf;
      const layouts = value!.layouts.map(({ tree }) => likenessOf(tree, [length, width], kerf));
      for (const { isSideBySide } of layouts) expect(isSideBySide).toBe(true);
      expect(new Set(layouts.map(({ likeness }) => likeness)).size).toBe(layouts.length);
    }),
    { numRuns: 60 },
  );
});

interface Likeness {
  /** The same for trees that only differ in the order of their pieces. */
  readonly likeness: string;
  readonly isSideBySide: boolean;
}

function likenessOf(tree: CutTree, [length, width]: readonly [Rational, Rational], kerf: Rational): Likeness {
  if (tree.kind === 'part') return { likeness: `${tree.part}${tree.turned ? 't' : ''}`, isSideBySide: true };
  if (tree.kind === 'left over') return { likeness: 'rest', isSideBySide: true };
  const sized = (size: Rational) =>
    (tree.kind === 'rip' ? [length, size] : [size, width]) as [Rational, Rational];
  const pieces: { size: string; of: Likeness }[] = [];
  let rest: CutTree | undefined = tree;
  let room = tree.kind === 'rip' ? width : length;
  while (rest?.kind === tree.kind) {
    const { at, near, far }: Cut = rest as Cut; // of the kind of the chain
    pieces.push({ size: toFraction(at), of: likenessOf(near, sized(at), kerf) });
    room = subtract(subtract(room, at), kerf);
    rest = far;
  }
  if (rest !== undefined && rest.kind !== 'left over')
    pieces.push({ size: toFraction(room), of: likenessOf(rest, sized(room), kerf) });
  const sizes = pieces.map(({ size }) => size);
  const isGrouped = sizes.every(
    (size, i) => i === 0 || size === sizes[i - 1] || !sizes.slice(0, i).includes(size),
  );
  return {
    likeness: `${tree.kind}(${pieces
      .map(({ size, of }) => `${size} ${of.likeness}`)
      .sort()
      .join(', ')})`,
    isSideBySide: isGrouped && pieces.every(({ of }) => of.isSideBySide),
  };
}
