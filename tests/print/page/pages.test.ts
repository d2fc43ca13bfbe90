import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toDrawnMm } from '../../../src/measure/index.ts';
import { diagnose, type Made, nowhere } from '../../../src/model/index.ts';
import { faultsOf, segmentMeets } from './collisions.ts';
import { a4, letter, vineyard } from './evening.ts';
import { evening, eveningOf, wildEvening, wildEveningOf } from './randomEvening.ts';
import { sheetPages } from './sheetPages.ts';

const marginMm = 10;

function faults(made: Made): readonly string[] {
  const marginMm = toDrawnMm(made.batch.settings.margin.value);
  const { value: pages = [], diagnostics } = sheetPages(made);
  const isRefused = diagnostics.some(({ code }) => code === 'O21');
  expect(pages.length > 0).toBe(!isRefused);
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
    const [, page] = sheetPages(vineyard()).value!;
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

  it('sets any evening on any paper, whatever things are called', () => {
    fc.assert(
      fc.property(wildEvening, (it) => {
        expect(faults(wildEveningOf(it))).toEqual([]);
      }),
      { numRuns: 10, endOnFailure: true },
    );
  }, 240_000);

  it('sets any number of warnings first, each with its code', () => {
    const said = Array.from({ length: 150 }, (_, index) => {
      const text = `wall ${index} `.repeat(1 + (index % 20));
      return diagnose('O20', nowhere, { text, characters: '1/2 of it', mark: 'a mark' });
    });
    const pages = sheetPages(vineyard(), said).value!;
    expect(pages.flatMap((page) => faultsOf(page, marginMm))).toEqual([]);
    const codes = pages.flatMap(({ marks }) =>
      marks.filter((it) => it.kind === 'words' && it.text === 'O20'),
    );
    expect(codes).toHaveLength(said.length);
  });
});
