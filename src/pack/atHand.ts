import { add, compareRationals, multiply, rational, whole } from '../measure/index.ts';
import type {
  Blanks,
  MaterialDemand,
  MaterialLayouts,
  OtherBlanks,
  Outcome,
  Rational,
  SearchProgress,
} from '../model/index.ts';
import { holdsTooLittle } from './bounds/index.ts';
import { gridOf } from './grid.ts';
import { packFewest } from './packFewest.ts';
import { pose, usable } from './pose.ts';
import { saidOf } from './progress.ts';
import { withProgress } from './search/search.ts';

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
  if (yield* isTooLittle(blanks)) return yield* packFewest(blanks, steps);
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

/** True where bounds show, for every way of forming the blanks, that what is at hand can't hold them. */
function* isTooLittle({ first, others }: Blanks): Generator<SearchProgress, boolean> {
  const demand = atHandAlone(first);
  const { material, parts } = demand;
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') return false;
  const atHand = demand.sheets.filter(({ available }) => available !== 0);
  const areas = atHand.map((sheet): Rational | undefined => {
    const { length, width } = usable(sheet);
    return sheet.available === 'as needed'
      ? undefined
      : multiply(multiply(length, width), whole(sheet.available));
  });
  const mayDo = ({ leastArea }: OtherBlanks): boolean =>
    areas.includes(undefined) ||
    compareRationals(
      leastArea,
      areas.reduce<Rational>((sum, area) => (area === undefined ? sum : add(sum, area)), rational(0n)),
    ) <= 0;
  if (others.some(mayDo)) return false;
  const job = pose(demand, measured.grid);
  const counts = parts.map(({ count }) => count);
  const looking = holdsTooLittle(
    job,
    job.sheets.map(({ available }) => available),
    counts,
  );
  const say = () => ({ step: 0, sheets: 0, bound: 0 });
  return yield* saidOf(material.name, withProgress(looking, say));
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
