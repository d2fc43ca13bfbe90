import { describe, expect, it } from 'vitest';
import type { MaterialPlan, Proof, SheetPlan } from '../../src/model/index.ts';
import { needWords } from '../../src/print/saying.ts';
import { vineyard } from './page/evening.ts';

const [greyboard] = vineyard().plans;

function planOf(sheets: number, offcuts: number, proof: Proof): MaterialPlan {
  const [first] = greyboard!.sheets;
  const of = (times: number, isOffcut: boolean): SheetPlan[] =>
    times === 0 ? [] : [{ ...first!, times, sheet: { ...first!.sheet, isOffcut } }];
  return { ...greyboard!, sheets: [...of(offcuts, true), ...of(sheets, false)], proof };
}

describe('what a material takes', () => {
  it.each([
    [2, 1, { kind: 'fewest' }, '2 sheets, the fewest possible, and 1 offcut'],
    [1, 0, { kind: 'fewest' }, '1 sheet, the fewest possible'],
    [3, 2, { kind: 'within', sheets: 1 }, '3 sheets, at most 1 more than the fewest possible, and 2 offcuts'],
    [3, 2, { kind: 'none' }, '3 sheets and 2 offcuts'],
    [0, 2, { kind: 'fewest' }, '2 offcuts, nothing to buy'],
    [0, 1, { kind: 'none' }, '1 offcut'],
  ] as const)(
    'claims of %i sheets and %i offcuts only what is known of the sheets',
    (sheets, offcuts, proof, said) => {
      expect(needWords(planOf(sheets, offcuts, proof))).toBe(said);
    },
  );
});
