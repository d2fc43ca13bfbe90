import { zero } from '../../measure/index.ts';
import type { CutRules, CutTree, MaterialDemand, NonEmpty, PartKind, SheetKind } from '../../model/index.ts';
import { toLayouts } from '../emit.ts';
import { type Grid, gridOf } from '../grid.ts';
import { isStrict, type Job, type JobRules, type JobSheet, liesOf } from '../job.ts';
import { type Lying, waysOfLying } from '../patterns/pattern.ts';
import { pose } from '../pose.ts';
import { canBeCut } from '../search/cuttable.ts';
import { copyAsItIs, copyWithout, Node, Shape } from '../search/tree.ts';
import { type Leftover, mayBeCutUp } from './leftovers.ts';
import { bestFreely, bestWithin, mostPieces, partsIn, type Work } from './solving.ts';

/** How often one kind of part goes into a leftover. */
export interface Filling {
  readonly count: number;
  /** No way of cutting gives more. */
  readonly most: number;
  /** Far more may go in, but so many pieces are filled in at most. */
  readonly isCutShort: boolean;
  /** The leftover cut up for at most so many of the kind, with the number of them; undefined where it gives none. */
  readonly cutFor: (count: number) => { readonly tree: CutTree; readonly count: number } | undefined;
}

const none: Filling = { count: 0, most: 0, isCutShort: false, cutFor: () => undefined };

/** The same leftover where it may take only so many, which are fewer than go in. */
export function noMoreThan(room: number, filling: Filling): Filling {
  const cut = room > 0 ? filling.cutFor(room) : undefined;
  const cutFor: Filling['cutFor'] = (count) => (cut === undefined ? undefined : filling.cutFor(count));
  return { ...filling, count: cut?.count ?? 0, cutFor };
}

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
  const rounds = roundsLeft(leftover, rules);
  const sceneWith = (left: number | undefined): Scene | undefined =>
    sceneOf(kind, part, leftover, { demand: { ...demand, rules: { ...rules, rounds: left } }, sheet });
  const scene = sceneWith(rounds[0].rounds);
  if (scene === undefined) return none;
  // As if there were no limits but the kerf: that is soon found, often can be cut within them, and bounds the rest.
  const freely = yield* bestFreely(scene, work);
  const filling = cuttable(freely.trees, scene, leftover, rules);
  let best: Filling = { ...filling, most: freely.most, isCutShort: freely.most > mostPieces };
  if (!isStrict(scene.job.rules) || best.count === best.most) return best;
  if (best.isCutShort && (best.count > 0 || work.pieces === 0)) return best;
  let most = 0;
  for (const { rounds: left, first } of rounds) {
    const limited = sceneWith(left);
    if (limited === undefined) continue;
    const within = yield* bestWithin(limited, first, work);
    const found = cuttable(within.trees, limited, leftover, rules);
    if (found.count > best.count) best = { ...best, ...found };
    most = Math.max(most, within.most);
  }
  return { ...best, most: Math.min(best.most, most) };
}

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

/** The first of the trees that the leftover may be cut up by, as it has been cut before. */
function cuttable(
  trees: readonly Node[],
  scene: Scene,
  leftover: Leftover,
  rules: CutRules,
): Pick<Filling, 'count' | 'cutFor'> {
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
