import { zero } from '../../measure/index.ts';
import type { CutRules, CutTree, MaterialDemand, NonEmpty, PartKind, SheetKind } from '../../model/index.ts';
import { toLayouts } from '../emit.ts';
import { type Grid, gridOf } from '../grid.ts';
import { isStrict, type Job, type JobRules, type JobSheet, liesOf } from '../job.ts';
import { type Lying, waysOfLying } from '../patterns/pattern.ts';
import { pose } from '../pose.ts';
import { canBeCut } from '../search/cuttable.ts';
import { copyAsItIs, copyWithout, Node, nodeCount, Shape } from '../search/tree.ts';
import { blocks } from './blocks.ts';
import { type Candidate, FewBlocks } from './fewBlocks.ts';
import { fromCorner } from './fromCorner.ts';
import { type Leftover, mayBeCutUp } from './leftovers.ts';
import { mostOf } from './mostOf.ts';
import { mostPieces, partsIn, type Search, searchFreely, searchWithin, type Work } from './solving.ts';

/** How often one kind of part goes into a leftover. */
export interface Filling {
  readonly count: number;
  /** No way of cutting gives more. */
  readonly most: number;
  /** Far more may go in, but so many pieces are filled in at most. */
  readonly isCutShort: boolean;
  /** The leftover cut up for at most so many of the kind, with the number of them; undefined where it gives none. */
  readonly cutFor: (count: number) => Generator<void, Cut | undefined>;
}

export interface Cut {
  readonly tree: CutTree;
  readonly count: number;
}

/** What was found at once, and what it would take to look for more; none where no more go in, or it is too much. */
export interface Attempt {
  readonly filling: Filling;
  readonly search: { readonly work: number; readonly run: () => Generator<void, Filling> } | undefined;
}

function nothing(most: number): Filling {
  return { count: 0, most, isCutShort: false, cutFor: cutNothing };
}

// biome-ignore lint/correctness/useYield: it is one of several that mostly have to pause
function* cutNothing(): Generator<void, undefined> {
  return undefined;
}

/** The same leftover where it may take only so many, which are fewer than go in. */
export function* noMoreThan(room: number, filling: Filling): Generator<void, Filling> {
  const cut = room > 0 ? yield* filling.cutFor(room) : undefined;
  if (cut === undefined) return { ...nothing(filling.most), isCutShort: filling.isCutShort };
  return {
    ...filling,
    count: cut.count,
    *cutFor(count) {
      return count >= cut.count ? cut : yield* filling.cutFor(count);
    },
  };
}

/** What is asked of a leftover. */
interface Task {
  readonly kind: PartKind;
  /** Its number in the layouts' demand. */
  readonly part: number;
  readonly leftover: Leftover;
  readonly demand: MaterialDemand;
  readonly sheet: SheetKind;
  readonly work: Work;
}

/**
 * Fills one leftover with one kind of part, as often as it goes in. All limits of the sheet hold within it too:
 * kerf, grain, least strip, longest cut, and the rounds that it has left.
 */
export function* firstFilling(task: Task): Generator<void, Attempt> {
  const { leftover, demand, work } = task;
  const rounds = roundsLeft(leftover, demand.rules);
  const scene = sceneOf(task, rounds[0].rounds);
  if (scene === undefined) return { filling: nothing(0), search: undefined };
  const sheet = scene.job.sheets[0]!;
  const most = mostOf(sheet, scene.ways);
  // No more pieces are filled in: how many there might be is all that is asked.
  if (work.pieces === 0) return { filling: { ...nothing(most), isCutShort: most > 0 }, search: undefined };
  const { candidates, isForMore, looks } = candidatesFor(scene, most);
  if (work.isDue(looks * workOfLook)) yield;
  const isLimited = isStrict(scene.job.rules);
  let found = (yield* firstCuttable(candidates, scene, task)) ?? nothing(most);
  if (isLimited && found.count < Math.min(most, mostPieces)) {
    const simple = yield* withoutPlan(scene, task);
    if (simple !== undefined && simple.count > found.count) found = simple;
  }
  const { count, cutFor } = found;
  const filling: Filling = { count, cutFor, most, isCutShort: isForMore && count === mostPieces };
  if (count === most || filling.isCutShort) return { filling, search: undefined };
  const freely = searchFreely(scene);
  const within = isLimited
    ? rounds.flatMap(({ rounds: left, first }) => {
        const limited = sceneOf(task, left);
        return limited === undefined ? [] : [{ limited, search: searchWithin(limited, first) }];
      })
    : [];
  const all = [...(freely === undefined ? [] : [freely]), ...within.map(({ search }) => search)];
  if (all.length === 0) return { filling, search: undefined };
  const run = () => searched(filling, { freely, within, isLimited }, scene, task);
  return { filling, search: { work: all.reduce((sum, it) => sum + it.work, 0), run } };
}

