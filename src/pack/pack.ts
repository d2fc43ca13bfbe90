import { add, equal, multiply, rational, subtract, whole } from '../measure/index.ts';
import type {
  CostProof,
  CutTree,
  Diagnostic,
  Layout,
  Length,
  LowerBound,
  MaterialDemand,
  MaterialLayouts,
  Outcome,
  PartKind,
  Price,
  Proof,
  SearchProgress,
} from '../model/index.ts';
import type { Bound } from './bounds/index.ts';
import { toLayouts } from './emit.ts';
import { noSheets, sheetsUsedUp, tooFine } from './faults.ts';
import { type Grid, gridOf } from './grid.ts';
import { isStrict, type Job } from './job.ts';
import { moneyOf, pose } from './pose.ts';
import { saidOf } from './progress.ts';
import { boughtOf, type FilledSheet, search, withProgress } from './search/search.ts';
import { withoutIdleOffcuts } from './search/spare.ts';
import { tidied } from './search/tidy.ts';
import { isNonEmpty, setAside } from './setAside.ts';
import { verifying } from './verify.ts';

/**
 * Lays the parts of one material out on its sheets.
 *
 *   demand ─gridOf→ whole cells ─pose→ Job ─search→ filled sheets ─toLayouts→ cut trees ─verify→ result
 *
 * A generator, so that whoever drives it can show the progress or stop it. Same demand and steps, same result.
 *
 * @param steps  the most steps of the search; more never make the result worse
 */
export function* pack(
  demand: MaterialDemand,
  steps: number,
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const { sheets } = demand;
  if (!isNonEmpty(sheets)) return nothingPlaced(demand, noSheets(demand));
  const measured = gridOf(demand);
  if (measured.kind === 'too fine') {
    const { odd, longest } = measured;
    return yield* packWithout(demand, odd, { steps, fault: tooFine(demand, odd, longest) });
  }
  const job = pose(demand, measured.grid);
  const { counts, diagnostics } = setAside(demand, sheets, job);

  const found = yield* saidOf(demand.material.name, search(job, counts, { steps }));
  const { bound } = found;

  const usedUp = found.leftOut.some((count) => count > 0) ? [sheetsUsedUp(demand, found.leftOut)] : [];
  const unplaced = demand.parts.flatMap(({ count }, part) => {
    const missing = count - counts[part]! + found.leftOut[part]!;
    return missing > 0 ? [{ part, count: missing }] : [];
  });
  const last = { step: found.steps, sheets: boughtOf(job, found.sheets), bound: bound.sheets };
  const layouts = yield* saidOf(
    demand.material.name,
    withProgress(laidOut(job, measured.grid, found.sheets), () => last),
  );
  const bought = layouts.reduce((sum, { sheet, times }) => sum + (sheets[sheet]!.isOffcut ? 0 : times), 0);
  const value: MaterialLayouts = {
    demand,
    layouts,
    unplaced,
    bound: inWords(bound, demand),
    proof: unplaced.length > 0 ? { kind: 'none' } : proofOf(bought, bound, demand, layouts),
    steps: found.steps,
  };
  const flaws = yield* saidOf(
    demand.material.name,
    withProgress(verifying(value), () => last),
  );
  if (flaws.length > 0) {
    throw new Error(
      `layouts of "${demand.material.name}" fail their check: ${flaws.map(({ what }) => what).join('; ')}`,
    );
  }
  return { value, diagnostics: [...diagnostics, ...usedUp] };
}

