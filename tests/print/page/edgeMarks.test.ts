import { expect, it } from 'vitest';
import { millimetres, rational } from '../../../src/measure/index.ts';
import type { DrawnPart } from '../../../src/model/index.ts';
import { edgeMarks } from '../../../src/print/page/edgeMarks.ts';
import type { Point } from '../../../src/print/page/mark.ts';

const tenths = (it: number) => millimetres(rational(BigInt(it), 10n));

/** A board, 60 long, that slants in at its left end, 1.5 mm far. */
function mitred(width: number): DrawnPart {
  const back = { lo: tenths(15), hi: tenths(15) };
  return {
    net: { length: tenths(600), width: tenths(width * 10) },
    bevels: [{ side: 'left', longFace: 'good', back, thickness: tenths(15) }],
  } as unknown as DrawnPart; // what its marks are drawn from
}

/** How far the strokes go in, at that scale. */
function goIn(part: DrawnPart, scale: number): number {
  const marks = edgeMarks(part, ({ x, y }: Point) => ({ x: x / scale, y: 100 - y / scale }));
  const [strokes] = marks.filter((it) => it.kind === 'stroke' && it.role === 'bevel');
  const xs =
    strokes?.kind === 'stroke' ? strokes.paths.flatMap(({ points }) => points.map(({ x }) => x)) : [];
  return Math.max(...xs) - Math.min(...xs);
}

// Computed: 1.5 mm at 1:4 is 0.375 mm, which looks like a row of dots; strokes of 1.4 mm do not.
it('draws the strokes of a bevel so that they are seen, and in full size as long as they are', () => {
  expect(goIn(mitred(20), 1)).toBeCloseTo(1.5, 6);
  expect(goIn(mitred(20), 4)).toBeCloseTo(1.4, 6);
  // Of a part that is narrower itself they take no more than they do.
  expect(goIn({ ...mitred(20), net: { length: tenths(12), width: tenths(200) } }, 4)).toBeCloseTo(0.375, 6);
});
