import type { FileUnits, Length } from '../model/index.ts';
import { decimalPlaces, exactDecimal, roundedDecimal } from './decimals.ts';
import { compare, inches, isPositive, millimetres, scaled, toInches } from './length.ts';
import { mixedText } from './mixedNumber.ts';
import { rational, whole } from './rational.ts';
import { isGraduation, isMultiple, nearestMark, oneInch, oneMm, unitOfRule } from './rounding.ts';
import { errorText, inchScales, mmScales } from './showing.ts';

/** A table of every mark of a rule and what it is in the other unit. */
export interface ReferenceTable {
  readonly step: Length;
  readonly unit: FileUnits;
  /** The graduation that the other unit is rounded to. */
  readonly to: Length;
  readonly halves: 'half up' | 'half even';
  readonly rows: readonly ReferenceRow[];
}

export interface ReferenceRow {
  readonly size: Length;
  /** As the rule has it: `2 3/8`, `60.5`. */
  readonly onRule: string;
  /** As a decimal of its own unit, where that says more. */
  readonly decimal: string;
  /** In the other unit without any rounding; an odd fraction of an inch as a decimal, marked as rounded. */
  readonly exact: string;
  /** In the other unit to the nearest mark, with as many digits as its graduation has. */
  readonly nearest: string;
  readonly mark: Length;
  /** True length less that mark; empty where there is none. */
  readonly error: string;
}

export interface ReferenceWishes {
  readonly step: Length;
  readonly upTo: Length;
  readonly ruler: readonly Length[];
  readonly halves: 'half up' | 'half even';
}

/** True for what a table may go by: the marks of a rule, or whole inches or millimetres at once. */
export function isStepOfTable(step: Length): boolean {
  return isGraduation(step) || isSeveral(step);
}

/** True for several inches or millimetres at a time. */
export function isSeveral(step: Length): boolean {
  return !isGraduation(step) && isPositive(step) && (isMultiple(step, oneInch) || isMultiple(step, oneMm));
}

/** The unit of its left column: 127 mm are taken to be meant as 5 in. */
export function unitOfTable(step: Length): FileUnits {
  if (!isSeveral(step)) return unitOfRule(step);
  return isMultiple(step, oneInch) ? 'in' : 'mm';
}

/** @param wishes  `step` and `upTo` above 0 */
export function referenceTable({ step, upTo, ruler, halves }: ReferenceWishes): ReferenceTable {
  const unit = unitOfTable(step);
  const [to = usual.mm] = unit === 'mm' ? inchScales(ruler, usual.in) : mmScales(ruler);
  const rows: ReferenceRow[] = [];
  for (let count = 1; ; count++) {
    const size = scaled(step, whole(count));
    if (compare(size, upTo) > 0) break;
    const { mark, error } = nearestMark(size, to, halves);
    const other = unit === 'in' ? 'mm' : 'in';
    rows.push({
      size,
      onRule: unit === 'in' ? mixedText(toInches(size)) : inDigits(size, step),
      decimal: unit === 'in' ? (exactDecimal(toInches(size)) ?? '') : '',
      exact:
        other === 'mm'
          ? (exactDecimal(size) ?? mixedText(size))
          : `~${roundedDecimal(toInches(size), 4, halves)}`,
      nearest: other === 'mm' ? inDigits(mark, to) : mixedText(toInches(mark)),
      mark,
      error: error.numerator === 0n ? '' : errorText(error, other),
    });
  }
  return { step, unit, to, halves, rows };
}

/** With as many decimals as the graduation has. */
function inDigits(size: Length, graduation: Length): string {
  return roundedDecimal(size, decimalPlaces(graduation) ?? 0);
}

const usual: Readonly<Record<FileUnits, Length>> = {
  in: inches(rational(1n, 64n)),
  mm: millimetres(rational(1n, 10n)),
};
