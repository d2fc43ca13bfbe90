import { divide, roundedDecimal, toFraction } from '../../measure/index.ts';
import type { DrawnPart, FoldAngle, Point, Rational } from '../../model/index.ts';
import { degreesOf } from '../../outline/index.ts';
import { foldsOn } from '../foldWords.ts';
import { describeLength } from './length.ts';

/** How a part is folded up; null where it stays flat. */
export function describeFolds({ folds, outline }: DrawnPart) {
  if (folds === undefined) return null;
  const { panels, tabs, isTray, walls, developed } = folds;
  return {
    panels: panels.map(describeLength),
    tabs: [...tabs],
    isTray,
    walls: walls === undefined ? null : [...walls],
    developed: { least: describeLength(developed.lo), most: describeLength(developed.hi) },
    lines: (outline === undefined ? [] : foldsOn(outline)).map(({ from, to, way, by, angle }) => ({
      from: describePoint(from),
      to: describePoint(to),
      way,
      by,
      ...describeAngle(angle),
    })),
  };
}

function describePoint({ x, y }: Point) {
  return { along: describeLength(x), up: describeLength(y) };
}

function describeAngle(angle: FoldAngle) {
  const degrees = Number(roundedDecimal(degreesOf(angle).lo, 4));
  return angle.kind === 'degrees'
    ? { degrees: { exact: toFraction(angle.degrees), rounded: degrees }, slope: null }
    : {
        degrees: { exact: null, rounded: degrees },
        slope: slopeOf(angle.rise, angle.run),
      };
}

/** In lowest terms, the run below zero where it goes back: 3 in 4. */
function slopeOf(rise: Rational, run: Rational) {
  if (run.numerator === 0n) return { rise: '1', run: '0' };
  const { numerator, denominator } = divide(rise, run);
  return numerator < 0n
    ? { rise: `${-numerator}`, run: `${-denominator}` }
    : { rise: `${numerator}`, run: `${denominator}` };
}
