import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutTree, MaterialLayouts } from '../../src/model/index.ts';
import { pack, verify } from '../../src/pack/index.ts';
import { demandOf, mm, type PartLine } from './demand.ts';
import { type AllowedCuts, fewestOf, mostTogether, runOf } from './exhaustive.ts';

// Everything here follows from the rule as `specs/LANGUAGE.md` states it, by hand or by trying all there is; no source.

/**
 * What a person cuts: a piece of whole millimetres, parted into two, shaved, or left as it is and then a part.
 * The trees are grown here, with the parts that they give, so that only the rule can be broken in them.
 */
interface Grown {
  readonly tree: CutTree;
  readonly parts: PartLine[];
}

interface Piece {
  readonly length: number;
  readonly width: number;
  readonly done: readonly ('rip' | 'crosscut')[];
}

/** The one clause that a tree breaks, at one of its cuts. */
type Break = 'near too narrow' | 'far too narrow' | 'shaved again' | 'parted when shaved';

const limits = { kerf: 2, leastStrip: 5 } as const;

/** @param throwsLeft  random numbers, used up one by one; none left: every piece is a part */
function grow(whole: Piece, throwsLeft: number[], broken: Break | undefined) {
  let toBreak = broken;
  const parts: PartLine[] = [];
  const { kerf, leastStrip } = limits;
  const partOf = ({ length, width }: Piece): CutTree => {
    parts.push({ size: [length, width], grain: 'length' });
    return { kind: 'part', part: parts.length - 1, turned: false };
  };
  const growing = (piece: Piece): CutTree => {
    const pick = (count: number) => (throwsLeft.pop() ?? 0) % count;
    if (throwsLeft.length === 0) return partOf(piece);
    const kind = pick(2) === 0 ? ('rip' as const) : ('crosscut' as const);
    const size = kind === 'rip' ? piece.width : piece.length;
    const sized = (it: number, done = piece.done): Piece =>
      kind === 'rip' ? { ...piece, width: it, done } : { ...piece, length: it, done };
    const parted = (at: number): CutTree => ({
      kind,
      at: mm(at),
      near: growing(sized(at)),
      far: growing(sized(size - at - kerf)),
    });
    const shaved = (at: number): CutTree => ({
      kind,
      at: mm(at),
      near: growing(sized(at, [...piece.done, kind])),
      far: undefined,
    });
    const isDone = piece.done.includes(kind);
    const mayBeParted = size >= 2 * leastStrip + kerf;
    const mayBeShaved = size > leastStrip + kerf;
    if (toBreak === 'near too narrow' && !isDone && mayBeParted) {
      toBreak = undefined;
      return parted(1 + pick(leastStrip - 1));
    }
    if (toBreak === 'far too narrow' && !isDone && size >= 2 * leastStrip + kerf) {
      toBreak = undefined;
      return parted(size - kerf - 1 - pick(leastStrip - 1));
    }
    if (toBreak === 'shaved again' && isDone && mayBeShaved) {
      toBreak = undefined;
      return shaved(size - 1 - pick(kerf));
    }
    if (toBreak === 'parted when shaved' && isDone && mayBeParted) {
      toBreak = undefined;
      return parted(leastStrip + pick(size - 2 * leastStrip - kerf + 1));
    }
    if (isDone) return pick(4) === 0 ? partOf(piece) : growing(piece);
    if (mayBeShaved && pick(3) === 0) return shaved(size - 1 - pick(kerf));
    if (mayBeParted) return parted(leastStrip + pick(size - 2 * leastStrip - kerf + 1));
    return partOf(piece);
  };
  return { tree: growing(whole), parts, isBroken: toBreak !== broken };
}

function asLayouts({ tree, parts }: Grown, size: readonly [number, number], rules = limits): MaterialLayouts {
  return {
    demand: demandOf(parts, [{ size, grain: 'length' }], rules),
    layouts: [{ sheet: 0, tree, times: 1 }],
    unplaced: [],
    bound: { sheets: 1, argument: 'one is needed' },
    proof: { kind: 'fewest' },
    steps: 0,
  };
}

