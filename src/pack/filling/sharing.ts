import type { NonEmpty, PartKind, PartMember } from '../../model/index.ts';

/** So many of a filler on each of so many sheets that are cut alike. */
export interface Run {
  readonly each: number;
  readonly times: number;
}

/** No more than so many are asked for; infinite where as many as fit are. */
export function mostAsked({ members }: PartKind): number {
  return members.reduce((sum, { asFits }) => sum + (asFits?.most ?? Number.POSITIVE_INFINITY), 0);
}

/**
 * Shares what fits among the parts that are the same to the knife, by the number of tiles that each is for. A label
 * that has a place on one sheet gets it on all that are cut alike, as near as that comes: else they would have to
 * be drawn one by one.
 */
export function shared(filler: PartKind, runs: readonly Run[]): PartKind {
  const count = runs.reduce((sum, { each, times }) => sum + each * times, 0);
  const targets = targetsOf(filler.members, count);
  const isCapped = filler.members.some(({ asFits }) => asFits?.most !== undefined);
  const counts = isCapped ? targets : inWholeRuns(targets, runs);
  const [first, ...others] = filler.members.map((member, i): PartMember => {
    const own = counts[i] ?? 0;
    return { ...member, count: own, each: own };
  });
  return { ...filler, count, members: first === undefined ? filler.members : [first, ...others] };
}

/** Whole counts by the members' shares, none above what it asks for at most. */
function targetsOf(members: NonEmpty<PartMember>, count: number): readonly number[] {
  const targets = members.map(() => 0);
  let left = count;
  while (left > 0) {
    const open = members.flatMap(({ asFits }, i) => {
      const room = (asFits?.most ?? Number.POSITIVE_INFINITY) - targets[i]!;
      return room > 0 ? [{ i, room, share: asFits?.share ?? 1 }] : [];
    });
    if (open.length === 0) throw new Error('more of a filler was laid out than is asked for');
    const shares = open.reduce((sum, { share }) => sum + share, 0);
    const now = left;
    for (const { i, room, share } of open) {
      // What rounding leaves goes one by one, from the first on.
      const more = Math.min(room, left, Math.max(now < shares ? 1 : 0, Math.floor((now * share) / shares)));
      targets[i]! += more;
      left -= more;
    }
  }
  return targets;
}

/** Taken to the nearest number of runs; runs are dealt in their order. */
function inWholeRuns(targets: readonly number[], runs: readonly Run[]): readonly number[] {
  const places = runs.flatMap(({ each, times }) => Array.from({ length: each }, () => times));
  let at = 0;
  let wanted = 0;
  let dealt = 0;
  return targets.map((target, i) => {
    wanted += target;
    const before = dealt;
    while (at < places.length && (i === targets.length - 1 || dealt + places[at]! / 2 <= wanted)) {
      dealt += places[at++]!;
    }
    return dealt - before;
  });
}
