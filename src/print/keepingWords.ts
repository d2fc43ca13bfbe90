import { compare, inches, larger, millimetres, rational, smaller } from '../measure/index.ts';
import type { FileUnits, Length, MaterialPlan } from '../model/index.ts';

/**
 * How to have kept what is called scrap, once, where nobody said what is worth keeping and some of it might be.
 *
 * Source: common practice, no source: a piece of 100 × 50 mm still makes small parts.
 */
export function keepingWords(plans: readonly MaterialPlan[], units: FileUnits): string | undefined {
  const isUnsaid = plans.every(({ demand }) => demand.rules.worthKeeping === undefined);
  const { long, short, written } = large[units];
  const scrap = plans.flatMap(({ sheets }) => sheets.flatMap(({ leftovers }) => leftovers));
  const isLarge = scrap.some(
    ({ box: { length, width } }) =>
      compare(larger(length, width), long) >= 0 && compare(smaller(length, width), short) >= 0,
  );
  if (!isUnsaid || !isLarge) return undefined;
  return (
    `Nobody said what is worth keeping, so all that is left is called scrap. cutting: { worth keeping: ${written} } ` +
    'gives every rest of that size or more a name to keep it by.'
  );
}

interface Large {
  readonly long: Length;
  readonly short: Length;
  readonly written: string;
}

const large: Readonly<Record<FileUnits, Large>> = {
  in: { long: inches(rational(4n)), short: inches(rational(2n)), written: '[4, 2]' },
  mm: { long: millimetres(rational(100n)), short: millimetres(rational(50n)), written: '[100, 50]' },
};
