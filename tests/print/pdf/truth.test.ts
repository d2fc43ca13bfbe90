import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Made } from '../../../src/model/index.ts';
import { compose } from '../../../src/print/paged/index.ts';
import { pdfOf } from '../drawn.ts';
import { vineyard } from '../page/evening.ts';
import { wildEvening, wildEveningOf } from '../page/randomEvening.ts';
import { boxAround, type DrawnSheet, labelled, untruths } from '../truth.ts';
import { type DrawnPath, type ReadPage, readBack } from './readBack.ts';

const program = {
  version: '0.0.0',
  readFont: (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url)),
};

const mmPerPt = 25.4 / 72;

// As the page language has them: a sheet's outline is the narrow continuous line, a part's a wider one.
const isSheet = ({ widthPt, isDashed }: DrawnPath) => !isDashed && Math.abs(widthPt * mmPerPt - 0.18) < 0.01;
const isPart = ({ widthPt, isDashed }: DrawnPath) => !isDashed && Math.abs(widthPt * mmPerPt - 0.25) < 0.01;

async function drawnOf(made: Made): Promise<readonly DrawnSheet[]> {
  const { value } = compose(made, [], program);
  if (value === undefined) return [];
  const { pages } = await readBack(pdfOf(value));
  return pages.flatMap(drawingsOn);
}

/** The sheets drawn on a page, from the top down, in millimetres from its left top corner. */
function drawingsOn({ box, drawn, texts }: ReadPage): readonly DrawnSheet[] {
  const toMm = ([x, y]: readonly [number, number]) => [x * mmPerPt, (box[3]! - y) * mmPerPt] as const;
  const said = texts.map(({ text, x, y }) => {
    const [left, down] = toMm([x, y]);
    return { text, x: left, y: down };
  });
  const boxes = (is: (path: DrawnPath) => boolean) =>
    drawn
      .filter((path) => path.isStroked && path.closed && path.points.length === 4 && is(path))
      .map(({ points }) => boxAround(points.map(toMm)));
  const parts = boxes(isPart);
  return boxes(isSheet).map((sheet) => {
    const told = said
      .filter(({ text, y }) => y < sheet.top && /^drawn (?:at 1:\d+|full size)$/.test(text))
      .reduce((low, it) => (it.y > low.y ? it : low));
    return {
      scale: Number(/\d+$/.exec(told.text)?.[0] ?? 1),
      sheet,
      outlines: parts.filter(
        ({ left, right, top, bottom }) =>
          left > sheet.left - 0.1 &&
          right < sheet.right + 0.1 &&
          top > sheet.top - 0.1 &&
          bottom < sheet.bottom + 0.1,
      ),
      texts: said,
    };
  });
}

describe('a print, read back', () => {
  it('is the plan, piece for piece, at the scale that is told above each picture', async () => {
    const made = vineyard();
    const sheets = made.plans.flatMap((plan) => plan.sheets);
    const drawn = await drawnOf(made);
    expect(drawn.length).toBe(sheets.length);
    for (const [index, it] of drawn.entries()) expect(untruths(sheets[index]!, it)).toEqual([]);
    const found = drawn.reduce((all, it, index) => all + labelled(sheets[index]!, it), 0);
    expect(found).toBeGreaterThan(20);
  });

  it('is the plan on any paper at any scale', async () => {
    await fc.assert(
      fc.asyncProperty(wildEvening, async (it) => {
        const made = wildEveningOf(it);
        const sheets = made.plans.flatMap((plan) => plan.sheets);
        const drawn = await drawnOf(made);
        if (drawn.length === 0) return;
        expect(drawn.length).toBe(sheets.length);
        for (const [index, one] of drawn.entries()) expect(untruths(sheets[index]!, one)).toEqual([]);
      }),
      { numRuns: 5, endOnFailure: true },
    );
  });

  it('would show a piece that is drawn 0.1 mm off', async () => {
    const made = vineyard();
    const [plan] = made.plans.flatMap((it) => it.sheets);
    const [drawn] = await drawnOf(made);
    const [first, ...rest] = drawn!.outlines;
    const off = { ...first!, left: first!.left + 0.1 };
    expect(untruths(plan!, { ...drawn!, outlines: [off, ...rest] })).toHaveLength(2);
  });
});
