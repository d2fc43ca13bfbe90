import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutTree, PartKind } from '../../src/model/index.ts';
import { firstFilling } from '../../src/pack/filling/bestFilling.ts';
import { FewBlocks } from '../../src/pack/filling/fewBlocks.ts';
import type { Leftover } from '../../src/pack/filling/leftovers.ts';
import { mostOf } from '../../src/pack/filling/mostOf.ts';
import { partsIn, Work } from '../../src/pack/filling/solving.ts';
import { BestSheet } from '../../src/pack/patterns/bestSheet.ts';
import type { Lying } from '../../src/pack/patterns/pattern.ts';
import type { Node } from '../../src/pack/search/tree.ts';
import { demandOf, mm } from './demand.ts';

const free = {
  kerf: 0,
  leastStrip: 0,
  longestCut: Number.POSITIVE_INFINITY,
  rounds: Number.POSITIVE_INFINITY,
};

function waysOf(a: number, b: number, mayTurn: boolean): readonly Lying[] {
  const straight = { kind: 0, width: a, height: b, turned: false };
  return mayTurn && a !== b ? [straight, { kind: 0, width: b, height: a, turned: true }] : [straight];
}

function ended<T>(run: Generator<unknown, T>): T {
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
  }
}

const side = (least: number, most: number) => fc.integer({ min: least, max: most });
const anyPiece = fc.record({
  length: side(10, 160),
  width: side(10, 120),
  a: side(2, 30),
  b: side(2, 30),
  mayTurn: fc.constantFrom(true, true, false),
});

describe('the most that a leftover can hold', () => {
  // Worked out by hand: 7 of 2 × 1 cover 14 of 15 squares of 5 × 3; in 5 × 5 lie 4 of 3 × 2 and one square is free,
  // which is a pinwheel that no cut goes through, so it is above what can be cut.
  it.each([
    [5, 3, 2, 1, 7],
    [5, 5, 3, 2, 4],
    [6, 4, 3, 2, 4],
  ])('of %d × %d with %d × %d: %d', (length, width, a, b, most) => {
    expect(mostOf({ length, width }, waysOf(a, b, true))).toBe(most);
  });

  // The exact search is tested against every way of cutting.
  it('is never less than what the exact search finds; and what is found at once, never more', () => {
    let closed = 0;
    let best = 0;
    let all = 0;
    fc.assert(
      fc.property(anyPiece, ({ length, width, a, b, mayTurn }) => {
        const ways = waysOf(a, b, mayTurn);
        const sheet = { length, width, available: 1, cost: 0 };
        const exact = BestSheet.over(sheet, ways, free, Number.POSITIVE_INFINITY);
        const count = exact === undefined ? 0 : ended(exact.solve([1]));
        const few = new FewBlocks(ways, free, 'last');
        const counts = [0, 1, 2].map((cuts) => few.most(sheet, cuts));
        expect(counts).toEqual([...counts].sort((x, y) => x - y));
        for (const [cuts, held] of counts.entries()) {
          const tree = few.tree(sheet, cuts);
          expect(tree === undefined ? 0 : partsIn(tree)).toBe(held);
          expect(tree === undefined || fitsIn(tree, length, width)).toBe(true);
        }
        const most = mostOf(sheet, ways);
        expect(most).toBeGreaterThanOrEqual(count);
        expect(counts[2]).toBeLessThanOrEqual(count);
        if (!mayTurn) expect(counts[0]).toBe(most);
        all++;
        if (counts[2] === most) closed++;
        if (counts[2] === count) best++;
      }),
      { numRuns: 300 },
    );
    expect(best / all).toBeGreaterThan(0.97);
    expect(closed / all).toBeGreaterThan(0.5);
  });
});

function fitsIn(tree: Node, length: number, width: number): boolean {
  return tree.width <= length && tree.height <= width;
}

const limits = fc.record({
  kerf: fc.constantFrom(0, 0, 1, 2),
  leastStrip: fc.constantFrom(0, 0, 2, 3, 6),
  longestCut: fc.constantFrom(undefined, undefined, 150, 100, 60),
  rounds: fc.constantFrom(undefined, undefined, 2, 3, 4, 5),
});

