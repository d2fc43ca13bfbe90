import type { MaterialDemand, MaterialLayouts, NonEmpty, Outcome, SearchProgress } from '../model/index.ts';
import { packFewest } from './packFewest.ts';

/**
 * Lays the parts out on what is at hand alone, on the fewest of its whole sheets, where that is enough; else on
 * all of it and on what has to be bought besides.
 *
 *   whole sheets at hand?  ── no ─→  offcuts where they save a sheet
 *        │ yes
 *   on what is at hand, each of its sheets dear  ── all placed ─→  nothing to buy
 *        │ parts are left
 *   on everything, what is at hand for nothing
 *
 * @param ways   of forming the blanks, as for `packFewest`
 * @param steps  the most steps of the search, for each way
 */
export function* packAtHand(
  ways: NonEmpty<MaterialDemand>,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const [{ sheets }] = ways;
  if (!sheets.some(({ isUncut }) => isUncut)) return yield* packFewest(ways, steps);
  const [way, ...others] = ways;
  const { value, diagnostics } = yield* packFewest([atHandAlone(way), ...others.map(atHandAlone)], steps);
  if (value === undefined || value.unplaced.length > 0) return yield* packFewest(ways, steps);
  return {
    value: {
      ...value,
      demand: { ...value.demand, sheets },
      bound: { sheets: 0, argument: 'what is at hand is enough' },
      proof: { kind: 'fewest' },
    },
    diagnostics,
  };
}

/** The same parts on what is at hand; the search takes its whole sheets for dear, so that it uses few. */
export function atHandAlone(demand: MaterialDemand): MaterialDemand {
  const sheets = demand.sheets.map((sheet) =>
    sheet.isUncut ? { ...sheet, isOffcut: false } : sheet.isOffcut ? sheet : { ...sheet, available: 0 },
  );
  return { ...demand, sheets };
}
