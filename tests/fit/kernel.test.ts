import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { judge, neighbours } from '../../src/fit/index.ts';
import { touchingOf } from '../../src/fit/touching.ts';
import { compare, minus, multiply, sum, toDrawnMm, zero } from '../../src/measure/index.ts';
import { type Block, ways } from '../../src/model/index.ts';
import { mm, standUp } from './byHand.ts';
import { anyAdded, anyRow, anyRowIn } from './randomBuilds.ts';

// Source of every expected value here: manifold-3d 3.5.4, an independent solid kernel in binary floats.
type Kernel = Awaited<ReturnType<typeof initManifold>>;
let kernel: Kernel;
beforeAll(async () => {
  kernel = await initManifold();
  kernel.setup();
});

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };

function solid({ low, high }: Block): InstanceType<Kernel['Manifold']> {
  const at = (block: Block['low']): [number, number, number] => [
    toDrawnMm(block.across),
    toDrawnMm(block.along),
    toDrawnMm(block.up),
  ];
  const [from, to] = [at(low), at(high)];
  return kernel.Manifold.cube([to[0] - from[0], to[1] - from[1], to[2] - from[2]]).translate(from);
}

function volume({ low, high }: Block): number {
  const spans = ways.map((way) => minus(high[way], low[way]));
  const [a = zero, b = zero, c = zero] = spans;
  // A volume has no type of its own; only its float is looked at.
  return toDrawnMm(multiply(multiply(a, b), c) as never);
}

const close = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a), Math.abs(b));

const builds = fc.tuple(anyRow, anyAdded).map(([row, added]) => standUp(row, { added }).build);

describe('against an independent kernel', () => {
  it('agrees on the volume and the box of every piece', () => {
    fc.assert(
      fc.property(builds, (build) => {
        for (const { block } of build?.parts ?? []) {
          const it = solid(block);
          const box = it.boundingBox();
          expect(close(it.volume(), volume(block))).toBe(true);
          ways.forEach((way, index) => {
            expect(close(box.min[index] ?? Number.NaN, toDrawnMm(block.low[way]))).toBe(true);
            expect(close(box.max[index] ?? Number.NaN, toDrawnMm(block.high[way]))).toBe(true);
          });
        }
      }),
      { numRuns: 40 },
    );
  });

  it('finds the same pairs that share space, and the same share', () => {
    fc.assert(
      fc.property(builds, (build) => {
        if (build === undefined) return;
        const ours = new Map(
          touchingOf(build).overlaps.map(({ part, other, shared: high }) => [
            `${build.parts.indexOf(part)} ${build.parts.indexOf(other)}`,
            volume({ low: { across: zero, along: zero, up: zero }, high }),
          ]),
        );
        build.parts.forEach((one, i) => {
          build.parts.slice(i + 1).forEach((two, j) => {
            const shared = solid(one.block).intersect(solid(two.block)).volume();
            const found = ours.get(`${i} ${i + 1 + j}`) ?? 0;
            expect(close(shared, found), `${one.name} and ${two.name}`).toBe(true);
          });
        });
      }),
      { numRuns: 40 },
    );
  });

  it('fills as much space as the union of its pieces, where none overlap', () => {
    fc.assert(
      fc.property(anyRow, (row) => {
        const { build } = standUp(row);
        if (build === undefined) return;
        const union = kernel.Manifold.union(build.parts.map(({ block }) => solid(block)));
        const total = build.parts.reduce((all, { block }) => all + volume(block), 0);
        expect(judge(build, bench).faults.filter(({ kind }) => kind === 'overlaps')).toEqual([]);
        expect(close(union.volume(), total)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('shows as much surface as the union has, the side on the table included', () => {
    fc.assert(
      // Sizes that binary floats hold exactly, or faces that touch would lie apart for the kernel.
      fc.property(anyRowIn(4), (row) => {
        const { build } = standUp(row);
        if (build === undefined) return;
        const union = kernel.Manifold.union(build.parts.map(({ block }) => solid(block)));
        const shown = judge(build, bench).faces.reduce(
          (all, { area }) => all + toDrawnMm(area.lo as never),
          0,
        );
        const hidden = build.parts
          .filter(({ block }) => block.low.up.numerator === 0n)
          .reduce((all, { block }) => all + bottomOf(block), 0);
        expect(close(union.surfaceArea(), shown + hidden)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

function bottomOf({ low, high }: Block): number {
  return toDrawnMm(minus(high.across, low.across)) * toDrawnMm(minus(high.along, low.along));
}

describe('pairs that lie near each other', () => {
  const block = fc
    .tuple(
      fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 3, maxLength: 3 }),
      fc.integer({ min: 1, max: 9 }),
    )
    .map(
      ([[a = 0, b = 0, c = 0], side]): Block => ({
        low: { across: mm(a), along: mm(b), up: mm(c) },
        high: { across: mm(a + side), along: mm(b + side), up: mm(c + side) },
      }),
    );

  it('are those that comparing all with all finds', () => {
    fc.assert(
      fc.property(fc.array(block, { maxLength: 60 }), fc.integer({ min: 0, max: 2 }), (blocks, reach) => {
        const all = blocks.flatMap((one, i) =>
          blocks.slice(i + 1).flatMap((two, j) => (meet(one, two, mm(reach)) ? [[i, i + 1 + j]] : [])),
        );
        expect(neighbours(blocks, mm(reach))).toEqual(all);
      }),
      { numRuns: 200 },
    );
  });

  function meet(a: Block, b: Block, reach: ReturnType<typeof mm>): boolean {
    return ways.every(
      (way) =>
        compare(a.low[way], sum(b.high[way], reach)) <= 0 &&
        compare(b.low[way], sum(a.high[way], reach)) <= 0,
    );
  }
});