describe('what is found at once', () => {
  it('is never fewer than go in part after part from the corner, within any limits; nor is it after a search', () => {
    let more = 0;
    fc.assert(
      fc.property(
        anyPiece,
        limits,
        fc.constantFrom<'rip' | 'crosscut' | undefined>('rip', 'crosscut', undefined),
        fc.integer({ min: 0, max: 9 }),
        ({ length, width, a, b, mayTurn }, { kerf, leastStrip, longestCut, rounds }, last, dice) => {
          fc.pre(Math.min(a, b) >= leastStrip && kerf < Math.min(a, b));
          const rules = {
            kerf,
            leastStrip,
            ...(longestCut === undefined ? {} : { longestCut }),
            ...(rounds === undefined ? {} : { rounds }),
          };
          const demand = demandOf([{ size: [4, 4] }], [{ size: [1000, 1000] }], rules);
          const [kind] = demandOf([{ size: [a, b], ...(mayTurn ? {} : { grain: 'length' }) }], []).parts;
          const used = last === undefined ? 0 : 1;
          const leftover: Leftover = { length: mm(length), width: mm(width), rounds: used, last, done: [] };
          const { filling, search } = ended(firstFilling(taskOf(kind, leftover, demand)));
          const sizes = waysOf(a, b, mayTurn).map((it) => [it.width, it.height] as const);
          const allowed: Allowed = {
            kerf,
            leastStrip,
            longestCut: longestCut ?? Number.POSITIVE_INFINITY,
            rounds: rounds ?? Number.POSITIVE_INFINITY,
          };
          const simple = mostFromCorner({ length, width, rounds: used, last }, sizes, allowed);
          expect(filling.count).toBeGreaterThanOrEqual(simple);
          expect(filling.most).toBeGreaterThanOrEqual(filling.count);
          if (filling.count > simple) more++;
          const cut = ended(filling.cutFor(filling.count));
          expect(cut === undefined ? 0 : partsOf(cut.tree)).toBe(filling.count);
          const some = ended(filling.cutFor(Math.ceil(filling.count / 2)));
          expect(some === undefined ? 0 : partsOf(some.tree)).toBe(some?.count ?? 0);
          expect(some?.count ?? 0).toBeLessThanOrEqual(Math.ceil(filling.count / 2));
          // To search each time takes long, and is no other than for the others.
          if (search === undefined || dice > 0) return;
          const after = ended(search.run());
          expect(after.count).toBeGreaterThanOrEqual(filling.count);
          expect(after.most).toBeLessThanOrEqual(filling.most);
          expect(after.most).toBeGreaterThanOrEqual(after.count);
        },
      ),
      { numRuns: 500 },
    );
    expect(more).toBeGreaterThan(50);
  });
});

type Demand = ReturnType<typeof demandOf>;

function taskOf(kind: PartKind, leftover: Leftover, demand: Demand): Parameters<typeof firstFilling>[0] {
  const [sheet] = demand.sheets;
  if (sheet === undefined) throw new Error('a demand without sheets');
  return { kind, part: 1, leftover, demand, sheet, work: new Work(0) };
}

function partsOf(tree: CutTree): number {
  if (tree.kind === 'part') return 1;
  if (tree.kind === 'left over') return 0;
  return partsOf(tree.near) + (tree.far === undefined ? 0 : partsOf(tree.far));
}

interface Allowed {
  readonly kerf: number;
  readonly leastStrip: number;
  readonly longestCut: number;
  readonly rounds: number;
}

interface InHand {
  readonly length: number;
  readonly width: number;
  readonly rounds: number;
  readonly last: 'rip' | 'crosscut' | undefined;
}

/**
 * Independent of the room: in life's sizes, kerf by kerf. The first way of lying that fits is taken, and the first cut
 * always goes the same way; the best of the four rules that this gives.
 */
function mostFromCorner(
  piece: InHand,
  sizes: readonly (readonly [number, number])[],
  allowed: Allowed,
): number {
  const orders = [sizes, [...sizes].reverse()];
  return Math.max(
    ...orders.flatMap((order) =>
      (['rip', 'crosscut'] as const).map((first) => cornerBy(first, piece, order, allowed)),
    ),
  );
}

function cornerBy(
  first: 'rip' | 'crosscut',
  piece: InHand,
  sizes: readonly (readonly [number, number])[],
  allowed: Allowed,
): number {
  for (const [along, up] of sizes) {
    const whole = cutOff(piece, first, along, up, allowed);
    const corner = whole && cutOff(whole.near, first === 'rip' ? 'crosscut' : 'rip', along, up, allowed);
    if (whole === undefined || corner === undefined) continue;
    const others = [whole.far, corner.far].map((it) =>
      it === undefined ? 0 : cornerBy(first, it, sizes, allowed),
    );
    return 1 + others[0]! + others[1]!;
  }
  return 0;
}

function cutOff(
  piece: InHand,
  kind: 'rip' | 'crosscut',
  along: number,
  up: number,
  { kerf, leastStrip, longestCut, rounds: mostRounds }: Allowed,
): { readonly near: InHand; readonly far: InHand | undefined } | undefined {
  const [size, at, cut] =
    kind === 'crosscut' ? [piece.length, along, piece.width] : [piece.width, up, piece.length];
  const behind = size - at;
  if (behind < 0) return undefined;
  if (behind === 0) return { near: piece, far: undefined };
  if (leastStrip > 0 && behind < kerf + leastStrip) return undefined;
  const rounds = piece.rounds + (kind === piece.last ? 0 : 1);
  if (cut > longestCut || rounds > mostRounds) return undefined;
  const after = { ...piece, rounds, last: kind };
  const sized = (it: number): InHand =>
    kind === 'crosscut' ? { ...after, length: it } : { ...after, width: it };
  return { near: sized(at), far: behind > kerf ? sized(behind - kerf) : undefined };
}
