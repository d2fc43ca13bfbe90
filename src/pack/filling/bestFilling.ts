import { zero } from '../../measure/index.ts';
import type { CutRules, CutTree, MaterialDemand, PartKind, SheetKind } from '../../model/index.ts';
import { toLayouts } from '../emit.ts';
import { type Grid, gridOf } from '../grid.ts';
import { isStrict, type Job, type JobRules, type JobSheet, liesOf } from '../job.ts';
import { BestSheet } from '../patterns/bestSheet.ts';
import { LimitedSheet } from '../patterns/limitedSheet.ts';
import { type Lying, waysOfLying } from '../patterns/pattern.ts';
import { rasterPoints } from '../patterns/raster.ts';
import { pose } from '../pose.ts';
import { canBeCut } from '../search/cuttable.ts';
import {
  collectParts,
  copyAsItIs,
  copyWithout,
  leaf,
  lineOf,
  Node,
  nodeCount,
  Shape,
} from '../search/tree.ts';
import { type Leftover, mayBeCutUp } from './leftovers.ts';

/** How often one kind of part goes into a leftover. */
export interface Filling {
  readonly count: number;
  /** No way of cutting gives more. */
  readonly most: number;
  /** The leftover cut up for at most so many of the kind, with the number of them; undefined where it gives none. */
  readonly cutFor: (count: number) => { readonly tree: CutTree; readonly count: number } | undefined;
}

/** What is left of the additions that the fillings of one material may take; shrinks. */
export interface Work {
  left: number;
}

export function workFor(): Work {
  return { left: 300_000_000 };
}

/** More than this on one leftover is not worth it: then fewer places for cuts are tried. */
const mostOnOne = 30_000_000;
const mostPoints = 120;
/** Of ways that are as good, so many are looked at for the one with the fewest cuts. */
const mostAlike = 12;

const none: Filling = { count: 0, most: 0, cutFor: () => undefined };

/**
 * Fills one leftover with one kind of part, as often as it goes in. All limits of the sheet hold within it too:
 * kerf, grain, least strip, longest cut, and the rounds that it has left.
 *
 * @param part  its number in the layouts' demand
 */
export function* bestFilling(
  kind: PartKind,
  part: number,
  leftover: Leftover,
  {
    demand,
    sheet,
    work,
  }: { readonly demand: MaterialDemand; readonly sheet: SheetKind; readonly work: Work },
): Generator<void, Filling> {
  const { rules } = demand;
  const left = rules.rounds === undefined ? undefined : rules.rounds - leftover.rounds;
  // A first cut in the way of the last one is of the same round, so one more may do; which way is looked at later.
  const roundsToTry = left === undefined ? [undefined] : [left + 1, left, 1].filter((it) => it > 0);
  let best: Omit<Filling, 'most'> = none;
  let most: number | undefined;
  for (const rounds of new Set(roundsToTry)) {
    const limited: MaterialDemand = { ...demand, rules: { ...rules, rounds } };
    const scene = sceneOf(kind, part, leftover, { demand: limited, sheet });
    const found = scene && (yield* fillingOf(scene, work));
    // The first is the loosest, and so the bound of all.
    most ??= found?.most ?? 0;
    const filling = found && scene ? cuttable(found.trees, scene, leftover, rules) : none;
    if (filling.count > best.count) best = filling;
    if (best.count === most) break;
  }
  return { ...best, most: most ?? 0 };
}

/** A leftover as a sheet of its own, in whole cells. */
interface Scene {
  readonly job: Job;
  readonly grid: Grid;
  readonly ways: readonly Lying[];
  readonly part: number;
}

/** @returns  undefined where not one goes in */
function sceneOf(
  kind: PartKind,
  part: number,
  { length, width }: Leftover,
  { demand, sheet }: { readonly demand: MaterialDemand; readonly sheet: SheetKind },
): Scene | undefined {
  const asSheet: SheetKind = { ...sheet, length, width, trim: noTrim, available: 'as needed' };
  const alone: MaterialDemand = { ...demand, parts: [{ ...kind, count: 1 }], sheets: [asSheet] };
  const measured = gridOf(alone);
  if (measured.kind === 'too fine') return undefined;
  const job = pose(alone, measured.grid);
  if (liesOf(job, 0, 0) === 0) return undefined;
  return { job, grid: measured.grid, ways: waysOfLying(job, [0], 0), part };
}

const noTrim: SheetKind['trim'] = { left: zero, right: zero, bottom: zero, top: zero };

interface Found {
  /** The best first. */
  readonly trees: readonly Node[];
  readonly most: number;
}

