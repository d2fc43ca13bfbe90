import { compare, larger, minus, smaller, sum, zero } from '../measure/index.ts';
import {
  type Block,
  type Build,
  type Edge,
  type Fault,
  type Length,
  type LevelSide,
  levelSides,
  type StandingPart,
  type Way,
} from '../model/index.ts';
import { type Lean, mostOff, rough } from '../outline/index.ts';
import { blocksAtSide, reachesSide, wayOf } from './atSide.ts';
import { type Closing, facesAt, type Opening, type Straightened, seenThrough } from './seeThrough.ts';

type NoWall = Extract<Fault, { kind: 'not closed' }>;
type WallFault = NoWall | Extract<Fault, { kind: 'hangs on a curve' }>;

/**
 * Sides that are declared to be walls but leave a way through. `{ foot: LEVEL }` has to be closed just above
 * that level, so that a wall goes up there from the neighbour's floor; `wall` from the table up to whatever is
 * highest there. What is cut out of a piece is closed by what stands behind it.
 *
 *    ┌────┐  ┌──┐               open: from 4 to 7
 *    │    ├──┤  │ ← level
 *    └────┴──┴──┘
 *    0    4  7
 *
 * @param toldWays  directions in which a sum doesn't come out: that a part is short there has been told
 */
export function wallFaults(build: Build, toldWays: readonly Way[]): readonly WallFault[] {
  return levelSides.flatMap((side): readonly WallFault[] => {
    const edge = build.edges[side];
    if (edge === undefined || edge.kind === 'floor') return [];
    const isTold = toldWays.some((way) => way !== wayOf(side) && way !== 'up');
    if (isTold) return [];
    const reaching = build.parts.filter((part) => reachesSide(build, part, side));
    const faces = facesAt(reaching, side);
    const open = (lean: Lean, off: Length) => openings(build, side, edge, reaching, faces, { lean, off });
    const [face] = faces;
    // With straight edges well within the curves, most are closed already.
    if (face !== undefined && open('inward', rough).length === 0) return [];
    const [first] = open('outward', mostOff);
    if (first === undefined) {
      const isOpen = face !== undefined && open('inward', mostOff).length > 0;
      const doubt = {
        kind: 'hangs on a curve',
        at: edge.at,
        what: 'way through',
        other: undefined,
        side,
      } as const;
      return isOpen ? [{ ...doubt, part: face }] : [];
    }
    const level = edge.kind === 'foot' ? edge.level : zero;
    const isAllAlong = compare(minus(first.to, first.from), build.footprint[wayOf(side)]) === 0;
    return [
      { kind: 'not closed', at: edge.at, side, isFoot: edge.kind === 'foot', level, ...first, isAllAlong },
    ];
  });
}

/** Stretches of a side, wider than the slack, that nothing closes. */
function openings(
  build: Build,
  side: LevelSide,
  edge: Exclude<Edge, { kind: 'floor' }>,
  reaching: readonly StandingPart[],
  faces: readonly StandingPart[],
  curves: Straightened,
): readonly Opening[] {
  const way = wayOf(side);
  const closing = closingOf(edge, build);
  const shaped = shapedStretch(build, faces, way);
  const open: { from: Length; to: Length }[] = [];
  const seen = shaped === undefined ? [] : seenThrough(build, side, reaching, shaped, closing, curves);
  const isShaped = ({ from, to }: Opening) =>
    shaped !== undefined && compare(from, shaped.from) >= 0 && compare(to, shaped.to) <= 0;
  const blocks = reaching.flatMap((part) => blocksAtSide(build, part, side, curves.lean));
  const all = [...openInBlocks(build, blocks, way, closing).filter((it) => !isShaped(it)), ...seen];
  for (const { from, to } of all.sort((a, b) => compare(a.from, b.from))) {
    const last = open.at(-1);
    if (last !== undefined && compare(last.to, from) === 0) last.to = to;
    else open.push({ from, to });
  }
  return open.filter(({ from, to }) => compare(minus(to, from), build.slack) > 0);
}

/** From the first to the last face whose outline is seen, within the tile. */
function shapedStretch(
  { footprint }: Build,
  faces: readonly StandingPart[],
  way: 'across' | 'along',
): Opening | undefined {
  const [first] = faces;
  if (first === undefined) return undefined;
  const from = faces.reduce((least, { block }) => smaller(least, block.low[way]), first.block.low[way]);
  const to = faces.reduce((most, { block }) => larger(most, block.high[way]), first.block.high[way]);
  return { from: larger(from, zero), to: smaller(to, footprint[way]) };
}

/** The stretches from end to end of the blocks that nothing closes. */
function openInBlocks(
  build: Build,
  all: readonly Block[],
  way: 'across' | 'along',
  closing: Closing,
): readonly Opening[] {
  const reaching = [...all].sort((a, b) => compare(a.low[way], b.low[way]));
  const end = build.footprint[way];
  const ends = [zero, end, ...reaching.flatMap(({ low, high }) => [low[way], high[way]])]
    .filter((it) => compare(it, zero) >= 0 && compare(it, end) <= 0)
    .sort(compare);
  const open: Opening[] = [];
  let standing: Block[] = [];
  let next = 0;
  for (const [index, to] of ends.entries()) {
    const from = ends[index - 1];
    if (from === undefined || compare(from, to) === 0) continue;
    for (let block = reaching[next]; block !== undefined; block = reaching[++next]) {
      if (compare(block.low[way], from) > 0) break;
      standing.push(block);
    }
    standing = standing.filter(({ high }) => compare(high[way], from) > 0);
    if (!isClosed(standing, closing, build)) open.push({ from, to });
  }
  return open;
}

function closingOf(edge: Exclude<Edge, { kind: 'floor' }>, { lip }: Build): Closing {
  const start = edge.kind === 'foot' ? edge.level : zero;
  return {
    start,
    upTo: (top) => (edge.kind === 'foot' ? smaller(top, sum(start, lip)) : top),
  };
}

/** True where the pieces of one stretch go up without a gap from where the wall has to begin. */
function isClosed(standing: readonly Block[], { start, upTo }: Closing, { glueLine }: Build): boolean {
  const reached = [...standing]
    .sort((a, b) => compare(a.low.up, b.low.up))
    .reduce(
      (top, { low, high }) => (compare(low.up, sum(top, glueLine)) <= 0 ? larger(top, high.up) : top),
      start,
    );
  const top = standing.reduce((most, { high }) => larger(most, high.up), zero);
  return compare(reached, start) > 0 && compare(reached, upTo(top)) >= 0;
}
