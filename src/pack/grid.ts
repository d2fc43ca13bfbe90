import { greatestCommonDivisor, multiply, rational, whole } from '../measure/index.ts';
import type { Length, MaterialDemand, Rational } from '../model/index.ts';

/**
 * The cell of one material's problem: the largest length of which every length of the problem is a whole
 * multiple. All that happens between here and the cut tree is exact, since it is done in whole cells.
 */
export interface Grid {
  readonly cell: Rational;
  toCells(length: Length): number;
  toLength(cells: number): Length;
}

/** A sheet may have so many cells a side: a product of two sides is then exact in a double. */
export const mostCells = 2 ** 26;

export type GridResult =
  | { readonly kind: 'grid'; readonly grid: Grid }
  /** `odd`: the length without which the cell would be largest. */
  | { readonly kind: 'too fine'; readonly odd: Length; readonly longest: Length };

export function gridOf(demand: MaterialDemand): GridResult {
  const lengths = lengthsOf(demand).filter((it) => it.numerator !== 0n);
  const cell = commonMeasure(lengths);
  const longest = demand.sheets
    .flatMap((sheet) => [sheet.length, sheet.width])
    .reduce((a, b) => (cellsIn(a, cell) >= cellsIn(b, cell) ? a : b));
  if (cellsIn(longest, cell) <= BigInt(mostCells)) {
    const grid: Grid = {
      cell,
      toCells: (length) => Number(cellsIn(length, cell)),
      // A multiple of the cell is a length, as the cell is one.
      toLength: (cells) => multiply(cell, whole(cells)) as Length,
    };
    return { kind: 'grid', grid };
  }
  return { kind: 'too fine', odd: oddOne(lengths), longest };
}

function lengthsOf({ parts, sheets, rules }: MaterialDemand): Length[] {
  return [
    ...parts.flatMap((part) => [part.length, part.width]),
    ...sheets.flatMap(({ length, width, trim }) => [
      length,
      width,
      trim.left,
      trim.right,
      trim.bottom,
      trim.top,
    ]),
    rules.kerf,
    rules.leastStrip,
    ...(rules.longestCut === undefined ? [] : [rules.longestCut]),
  ];
}

/** The greatest rational that goes into each a whole number of times. */
function commonMeasure(lengths: readonly Rational[]): Rational {
  return lengths.reduce<Rational>(
    (a, b) =>
      rational(
        greatestCommonDivisor(a.numerator * b.denominator, b.numerator * a.denominator),
        a.denominator * b.denominator,
      ),
    rational(0n),
  );
}

function cellsIn(length: Rational, cell: Rational): bigint {
  return (length.numerator * cell.denominator) / (length.denominator * cell.numerator);
}

function oddOne(lengths: readonly Length[]): Length {
  const without = lengths.map((_, i) => commonMeasure(lengths.filter((_, other) => other !== i)));
  let odd = 0;
  without.forEach((cell, i) => {
    const best = without[odd]!;
    if (cell.numerator * best.denominator > best.numerator * cell.denominator) odd = i;
  });
  return lengths[odd]!;
}
