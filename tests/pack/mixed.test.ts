import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MaterialDemand } from '../../src/model/index.ts';
import { pack, verify } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, mm, type PartLine, type SheetLine } from './demand.ts';

const side = fc.constantFrom('length', 'width', 'any', 'any', 'any') as fc.Arbitrary<
  'length' | 'width' | 'any'
>;
const runs = fc.constantFrom('length', 'width', 'unknown') as fc.Arbitrary<'length' | 'width' | 'unknown'>;

const partLine: fc.Arbitrary<PartLine> = fc.record({
  size: fc.tuple(fc.integer({ min: 2, max: 45 }), fc.integer({ min: 2, max: 45 })),
  count: fc.integer({ min: 1, max: 6 }),
  grain: side,
  flutes: side,
});

const sheetLine: fc.Arbitrary<SheetLine> = fc.record({
  size: fc.tuple(fc.integer({ min: 20, max: 90 }), fc.integer({ min: 20, max: 90 })),
  available: fc.constantFrom<number | 'as needed'>(1, 2, 'as needed'),
  grain: runs,
  flutes: runs,
  trim: fc.tuple(
    fc.integer({ min: 0, max: 3 }),
    fc.integer({ min: 0, max: 3 }),
    fc.integer({ min: 0, max: 3 }),
    fc.integer({ min: 0, max: 3 }),
  ),
  price: fc.integer({ min: 1, max: 5 }),
  isOffcut: fc.boolean(),
});

const someDemand: fc.Arbitrary<MaterialDemand> = fc
  .tuple(
    fc.array(partLine, { minLength: 1, maxLength: 6 }),
    fc.array(sheetLine, { minLength: 1, maxLength: 3 }),
    fc.record({
      kerf: fc.constantFrom<number | string>(0, '1/2', 1, 2),
      leastStrip: fc.constantFrom(0, 0, 3, 6),
    }),
    fc.constantFrom(undefined, undefined, 30, 60),
  )
  .map(([parts, sheets, rules, longestCut]) =>
    demandOf(parts, sheets, longestCut === undefined ? rules : { ...rules, longestCut }),
  );

/** Counts so large that patterns are mixed; limits on cuts, which take far longer, are left to the small ones. */
const largeDemand: fc.Arbitrary<MaterialDemand> = someDemand.map((demand) => ({
  ...demand,
  rules: { ...demand.rules, leastStrip: mm(0), longestCut: undefined },
  parts: demand.parts.map((part, i) => {
    const count = part.count * 25 + i;
    return { ...part, count, members: [{ ...part.members[0], count, each: count }] };
  }) as unknown as MaterialDemand['parts'], // as many as before
}));

describe('pack, with all constraints at once', () => {
  it('gives layouts that the checker finds no flaw in, and accounts for every part', () => {
    fc.assert(
      fc.property(someDemand, (demand) => {
        const { value, diagnostics } = runToEnd(pack(demand, 60));
        expect(verify(value!)).toEqual([]);
        expect(diagnostics.length > 0).toBe(value!.unplaced.length > 0);
        // Sheets run out only where they are counted.
        const isCounted = demand.sheets.some(({ available }) => available !== 'as needed');
        if (!isCounted) expect(diagnostics.map(({ code }) => code)).not.toContain('P04');
      }),
      { numRuns: 60 },
    );
  });

  it('does so for large batches, too', () => {
    fc.assert(
      fc.property(largeDemand, (demand) => {
        const { value, diagnostics } = runToEnd(pack(demand, 30));
        expect(verify(value!)).toEqual([]);
        expect(diagnostics.length > 0).toBe(value!.unplaced.length > 0);
      }),
      { numRuns: 3 },
    );
  });
});