/** Where only some parts have the odd measure, the others can still be laid out. */
function* packWithout(
  demand: MaterialDemand,
  odd: Length,
  { steps, fault }: { readonly steps: number; readonly fault: Diagnostic },
): Generator<SearchProgress, Outcome<MaterialLayouts>> {
  const isEven = ({ length, width }: PartKind) => !equal(length, odd) && !equal(width, odd);
  const even = demand.parts.flatMap((part, index) => (isEven(part) ? [index] : []));
  const parts = even.map((index) => demand.parts[index]!);
  if (!isNonEmpty(parts) || parts.length === demand.parts.length) return nothingPlaced(demand, fault);
  const { value, diagnostics } = yield* pack({ ...demand, parts }, steps);
  if (value === undefined) return { value, diagnostics: [fault, ...diagnostics] };
  const unplaced = new Map(value.unplaced.map(({ part, count }) => [even[part]!, count]));
  const whole: MaterialLayouts = {
    ...value,
    demand,
    layouts: value.layouts.map((layout) => ({ ...layout, tree: renumbered(layout.tree, even) })),
    unplaced: demand.parts.flatMap((part, index) => {
      const count = even.includes(index) ? (unplaced.get(index) ?? 0) : part.count;
      return count > 0 ? [{ part: index, count }] : [];
    }),
    proof: { kind: 'none' },
  };
  return { value: whole, diagnostics: [fault, ...diagnostics] };
}

function renumbered(tree: CutTree, numbers: readonly number[]): CutTree {
  if (tree.kind === 'left over') return tree;
  if (tree.kind === 'part') return { ...tree, part: numbers[tree.part]! };
  const far = tree.far === undefined ? undefined : renumbered(tree.far, numbers);
  return { ...tree, near: renumbered(tree.near, numbers), far };
}

function* laidOut(job: Job, grid: Grid, sheets: readonly FilledSheet[]): Generator<void, Layout[]> {
  return yield* toLayouts(job, grid, yield* keptShort(job, sheets));
}

function* keptShort(job: Job, sheets: readonly FilledSheet[]): Generator<void, FilledSheet[]> {
  const kept = yield* withoutIdleOffcuts(job, sheets);
  // With limits on strips and cuts each place costs a copy of its sheet: many sheets would take too long.
  return isStrict(job.rules) && kept.length > mostTidiedStrict ? [...kept] : yield* tidied(job, kept);
}

const mostTidiedStrict = 12;

function proofOf(bought: number, bound: Bound, demand: MaterialDemand, layouts: readonly Layout[]): Proof {
  const least = leastPrice(bound, demand);
  const cost = least === undefined || bought === 0 ? {} : { cost: costProof(least, demand, layouts) };
  return bought === bound.sheets
    ? { kind: 'fewest', ...cost }
    : { kind: 'within', sheets: bought - bound.sheets, ...cost };
}

function costProof(least: Price, { sheets }: MaterialDemand, layouts: readonly Layout[]): CostProof {
  let spent = rational(0n);
  for (const { sheet, times } of layouts) {
    const { isOffcut, price } = sheets[sheet]!;
    if (!isOffcut && price !== undefined) spent = add(spent, multiply(price.amount, whole(times)));
  }
  const over = subtract(spent, least.amount);
  if (over.numerator === 0n) return { kind: 'cheapest' };
  return { kind: 'dearer', by: { amount: over, currency: least.currency } };
}

function inWords(bound: Bound, demand: MaterialDemand): LowerBound {
  const cost = leastPrice(bound, demand);
  return { sheets: bound.sheets, argument: bound.argument, ...(cost === undefined ? {} : { cost }) };
}

/** Only where there is a choice of prices: else the fewest sheets are the cheapest. */
function leastPrice({ cost }: Bound, { sheets }: MaterialDemand): Price | undefined {
  const money = moneyOf(sheets);
  if (money === undefined || money.prices < 2) return undefined;
  return { amount: rational(BigInt(cost), money.units), currency: money.currency };
}

function nothingPlaced(demand: MaterialDemand, fault: Diagnostic): Outcome<MaterialLayouts> {
  const value: MaterialLayouts = {
    demand,
    layouts: [],
    unplaced: demand.parts.map(({ count }, part) => ({ part, count })),
    bound: { sheets: 0, argument: 'nothing can be cut' },
    proof: { kind: 'none' },
    steps: 0,
  };
  return { value, diagnostics: [fault] };
}
