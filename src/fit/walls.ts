import { compare, larger, minus, smaller, sum, zero } from '../measure/index.ts';
import {
  type Build,
  type Edge,
  type Fault,
  type Length,
  type LevelSide,
  levelSides,
  type StandingPart,
  type Way,
} from '../model/index.ts';
import { reachesSide, wayOf } from './tops.ts';

type NoWall = Extract<Fault, { kind: 'not closed' }>;

/**
 * Sides that are declared to be walls but leave a way through. `{ foot: LEVEL }` has to be closed just above
 * that level, so that a wall goes up there from the neighbour's floor; `wall` from the table up to whatever is
 * highest there.
 *
 *    ┌────┐  ┌──┐               open: from 4 to 7
 *    │    ├──┤  │ ← level
 *    └────┴──┴──┘
 *    0    4  7
 *
 * @param toldWays  directions in which a sum doesn't come out: that a part is short there has been told
 */
export function wallFaults(build: Build, toldWays: readonly Way[]): readonly NoWall[] {
  return levelSides.flatMap((side): readonly NoWall[] => {
    const edge = build.edges[side];
    if (edge === undefined || edge.kind === 'floor') return [];
    const isTold = toldWays.some((way) => way !== wayOf(side) && way !== 'up');
    const [first] = isTold ? [] : openings(build, side, edge);
    if (first === undefined) return [];
    const level = edge.kind === 'foot' ? edge.level : zero;
    const isAllAlong = compare(minus(first.to, first.from), build.footprint[wayOf(side)]) === 0;
    return [
      { kind: 'not closed', at: edge.at, side, isFoot: edge.kind === 'foot', level, ...first, isAllAlong },
    ];
  });
}

interface Opening {
  readonly from: Length;
  readonly to: Length;
}

/** Stretches of a side, wider than the slack, that nothing closes. */
function openings(build: Build, side: LevelSide, edge: Exclude<Edge, { kind: 'floor' }>): readonly Opening[] {
  const way = wayOf(side);
  const reaching = build.parts
    .filter((part) => reachesSide(build, part, side))
    .sort((a, b) => compare(a.block.low[way], b.block.low[way]));
  const end = build.footprint[way];
  const ends = [zero, end, ...reaching.flatMap(({ block }) => [block.low[way], block.high[way]])]
    .filter((it) => compare(it, zero) >= 0 && compare(it, end) <= 0)
    .sort(compare);
  const open: { from: Length; to: Length }[] = [];
  let standing: StandingPart[] = [];
  let next = 0;
  for (const [index, to] of ends.entries()) {
    const from = ends[index - 1];
    if (from === undefined || compare(from, to) === 0) continue;
    for (let part = reaching[next]; part !== undefined; part = reaching[++next]) {
      if (compare(part.block.low[way], from) > 0) break;
      standing.push(part);
    }
    standing = standing.filter(({ block }) => compare(block.high[way], from) > 0);
    if (isClosed(standing, edge, build)) continue;
    const last = open.at(-1);
    if (last !== undefined && compare(last.to, from) === 0) last.to = to;
    else open.push({ from, to });
  }
  return open.filter(({ from, to }) => compare(minus(to, from), build.slack) > 0);
}

/** True where the pieces of one stretch go up without a gap from where the wall has to begin. */
function isClosed(
  standing: readonly StandingPart[],
  edge: Exclude<Edge, { kind: 'floor' }>,
  { lip, glueLine }: Build,
): boolean {
  const start = edge.kind === 'foot' ? edge.level : zero;
  const reached = [...standing]
    .sort((a, b) => compare(a.block.low.up, b.block.low.up))
    .reduce(
      (top, { block }) => (compare(block.low.up, sum(top, glueLine)) <= 0 ? larger(top, block.high.up) : top),
      start,
    );
  const top = standing.reduce((most, { block }) => larger(most, block.high.up), zero);
  const wanted = edge.kind === 'foot' ? smaller(top, sum(start, lip)) : top;
  return compare(reached, start) > 0 && compare(reached, wanted) >= 0;
}
