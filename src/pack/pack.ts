import { equal } from '../measure/index.ts';
import type {
  CutTree,
  Diagnostic,
  Layout,
  Length,
  MaterialDemand,
  MaterialLayouts,
  Outcome,
  PartKind,
  SearchProgress,
} from '../model/index.ts';
import { toLayouts } from './emit.ts';
import { noSheets, sheetsUsedUp, tooFine } from './faults.ts';
import { type Grid, gridOf } from './grid.ts';
import { isStrict, type Job } from './job.ts';
import { pose } from './pose.ts';
import { saidOf } from './progress.ts';
import { boundInWords, provedBy } from './proofs.ts';
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
  const known = yield* saidOf(
    demand.material.name,
    withProgress(boundInWords(bound, demand, job, counts), () => last),
  );
  const value: MaterialLayouts = {
    demand,
    layouts,
    unplaced,
    bound: known,
    proof: unplaced.length > 0 ? { kind: 'none' } : provedBy(known, { demand, layouts }),
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
