import fc from 'fast-check';
import { expect, it } from 'vitest';
import { runToEnd } from '../../src/pipeline.ts';
import { type Bench, settingOrder as settingOrderOf } from '../../src/plan/settingOrder.ts';

const settingOrder = (benches: readonly Bench[]) => runToEnd(settingOrderOf(benches));

/** A piece in hand: how many of each width it gives, and what else is cut out of those. */
interface Tree {
  readonly lastIsFree: boolean;
  readonly groups: readonly {
    readonly width: number;
    readonly count: number;
    readonly kids: readonly Tree[];
  }[];
}

const widths = 4;

function tree(depth: number): fc.Arbitrary<Tree> {
  const kids = depth === 0 ? fc.constant([]) : fc.array(tree(depth - 1), { maxLength: 2 });
  return fc.record({
    lastIsFree: fc.boolean(),
    groups: fc.uniqueArray(
      fc.record({
        width: fc.integer({ min: 0, max: widths - 1 }),
        count: fc.integer({ min: 1, max: 2 }),
        kids,
      }),
      { selector: ({ width }) => width, minLength: 1, maxLength: 3 },
    ),
  });
}

function benchesOf(trees: readonly Tree[]): readonly Bench[] {
  const benches: Bench[] = [];
  const add = (it: Tree, waitsFor: number): number => {
    const index = benches.length;
    benches.push({ wants: [], lastIsFree: it.lastIsFree, waitsFor });
    const wants = it.groups.map(({ width, count, kids }, rank) => ({
      width,
      isSingle: count === 1,
      frees: kids.map((kid) => add(kid, 1)),
      rank,
    }));
    benches[index] = { ...benches[index]!, wants };
    return index;
  };
  for (const it of trees) add(it, 0);
  return benches;
}

/** What is left of a piece, and of all that came off it, once everything of one width is cut. */
function cut(trees: readonly Tree[], width: number): readonly Tree[] {
  return trees.flatMap((it) => {
    const off = it.groups.filter((group) => group.width === width);
    const groups = it.groups.filter((group) => group.width !== width);
    return [...off.flatMap(({ kids }) => cut(settled(kids), width)), ...settled([{ ...it, groups }])];
  });
}

/** Without pieces that are done; a single piece that remains last is done without a cut. */
function settled(trees: readonly Tree[]): readonly Tree[] {
  return trees.flatMap((it): readonly Tree[] => {
    const [only, ...more] = it.groups;
    if (only === undefined) return [];
    if (more.length > 0 || !it.lastIsFree || only.count > 1) return [it];
    return settled(only.kids);
  });
}

/** By trying them all, the shortest first; what stands alike is looked at once. */
function shortest(trees: readonly Tree[]): number {
  let states = [settled(trees)];
  for (let settings = 0; ; settings++) {
    if (states.some((left) => left.length === 0)) return settings;
    const next = new Map<string, readonly Tree[]>();
    for (const left of states) {
      for (let width = 0; width < widths; width++) {
        const after = twice(left, width);
        next.set(JSON.stringify(after), after);
      }
    }
    states = [...next.values()];
  }
}

/** Cutting frees pieces that wait for the same setting, some of them only by what remained as the last. */
function twice(trees: readonly Tree[], width: number): readonly Tree[] {
  const once = cut(trees, width);
  return JSON.stringify(once) === JSON.stringify(trees) ? once : twice(once, width);
}

it('needs as few settings as the best of all orders, and cuts everything', () => {
  fc.assert(
    fc.property(fc.array(tree(2), { minLength: 1, maxLength: 2 }), (trees) => {
      const { widths: order, turns } = settingOrder(benchesOf(trees));
      expect(order.length).toBe(shortest(trees));
      expect(order.reduce((left, width) => twice(left, width), settled(trees))).toEqual([]);
      for (const turn of turns.flat()) expect(turn).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 60 },
  );
});

it('keeps the order of lying, the wider first, where no other saves a setting', () => {
  const wants = [5, 3, 4].map((width, rank) => ({ width, isSingle: false, frees: [], rank }));
  expect(settingOrder([{ wants, lastIsFree: false, waitsFor: 0 }]).widths).toEqual([5, 3, 4]);
});

it('sets a width last on the sheet that its strips want next', () => {
  // The sheet gives strips of 3, 2 and 1; those of 2 and 1 are cut at 3. With 3 first it were four settings.
  const strip: Bench = {
    wants: [{ width: 3, isSingle: false, frees: [], rank: 0 }],
    lastIsFree: false,
    waitsFor: 1,
  };
  const sheet: Bench = {
    wants: [
      { width: 3, isSingle: true, frees: [], rank: 0 },
      { width: 2, isSingle: true, frees: [1], rank: 1 },
      { width: 1, isSingle: true, frees: [2], rank: 2 },
    ],
    lastIsFree: false,
    waitsFor: 0,
  };
  expect(settingOrder([sheet, strip, strip]).widths).toEqual([2, 1, 3]);
});

it('answers also for thousands of pieces, sets out what all want first, and cuts everything', () => {
  // So many strips, each of its own width and each crosscut at the same two; and some crosscut at a third.
  const strips = 1500;
  const kid = (last: number): Bench => ({
    wants: [1, 2, last].map((width, rank) => ({ width, isSingle: false, frees: [], rank })),
    lastIsFree: false,
    waitsFor: 1,
  });
  const sheets = Array.from({ length: strips }, (_, i): Bench => {
    const want = { width: 10 + (i % 40), isSingle: false, frees: [strips + i], rank: 0 };
    return { wants: [want], lastIsFree: false, waitsFor: 0 };
  });
  const { widths: order, turns } = settingOrder([
    ...sheets,
    ...sheets.map((_, i) => kid(i % 2 === 0 ? 3 : 4)),
  ]);
  expect(new Set(order).size).toBe(order.length);
  expect(order.length).toBe(44);
  for (const turn of turns.flat()) expect(turn).toBeGreaterThanOrEqual(0);
});
