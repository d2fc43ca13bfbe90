import type { Bound } from '../bounds/index.ts';
import type { Job } from '../job.ts';
import { Pace } from '../pace.ts';
import { type Filling, isBetter, type Merit, meritOf } from './filling.ts';
import { Squeeze } from './improve.ts';
import { Dice } from './random.ts';
import { boughtIn, type Limit, type Progress, withProgress } from './search.ts';
import type { Copies, OpenSheet } from './sheet.ts';
import { gathered } from './tidy.ts';
import { collectParts } from './tree.ts';

/**
 * Betters a filling by trying to squeeze all parts onto cheaper sets of sheets: one sheet fewer, or one
 * exchanged for a cheaper or smaller one. A set that works becomes the filling, and the next is tried.
 *
 * @param before  what is bought beside this filling, and counts towards the bound
 */
export function* improve(
  job: Job,
  copies: Copies,
  from: Filling,
  limit: Limit,
  bound: Bound,
  before: { readonly sheets: number; readonly cost: number },
): Generator<Progress, { readonly filling: Filling; readonly steps: number }> {
  const dice = new Dice(1);
  let best = from;
  let nearMiss: Filling | undefined;
  let taken = 0;
  let said = 0;
  const pace = new Pace();
  const between = copies.area.length > manyCopies ? fewStepsBetweenYields : stepsBetweenYields;
  let patience = 1;
  let tried = 0;
  const say = () => ({ step: taken, sheets: before.sheets + boughtIn(job, best), bound: bound.sheets });
  function* squeezed(proposal: Filling, most: number): Generator<Progress, Filling> {
    const squeeze = new Squeeze(job, copies, proposal.sheets, proposal.leftOut, dice);
    while (taken < Math.min(most, limit.steps) && squeeze.leftOut.length > 0) {
      const before = squeeze.work;
      squeeze.begin();
      while (!squeeze.recreate(pace)) yield say();
      squeeze.end();
      // A step on crowded sheets counts for several, so that steps tell the time whatever the job.
      const weight = 1 + Math.floor((squeeze.work - before) / workOfOneStep);
      taken += Math.min(weight, limit.steps - taken);
      if (taken - said >= between) {
        said = taken;
        yield say();
      }
    }
    return squeeze.closest;
  }

  while (taken < limit.steps) {
    const enough = { sheets: bound.sheets - before.sheets, cost: bound.cost - before.cost };
    const proposals = proposalsFor(job, copies, best, enough);
    if (proposals.length === 0) break;
    const proposal = proposals[tried % proposals.length]!;
    if (tried > 0 && tried % proposals.length === 0) patience *= 2;
    // A lone proposal may have all that is left; several take turns, with growing patience.
    const most = proposals.length === 1 ? Number.POSITIVE_INFINITY : taken + 2000 * patience;
    const closest = yield* squeezed(proposal, most);
    if (closest.leftOut.length > 0 && proposal.sheets.length < best.sheets.length) nearMiss = closest;
    const result = { ...closest, sheets: closest.sheets.filter(({ root }) => root !== null) };
    if (isBetter(meritOf(job, copies, result), meritOf(job, copies, best))) {
      best = result;
      nearMiss = undefined;
      tried = 0;
      patience = 1;
    } else tried++;
  }
  // Where nothing fewer is possible, some steps still go into leaving one sheet as empty as can be.
  if (nearMiss === undefined && best.sheets.length > 1 && best.leftOut.length === 0) {
    nearMiss = yield* squeezed(withoutEmptiest(best), taken + stepsOfGathering);
  }
  const filling = yield* withProgress(gathered(job, copies, best, nearMiss), say);
  return { filling, steps: taken };
}

function withoutEmptiest({ sheets }: Filling): Filling {
  const emptiest = sheets.reduce((a, b) => (b.filled < a.filled ? b : a));
  const leftOut: number[] = [];
  if (emptiest.root !== null) collectParts(emptiest.root, leftOut);
  return { sheets: sheets.filter((sheet) => sheet !== emptiest), leftOut };
}

/**
 * Sheets to try in place of those of `filling`, with the parts that have lost their place.
 *
 * @param enough  no way of cutting needs fewer sheets or costs less, so neither is worth a try
 */
function proposalsFor(
  job: Job,
  copies: Copies,
  filling: Filling,
  enough: { readonly sheets: number; readonly cost: number },
): Filling[] {
  const { sheets, leftOut } = filling;
  if (leftOut.length > 0) {
    const all = withAllSheets(job, filling);
    return all.sheets.length === 0 ? [] : [all];
  }
  const now = meritOf(job, copies, filling);
  const needed = copies.area.reduce((sum, area) => sum + area, 0);
  const isBuying = boughtIn(job, filling) > 0;
  const isFewest = boughtIn(job, filling) <= enough.sheets;
  const isOneSize = job.sheets.length === 1;
  const used = new Int32Array(job.sheets.length);
  for (const { kind } of sheets) used[kind]!++;

  const proposals: { filling: Filling; merit: Merit }[] = [];
  const propose = (without: OpenSheet, kind: number | undefined) => {
    const kept: OpenSheet[] = sheets.filter((sheet) => sheet !== without);
    if (kind !== undefined) kept.push({ kind, root: null, filled: 0 });
    const parts: number[] = [];
    if (without.root !== null) collectParts(without.root, parts);
    const proposal = { sheets: kept, leftOut: parts };
    const merit = { ...meritOf(job, copies, proposal), leftOutArea: 0 };
    if (merit.cost < enough.cost) return;
    if (isBetter(merit, now) && merit.sheetArea >= needed) proposals.push({ filling: proposal, merit });
  };
  for (const sheet of emptiestOfEachKind(sheets)) {
    const isOffcut = job.sheets[sheet.kind]!.cost === 0;
    if (isOneSize && isFewest) continue;
    // Offcuts come first: while sheets are bought, none is put back.
    if (!isOffcut || !isBuying) propose(sheet, undefined);
    for (let kind = 0; kind < job.sheets.length; kind++) {
      if (kind !== sheet.kind && used[kind]! < job.sheets[kind]!.available) propose(sheet, kind);
    }
  }
  proposals.sort((a, b) => (isBetter(a.merit, b.merit) ? -1 : 1));
  return proposals.map(({ filling: it }) => it);
}

function emptiestOfEachKind(sheets: readonly OpenSheet[]): OpenSheet[] {
  const emptiest = new Map<number, OpenSheet>();
  for (const sheet of sheets) {
    const other = emptiest.get(sheet.kind);
    if (other === undefined || sheet.filled < other.filled) emptiest.set(sheet.kind, sheet);
  }
  return [...emptiest.values()];
}

/** Where parts were left out all sheets are at hand that there are. */
function withAllSheets(job: Job, { sheets, leftOut }: Filling): Filling {
  const used = new Int32Array(job.sheets.length);
  for (const { kind } of sheets) used[kind]!++;
  const more: OpenSheet[] = [];
  job.sheets.forEach(({ available }, kind) => {
    for (let i = used[kind]!; i < Math.min(available, used[kind]! + leftOut.length); i++) {
      more.push({ kind, root: null, filled: 0 });
    }
  });
  return { sheets: [...sheets, ...more], leftOut };
}

const stepsBetweenYields = 64;
/** Trees of many copies take longer to copy and to look through. */
const manyCopies = 200;
const fewStepsBetweenYields = 12;
const workOfOneStep = 2000;
const stepsOfGathering = 1000;
