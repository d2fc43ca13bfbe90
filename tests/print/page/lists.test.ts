import { describe, expect, it } from 'vitest';
import type { Made } from '../../../src/model/index.ts';
import { savings, vineyard } from '../text/vineyard.ts';
import { faultsOf } from './collisions.ts';
import { vineyard as evening } from './evening.ts';
import { sheetPages } from './sheetPages.ts';

/** All that is written, page by page, in the order of writing; what is broken over lines is joined again. */
function wordsOf(made: Made): readonly string[] {
  const { value: pages = [] } = sheetPages(made);
  return pages.map(({ marks }) =>
    marks
      .flatMap((mark) => (mark.kind === 'words' ? [mark.text] : []))
      .join(' ')
      .replaceAll('\u00a0', ' '),
  );
}

describe('why so many sheets', () => {
  it('stands on the pages where it was asked for, and only there', () => {
    expect(wordsOf(vineyard).join(' ')).not.toContain('Why so many');
    const asked = wordsOf({ ...vineyard, savings }).join(' ');
    for (const { demand } of vineyard.plans)
      expect(asked).toContain(`Why so many sheets: ${demand.material.name}`);
    expect(asked).toContain('with --effort 1000, and no other change');
  });

  it('leaves the other pages as they are, and nothing on top of anything', () => {
    const { value: pages = [] } = sheetPages({ ...vineyard, savings });
    expect(pages.flatMap((page) => faultsOf(page, 10))).toEqual([]);
    const [first] = wordsOf(vineyard);
    expect(wordsOf({ ...vineyard, savings })[0]).toBe(
      first!.replace(/page 1 of \d+/, `page 1 of ${pages.length}`),
    );
  });
});

describe('the order of work', () => {
  it('names each width and the steps it serves, where that spares settings', () => {
    const made = evening();
    const written = wordsOf(made).join(' ');
    const spared = made.plans.filter(({ order, settingsByPicture }) => order.length < settingsByPicture);
    expect(spared.length).toBeGreaterThan(0);
    for (const { demand, order, settingsByPicture } of spared) {
      const count = `${order.length} settings (${settingsByPicture} picture by picture)`;
      expect(written).toContain(`Order of work: ${demand.material.name}, ${count}`);
    }
    const rows = written.match(/Set [^:]{1,40}: (sheets? |steps? )/g) ?? [];
    expect(rows.length).toBe(spared.reduce((sum, { order }) => sum + order.length, 0));
  });
});
