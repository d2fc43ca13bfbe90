import type { MaterialDemand, MaterialLayouts, Outcome, SearchProgress } from '../model/index.ts';
import { pack } from './pack.ts';

/**
 * Lays the parts out on what is at hand alone, on the fewest of its whole sheets, where that is enough; else on
 * all of it and on what has to be bought besides.
 *
 *   whole sheets at hand?  ── no ─→  pack: offcuts where they save a sheet
 *        │ yes
 *   pack on these alone, each of them dear  ── all placed ─→  nothing to buy
 *        │ parts are left
 *   pack on everything, what is at hand for nothing
 */
export function* packAtHand(
  demand: MaterialDemand,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  if (!demand.sheets.some(({ isUncut }) => isUncut)) return yield* pack(demand, steps);
  const first = yield* pack(atHandAlone(demand), steps);
  const { value } = first;
  if (value === undefined || value.unplaced.length > 0) return yield* pack(demand, steps);
  return {
    value: {
      ...value,
      demand,
      bound: { sheets: 0, argument: 'what is at hand is enough' },
      proof: { kind: 'fewest' },
    },
    diagnostics: first.diagnostics,
  };
}

/** The same parts on what is at hand; the search takes its whole sheets for dear, so that it uses few. */
export function atHandAlone(demand: MaterialDemand): MaterialDemand {
  const sheets = demand.sheets.map((sheet) =>
    sheet.isUncut ? { ...sheet, isOffcut: false } : sheet.isOffcut ? sheet : { ...sheet, available: 0 },
  );
  return { ...demand, sheets };
}
