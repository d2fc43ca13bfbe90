import { describe, expect, it } from 'vitest';
import { rational } from '../../../src/measure/index.ts';
import type { CostProof, Savings } from '../../../src/model/index.ts';
import { widthOf } from '../../../src/print/columns/index.ts';
import { printText } from '../../../src/print/text/index.ts';
import { savings, vineyard } from './vineyard.ts';

const made = { ...vineyard, savings };

/** As one line, from the head of a material on. */
function wordsOf(material: string, its: readonly Savings[] = savings): string {
  const text = printText({ ...vineyard, savings: its }, { width: 80, ascii: false });
  return text.slice(text.indexOf(`━━ ${material}`)).replaceAll(/\s+/g, ' ');
}

describe('why it takes so many sheets', () => {
  it('is not told where nobody asked', () => {
    expect(printText(vineyard, { width: 80, ascii: false })).not.toMatch(/^Why {6}/m);
  });

  it('is told by the bound and its argument', () => {
    const { bound } = made.plans[1]!;
    expect(wordsOf('twinwall')).toContain(
      `Why No way of cutting needs fewer than 3 sheets: ${bound.argument}.`,
    );
  });

  it('is told with what was found where that is more than the bound', () => {
    const foam = made.plans[2]!;
    const wordsAt = (steps: number) => {
      const plan = { ...foam, bound: { sheets: 0, argument: 'x' }, steps };
      const text = printText({ ...made, plans: [plan], savings: [savings[2]!] }, look);
      return text.replaceAll(/\s+/g, ' ');
    };
    expect(wordsAt(40)).toContain(
      'Nothing shows that any sheet has to be bought. The search found none with fewer than 1 in 40 steps.',
    );
    expect(wordsAt(0)).toContain('bought. The first layouts, without a search, take 1.');
  });

  it('is told of the cost, too, where there was a choice of prices', () => {
    const eur = (cents: number) => ({ amount: rational(BigInt(cents), 100n), currency: 'EUR' });
    const wordsWith = (cost: CostProof) => {
      const plan = made.plans[1]!;
      const priced = {
        ...plan,
        bound: { ...plan.bound, cost: eur(720) },
        proof: { kind: 'fewest' as const, cost },
      };
      const text = printText({ ...made, plans: [priced], savings: [savings[1]!] }, look);
      return text.replaceAll(/\s+/g, ' ');
    };
    expect(wordsWith({ kind: 'cheapest' })).toContain(
      'No way of cutting costs less than 7.20 EUR, and these sheets cost no more.',
    );
    expect(wordsWith({ kind: 'dearer', by: eur(45) })).toContain(
      'No way of cutting costs less than 7.20 EUR; these sheets cost 0.45 EUR more.',
    );
    expect(wordsOf('twinwall')).not.toContain('costs less');
  });

  it('is told by where the area goes, in hundredths that add up', () => {
    // Computed: 3 sheets of 24 × 6 are 432, 30 squares of 3 are 270 (62.5 %); leftovers 9 × 3 twice a sheet
    // are 162 (37.5 %), all worth keeping. Both halves lose as much, so the first gets the hundredth.
    expect(wordsOf('twinwall')).toContain(
      'Of their area about 63 % becomes parts, 37 % is kept, 0 % is lost.',
    );
    const shares = /about (\d+) % becomes parts, (\d+) % is kept, (\d+) % is lost/;
    for (const { demand } of made.plans) {
      const [, ...told] = shares.exec(wordsOf(demand.material.name)) ?? [];
      expect(told.map(Number).reduce((sum, it) => sum + it, 0)).toBe(100);
    }
  });
});

describe('what saves a sheet', () => {
  it('has words for every sort', () => {
    const words = wordsOf('greyboard');
    for (const line of [
      'with --effort 1000, and no other change ·',
      'if "TE top card" and "CI rim" could turn ·',
      'if "RW face" and "RW back" were 1/16 in narrower: 3 × 1 7/16 in (saves 2, less may do) ·',
      'with 1/16 in less trim ·',
      'with strips down to 1/8 in ·',
      'with no kerf ·',
      'with 2 fewer of "edging" ·',
      'with 1 terrace fewer to make ·',
      'with one more offcut like "G1" of 8 × 5 in ·',
      'if it came in sheets of 24 × 6 in, as another material does ',
    ]) {
      expect(words).toContain(`· ${line}`);
    }
    expect(words).toContain('The effort set aside for this ended before all was tried.');
  });

  it('is ruled out by bounds alone, and that is said', () => {
    expect(wordsOf('twinwall')).toContain(
      'No small change can save a sheet. Bounds of the same kind rule out turning a part or leaving out one part',
    );
  });

  it('is only said not to have been found where changes were laid out', () => {
    const its = savings.map((it) => ({ ...it, packings: 4 }));
    expect(wordsOf('twinwall', its)).toContain(
      'No small change that was tried saves a sheet. Tried: turning',
    );
  });

  it('is not spoken of where one sheet is the fewest', () => {
    expect(wordsOf('foam')).not.toContain('To save');
  });
});

it('keeps to the width and to ASCII where it has to', () => {
  for (let width = 40; width <= 120; width += 9) {
    for (const ascii of [true, false]) {
      const text = printText(made, { width, ascii });
      for (const line of text.split('\n')) expect(widthOf(line), line).toBeLessThanOrEqual(width);
      if (ascii) expect(text).not.toMatch(/[^\n\x20-\x7e]/);
    }
  }
});

const look = { width: 80, ascii: false } as const;
