import { describe, expect, it } from 'vitest';
import { type Column, table } from '../../../src/print/columns/index.ts';

describe('a table in little room', () => {
  it('leaves no sign alone on a line of a size', () => {
    const headings: readonly Column[] = [
      { heading: 'size, in', align: 'right', wraps: true },
      { heading: 'labels', align: 'left', wraps: true },
    ];
    const size = '2\u00a061/64\u00a0scant\u00a0(-0.00037)\u00a0× 2\u00a061/64\u00a0scant\u00a0(-0.00037)';
    const labels = 'good side up: two spandrels, a cheek, a cheek of the other hand, a deck and a bed';
    for (let columns = 40; columns <= 100; columns++) {
      const lines = table(headings, [[size, labels]], { columns, rule: '-' });
      expect(lines.filter((it) => /^\s*×(\s{2}|$)/.test(it))).toEqual([]);
      expect(lines.join('\n')).toContain('2 61/64 scant (-0.00037) ×');
    }
  });
});
