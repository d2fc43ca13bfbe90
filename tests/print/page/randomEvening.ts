import fc from 'fast-check';
import type { Made, NonEmpty, PartKind } from '../../../src/model/index.ts';
import { demand, inch, kind, member, mm, sheet, trimmed } from '../../plan/byHand.ts';
import { madeOf } from './evening.ts';

const name = fc.oneof(
  fc.constantFrom('RW face', 'T bed', 'x', 'cheek', 'a name far too long for any part of it', 'W'.repeat(80)),
  fc.string({ minLength: 1, maxLength: 12 }),
);

/** Sheets from a postcard to a full board, parts from a crumb to half a sheet. */
export const evening = fc.record({
  long: fc.integer({ min: 80, max: 1200 }),
  wide: fc.integer({ min: 60, max: 800 }),
  trim: fc.constantFrom(0, 2, 10),
  kerf: fc.constantFrom(0, 1),
  inInches: fc.boolean(),
  parts: fc.array(
    fc.record({
      length: fc.integer({ min: 1, max: 12 }),
      width: fc.integer({ min: 1, max: 12 }),
      fine: fc.integer({ min: 0, max: 15 }),
      count: fc.integer({ min: 1, max: 30 }),
      label: name,
      grain: fc.boolean(),
    }),
    { minLength: 1, maxLength: 6 },
  ),
});

type Evening = typeof evening extends fc.Arbitrary<infer T> ? T : never;

export function eveningOf({ long, wide, trim, kerf, inInches, parts }: Evening): Made {
  const kinds = parts.map(({ length, width, fine, count, label, grain }, index): PartKind => {
    const size = (twelfths: number, whole: number) =>
      inInches
        ? inch(Math.max(1, Math.floor((whole * twelfths) / 610)), fine, 16)
        : mm(Math.max(2, Math.floor((whole * twelfths) / 24)));
    return kind(size(length, long), size(width, wide), [member(`${label} ${index}`, count)], {
      grain: grain ? 'length' : 'any',
    });
  }) as unknown as NonEmpty<PartKind>; // fast-check gives at least one
  const stock = sheet(mm(long), mm(wide), { trim: trimmed(mm(trim)), grain: 'length' });
  const of = demand(kinds, [stock], { kerf: mm(kerf) }, { hasGrain: true });
  return madeOf('A random evening', [of], inInches ? {} : metric);
}

const metric = {
  units: { value: 'mm', from: 'kit' },
  firstUnit: 'mm',
  ruler: { value: [mm(1)], from: 'kit' },
} as const;
