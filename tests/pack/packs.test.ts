import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blanksFor } from '../../src/blank/index.ts';
import { compareRationals, whole } from '../../src/measure/index.ts';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { packAtHand, verify } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, mm } from './demand.ts';

interface Offer {
  readonly size: readonly [number, number];
  readonly pack: number;
  readonly price: number;
  /** Sheets that can be had. */
  readonly available: number | 'as needed';
}

interface Want {
  readonly size: readonly [number, number];
  readonly count: number;
}

/** Grain along the length of all, so that nothing turns. */
function laid(wants: readonly Want[], offers: readonly Offer[], steps = 300): MaterialLayouts {
  const demand = demandOf(
    wants.map((it) => ({ ...it, grain: 'length' })),
    offers.map((it) => ({ ...it, grain: 'length' })),
  );
  const { value } = runToEnd(packAtHand(blanksFor(demand, mm(1)), steps));
  if (value === undefined) throw new Error('nothing was laid out');
  expect(verify(value)).toEqual([]);
  return value;
}

/** What is paid: packs are counted here by themselves. */
function paid({ layouts }: MaterialLayouts, offers: readonly Offer[]): number {
  return offers.reduce((sum, { pack, price }, kind) => {
    const used = layouts.reduce((all, { sheet, times }) => all + (sheet === kind ? times : 0), 0);
    return sum + price * Math.ceil(used / pack);
  }, 0);
}

/** Holds what was found, and what is claimed of it, against the cheapest there is. */
function expectBorneOut(found: MaterialLayouts, offers: readonly Offer[], cheapest: number): void {
  const spent = paid(found, offers);
  expect(spent).toBeGreaterThanOrEqual(cheapest);
  const { proof, bound } = found;
  if (proof.kind === 'none' || proof.cost === undefined) throw new Error('nothing is claimed of the cost');
  expect(compareRationals(bound.cost!.amount, whole(cheapest))).toBeLessThanOrEqual(0);
  if (proof.cost.kind === 'cheapest') expect(spent).toBe(cheapest);
  else expect(compareRationals(proof.cost.by.amount, whole(spent - cheapest))).toBeGreaterThanOrEqual(0);
}

/**
 * Which numbers of each part go onto a piece together, by trying every cut from edge to edge. No kerf, no turning.
 */
function fitting(wants: readonly Want[]) {
  const known = new Map<string, boolean>();
  const fits = (counts: readonly number[], l: number, w: number): boolean => {
    const all = counts.reduce((sum, it) => sum + it, 0);
    if (all === 0) return true;
    const area = counts.reduce((sum, n, i) => sum + n * wants[i]!.size[0] * wants[i]!.size[1], 0);
    if (area > l * w || l < 1 || w < 1) return false;
    if (all === 1) {
      const [a, b] = wants[counts.findIndex((n) => n > 0)]!.size;
      return a <= l && b <= w;
    }
    const key = `${counts} ${l} ${w}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found = false;
    for (const near of selections(counts)) {
      const some = near.some((n) => n > 0) && near.some((n, i) => n < counts[i]!);
      if (!some) continue;
      const far = counts.map((n, i) => n - near[i]!);
      for (let at = 1; at < l && !found; at++) found = fits(near, at, w) && fits(far, l - at, w);
      for (let at = 1; at < w && !found; at++) found = fits(near, l, at) && fits(far, l, w - at);
      if (found) break;
    }
    known.set(key, found);
    return found;
  };
  return fits;
}

/** Every choice of as many of each as there are, or fewer. */
function selections(counts: readonly number[]): readonly (readonly number[])[] {
  return counts.reduce<readonly (readonly number[])[]>(
    (all, most) => all.flatMap((it) => Array.from({ length: most + 1 }, (_, n) => [...it, n])),
    [[]],
  );
}

/** Exhaustive: what so many of each part cost at least, over every way of dealing them onto sheets. */
function cheapestByHand(wants: readonly Want[], offers: readonly Offer[]): number {
  const fits = fitting(wants);
  const counts = wants.map(({ count }) => count);
  let best = Number.POSITIVE_INFINITY;
  const seen = new Set<string>();
  const deal = (left: readonly number[], used: readonly number[]): void => {
    const key = `${left} ${used}`;
    if (seen.has(key)) return;
    seen.add(key);
    const cost = offers.reduce((sum, { pack, price }, i) => sum + price * Math.ceil(used[i]! / pack), 0);
    if (cost >= best) return;
    if (left.every((n) => n === 0)) {
      best = cost;
      return;
    }
    const first = left.findIndex((n) => n > 0);
    for (const [kind, { size, available }] of offers.entries()) {
      if (available !== 'as needed' && used[kind]! >= available) continue;
      for (const taken of selections(left)) {
        if (taken[first] === 0 || !fits(taken, ...size)) continue;
        deal(
          left.map((n, i) => n - taken[i]!),
          used.map((n, i) => (i === kind ? n + 1 : n)),
        );
      }
    }
  };
  deal(
    counts,
    offers.map(() => 0),
  );
  return best;
}

const side = (most: number) => fc.integer({ min: 1, max: most });
const anOffer = fc
  .record({
    size: fc.tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 3, max: 7 })),
    pack: fc.integer({ min: 1, max: 4 }),
    price: fc.integer({ min: 1, max: 9 }),
    packs: fc.constantFrom(1, 2, undefined, undefined),
  })
  .map(
    ({ packs, ...it }): Offer => ({
      ...it,
      available: packs === undefined ? 'as needed' : packs * it.pack,
    }),
  );
const aWant = fc.record({
  size: fc.tuple(side(5), side(5)),
  count: fc.integer({ min: 1, max: 3 }),
});

describe('the cheapest packs', () => {
  it('are never cheaper than every way of cutting, and as cheap where that is claimed', () => {
    const claimed = { cheapest: 0, best: 0, all: 0 };
    fc.assert(
      fc.property(
        fc.array(aWant, { minLength: 1, maxLength: 3 }),
        fc.array(anOffer, { minLength: 1, maxLength: 3 }),
        (wants, offers) => {
          fc.pre(offers.some(({ pack }) => pack > 1));
          fc.pre(wants.every(({ size: [l, w] }) => offers.some(({ size }) => l <= size[0] && w <= size[1])));
          const cheapest = cheapestByHand(wants, offers);
          const found = laid(wants, offers);
          if (found.unplaced.length > 0) {
            expect(found.proof.kind).toBe('none');
            return;
          }
          expectBorneOut(found, offers, cheapest);
          claimed.all++;
          if (paid(found, offers) === cheapest) claimed.best++;
          const { proof } = found;
          if (proof.kind !== 'none' && proof.cost?.kind === 'cheapest') claimed.cheapest++;
        },
      ),
      { numRuns: 200 },
    );
    // The bounds are good enough to prove most of them.
    expect(claimed.best).toBeGreaterThan(claimed.all * 0.9);
    expect(claimed.cheapest).toBeGreaterThan(claimed.all * 0.6);
  });
});
