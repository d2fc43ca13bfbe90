import type { CutTree } from '../../model/index.ts';
import { toLayouts } from '../emit.ts';
import { isStrict, type JobRules, type JobSheet } from '../job.ts';
import { canBeCut } from '../search/cuttable.ts';
import { copyAsItIs, copyWithout, Node, nodeCount, Shape } from '../search/tree.ts';
import { blocks } from './blocks.ts';
import type { Candidate } from './fewBlocks.ts';
import { fromCorner } from './fromCorner.ts';
import { mayBeCutUp } from './leftovers.ts';
import type { Scene, Task } from './scene.ts';
import { mostPieces } from './solving.ts';

export interface Cut {
  readonly tree: CutTree;
  readonly count: number;
}

/** A way of cutting a leftover up. */
export interface Found {
  readonly count: number;
  /** The leftover cut up for at most so many of the kind, with the number of them; undefined where it gives none. */
  readonly cutFor: (count: number) => Generator<void, Cut | undefined>;
}

/** The first of the ways that the leftover may be cut up by, as it has been cut before. */
export function* firstCuttable(
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
export function* withoutPlan(scene: Scene, task: Task): Generator<void, Found | undefined> {
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
export function firstOf(tree: Node, count: number, rules: JobRules): Node {
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
