import { describe, expect, it } from 'vitest';
import { millimetres, rational, sum, toDrawnMm } from '../../../src/measure/index.ts';
import type { Point } from '../../../src/model/index.ts';
import { circle, laid, shiftBy } from '../../../src/outline/index.ts';
import { drawnMark, drawnMarksOf } from '../../../src/print/page/drawnMarks.ts';

const mm = (it: number) => millimetres(rational(BigInt(it)));
const halfOf = (it: number) => millimetres(rational(BigInt(it), 2n));
const halfMm = millimetres(rational(1n, 2n));
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

  it('keeps its cross out of a hole that it would hide', () => {
    // On the page the hole is 2 x 1 / 2 = 1 mm wide about the middle, (120, 160).
    const marks = drawnMark({ kind: 'cross', at: { x: mm(10), y: mm(20) }, bore: halfMm }, to, 1);
    const arms = marks[0]?.paths ?? [];
    expect(arms).toHaveLength(4);
    for (const { x, y } of arms.flatMap(({ points }) => points)) {
      expect(Math.hypot(x - 120, y - 160)).toBeGreaterThan(0.5 + 0.2);
    }
    // A dotted ring so small would be three dots.
    expect(marks[1]?.role).toBe('dimension');
  });

  it('keeps the cross out of a hole that goes through, too', () => {
    const about = (wide: number) => {
      const hole = laid(circle(mm(wide)).value!, shiftBy({ x: mm(4), y: mm(5) })).rim;
      const at = { x: sum(mm(4), halfOf(wide)), y: sum(mm(5), halfOf(wide)) };
      return drawnMarksOf({ marks: [{ kind: 'cross', at }], holes: [hole] }, to, 3).flatMap(
        ({ paths }) => paths,
      );
    };
    // 2 mm wide it is 4 mm on the page, less than a cross with arms of 3; 10 mm wide it holds one.
    expect([about(2).length, about(10).length]).toEqual([4, 2]);
  });

  it('is a cross alone where nothing is bored', () => {
    expect(drawnMark({ kind: 'cross', at: { x: mm(10), y: mm(20) } }, to, 3)).toHaveLength(1);
  });
});
