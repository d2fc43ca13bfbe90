import { compare, isNegative, isPositive, rational, subtract, zero } from '../../measure/index.ts';
import type { Drawn, OutlineFault, Point } from '../../model/index.ts';
import { curveBySlopes } from '../curve.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { lineTo, reversed } from '../loop.ts';
import { point } from '../vector.ts';
import { outlineOf } from './outlineOf.ts';
import { type End, slopesThrough } from './slopes.ts';

//   A smooth top edge through points from left to right, upright sides, straight bottom.
//
//                 ●──●
//             ●─╯     ╲
//        ●──╯          ●
//        │             │
//        └─────────────┘
export function through(points: readonly Point[], ends: readonly [End, End]): Drawn {
  if (points.length < 2) {
    return undrawn(fault('T04', ['through'], () => ({ found: points.length, least: 2 })));
  }
  const faults = [...outOfOrder(points), ...onTheBase(points)];
  if (faults.length > 0) return undrawn(...faults);

  const slopes = slopesThrough(
    points.map(({ x }) => x),
    points.map(({ y }) => y),
    ends,
  );
  const one = rational(1n);
  const top = points.slice(1).map((to, i) => {
    const from = points[i]!;
    const [leaving, arriving] = [slopes[i]!, slopes[i + 1]!];
    return curveBySlopes(from, { x: one, y: leaving }, to, { x: one, y: arriving }, subtract(to.x, from.x));
  });
  const [first, last] = [points[0]!, points.at(-1)!]; // there are two
  const [left, right] = [point(first.x, zero), point(last.x, zero)];
  return drawn(
    outlineOf([
      lineTo(left, right),
      ...(isPositive(last.y) ? [lineTo(right, last)] : []),
      ...reversed(top),
      ...(isPositive(first.y) ? [lineTo(first, left)] : []),
    ]),
  );
}

function outOfOrder(points: readonly Point[]): readonly OutlineFault[] {
  return points.flatMap(({ x }, i) => {
    const before = points[i - 1];
    if (before === undefined || compare(before.x, x) < 0) return [];
    return [
      fault('T06', ['through', i], (show) => ({
        number: i + 1,
        along: show(x),
        before: show(before.x),
      })),
    ];
  });
}

function onTheBase(points: readonly Point[]): readonly OutlineFault[] {
  const isEnd = (i: number) => i === 0 || i === points.length - 1;
  const isLow = points.every(({ y }) => y.numerator === 0n);
  return points.flatMap(({ y }, i) => {
    const isFine = isPositive(y) || (isEnd(i) && !isNegative(y) && !isLow);
    return isFine ? [] : [fault('T07', ['through', i], (show) => ({ number: i + 1, height: show(y) }))];
  });
}
