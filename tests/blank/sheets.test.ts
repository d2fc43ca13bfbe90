import { describe, expect, it } from 'vitest';
import { checkUp } from '../../src/checkUp.ts';
import type { MaterialPlan } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { triedWords } from '../../src/print/memberWords.ts';
import { needWords } from '../../src/print/saying.ts';
import { readSpec } from '../../src/spec/index.ts';

const shoulder = '{ through: [[0, 1/4], [3/4, 5/16], [1 1/2, 1/2], [2 1/4, 11/16], [3, 3/4]], ends: flat }';
const wedge = '{ polygon: [[0, 0], [3, 0], [0, 1 1/2]] }';

describe('sheets for blanks that can be formed in several ways', () => {
  // Source: by hand: eight shoulders of 3/4 fill a sheet of 3 × 6; of shared blanks of 1, six hold twelve.
  it('share blanks along a curve where that saves a sheet, and only then', () => {
    const eight = planned(`s: { of: card, outline: ${shoulder}, count: 8 }`, '[3, 6]');
    expect(blanks(eight)).toEqual(['8 × s']);
    expect(needWords(eight)).toBe('1 sheet, the fewest possible');
    const twelve = planned(`s: { of: card, outline: ${shoulder}, count: 12 }`, '[3, 6]');
    expect(blanks(twelve)).toEqual(['6 × pair of s']);
    expect(needWords(twelve)).toBe('1 sheet, the fewest possible');
  });

  it('share blanks that a straight cut parts, sheet or no sheet', () => {
    const five = planned(`w: { of: card, outline: ${wedge}, count: 5 }`, '[12, 12]');
    expect(blanks(five)).toEqual(['2 × pair of w', '1 × w']);
  });

  // Source: by hand: a part of 5 leaves a strip of 2 on a sheet of 7. Two of 3 × 2 lie in it side by side; one
  // above the other they share a blank of 3 × (2 + 1/4), which does not.
  it('give each its own blank where shared ones would need more sheets', () => {
    const blunt = '{ polygon: [[0, 0], [3, 0], [3, 2], [0, 1/4]] }';
    const list = `a: { of: card, size: [7, 5] }\n  b: { of: card, outline: ${blunt}, count: 2 }`;
    const plan = planned(list, '[7, 7]');
    expect(blanks(plan)).toEqual(['1 × a', '2 × b']);
    expect(needWords(plan)).toBe('1 sheet, the fewest possible');
  });

  // Source: by hand: the two take 2 × (2 1/4 + about 0.57) = 5.6 of 6 sq in within their edges, but their bellies
  // keep them further apart than a blank of 4 × 1 1/2 lets them.
  it('claim the fewest for these blanks alone where area does not rule fewer out', () => {
    const belly = '{ path: [[0, 0], [3, 0], { arc: [0, 1 1/2], rise: 1/4, swells: right }] }';
    const plan = planned(`b: { of: card, outline: ${belly}, count: 2 }`, '[4, 1 1/2]');
    expect(needWords(plan)).toBe('2 sheets, the fewest for these blanks');
    expect(plan.bound.isForBlanks).toBe(true);
  });

  it.each([
    [12, undefined],
    [13, 'Of 13 outlines that might lie head to tail along a curve, the 12 that could save most were tried'],
  ])(
    'say how many of %s outlines were tried along a curve, where one more might save a sheet',
    (count, words) => {
      const list = Array.from({ length: count }, (_, i) => {
        const own = `{ through: [[0, 1/4], [1 1/2, ${24 + i}/64], [3, 3/4]] }`;
        return `s${i}: { of: card, outline: ${own}, count: 2 }`;
      });
      const plan = planned(list.join('\n  '), '[3, 3/4]');
      expect(plan.bound.isForBlanks).toBe(true);
      expect(triedWords(plan)).toBe(words);
    },
  );

  it('can be checked where only shared blanks fit on what there is', () => {
    const text = kit(`s: { of: card, outline: ${shoulder}, count: 12 }`, '[3, 6]', 'count: 1');
    const { value } = readSpec([{ path: 'a.yaml', bytes: new TextEncoder().encode(text) }], () => ({
      kind: 'missing',
      reason: 'none',
    }));
    expect(runToEnd(checkUp(value!, {})).diagnostics).toEqual([]);
  });
});

function kit(loose: string, sheet: string, stock = 'count: as needed'): string {
  return `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: ${sheet}, ${stock} }] }
loose:
  ${loose}
`;
}

function planned(loose: string, sheet: string): MaterialPlan {
  const bytes = new TextEncoder().encode(kit(loose, sheet));
  const { value } = readSpec([{ path: 'a.yaml', bytes }], () => ({ kind: 'missing', reason: 'none' }));
  const made = runToEnd(pipeline(value!, {})).value!;
  return made.plans[0]!;
}

function blanks({ demand }: MaterialPlan): readonly string[] {
  return demand.parts.flatMap(({ members }) => members.map(({ label, count }) => `${count} × ${label}`));
}
