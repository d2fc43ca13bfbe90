import { describe, expect, it } from 'vitest';
import { widthOf } from '../../../src/print/columns/index.ts';
import { printCheck } from '../../../src/print/text/checking/index.ts';
import { printCount } from '../../../src/print/text/index.ts';
import { batch } from './vineyard.ts';

const file = { width: 80, ascii: false };

describe('the count', () => {
  it('lists the parts of each tile and the totals of each material', () => {
    const text = printCount(batch, file);
    expect(text).toMatch(/4 x terrace \(TE\) \(3 x 3 in\)\n/);
    expect(text).toMatch(/RW face +greyboard +3 x 1 1\/2 +2 +2\n/);
    expect(text).toMatch(/loose parts\n.*\n.*\nedging +greyboard +1 1\/4 x 1 1\/4 +24 +24\n/);
    // Source: 5 + 4 + 4 + 24 = 37, common arithmetic.
    expect(text).toContain('greyboard 1/16 in: 37 parts');
    expect(text).toMatch(/30 +3 x 3 +along its length +20 x TE bed, 10 x CI bed/);
  });

  it('fits every width, numbers whole', () => {
    for (let width = 40; width <= 200; width += 5) {
      for (const line of printCount(batch, { width, ascii: false }).split('\n')) {
        expect(widthOf(line)).toBeLessThanOrEqual(width);
        expect(line).toMatch(/^[\x20-\x7e]*$/);
      }
    }
    expect(printCount(batch, { width: 40, ascii: true })).toContain('1 1/4 x 1 1/4');
  });

  it('aligns numbers at their right ends', () => {
    const lines = printCount(batch, file).split('\n');
    const from = lines.findIndex((line) => line.startsWith('greyboard 1/16')) + 3;
    const rows = lines.slice(from, from + 4);
    expect(rows.map((line) => line.search(/(?<=\d) {2}/))).toEqual([5, 5, 5, 5]);
    expect(rows.map((line) => line.search(/ {2}(?=[A-Za-z]| *\d+ x [A-Za-z])/))).toEqual([20, 20, 20, 20]);
  });
});

describe('the check', () => {
  it('is one line for each tile', () => {
    expect(printCheck(batch, [], file)).toBe(
      [
        'ok  terrace         40 parts: 4 × greyboard, 20 × twinwall, 16 × foam',
        'ok  cistern         12 parts: greyboard, 10 × twinwall, foam',
        'ok  retaining wall  56 parts: 8 × greyboard, 48 × foam',
        'ok  loose parts     24 parts: 24 × greyboard',
        '',
      ].join('\n'),
    );
  });
});
