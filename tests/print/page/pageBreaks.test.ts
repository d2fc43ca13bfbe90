import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PageOf, pageBreaks, type Unit, type Way } from '../../../src/print/page/pageBreaks.ts';

const way = (heightMm: number, loss = 0, scale: number | undefined = undefined): Way => ({
  scale,
  heightMm,
  loss,
});
const unit = (ways: readonly Way[], gapMm = 0): Unit => ({ gapMm, atTopMm: 0, ways });

describe('page breaks', () => {
  // All by hand.
  it.each<readonly [string, readonly Unit[], number, number, readonly PageOf[]]>([
    ['keep two together that fit one page', [unit([way(40)]), unit([way(60)])], 100, 100, [[0, 0]]],
    ['count the gap between them', [unit([way(40)]), unit([way(60)], 1)], 100, 100, [[0], [0]]],
    ['leave the open page where nothing fits it', [unit([way(40)])], 30, 100, [[], [0]]],
    [
      'take a smaller way where it saves a page',
      [unit([way(60, 0, 5), way(40, 0.2, 6)]), unit([way(60, 0, 6)])],
      100,
      100,
      [[1, 0]],
    ],
    [
      'and the largest where none does',
      [unit([way(60, 0, 5), way(50, 0.2, 6)]), unit([way(60, 0, 6)])],
      100,
      100,
      [[0], [0]],
    ],
    [
      'let a unit stand alone that is higher than a page',
      [unit([way(300)]), unit([way(9)])],
      100,
      100,
      [[], [0], [0]],
    ],
  ])('%s', (_, units, firstMm, fullMm, pages) => {
    expect(pageBreaks(units, firstMm, fullMm)).toEqual(pages);
  });

  it('are as few as filling up with the lowest ways gives, and no page is overfull', () => {
    const ways = fc.array(fc.integer({ min: 5, max: 100 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(
        fc.array(ways, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 100 }),
        (heights, firstMm) => {
          const units = heights.map((own) => unit(own.map((heightMm, index) => way(heightMm, index))));
          const pages = pageBreaks(units, firstMm, 100);
          let next = 0;
          for (const [number, page] of pages.entries()) {
            const filled = page.reduce((all, chosen) => all + units[next++]!.ways[chosen]!.heightMm, 0);
            expect(filled).toBeLessThanOrEqual(number === 0 ? firstMm : 100);
          }
          expect(next).toBe(units.length);
          expect(pages.length).toBe(fewest(heights, firstMm));
        },
      ),
    );
  });
});

/** Greedy filling with the lowest ways is as few pages as there can be, where their order is kept. */
function fewest(heights: readonly (readonly number[])[], firstMm: number): number {
  let pages = 1;
  let left = firstMm;
  for (const lowest of heights.map((own) => Math.min(...own))) {
    if (lowest > left) {
      pages++;
      left = 100;
    }
    left -= lowest;
  }
  return pages;
}
