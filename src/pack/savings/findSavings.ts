import { compareRationals } from '../../measure/index.ts';
import type { Change, Length, MaterialLayouts, Saving, Savings, SearchProgress } from '../../model/index.ts';
import { type Attempts, attempt, saveTogether, stepsEach } from './attempt.ts';
import { billOf } from './bill.ts';
import { type Ladder, laddersFor } from './ladders.ts';

/** Effort for all materials of one run, in turns; see `Attempts`. A turn is a millisecond or two. */
const mostTurns = 1200;

/** So many savings of one sort are enough to choose from. */
const enoughOfASort = 4;

/**
 * Looks for changes with which fewer sheets have to be bought. Each that is given has been packed, and so
 * checked; where the bound of a changed demand rules a saving out, it is not packed at all.
 *
 * @param all   the layouts there are; sizes of one material's sheets are tried for the others too
 * @param step  graduation of the rule: sizes, trim, kerf and strips change by whole multiples of it
 */
export function* findSavings(
  all: readonly MaterialLayouts[],
  step: Length,
): Generator<SearchProgress, readonly Savings[]> {
  const savings: Savings[] = [];
  let turns = mostTurns;
  for (const [i, packed] of all.entries()) {
    const otherSheets = all.filter((it) => it !== packed).flatMap(({ demand }) => demand.sheets);
    // What a material leaves of its share goes to those after it.
    const share = Math.floor(turns / (all.length - i));
    const attempts: Attempts = { packed, now: billOf(packed), turns: share, packings: 0 };
    savings.push(yield* savingsOf(attempts, laddersFor(packed, { step, otherSheets })));
    turns -= share - Math.max(0, attempts.turns);
  }
  return savings;
}

function* savingsOf(
  attempts: Attempts,
  ladders: readonly (readonly Ladder[])[],
): Generator<SearchProgress, Savings> {
  const { packed, now } = attempts;
  const none = (ended: Savings['ended']): Savings => ({
    bought: now.sheets,
    found: [],
    tried: [],
    packings: attempts.packings,
    ended,
  });
  if (packed.unplaced.length > 0) return none('parts missing');
  const leastPossible = packed.demand.sheets.some(({ isOffcut }) => isOffcut) ? 0 : 1;
  if (now.sheets <= leastPossible) return none('nothing to save');

  const tried = new Set<Change['kind']>();
  if (packed.steps < stepsEach && now.sheets > packed.bound.sheets) {
    const longer: Change = { kind: 'longer search', steps: stepsEach };
    tried.add(longer.kind);
    const saving = yield* attempt(longer, attempts);
    // What costs no more than patience makes every other change idle.
    if (saving !== undefined) return { ...none('all tried'), found: [saving], tried: [...tried] };
  }

  const { tops, isAll } = yield* savingTops(ladders, attempts, tried);
  const found: Saving[] = [];
  for (const top of tops) found.push(yield* leastOf(top, attempts));
  const ended = isAll && attempts.turns > 0 ? 'all tried' : 'tired';
  return { ...none(ended), found: leastFirst(found), tried: [...tried] };
}

/** A ladder, with the saving that its last rung makes. */
interface Top {
  readonly ladder: Ladder;
  readonly saving: Saving;
}

/** Tries the last rung of each ladder. Sorts take turns, so that none uses the effort up; two thirds of it. */
function* savingTops(
  sorts: readonly (readonly Ladder[])[],
  attempts: Attempts,
  tried: Set<Change['kind']>,
): Generator<SearchProgress, { readonly tops: readonly Top[]; readonly isAll: boolean }> {
  const kept = Math.floor(attempts.turns / 3);
  const hopeful: (readonly Ladder[])[] = [];
  for (const sort of sorts) {
    const changes = sort.map(({ rungs, at }) => at(rungs));
    for (const { kind } of changes) tried.add(kind);
    const isAlone = changes.length < 3 || changes[0]!.kind !== 'turns freely';
    if (isAlone || (yield* saveTogether(changes, attempts))) hopeful.push(sort);
  }

  const tops = hopeful.map((): Top[] => []);
  const rounds = Math.max(0, ...hopeful.map(({ length }) => length));
  for (let round = 0; round < rounds; round++) {
    for (const [sort, ladders] of hopeful.entries()) {
      const ladder = ladders[round];
      if (ladder === undefined || tops[sort]!.length >= enoughOfASort) continue;
      if (attempts.turns <= kept) return { tops: tops.flat(), isAll: false };
      const saving = yield* attempt(ladder.at(ladder.rungs), attempts);
      if (saving !== undefined) tops[sort]!.push({ ladder, saving });
    }
  }
  return { tops: tops.flat(), isAll: true };
}

/**
 * The lowest rung that still saves, by halving what lies between the floor and a top that does.
 *
 *   rung  0 ✗ · · ? · · · ✓ top
 *
 * The search may miss a saving on one rung that it sees on a lower one, so the least is the least that was
 * seen, with the rung below it tried.
 */
function* leastOf({ ladder, saving: top }: Top, attempts: Attempts): Generator<SearchProgress, Saving> {
  let least = top;
  let [fails, saves] = [0, ladder.rungs];
  while (saves - fails > 1) {
    const rung = (fails + saves) >> 1;
    const saving = yield* attempt(ladder.at(rung), attempts);
    if (attempts.turns <= 0) return { ...least, isLeast: false };
    if (saving === undefined) fails = rung;
    else [least, saves] = [saving, rung];
  }
  return least;
}

/** Sorts of change stay in their order; within a sort the smaller change comes first. */
function leastFirst(savings: readonly Saving[]): readonly Saving[] {
  const sorts = [...new Set(savings.map(({ change }) => change.kind))];
  return sorts.flatMap((sort) =>
    savings.filter(({ change }) => change.kind === sort).sort((a, b) => bySize(a.change, b.change)),
  );
}

function bySize(a: Change, b: Change): number {
  if (a.kind === 'smaller part' && b.kind === 'smaller part') return compareRationals(a.by, b.by);
  if (a.kind === 'fewer parts' && b.kind === 'fewer parts') return a.count - b.count;
  if (a.kind === 'fewer tiles' && b.kind === 'fewer tiles') return a.count - b.count;
  return 0;
}
