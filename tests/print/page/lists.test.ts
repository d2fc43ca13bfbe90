import { describe, expect, it } from 'vitest';
import type { Length, Made, Settings } from '../../../src/model/index.ts';
import {
  crosscut,
  demand,
  inch,
  kind,
  layouts,
  leftOver,
  member,
  part,
  settings,
  sheet,
} from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';
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

describe('figures that no rule has', () => {
  const said = (size: Length, its: Settings = settings) => {
    const asked = demand([kind(size, inch(2), [member('a', 1)])], [sheet(inch(16), inch(2))]);
    const all = [layouts(asked, [{ sheet: 0, tree: crosscut(size, part(0), leftOver), times: 1 }])];
    const { batch } = vineyard;
    const plans = plan(all, its);
    const materials = all.map((it) => it.demand);
    return wordsOf({
      ...vineyard,
      batch: { ...batch, notes: [], materials, settings: its },
      layouts: all,
      plans,
    });
  };
  const besideMark = '“scant”: a little less';
  const decimal = '~ marks a decimal that is rounded; in brackets how much more it truly is.';

  it('are explained on the first page, where there are such', () => {
    const both: Settings = { ...settings, units: { value: 'both', from: 'option' } };
    // A seventh of an inch ends neither in sixteenths nor as a decimal of millimetres.
    const [first] = said(inch(1, 3, 7), both);
    expect(first).toContain('~');
    expect(first).toContain(besideMark);
    expect(first).toContain(decimal);
    const [inches] = said(inch(1, 3, 7));
    expect(inches).toContain(besideMark);
    expect(inches).not.toContain('~');
    const [plain] = said(inch(1, 1, 2), both);
    expect(plain).not.toContain(besideMark);
    expect(plain).not.toContain('~');
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
