import {
  add,
  compareRationals,
  divide,
  floor,
  multiply,
  rational,
  subtract,
  whole,
} from '../measure/index.ts';
import type { Length, MaterialPlan, Rational } from '../model/index.ts';

/** Where the area of all sheets of a material goes, in square millimetres; the parts add up to `sheets`. */
export interface Areas {
  readonly sheets: Rational;
  readonly parts: Rational;
  /** Leftovers that are put by. */
  readonly kept: Rational;
  readonly scrap: Rational;
  readonly trim: Rational;
  /** What the tool takes out. */
  readonly cuts: Rational;
}

export function areasOf({ sheets }: MaterialPlan): Areas {
  let [all, parts, kept, scrap, trim] = [nothing, nothing, nothing, nothing, nothing];
  for (const { sheet, inside, pieces, leftovers, times } of sheets) {
    const count = whole(times);
    const grown = (area: Rational, box: Box) => add(area, multiply(areaOf(box), count));
    all = grown(all, sheet);
    trim = add(trim, multiply(subtract(areaOf(sheet), areaOf(inside)), count));
    for (const { box } of pieces) parts = grown(parts, box);
    for (const { box, keep } of leftovers) {
      if (keep === undefined) scrap = grown(scrap, box);
      else kept = grown(kept, box);
    }
  }
  const cuts = subtract(all, [parts, kept, scrap, trim].reduce(add));
  return { sheets: all, parts, kept, scrap, trim, cuts };
}

interface Box {
  readonly length: Length;
  readonly width: Length;
}

const nothing = rational(0n);

function areaOf({ length, width }: Box): Rational {
  return multiply(length, width);
}

/**
 * Whole hundredths of the whole that still add up to 100: each is rounded down, and those that lost most get
 * what is missing.
 *
 * @param areas  at least one above 0
 * @source       the method of largest remainders, common practice, no source
 */
export function toHundredths(areas: readonly Rational[]): readonly number[] {
  const all = areas.reduce(add);
  const exact = areas.map((area) => divide(multiply(area, whole(100)), all));
  const hundredths = exact.map((it) => Number(floor(it)));
  const lost = exact.map((it, i) => subtract(it, whole(hundredths[i]!)));
  const byLoss = [...lost.keys()].sort((a, b) => compareRationals(lost[b]!, lost[a]!) || a - b);
  const missing = 100 - hundredths.reduce((sum, it) => sum + it, 0);
  for (const i of byLoss.slice(0, missing)) hundredths[i]!++;
  return hundredths;
}
