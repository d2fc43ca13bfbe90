import { describe, expect, it } from 'vitest';
import type { Page } from '../../../src/print/page/index.ts';
import { demand, inch, kind, member, mm, sheet } from '../../plan/byHand.ts';
import { madeOf } from './evening.ts';
import { sheetPages } from './sheetPages.ts';

const partCount = 60;

/** Each word of a name tells whose it is. */
const longNames = Array.from({ length: partCount }, (_, index) =>
  Array.from({ length: 9 + ((index * 7) % 23) }, () => `row${index}`).join(' '),
);

const pages = ((): readonly Page[] => {
  const [first, ...others] = longNames.map((name, index) =>
    kind(mm(20 + index), mm(15), [{ ...member(`L${index}`, 1), tile: undefined, part: name }]),
  );
  return sheetPages(madeOf('Names', [demand([first!, ...others], [sheet(mm(600), mm(400))])])).value ?? [];
})();

describe('a row of the cutting list that needs several lines', () => {
  const linesOf = (index: number) =>
    pages.flatMap((page, number) =>
      page.marks.flatMap((mark) =>
        mark.kind === 'words' && mark.text.startsWith(`row${index} `) ? [{ page, number, mark }] : [],
      ),
    );

  it.each(longNames.map((_, index) => index))('stays with its tick box: part %i', (index) => {
    const [first, ...others] = linesOf(index);
    expect(first).toBeDefined();
    for (const [row, { number, mark }] of others.entries()) {
      expect(number).toBe(first!.number);
      expect(mark.at.x).toBeCloseTo(first!.mark.at.x, 6);
      // Line below line, with no more than a line's height between the two.
      expect(mark.at.y - (row === 0 ? first! : others[row - 1]!).mark.at.y).toBeCloseTo(
        (1.16 * 11 * 25.4) / 72,
        6,
      );
    }
    const boxes = first!.page.marks.flatMap((it) =>
      it.kind === 'stroke' && it.role === 'tick box' ? it.paths.map(({ points }) => points) : [],
    );
    const { x, y } = first!.mark.at;
    const beside = boxes.filter(
      (points) => Math.min(...points.map((it) => it.y)) < y && Math.max(...points.map((it) => it.y)) > y - 3,
    );
    expect(beside.some((points) => points.every((it) => it.x < x))).toBe(true);
  });
});

describe('a long name in the cutting list', () => {
  const rowsIn = (made: readonly Page[], start: RegExp) =>
    made.flatMap((page) =>
      page.marks.flatMap((mark) => (mark.kind === 'words' && start.test(mark.text) ? [mark] : [])),
    );

  it('stands beside its size in its first row only, and goes on below it', () => {
    const [first, ...others] = rowsIn(pages, /^row13 /);
    const size = rowsIn(pages, /\u00a0×\u00a0$/u).find(({ at }) => at.y === first!.at.y);
    expect(first!.at.x + first!.widthMm).toBeLessThan(size!.at.x);
    expect(others.length).toBeGreaterThan(0);
    const reach = Math.max(...others.map(({ at, widthMm }) => at.x + widthMm));
    expect(reach).toBeGreaterThan(size!.at.x);
  });

  it('has the width of the page where half of it would take more than four rows', () => {
    const listOf = (words: number) =>
      sheetPages(
        madeOf('Two', [
          demand(
            [
              kind(inch(2), inch(1), [
                { ...member('A', 1), tile: undefined, part: Array(words).fill('long').join(' ') },
              ]),
              kind(inch(1), inch(1), [{ ...member('B', 1), tile: undefined, part: 'short' }]),
            ],
            [sheet(mm(600), mm(400))],
          ),
        ]),
      ).value ?? [];
    const isInTwoColumns = (made: readonly Page[]) =>
      rowsIn(made, /^short$/)[0]!.at.x > rowsIn(made, /^long/)[0]!.at.x + 50;
    expect(isInTwoColumns(listOf(12))).toBe(true);
    expect(isInTwoColumns(listOf(40))).toBe(false);
  });
});

describe('sizes in the cutting list', () => {
  const rows = pages.flatMap((page) => page.marks.flatMap((mark) => (mark.kind === 'words' ? [mark] : [])));

  it('have their times signs and their ends one below the other', () => {
    const lengths = rows.filter(({ text }) => /^\S.*\u00a0×\u00a0$/u.test(text));
    expect(lengths).toHaveLength(partCount);
    const ends = (all: typeof rows) =>
      new Set(all.map(({ at, widthMm }) => Math.round((at.x + widthMm) * 100)));
    // One column, or two side by side.
    expect(ends(lengths).size).toBeLessThanOrEqual(2);
    const widths = lengths.map(
      ({ at, widthMm }) => rows.find((it) => it.at.y === at.y && it.at.x > at.x + widthMm - 1)!,
    );
    expect(ends(widths).size).toBeLessThanOrEqual(2);
  });
});