function* fillingOf({ job, ways }: Scene, work: Work): Generator<void, Found> {
  const { rules } = job;
  const [sheet] = job.sheets;
  if (sheet === undefined) return { trees: [], most: 0 };
  const allowed = Math.min(mostOnOne, work.left);
  const whole = isStrict(rules)
    ? LimitedSheet.over(sheet, ways, rules, allowed)
    : BestSheet.over(sheet, ways, rules, allowed);
  const solver =
    whole ??
    (isStrict(rules)
      ? LimitedSheet.overFew(sheet, ways, rules, mostPoints)
      : BestSheet.overFew(sheet, ways, rules, mostPoints));
  work.left = Math.max(0, work.left - solver.work);
  const count = yield* solver.solve([1]);
  if (count === 0) return { trees: [], most: whole === undefined ? boundOfArea(sheet, ways) : 0 };
  const trees = [...solver.trees(count - 1, mostAlike)].sort((a, b) => nodeCount(a) - nodeCount(b));
  if (whole !== undefined) return { trees, most: count };
  const all = [...trees, ...ways.map((way) => inRows(way, sheet, job))].filter((it) =>
    canBeCut(it, sheet, rules),
  );
  return { trees: all.sort((a, b) => partsIn(b) - partsIn(a)), most: boundOfArea(sheet, ways) };
}

function partsIn(node: Node): number {
  const parts: number[] = [];
  collectParts(node, parts);
  return parts.length;
}

/** As many as lie side by side all one way. */
function inRows({ kind, width, height, turned }: Lying, sheet: JobSheet, { rules }: Job): Node {
  const column = () =>
    lineOf(
      Shape.column,
      Array.from({ length: Math.floor(sheet.width / height) }, () => leaf(kind, width, height, turned)),
      rules,
    );
  return lineOf(Shape.row, Array.from({ length: Math.floor(sheet.length / width) }, column), rules);
}

/** Their areas have to go into what sums of their sides can reach. */
function boundOfArea(sheet: JobSheet, ways: readonly Lying[]): number {
  const reach = (side: number, sizes: readonly number[]) =>
    rasterPoints(side, sizes, mostSums)?.at(-1) ?? side;
  const length = reach(
    sheet.length,
    ways.map(({ width }) => width),
  );
  const width = reach(
    sheet.width,
    ways.map(({ height }) => height),
  );
  const [first] = ways;
  return first === undefined ? 0 : Math.floor((length * width) / (first.width * first.height));
}

const mostSums = 4000;

/** The first of the trees that the leftover may be cut up by, as it has been cut before. */
function cuttable(
  trees: readonly Node[],
  scene: Scene,
  leftover: Leftover,
  rules: CutRules,
): Omit<Filling, 'most'> {
  for (const tree of trees) {
    const cut = inCuts(tree, scene, leftover, rules);
    if (cut === undefined) continue;
    const count = partsIn(tree);
    const cutFor: Filling['cutFor'] = (wanted) => {
      for (let fewer = Math.min(wanted, count); fewer > 0; fewer--) {
        const some =
          fewer === count ? cut : inCuts(firstOf(tree, fewer, scene.job.rules), scene, leftover, rules);
        if (some !== undefined) return { tree: some, count: fewer };
      }
      return undefined;
    };
    return { count, cutFor };
  }
  return none;
}

/** The tree without its last parts, so that what they leave free lies together. */
function firstOf(tree: Node, count: number, rules: JobRules): Node {
  let number = 0;
  const numbered = copyAsItIs(tree, () => number++);
  const isOut = Uint8Array.from({ length: number }, (_, i) => (i < count ? 0 : 1));
  const some = copyWithout(numbered, isOut, rules);
  if (some === null) throw new Error('a tree without parts was asked for');
  return some;
}

function inCuts(
  root: Node,
  { job, grid, part }: Scene,
  leftover: Leftover,
  rules: CutRules,
): CutTree | undefined {
  const [sheet] = job.sheets;
  if (sheet === undefined) return undefined;
  const ways = rules.rounds === undefined ? [root] : [root, ...widened(root, sheet)];
  for (const way of ways) {
    if (!canBeCut(way, sheet, job.rules)) continue;
    let parts = 0;
    const numbered = copyAsItIs(way, () => parts++);
    const kindOf = new Int32Array(parts).fill(part);
    const run = toLayouts(job, grid, [{ kind: 0, root: numbered, kindOf, times: 1 }]);
    let next = run.next();
    while (!next.done) next = run.next();
    const tree = next.value[0]?.tree;
    if (tree !== undefined && mayBeCutUp(tree, leftover, rules)) return tree;
  }
  return undefined;
}

/**
 * The same with its first cuts going the other way: where it reaches as far as the leftover does, nothing is taken
 * off beside it first. That may spare a round, as the leftover's own last cut has begun one.
 *
 *   ┌──────────┐      ┌───┬───┬──┐
 *   ├───┬───┬──┤  →   ├───┼───┤  │
 *   │   │   │  │      │   │   │  │
 *   └───┴───┴──┘      └───┴───┴──┘
 */
function widened(root: Node, sheet: JobSheet): readonly Node[] {
  const lines =
    root.shape === Shape.part
      ? [Shape.row, Shape.column].map((shape) => new Node(shape, root.width, root.height, -1, false, [root]))
      : [root];
  return lines.flatMap(({ shape, width, height, kids }) =>
    [
      [width, sheet.width],
      [sheet.length, height],
      [sheet.length, sheet.width],
    ].map(([wide = width, high = height]) => new Node(shape, wide, high, -1, false, [...kids])),
  );
}
