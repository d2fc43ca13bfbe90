import type { Blanks, MaterialDemand, MaterialLayouts, Outcome, SearchProgress } from '../model/index.ts';
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
 * @param steps  the most steps of the search, for each way of forming the blanks
 */
export function* packAtHand(
  blanks: Blanks,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const { sheets } = blanks.first;
  if (!sheets.some(({ isUncut }) => isUncut)) return yield* packFewest(blanks, steps);
  const { value, diagnostics } = yield* packFewest(blanksAtHand(blanks), steps);
  if (value === undefined || value.unplaced.length > 0) return yield* packFewest(blanks, steps);
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

/** The same blanks, each way of forming them, for what is at hand. */
function blanksAtHand({ first, others }: Blanks): Blanks {
  return {
    first: atHandAlone(first),
    others: others.map(({ leastArea, form }) => ({
      leastArea,
      form: () => {
        const way = form();
        return way && atHandAlone(way);
      },
    })),
  };
}

/** The same parts on what is at hand; the search takes its whole sheets for dear, so that it uses few. */
export function atHandAlone(demand: MaterialDemand): MaterialDemand {
  const sheets = demand.sheets.map((sheet) =>
    sheet.isUncut ? { ...sheet, isOffcut: false } : sheet.isOffcut ? sheet : { ...sheet, available: 0 },
  );
  return { ...demand, sheets };
}