const throws = fc.array(fc.nat(1_000_000), { minLength: 8, maxLength: 60 });
const size = fc.tuple(fc.integer({ min: 20, max: 90 }), fc.integer({ min: 20, max: 90 }));

const words: Record<Break, RegExp> = {
  'near too narrow': /^a strip of \d+ is cut off, the least is 5$/,
  'far too narrow': /^a strip of \d+ remains, the least is 5$/,
  'shaved again': /^a (rip|crosscut) goes through what was shaved by one$/,
  'parted when shaved': /^a (rip|crosscut) goes through what was shaved by one$/,
};

describe('the checker, on trees grown by the rule', () => {
  it('finds nothing wrong where no clause is broken', () => {
    fc.assert(
      fc.property(throws, size, (numbers, [length, width]) => {
        const grown = grow({ length, width, done: [] }, [...numbers], undefined);
        expect(verify(asLayouts(grown, [length, width]))).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  it.each(Object.keys(words) as Break[])('finds the one clause that is broken: %s', (broken) => {
    fc.assert(
      fc.property(throws, size, (numbers, [length, width]) => {
        const grown = grow({ length, width, done: [] }, [...numbers], broken);
        fc.pre(grown.isBroken);
        const said = verify(asLayouts(grown, [length, width])).map(({ what }) => what);
        expect(said.some((what) => words[broken].test(what))).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  const rest: CutTree = { kind: 'left over' };
  const part: CutTree = { kind: 'part', part: 0, turned: false };
  const said = (
    tree: CutTree,
    partSize: readonly [number, number],
    rules: typeof limits | { kerf: 2; leastStrip: 0 },
  ) =>
    verify(
      asLayouts({ tree, parts: [{ size: partSize, grain: 'length' }] }, [40, 30], rules as typeof limits),
    ).map(({ what }) => what);
  const rip = (at: number, near: CutTree, far?: CutTree): CutTree => ({ kind: 'rip', at: mm(at), near, far });
  const crosscut = (at: number, near: CutTree, far?: CutTree): CutTree => ({
    kind: 'crosscut',
    at: mm(at),
    near,
    far,
  });

  it('lets just the kerf be lost, and just the least strip remain', () => {
    expect(said(rip(28, part), [40, 28], limits)).toEqual([]);
    expect(said(rip(23, part, rest), [40, 23], limits)).toEqual([]);
    expect(said(rip(27, part, rest), [40, 27], limits)).toEqual(['a strip of 1 remains, the least is 5']);
    expect(said(rip(24, part, rest), [40, 24], limits)).toEqual(['a strip of 4 remains, the least is 5']);
  });

  it('lets a piece be shaved once each way', () => {
    expect(said(rip(28, crosscut(38, part)), [38, 28], limits)).toEqual([]);
    expect(said(rip(28, crosscut(38, rip(26, part))), [38, 26], limits)).toEqual([
      'a rip goes through what was shaved by one',
    ]);
    // A strip that can be held comes off first, then the sliver; not the other way round.
    expect(said(rip(22, rip(20, part), rest), [40, 20], limits)).toEqual([]);
    expect(said(rip(28, rip(20, part, rest)), [40, 20], limits)).toEqual([
      'a rip goes through what was shaved by one',
    ]);
  });

  it('counts no shaving where no strip is too narrow', () => {
    expect(said(rip(28, crosscut(38, rip(26, part))), [38, 26], { kerf: 2, leastStrip: 0 })).toEqual([]);
  });
});

const side = (min: number, max: number) => fc.integer({ min, max });
const cuts: fc.Arbitrary<AllowedCuts> = fc.record({
  kerf: fc.constantFrom(0, 1, 1, 2),
  leastStrip: fc.constantFrom(1, 2, 3, 4),
  longestCut: fc.constantFrom(8, 10, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY),
  rounds: fc.constantFrom(2, 3, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY),
});

function rulesOf({ kerf, leastStrip, longestCut, rounds }: AllowedCuts) {
  return {
    kerf,
    leastStrip,
    ...(Number.isFinite(longestCut) ? { longestCut } : {}),
    ...(Number.isFinite(rounds) ? { rounds } : {}),
  };
}

function used({ layouts }: MaterialLayouts): number {
  return layouts.reduce((sum, { times }) => sum + times, 0);
}

describe('pack with a least strip, against every way of cutting there is', () => {
  it('has bound ≤ fewest ≤ used, and calls nothing the fewest that is not', () => {
    let [runs, reached] = [0, 0];
    fc.assert(
      fc.property(
        fc.tuple(side(5, 12), side(5, 10)),
        fc.array(fc.tuple(side(1, 8), side(1, 7)), { minLength: 1, maxLength: 6 }),
        cuts,
        fc.boolean(),
        (sheet, parts, allowed, mayTurn) => {
          const wide = parts.filter((part) => Math.min(...part) > allowed.kerf);
          fc.pre(wide.length > 0);
          const demand = demandOf(
            wide.map((it) => ({ size: it, grain: mayTurn ? 'any' : 'length' })),
            [{ size: sheet, grain: 'length' }],
            rulesOf(allowed),
          );
          const value = runOf(pack(demand, 400)).value!;
          expect(verify(value)).toEqual([]);
          const lost = new Set(value.unplaced.map(({ part }) => part));
          const isCuttable = wide.map((it) => fewestOf([it], sheet, allowed, mayTurn) === 1);
          expect(wide.map((_, i) => !lost.has(i))).toEqual(isCuttable);
          const made = wide.filter((_, i) => isCuttable[i]);
          fc.pre(made.length > 0);
          const fewest = fewestOf(made, sheet, allowed, mayTurn);
          expect(value.bound.sheets).toBeLessThanOrEqual(fewest);
          expect(used(value)).toBeGreaterThanOrEqual(fewest);
          if (value.proof.kind === 'fewest') expect(used(value)).toBe(fewest);
          runs++;
          if (used(value) === fewest) reached++;
        },
      ),
      { numRuns: 150 },
    );
    // The search is not told to try all there is; but on so few parts it should hardly ever miss.
    expect(reached).toBeGreaterThanOrEqual(0.98 * runs);
  });

  it('likewise for many copies, where the bound comes from the best of all sheets', () => {
    fc.assert(
      fc.property(
        fc.tuple(side(8, 16), side(7, 13)),
        fc.tuple(side(2, 8), side(2, 7), side(40, 130)),
        fc.tuple(side(2, 8), side(2, 7), side(40, 130)),
        cuts,
        (sheet, [al, aw, a], [bl, bw, b], allowed) => {
          const parts = [
            { size: [al, aw] as const, count: a, grain: 'length' as const },
            { size: [bl, bw] as const, count: b, grain: 'length' as const },
          ];
          fc.pre(parts.every((it) => Math.min(...it.size) > allowed.kerf));
          const together = mostTogether(
            parts.map((it) => it.size),
            sheet,
            allowed,
          );
          fc.pre(together.some(([x]) => x > 0) && together.some(([, y]) => y > 0));
          const value = runOf(
            pack(demandOf(parts, [{ size: sheet, grain: 'length' }], rulesOf(allowed)), 200),
          ).value!;
          expect(verify(value)).toEqual([]);
          expect(value.unplaced).toEqual([]);
          const fewest = fewestWith(together, a, b);
          expect(value.bound.sheets).toBeLessThanOrEqual(fewest);
          expect(used(value)).toBeGreaterThanOrEqual(fewest);
          expect(used(value)).toBeLessThanOrEqual(fewest + 1);
          if (value.proof.kind === 'fewest') expect(used(value)).toBe(fewest);
        },
      ),
      { numRuns: 60 },
    );
  });
});

/** The fewest sheets that hold `a` and `b` copies, when one can hold these pairs. */
function fewestWith(together: readonly (readonly [number, number])[], a: number, b: number): number {
  const fewest = Array.from({ length: a + 1 }, () => new Array<number>(b + 1).fill(Number.POSITIVE_INFINITY));
  fewest[0]![0] = 0;
  for (let i = 0; i <= a; i++) {
    for (let j = 0; j <= b; j++) {
      for (const [x, y] of together) {
        if (x + y === 0) continue;
        const before = fewest[Math.max(0, i - x)]![Math.max(0, j - y)]!;
        if (before + 1 < fewest[i]![j]!) fewest[i]![j] = before + 1;
      }
    }
  }
  return fewest[a]![b]!;
}