interface Searches {
  readonly freely: Search | undefined;
  readonly within: readonly { readonly limited: Scene; readonly search: Search }[];
  readonly isLimited: boolean;
}

/** As if there were no limits but the kerf at first: that is soon found, often can be cut within them, and bounds the rest. */
function* searched(
  known: Filling,
  { freely, within, isLimited }: Searches,
  scene: Scene,
  task: Task,
): Generator<void, Filling> {
  let best = known;
  if (freely !== undefined) {
    const { trees, most } = yield* freely.run(best.count);
    const found = yield* firstCuttable(trees.map(asCandidate), scene, task);
    best = { ...best, ...(found ?? {}), most: Math.min(best.most, most) };
  }
  if (!isLimited || best.count === best.most) return best;
  let mostWithin = 0;
  for (const { limited, search } of within) {
    const { trees, most } = yield* search.run(best.count);
    const found = yield* firstCuttable(trees.map(asCandidate), limited, task);
    if (found !== undefined) best = { ...best, ...found };
    mostWithin = Math.max(mostWithin, most);
  }
  return { ...best, most: Math.min(best.most, mostWithin) };
}

function asCandidate(tree: Node): Candidate {
  return { count: partsIn(tree), tree: () => tree };
}

/** Those that hold most first; of those that hold as many, the simplest. */
function candidatesFor(
  { job: { rules, sheets }, ways }: Scene,
  most: number,
): { readonly candidates: readonly Candidate[]; readonly isForMore: boolean; readonly looks: number } {
  const sheet = sheets[0]!;
  const candidates: Candidate[] = [];
  let looks = 0;
  const kindsOfShaving =
    rules.leastStrip > 0 && rules.kerf > 0 ? (['last', 'each'] as const) : (['last'] as const);
  for (const shaves of kindsOfShaving) {
    const few = new FewBlocks(ways, rules, shaves);
    const own = few.blocks(sheet);
    candidates.push(...own);
    let best = own.reduce((sum, { count }) => Math.max(sum, count), 0);
    for (const cuts of [1, 2]) {
      if (best === most) break;
      const count = few.most(sheet, cuts);
      if (count > best) candidates.push({ count, tree: () => few.tree(sheet, cuts)! });
      best = Math.max(best, count);
    }
    looks += few.looks;
  }
  const best = candidates.reduce((sum, { count }) => Math.max(sum, count), 0);
  const isForMore = best > mostPieces;
  const short = isForMore ? blocks(sheet, ways, rules, mostPieces) : [];
  const small = candidates.map(
    ({ count, tree }): Candidate =>
      count <= mostPieces
        ? { count, tree }
        : { count: mostPieces, tree: () => firstOf(tree(), mostPieces, rules) },
  );
  // Blocks of just so many leave what is free in one piece.
  return { candidates: [...short, ...small].sort((a, b) => b.count - a.count), isForMore, looks };
}

/** In additions. */
const workOfLook = 30;

/** One more round is left where the first cuts go the way of the last one: they are of its round. */
function roundsLeft(
  { rounds: before, last }: Leftover,
  { rounds }: CutRules,
): NonEmpty<{ readonly rounds: number | undefined; readonly first: Shape | undefined }> {
  if (rounds === undefined) return [{ rounds, first: undefined }];
  const left = rounds - before;
  const along = last === 'crosscut' ? Shape.row : Shape.column;
  return [{ rounds: left + 1, first: along }, ...(left > 0 ? [{ rounds: left, first: undefined }] : [])];
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
  { kind, part, leftover: { length, width }, demand, sheet }: Task,
  rounds: number | undefined,
): Scene | undefined {
  const asSheet: SheetKind = { ...sheet, length, width, trim: noTrim, available: 'as needed' };
  const alone: MaterialDemand = {
    ...demand,
    rules: { ...demand.rules, rounds },
    parts: [{ ...kind, count: 1 }],
    sheets: [asSheet],
  };
  const measured = gridOf(alone);
  if (measured.kind === 'too fine') return undefined;
  const job = pose(alone, measured.grid);
  if (liesOf(job, 0, 0) === 0) return undefined;
  return { job, grid: measured.grid, ways: waysOfLying(job, [0], 0), part };
}

const noTrim: SheetKind['trim'] = { left: zero, right: zero, bottom: zero, top: zero };

type Found = Pick<Filling, 'count' | 'cutFor'>;

