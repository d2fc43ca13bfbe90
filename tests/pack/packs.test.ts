import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blanksFor } from '../../src/blank/index.ts';
import { compareRationals, whole } from '../../src/measure/index.ts';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { packAtHand, verify } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, mm } from './demand.ts';
import { fitting, fullest, type Highs, loadHighs, selections, termsOf, type Want } from './everyWay.ts';

interface Offer {
  readonly size: readonly [number, number];
  readonly pack: number;
  readonly price: number;
  /** Sheets that can be had. */
  readonly available: number | 'as needed';
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

/** What an integer program gives: how often each sheet is filled in each way, and how many packs that takes. */
function cheapestByProgram(wants: readonly Want[], offers: readonly Offer[], highs: Highs): number {
  const ways = offers.flatMap(({ size }, kind) => fullest(wants, size).map((holds) => ({ kind, holds })));
  const program = [
    `Minimize\n cost: ${termsOf(offers.map(({ price }, kind) => [price, `p${kind}`]))}`,
    'Subject To',
    ...wants.map(
      ({ count }, want) =>
        ` w${want}: ${termsOf(ways.map(({ holds }, i) => [holds[want]!, `x${i}`]))} >= ${count}`,
    ),
    ...offers.map(({ pack }, kind) => {
      const filled = ways.flatMap((it, i): [number, string][] => (it.kind === kind ? [[1, `x${i}`]] : []));
      return ` s${kind}: ${termsOf([...filled, [-pack, `p${kind}`]])} <= 0`;
    }),
    'Bounds',
    ...offers.map(({ pack, available }, kind) => {
      return ` 0 <= p${kind} <= ${available === 'as needed' ? 1000 : available / pack}`;
    }),
    `General\n ${[...ways.map((_, i) => `x${i}`), ...offers.map((_, kind) => `p${kind}`)].join(' ')}`,
    'End',
  ].join('\n');
  const solved = highs.solve(program, { mip_rel_gap: 0 });
  return solved.Status === 'Optimal' ? Math.round(solved.ObjectiveValue) : Number.POSITIVE_INFINITY;
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

  // Reference: HiGHS (package highs), an integer solver that shares nothing with ours, over every way of filling a sheet.
  it('are what an integer solver finds, of larger numbers', async () => {
    const highs = await loadHighs();
    const claimed = { cheapest: 0, best: 0, all: 0 };
    fc.assert(
      fc.property(
        fc.array(aWant, { minLength: 1, maxLength: 2 }),
        fc.array(anOffer, { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 1, max: 6 }),
        (few, offers, times) => {
          const wants = few.map((it) => ({ ...it, count: it.count * times }));
          fc.pre(wants.every(({ size: [l, w] }) => offers.some(({ size }) => l <= size[0] && w <= size[1])));
          const cheapest = cheapestByProgram(wants, offers, highs);
          const found = laid(wants, offers);
          if (found.unplaced.length > 0) return;
          expect(cheapest).toBeLessThan(Number.POSITIVE_INFINITY);
          const { proof } = found;
          if (proof.kind === 'none' || proof.cost === undefined) {
            // Of one kind that is sold alone the fewest are the cheapest.
            expect(new Set(offers.map(({ price, pack }) => `${price} ${pack}`))).toEqual(
              new Set([`${offers[0]!.price} 1`]),
            );
            return;
          }
          expectBorneOut(found, offers, cheapest);
          claimed.all++;
          if (paid(found, offers) === cheapest) claimed.best++;
          if (proof.cost.kind === 'cheapest') claimed.cheapest++;
        },
      ),
      { numRuns: 80 },
    );
    expect(claimed.best).toBeGreaterThan(claimed.all * 0.8);
    expect(claimed.cheapest).toBeGreaterThan(claimed.all * 0.4);
  });

  // Source: by hand. Seven sheets: a pack of five at 4 and two at 1 are 6; two packs are 8, seven alone 7.
  it('are a pack and two alone, where that is less', () => {
    const offers: readonly Offer[] = [
      { size: [6, 6], pack: 1, price: 1, available: 'as needed' },
      { size: [6, 6], pack: 5, price: 4, available: 'as needed' },
    ];
    const found = laid([{ size: [6, 6], count: 7 }], offers);
    expect(paid(found, offers)).toBe(6);
    expect(found.proof).toEqual({ kind: 'fewest', cost: { kind: 'cheapest' } });
  });

  // Source: by hand. One sheet is wanted: a pack of ten for 3 is cheaper than one alone for 4.
  it('are a whole pack, where one alone is dearer', () => {
    const offers: readonly Offer[] = [
      { size: [6, 6], pack: 1, price: 4, available: 'as needed' },
      { size: [6, 6], pack: 10, price: 3, available: 'as needed' },
    ];
    const found = laid([{ size: [6, 6], count: 1 }], offers);
    expect(paid(found, offers)).toBe(3);
  });

  // Source: by hand, in half inches. A small sheet of 32 × 24 holds four panels of 15 × 11: ten of them, in two packs, hold
  // forty. One large sheet of 48 × 32 has room for the last and for seven strips of 30 × 4: 2 × 4.20 + 1.95 = 10.35.
  it('are two packs and one large sheet, where more small ones would do as well', () => {
    const offers: readonly Offer[] = [
      { size: [32, 24], pack: 1, price: 110, available: 'as needed' },
      { size: [32, 24], pack: 5, price: 420, available: 'as needed' },
      { size: [48, 32], pack: 1, price: 195, available: 'as needed' },
    ];
    const parts = [
      { size: [15, 11], count: 41 },
      { size: [30, 4], count: 7 },
    ] as const;
    expect(paid(laid(parts, offers), offers)).toBe(1035);
  });
});
