import { describe, expect, it } from 'vitest';
import { widthOf } from '../../../src/print/columns/index.ts';
import { printCheck } from '../../../src/print/text/checking/index.ts';
import { batchOf } from '../../expand/check.ts';

const long = 'the retaining wall at the upper end of the old terrace behind the other cistern';
const batch = batchOf(`cardwright: kit
units: in
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
tiles:
  ${long}:
    footprint: none
    parts: { base: { of: foam, size: [3, 3], count: 4 }, lid: { of: greyboard, size: [3, 3], count: 20 } }
  short: { footprint: none, parts: { base: { of: foam, size: [3, 3] } } }
  steps: { footprint: none, parts: { base: { of: foam, size: [3, 3], count: 2 } } }
`);

describe('the list of a check', () => {
  it.each([40, 60, 80, 120])(
    'keeps its figures together beside a name of 79 letters, at %i columns',
    (width) => {
      for (const ascii of [true, false]) {
        const lines = printCheck(batch, [], { width, ascii }).trimEnd().split('\n');
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(width);
        // Whole, so that it can't be taken for another one that begins alike.
        expect(lines.join(' ').replaceAll(/\s+/g, ' ')).toContain(
          `ok ${long} 24 parts: 4 ${ascii ? 'x' : '×'} foam`,
        );
        const figures = lines.filter((it) => it.includes('parts:') || it.includes('part:'));
        expect(figures.map((it) => it.search(/\d+ part/))).toEqual([11, 11, 11]);
        expect(figures[0]!.trim()).toMatch(/^24 parts: 4 . foam,( 20 . greyboard)?$/u);
      }
    },
  );
});
