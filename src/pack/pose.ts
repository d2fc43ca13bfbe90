import { compare, minus, sum } from '../measure/index.ts';
import type { Length, MaterialDemand, SheetKind } from '../model/index.ts';
import type { Grid } from './grid.ts';
import { type Job, type JobRules, type JobSheet, Lie } from './job.ts';
import { liesByGrain } from './orientation.ts';
import { moneyOf } from './prices.ts';
import { canBeCut } from './search/cuttable.ts';
import { leaf } from './search/tree.ts';

/** Poses a material's demand as a job in whole cells, one kerf added to every size. */
export function pose(demand: MaterialDemand, grid: Grid): Job {
  const kerf = grid.toCells(demand.rules.kerf);
  const { longestCut } = demand.rules;
  const rules: JobRules = {
    kerf,
    leastStrip: grid.toCells(demand.rules.leastStrip),
    longestCut: longestCut === undefined ? Number.POSITIVE_INFINITY : grid.toCells(longestCut),
    rounds: demand.rules.rounds ?? Number.POSITIVE_INFINITY,
  };
  const costs = costsOf(demand.sheets);
  const sheets = demand.sheets.map((sheet, i): JobSheet => {
    const { length, width } = usable(sheet);
    return {
      length: grid.toCells(length) + kerf,
      width: grid.toCells(width) + kerf,
      available: sheet.available === 'as needed' ? Number.POSITIVE_INFINITY : sheet.available,
      cost: costs[i]!,
    };
  });
  const kinds = demand.parts.map((part) => ({
    length: grid.toCells(part.length) + kerf,
    width: grid.toCells(part.width) + kerf,
    count: part.count,
  }));
  const lies = new Uint8Array(kinds.length * sheets.length);
  demand.parts.forEach((part, p) => {
    demand.sheets.forEach((sheet, s) => {
      const { length, width } = kinds[p]!;
      const isSquared = longestCut === undefined || canBeSquared(sheet, longestCut);
      const waysFree = isSquared ? liesByGrain(part, sheet) : 0;
      let ways = 0;
      for (const way of [Lie.straight, Lie.turned]) {
        const [along, across] = way === Lie.straight ? [length, width] : [width, length];
        if ((waysFree & way) !== 0 && liesFreely(along, across, sheets[s]!, rules)) ways |= way;
      }
      lies[p * sheets.length + s] = ways;
    });
  });
  return { kinds, sheets, rules, lies };
}

/** What trim leaves of a sheet; may be zero or less. */
export function usable({ length, width, trim }: SheetKind): { length: Length; width: Length } {
  return {
    length: minus(length, sum(trim.left, trim.right)),
    width: minus(width, sum(trim.bottom, trim.top)),
  };
}

/**
 * True where the trim can come off with cuts that are short enough: what is cut first is cut along the whole
 * sheet, then the other two edges are a little shorter.
 */
export function canBeSquared(sheet: SheetKind, longestCut: Length): boolean {
  const { length, width } = usable(sheet);
  const isTrimmed = (...edges: Length[]) => edges.some(({ numerator }) => numerator > 0n);
  const crosscuts = isTrimmed(sheet.trim.left, sheet.trim.right);
  const rips = isTrimmed(sheet.trim.bottom, sheet.trim.top);
  const mayBe = (isMade: boolean, size: Length) => !isMade || compare(size, longestCut) <= 0;
  return (
    (mayBe(crosscuts, sheet.width) && mayBe(rips, length)) ||
    (mayBe(rips, sheet.length) && mayBe(crosscuts, width))
  );
}

/** True where a part can be cut out of a sheet of its own: what it can't do alone it can't do in company. */
export function liesFreely(length: number, width: number, sheet: JobSheet, rules: JobRules): boolean {
  const isHeld = (size: number, whole: number) => size - rules.kerf >= rules.leastStrip || size === whole;
  return (
    isHeld(length, sheet.length) &&
    isHeld(width, sheet.width) &&
    canBeCut(leaf(0, length, width, false), sheet, rules)
  );
}

/**
 * What one of each sheet costs: its price, or its share of its pack's, where all have one in the same money, else
 * 1; an offcut nothing. Prices are scaled to whole numbers.
 */
function costsOf(sheets: readonly SheetKind[]): number[] {
  const money = moneyOf(sheets);
  if (money === undefined) return sheets.map(({ isOffcut }) => (isOffcut ? 0 : 1));
  return sheets.map(({ isOffcut, price, pack = 1 }) =>
    isOffcut || price === undefined
      ? 0
      : Number((price.amount.numerator * money.units) / (price.amount.denominator * BigInt(pack))),
  );
}