/** The first of the ways that the leftover may be cut up by, as it has been cut before. */
function* firstCuttable(
  candidates: readonly Candidate[],
  scene: Scene,
  task: Task,
): Generator<void, Found | undefined> {
  for (const { count, tree: make } of candidates) {
    const tree = make();
    const cut = yield* inCuts(tree, scene, task);
    if (cut === undefined) continue;
    return { count, cutFor: (wanted) => cutForSome({ tree, cut, count }, wanted, scene, task) };
  }
  return undefined;
}

/** Within limits that nothing else keeps to. */
function* withoutPlan(scene: Scene, task: Task): Generator<void, Found | undefined> {
  const found = yield* cutFromCorner(mostPieces, scene, task);
  if (found === undefined) return undefined;
  const { count } = found;
  return {
    count,
    *cutFor(wanted) {
      return wanted >= count ? found : yield* cutFromCorner(wanted, scene, task);
    },
  };
}

function* cutFromCorner(most: number, scene: Scene, task: Task): Generator<void, Cut | undefined> {
  const { job, grid, part, ways } = scene;
  const { leftover, demand, work } = task;
  const [sheet] = job.sheets;
  if (sheet === undefined || most === 0) return undefined;
  const { rounds, last, done } = leftover;
  const piece = { length: sheet.length, width: sheet.width, rounds, last, done };
  const rules = { ...job.rules, rounds: demand.rules.rounds ?? Number.POSITIVE_INFINITY };
  const found = fromCorner(piece, ways, rules, most);
  if (found === undefined) return undefined;
  if (work.isDue(found.count * workOfDrawn)) yield;
  const tree = found.tree(grid, part);
  const isSound = yield* mayBeCutUp(tree, leftover, demand.rules, work.pace);
  return isSound ? { tree, count: found.count } : undefined;
}

interface Whole {
  readonly tree: Node;
  readonly cut: CutTree;
  readonly count: number;
}

/** Without the last ones; where that can't be cut, a block of its own, or a few less. */
function* cutForSome(
  { tree, cut, count }: Whole,
  wanted: number,
  scene: Scene,
  task: Task,
): Generator<void, Cut | undefined> {
  if (wanted >= count) return { tree: cut, count };
  if (wanted <= 0) return undefined;
  const { rules, sheets } = scene.job;
  const fewer = Array.from({ length: Math.min(wanted, mostLess) }, (_, less): Candidate => {
    const some = wanted - less;
    return { count: some, tree: () => firstOf(tree, some, rules) };
  });
  const candidates = isStrict(rules) ? [...fewer, ...blocks(sheets[0]!, scene.ways, rules, wanted)] : fewer;
  for (const { count: some, tree: make } of candidates.sort((a, b) => b.count - a.count)) {
    const found = yield* inCuts(make(), scene, task);
    if (found !== undefined) return { tree: found, count: some };
  }
  return yield* cutFromCorner(wanted, scene, task);
}

const mostLess = 12;

/** The tree without its last parts, so that what they leave free lies together. */
function firstOf(tree: Node, count: number, rules: JobRules): Node {
  let number = 0;
  const numbered = copyAsItIs(tree, () => number++);
  const isOut = Uint8Array.from({ length: number }, (_, i) => (i < count ? 0 : 1));
  const some = copyWithout(numbered, isOut, rules);
  if (some === null) throw new Error('a tree without parts was asked for');
  return some;
}

function* inCuts(
  root: Node,
  { job, grid, part }: Scene,
  { leftover, demand: { rules }, work }: Task,
): Generator<void, CutTree | undefined> {
  const [sheet] = job.sheets;
  if (sheet === undefined) return undefined;
  const ways = rules.rounds === undefined ? [root] : [root, ...widened(root, sheet)];
  for (const way of ways) {
    if (work.isDue(nodeCount(way) * workOfNode)) yield;
    if (!canBeCut(way, sheet, job.rules)) continue;
    let parts = 0;
    const numbered = copyAsItIs(way, () => parts++);
    const kindOf = new Int32Array(parts).fill(part);
    if (work.isDue(parts * workOfDrawn)) yield;
    const [layout] = yield* toLayouts(job, grid, [{ kind: 0, root: numbered, kindOf, times: 1 }]);
    if (layout !== undefined && (yield* mayBeCutUp(layout.tree, leftover, rules, work.pace)))
      return layout.tree;
  }
  return undefined;
}

const workOfNode = 20;
/** To draw a part up in exact lengths. */
const workOfDrawn = 500;

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
  // To reach as far as the leftover would mean to become smaller.
  if (root.width > sheet.length || root.height > sheet.width) return [];
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
