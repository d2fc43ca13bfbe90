import { describe, expect, it } from 'vitest';
import { millimetres, rational, toDrawnMm } from '../../../src/measure/index.ts';
import type { Point } from '../../../src/model/index.ts';
import { drawnMark } from '../../../src/print/page/drawnMarks.ts';

const mm = (it: number) => millimetres(rational(BigInt(it)));
const to = ({ x, y }: Point) => ({ x: 100 + 2 * toDrawnMm(x), y: 200 - 2 * toDrawnMm(y) });

// Source: the equation of a circle.
describe('the mark of a hole that does not go through', () => {
  it('is a cross and a circle as wide as the hole, at the scale of the picture', () => {
    const marks = drawnMark({ kind: 'cross', at: { x: mm(10), y: mm(20) }, bore: mm(6) }, to, 3);
    expect(marks.map(({ role }) => role)).toEqual(['dimension', 'pencil mark']);
    const circle = marks[1]?.paths[0];
    expect(circle?.closed).toBe(true);
    expect(circle?.points.length).toBeGreaterThan(12);
    for (const { x, y } of circle?.points ?? []) {
      expect(Math.abs(Math.hypot(x - 120, y - 160) - 6)).toBeLessThan(0.05);
    }
  });

  it('is a cross alone where nothing is bored', () => {
    expect(drawnMark({ kind: 'cross', at: { x: mm(10), y: mm(20) } }, to, 3)).toHaveLength(1);
  });
});
