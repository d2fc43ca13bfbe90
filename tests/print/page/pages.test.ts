import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Made, NonEmpty, PartKind } from '../../../src/model/index.ts';
import { sheetsOf } from '../../../src/print/page/index.ts';
import { demand, inch, kind, member, mm, sheet, trimmed } from '../../plan/byHand.ts';
import { faultsOf, segmentMeets } from './collisions.ts';
import { a4, letter, madeOf, vineyard } from './evening.ts';
import { face } from './face.ts';

const marginMm = 10;

function faults(made: Made): readonly string[] {
  const pages = sheetsOf(made, [], '0.0.0', face).value ?? [];
  expect(pages.length).toBeGreaterThan(0);
  return pages.flatMap((page, index) => faultsOf(page, marginMm).map((it) => `page ${index + 1}: ${it}`));
}

describe('the checker itself', () => {
  it.each([
    [[0, 5], [10, 5], true],
    [[0, 0], [10, 10], true],
    [[0, 5], [1, 5], false],
    [[0, 9], [10, 9], false],
    [[4, 4.5], [5, 5], true],
  ] as const)('sees whether %j to %j meets a box', ([ax, ay], [bx, by], meets) => {
    const box = { left: 2, right: 8, top: 2, bottom: 8 };
    expect(segmentMeets({ x: ax, y: ay }, { x: bx, y: by }, box)).toBe(meets);
  });

  it('finds a label that was pushed onto another and one that was pushed off the page', () => {
    const [, page] = sheetsOf(vineyard(), [], '0.0.0', face).value!;
    const label = page!.marks.find((mark) => mark.kind === 'words' && mark.role === 'part label')!;
    const shifted = (x: number) => ({ ...label, at: { x, y: 5 } }) as typeof label;
    expect(faultsOf({ ...page!, marks: [...page!.marks, label] }, marginMm).join()).toContain('overlaps');
    expect(faultsOf({ ...page!, marks: [shifted(-3)] }, marginMm).join()).toContain(
      'leaves the printable area',
    );
  });
});

describe('pages without collisions', () => {
  it.each([
    ['what A4 and Letter share', {}],
    ['A4', { paper: { value: a4, from: 'option' } }],
    ['Letter', { paper: { value: letter, from: 'option' } }],
    ['both units', { units: { value: 'both', from: 'option' } }],
  ] as const)('sets the vineyard on %s with nothing on top of anything', (_, more) => {
    expect(faults(vineyard(more))).toEqual([]);
  });

  it('sets random evenings with nothing on top of anything', () => {
    fc.assert(
      fc.property(evening, (it) => {
        expect(faults(eveningOf(it))).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });
});

const name = fc.oneof(
  fc.constantFrom('RW face', 'T bed', 'x', 'cheek', 'a name far too long for any part of it', 'W'.repeat(80)),
  fc.string({ minLength: 1, maxLength: 12 }),
);

/** Sheets from a postcard to a full board, parts from a crumb to half a sheet. */
const evening = fc.record({
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

function eveningOf({ long, wide, trim, kerf, inInches, parts }: Evening): Made {
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
