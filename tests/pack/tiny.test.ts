import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { pack } from '../../src/pack/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf } from './demand.ts';

/** Up to five parts on sheets so small that every way of cutting can be tried. */
const tiny = fc.record({
  sheet: fc.tuple(fc.integer({ min: 4, max: 9 }), fc.integer({ min: 4, max: 9 })),
  parts: fc.array(fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 })), {
    minLength: 1,
    maxLength: 5,
  }),
  kerf: fc.integer({ min: 0, max: 1 }),
  mayTurn: fc.boolean(),
});

describe('pack against every way of cutting there is', () => {
  it('has bound ≤ fewest ≤ used, and reaches the fewest with enough steps', () => {
    fc.assert(
      fc.property(tiny, ({ sheet, parts, kerf, mayTurn }) => {
        const [length, width] = sheet;
        const fitting = parts.filter(
          ([l, w]) => l <= length && w <= width && l > kerf && w > kerf && kerf < Math.min(l, w),
        );
        fc.pre(fitting.length > 0);
        const demand = demandOf(
          fitting.map((size) => ({ size, grain: mayTurn ? 'any' : 'length' })),
          [{ size: sheet, grain: 'length' }],
          { kerf },
        );
        const { value } = runToEnd(pack(demand, 500));
        const fewest = fewestSheets(fitting, length, width, kerf, mayTurn);
        expect(value!.bound.sheets).toBeLessThanOrEqual(fewest);
        expect(sheetsOf(value!)).toBe(fewest);
      }),
      { numRuns: 150 },
    );
  });
});

function sheetsOf({ layouts }: MaterialLayouts): number {
  return layouts.reduce((sum, { times }) => sum + times, 0);
}

/** Exhaustive: each set of parts on one sheet by every cut and every split, then the fewest such sets. */
function fewestSheets(
  parts: readonly (readonly [number, number])[],
  length: number,
  width: number,
  kerf: number,
  mayTurn: boolean,
): number {
  const known = new Map<string, boolean>();
  const fits = (set: number, l: number, w: number): boolean => {
    const members = parts.filter((_, i) => (set >> i) & 1);
    if (members.length === 0) return true;
    if (members.reduce((sum, [a, b]) => sum + a * b, 0) > l * w) return false;
    if (members.length === 1) {
      const [a, b] = members[0]!;
      return (a <= l && b <= w) || (mayTurn && b <= l && a <= w);
    }
    const key = `${set} ${l} ${w}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let found = false;
    for (let near = (set - 1) & set; near > 0 && !found; near = (near - 1) & set) {
      for (let at = 1; at < l && !found; at++) {
        found = fits(near, at, w) && l - at - kerf > 0 && fits(set ^ near, l - at - kerf, w);
      }
      for (let at = 1; at < w && !found; at++) {
        found = fits(near, l, at) && w - at - kerf > 0 && fits(set ^ near, l, w - at - kerf);
      }
    }
    known.set(key, found);
    return found;
  };
  const all = (1 << parts.length) - 1;
  const fewest = [0];
  for (let set = 1; set <= all; set++) {
    fewest[set] = Number.POSITIVE_INFINITY;
    for (let one = set; one > 0; one = (one - 1) & set) {
      if (fits(one, length, width)) fewest[set] = Math.min(fewest[set]!, 1 + fewest[set ^ one]!);
    }
  }
  return fewest[all]!;
}
