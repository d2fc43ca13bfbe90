import type { Job, JobSheet } from '../job.ts';
import { BestSheet } from '../patterns/bestSheet.ts';
import { LimitedSheet } from '../patterns/limitedSheet.ts';
import type { Lying } from '../patterns/pattern.ts';
import { rasterPoints } from '../patterns/raster.ts';
import { type Node, nodeCount, Shape } from '../search/tree.ts';
import { blocks, inRows } from './blocks.ts';

/** A leftover as the only sheet of a job, and how the one kind of part may lie on it. */
export interface Bare {
  readonly job: Job;
  readonly ways: readonly Lying[];
}

/** Trees that hold the most that was found; the fewer cuts, the earlier. */
export interface Found {
  readonly trees: readonly Node[];
  /** No way of cutting gives more; infinite where that was not found out. */
  readonly most: number;
}

/** What is left of the additions that the fillings of one material may take; shrinks. */
export interface Work {
  free: number;
  /** Within limits on strips, cuts and rounds each takes many times as long. */
  limited: number;
  /** So many more pieces are filled in; sheets that are cut alike are one. Each is drawn, named and checked. */
  pieces: number;
}

/** The most pieces of all fillers of a material. */
export const mostPieces = 5000;

export function workFor(): Work {
  return { free: 200_000_000, limited: 40_000_000, pieces: mostPieces };
}

/** More than these on one leftover is not worth it: then fewer places for cuts are tried. */
const mostOnOne = { free: 20_000_000, limited: 5_000_000 };
const mostPoints = 80;
/** Of ways that are as good, so many are looked at for the one with the fewest cuts; fewer, the more parts they hold. */
function mostAlike(count: number): number {
  return Math.max(1, Math.min(12, Math.floor(4000 / count)));
}

/** The most of a part that one leftover holds, if nothing but the kerf limits the cuts. */
export function* bestFreely({ job, ways }: Bare, work: Work): Generator<void, Found> {
  const { rules } = job;
  const sheet = job.sheets[0]!;
  const bound = boundOfArea(sheet, ways);
  if (bound > mostPieces) {
    return { trees: work.pieces === 0 ? [] : blocks(sheet, ways, rules, mostPieces), most: bound };
  }
  const exact = BestSheet.over(sheet, ways, rules, Math.min(mostOnOne.free, work.free));
  const solver = exact ?? BestSheet.overFew(sheet, ways, rules, mostPoints);
  work.free = Math.max(0, work.free - solver.work);
  const count = yield* solver.solve([1]);
  const trees = count === 0 ? [] : fewestCutsFirst(solver.trees(count - 1, mostAlike(count)));
  if (exact !== undefined) return { trees, most: count };
  const rows = ways.map((way) => inRows(way, sheet, rules));
  const all = [...trees, ...rows].map((tree) => ({ tree, parts: partsIn(tree) }));
  return {
    trees: all.sort((a, b) => b.parts - a.parts).map(({ tree }) => tree),
    most: bound,
  };
}

/**
 * The most that one leftover holds within all limits.
 *
 * @param first  shape of what the first cuts part it into; undefined: either
 */
export function* bestWithin(
  { job, ways }: Bare,
  first: Shape | undefined,
  work: Work,
): Generator<void, Found> {
  const { rules } = job;
  const sheet = job.sheets[0]!;
  const exact = LimitedSheet.over(sheet, ways, rules, Math.min(mostOnOne.limited, work.limited));
  const solver = exact ?? LimitedSheet.overFew(sheet, ways, rules, mostPoints);
  work.limited = Math.max(0, work.limited - solver.work);
  const count = yield* solver.solve([1], first);
  const trees = count === 0 ? [] : fewestCutsFirst(solver.trees(count - 1, mostAlike(count), first));
  return { trees, most: exact === undefined ? Number.POSITIVE_INFINITY : count };
}

function fewestCutsFirst(trees: Iterable<Node>): readonly Node[] {
  return [...trees].sort((a, b) => nodeCount(a) - nodeCount(b));
}

/** How many parts a tree holds. */
export function partsIn({ shape, kids }: Node): number {
  return shape === Shape.part ? 1 : kids.reduce((all, kid) => all + partsIn(kid), 0);
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
