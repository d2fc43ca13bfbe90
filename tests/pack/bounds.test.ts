import fc from 'fast-check';
import highsLoader from 'highs';
import { describe, expect, it } from 'vitest';
import { counting, rounding, type Scale, shrinking, stretching } from '../../src/pack/bounds/dualFeasible.ts';
import { type Job, Lie } from '../../src/pack/job.ts';
import { generateColumns } from '../../src/pack/patterns/columns.ts';
import { Master } from '../../src/pack/patterns/master.ts';
import { rasterPoints, sumsOf } from '../../src/pack/patterns/raster.ts';

describe('dual feasible functions', () => {
  const families: Record<string, (whole: number, parameter: number) => Scale> = {
    rounding: (whole, margin) => rounding(whole, Math.min(margin, Math.floor(whole / 2))),
    counting: (whole, step) => counting(whole, Math.min(step, Math.floor(whole / 2))),
    stretching,
    shrinking: (whole, parts) => shrinking(whole, parts + 1),
  };

  it.each(Object.entries(families))(
    '%s: two sizes side by side never count more than both together',
    (_, of) => {
      fc.assert(
        fc.property(fc.integer({ min: 2, max: 60 }), fc.integer({ min: 1, max: 30 }), (whole, parameter) => {
          const scale = of(whole, parameter);
          for (let a = 0; a <= whole; a++) {
            expect(Number.isSafeInteger(scale(a)) && scale(a) >= 0).toBe(true);
            for (let b = 0; a + b <= whole; b++) {
              if (scale(a) + scale(b) > scale(a + b)) {
                throw new Error(`${a} and ${b} of ${whole}: ${scale(a)} + ${scale(b)} > ${scale(a + b)}`);
              }
            }
          }
        }),
      );
    },
  );
});

describe('raster points', () => {
  it('are sums of sizes, and closed under cutting again', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 80 }),
        fc.array(fc.integer({ min: 3, max: 40 }), { minLength: 1, maxLength: 4 }),
        (whole, sizes) => {
          const points = rasterPoints(whole, sizes, 1000)!;
          const sums = sumsOf(whole, sizes, 1000)!;
          const isPoint = new Set(points);
          const below = (size: number) => Math.max(...sums.filter((sum) => sum <= size));
          for (const x of points) {
            expect(sums).toContain(x);
            for (const cut of points) {
              if (x - cut <= 0 || below(x - cut) === 0) continue;
              expect(isPoint.has(below(x - cut))).toBe(true);
            }
          }
        },
      ),
    );
  });
});

// Reference: HiGHS (package highs), a linear solver that shares nothing with ours.
describe('the master of the column generation', () => {
  it('finds the cost that HiGHS finds', async () => {
    // Its types describe the CommonJS build, in which the loader itself is what is exported.
    const load = highsLoader as unknown as () => Promise<{ solve(text: string): { ObjectiveValue: number } }>;
    const highs = await load();
    const column = fc.record({
      cost: fc.integer({ min: 1, max: 9 }),
      entries: fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 4, maxLength: 4 }),
    });
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 4, maxLength: 4 }),
        fc.array(column, { minLength: 1, maxLength: 12 }),
        (demand, columns) => {
          const dear = 1000;
          const master = new Master(
            demand,
            [],
            demand.map(() => dear),
          );
          for (const { cost, entries } of columns) master.add(cost, Float64Array.from(entries));
          for (const _ of master.solve());
          const terms = [
            ...columns.map(({ cost }, i) => `${cost} x${i}`),
            ...demand.map((_, row) => `${dear} left${row}`),
          ];
          const rows = demand.map((wanted, row) => {
            const covers = columns.map(({ entries }, i) => `${entries[row]} x${i}`);
            return `r${row}: ${[...covers, `1 left${row}`].join(' + ')} >= ${wanted}`;
          });
          const program = `Minimize\n obj: ${terms.join(' + ')}\nSubject To\n ${rows.join('\n ')}\nEnd`;
          expect(master.cost()).toBeCloseTo(highs.solve(program).ObjectiveValue, 4);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the bound of the column generation', () => {
  // By hand: beside a part of 60 × 60 there are 40 cells, too few for one of 45 × 45; four of those make a sheet.
  it('is known where an offcut holds none of the parts', () => {
    const job: Job = {
      kinds: [
        { length: 60, width: 60, count: 5 },
        { length: 45, width: 45, count: 4 },
      ],
      sheets: [
        { length: 100, width: 100, available: Number.POSITIVE_INFINITY, cost: 1 },
        { length: 10, width: 10, available: 3, cost: 0 },
      ],
      rules: {
        kerf: 0,
        leastStrip: 0,
        longestCut: Number.POSITIVE_INFINITY,
        rounds: Number.POSITIVE_INFINITY,
      },
      lies: Uint8Array.from([Lie.straight, 0, Lie.straight, 0]),
    };
    const run = generateColumns(job, [5, 4]);
    let next = run.next();
    while (!next.done) next = run.next();
    expect(next.value.bound?.sheets).toBe(6);
  });
});
