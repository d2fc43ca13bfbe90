import { isStrict } from '../job.ts';
import type { Node } from '../search/tree.ts';
import { blocks } from './blocks.ts';
import { type Found, firstCuttable, firstOf, withoutPlan } from './cuttingUp.ts';
import { type Candidate, FewBlocks } from './fewBlocks.ts';
import { mostOf } from './mostOf.ts';
import { roundsLeft, type Scene, sceneOf, type Task } from './scene.ts';
import { mostPieces, partsIn, type Search, searchFreely, searchWithin } from './solving.ts';

/** How often one kind of part goes into a leftover. */
export interface Filling extends Found {
  /** No way of cutting gives more. */
  readonly most: number;
  /** Far more may go in, but so many pieces are filled in at most. */
  readonly isCutShort: boolean;
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
