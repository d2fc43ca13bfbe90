import fc from 'fast-check';
import highsLoader from 'highs';
import { describe, expect, it } from 'vitest';
import { compareRationals, whole } from '../../src/measure/index.ts';
import { leastCost } from '../../src/pack/bounds/leastCost.ts';
import { pack, verify } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf } from './demand.ts';

const size = (most: number) => fc.tuple(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: most }));

describe('the least cost', () => {
  const kind = fc.record({
    held: fc.integer({ min: 1, max: 30 }),
    cost: fc.integer({ min: 0, max: 9 }),
    available: fc.constantFrom(0, 1, 2, 3),
  });

  it('is that of the cheapest mix that holds the amount', () => {
    fc.assert(
      fc.property(
        fc.array(kind, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 0, max: 150 }),
        (kinds, amount) => {
          const sheets = kinds.map(({ held, cost, available }) => ({
            length: held,
            width: 1,
            cost,
            available,
          }));
          const held = ({ length }: { length: number }) => BigInt(length);
          expect(leastCost(sheets, BigInt(amount), held)).toBe(cheapestByHand(kinds, amount));
        },
      ),
    );
  });
});

// Reference: HiGHS (package highs), an integer solver that shares nothing with ours.
it('is what an integer solver finds for several sizes at several prices', async () => {
  // Its types describe the CommonJS build, in which the loader itself is what is exported.
  const load = highsLoader as unknown as () => Promise<{
    solve(text: string, options: object): { ObjectiveValue: number };
  }>;
  const highs = await load();
  const kind = fc.record({
    length: fc.integer({ min: 2, max: 30 }),
    width: fc.integer({ min: 2, max: 20 }),
    cost: fc.integer({ min: 1, max: 500 }),
    available: fc.constantFrom(2, 5, 9, Number.POSITIVE_INFINITY),
  });
  fc.assert(
    fc.property(
      fc.array(kind, { minLength: 2, maxLength: 4 }),
      fc.integer({ min: 1, max: 4000 }),
      (sheets, amount) => {
        const held = sheets.reduce((sum, it) => sum + it.length * it.width * it.available, 0);
        fc.pre(held >= amount);
        const terms = (of: (i: number) => number) => sheets.map((_, i) => `${of(i)} n${i}`).join(' + ');
        const program = [
          `Minimize\n cost: ${terms((i) => sheets[i]!.cost)}`,
          `Subject To\n all: ${terms((i) => sheets[i]!.length * sheets[i]!.width)} >= ${amount}`,
          'Bounds',
          ...sheets.map(({ available }, i) => ` 0 <= n${i} <= ${Math.min(available, 3000)}`),
          `General\n ${sheets.map((_, i) => `n${i}`).join(' ')}`,
          'End',
        ].join('\n');
        const area = ({ length, width }: { length: number; width: number }) => BigInt(length * width);
        expect(leastCost(sheets, BigInt(amount), area)).toBe(
          Math.round(highs.solve(program, { mip_rel_gap: 0 }).ObjectiveValue),
        );
      },
    ),
    { numRuns: 100 },
  );
});

/** Every number of every kind; where all together hold too little, what they all cost. */
function cheapestByHand(
  kinds: readonly { readonly held: number; readonly cost: number; readonly available: number }[],
  amount: number,
): number {
  const all = kinds.reduce((sum, { cost, available }) => sum + cost * available, 0);
  const from = (i: number, rest: number): number => {
    if (rest <= 0) return 0;
    const it = kinds[i];
    if (it === undefined) return Number.POSITIVE_INFINITY;
    const ways = Array.from(
      { length: it.available + 1 },
      (_, n) => n * it.cost + from(i + 1, rest - n * it.held),
    );
    return Math.min(...ways);
  };
  return Math.min(all, from(0, amount));
}

describe('what is claimed of the cost', () => {
  const small = fc.record({
    sheets: fc.array(fc.tuple(size(7), fc.integer({ min: 1, max: 6 })), { minLength: 2, maxLength: 3 }),
    parts: fc.array(size(5), { minLength: 1, maxLength: 4 }),
  });

  it('is never more than every way of cutting bears out', () => {
    fc.assert(
      fc.property(small, ({ sheets, parts }) => {
        const fitting = parts.filter(([l, w]) => sheets.some(([[sl, sw]]) => l <= sl && w <= sw));
        fc.pre(fitting.length > 0);
        const demand = demandOf(
          fitting.map((it) => ({ size: it, grain: 'length' })),
          sheets.map(([it, price]) => ({ size: it, price, grain: 'length' })),
        );
        const { value } = runToEnd(pack(demand, 300));
        expect(verify(value!)).toEqual([]);
        const { proof, bound } = value!;
        if (proof.kind === 'none' || proof.cost === undefined) {
          expect(new Set(sheets.map(([, price]) => price)).size).toBe(1);
          return;
        }
        const cheapest = whole(cheapestWay(fitting, sheets));
        const spent = whole(
          value!.layouts.reduce((sum, { sheet, times }) => sum + sheets[sheet]![1] * times, 0),
        );
        expect(compareRationals(bound.cost!.amount, cheapest)).toBeLessThanOrEqual(0);
        expect(compareRationals(spent, cheapest)).toBeGreaterThanOrEqual(0);
        if (proof.cost.kind === 'cheapest') expect(spent).toEqual(cheapest);
      }),
      { numRuns: 120 },
    );
  });
});

/** Exhaustive: which sets of parts go onto one sheet of a kind, then the cheapest such sets. No kerf, no turning. */
function cheapestWay(
  parts: readonly (readonly [number, number])[],
  sheets: readonly (readonly [readonly [number, number], number])[],
): number {
  const known = new Map<string, boolean>();
  const fits = (set: number, l: number, w: number): boolean => {
    const members = parts.filter((_, i) => (set >> i) & 1);
    if (members.length === 0) return true;
    if (members.length === 1) return members[0]![0] <= l && members[0]![1] <= w;
    const key = `${set} ${l} ${w}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found = false;
    for (let near = (set - 1) & set; near > 0 && !found; near = (near - 1) & set) {
      for (let at = 1; at < l && !found; at++) found = fits(near, at, w) && fits(set ^ near, l - at, w);
      for (let at = 1; at < w && !found; at++) found = fits(near, l, at) && fits(set ^ near, l, w - at);
    }
    known.set(key, found);
    return found;
  };
  const least = [0];
  for (let set = 1; set < 1 << parts.length; set++) {
    least[set] = Number.POSITIVE_INFINITY;
    for (let one = set; one > 0; one = (one - 1) & set) {
      for (const [[l, w], price] of sheets) {
        if (fits(one, l, w)) least[set] = Math.min(least[set]!, price + least[set ^ one]!);
      }
    }
  }
  return least.at(-1)!;
}
