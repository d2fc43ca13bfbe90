import { areaPathsD, EndType, FillRule, inflatePathsD, intersectD, JoinType, type PathsD } from 'clipper2-ts';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { pairShape } from '../../src/blank/pairShape.ts';
import type { Outline, Point, SharedBlank } from '../../src/model/index.ts';
import { boxOf, flattened } from '../../src/outline/index.ts';
import { curved, round, star, whole } from '../outline/anyOutline.ts';
import { float, mm } from '../outline/drawing.ts';

// Source of what is expected here: clipper2-ts 2.0.1, a port of an independent polygon library; curves are given to
// it flattened, so two that touch may have a sliver in common.
const decimals = 5;

it('two in one blank lie a kerf apart and within it, as another library finds', () => {
  let pairs = 0;
  fc.assert(
    fc.property(fc.oneof(star, round, curved), whole(0, 2), (outline, kerf) => {
      const { right, top } = boxOf(outline);
      const net = { length: right.hi, width: top.hi };
      const shape = pairShape(outline, net, { kerf: mm(kerf), step: mm(1, 2) });
      if (shape === undefined) return;
      pairs++;
      const [one, other] = both(outline, net, shape);
      // A hundredth less on each side is what the straight edges may be off.
      const grown = kerf === 0 ? one : grownBy(one, kerf - 0.03);
      const shared = areaPathsD(intersectD(grown, other, FillRule.NonZero, decimals));
      expect(Math.abs(shared)).toBeLessThan(kerf === 0 ? 0.6 : 1e-6);
      const [length, width] = [float(shape.length), float(shape.width)];
      for (const { x, y } of [...one, ...other].flat()) {
        expect(Math.min(x, y, length - x, width - y)).toBeGreaterThan(-0.01);
      }
    }),
    { numRuns: 40 },
  );
  expect(pairs).toBeGreaterThan(5);
});

function grownBy(paths: PathsD, much: number): PathsD {
  return inflatePathsD(paths, much, JoinType.Round, EndType.Polygon, 2, decimals);
}

function both(
  outline: Outline,
  { length, width }: Pick<SharedBlank, 'length' | 'width'>,
  { at: [one, other] }: Pick<SharedBlank, 'at'>,
): readonly [PathsD, PathsD] {
  const placed = (move: (x: number, y: number) => { x: number; y: number }): PathsD =>
    flattened({ ...outline, holes: [] }, 'along', mm(1, 1000)).map((loop) =>
      loop.map(({ x, y }: Point) => move(float(x), float(y))),
    ) as PathsD;
  return [
    placed((x, y) => ({ x: x + float(one.x), y: y + float(one.y) })),
    placed((x, y) => ({
      x: float(other.x) + float(length) - x,
      y: float(other.y) + float(width) - y,
    })),
  ];
}
