import type { Job, JobRules } from '../job.ts';
import { Pace } from '../pace.ts';
import { BestSheet, workOf } from '../patterns/bestSheet.ts';
import { inLargeCells } from '../patterns/largeCells.ts';
import { limitedPoints } from '../patterns/limitedAxis.ts';
import { areCounted, LimitedSheet } from '../patterns/limitedSheet.ts';
import type { Lying } from '../patterns/pattern.ts';
import { rasterPoints } from '../patterns/raster.ts';
import { type Node, nodeCount, Shape } from '../search/tree.ts';
import type { Piece } from './fewBlocks.ts';

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

/**
 * What the fillings of one material may still cost, counted in additions. What is found at once is always looked at;
 * only to look for more hangs on what is left.
 */
export class Work {
  /** May be overdrawn by what is found at once. */
  left: number;
  /** So many more pieces are filled in; sheets that are cut alike are one. Each is drawn, named and checked. */
  pieces = mostPieces;
  readonly pace = new Pace();

  /** @param steps  that the search for the layouts took: fillers may have a small part of its time */
  constructor(steps: number) {
    this.left = leastWork + steps * workOfStep;
  }

  /** @returns  true where it is time to let the driver look at the signals */
  isDue(work: number): boolean {
    this.left -= work;
    return this.pace.isDue(work);
  }
}

/** The most pieces of all fillers of a material. */
export const mostPieces = 5000;

const leastWork = 50_000_000;
/** A quarter of the additions that could be done in the time of a step. */
const workOfStep = 1000;

/** Of ways that are as good, so many are looked at for the one with the fewest cuts; fewer, the more parts they hold. */
function mostAlike(count: number): number {
  return Math.max(1, Math.min(12, Math.floor(4000 / count)));
}

/** A search that has not begun. */
export interface Search {
  /** Additions that it takes, roughly. */
  readonly work: number;
  /** @param known  so many parts go in for certain: trees with more are wanted */
  readonly run: (known: number) => Generator<void, Found>;
}

/** For the most of a part that one leftover holds if nothing but the kerf limits the cuts; none where it is too much. */
export function searchFreely({ job, ways }: Bare): Search | undefined {
  const { rules } = job;
  const sheet = job.sheets[0]!;
  const [xs, ys] = sidesOf(sheet, ways).map(
    ({ whole, sizes }) => rasterPoints(whole, sizes, mostSums)?.length,
  );
  if (xs === undefined || ys === undefined) return undefined;
  const work = workOfSearch + workOf(xs, ys) + workOfCut * cutsOn(xs, ys);
  if (work > mostOnOne) return undefined;
  return {
    work,
    *run(known) {
      const solver = BestSheet.over(sheet, ways, rules, mostOnOne);
      if (solver === undefined) return nothingFound;
      const count = yield* solver.solve([1]);
      if (count <= known) return { trees: [], most: count };
      return { trees: yield* fewestCutsFirst(solver.trees(count - 1, mostAlike(count))), most: count };
    },
  };
}

/**
 * For the most that one leftover holds within all limits; for a good way of cutting it where that is too much.
 *
 * @param first  shape of what the first cuts part it into; undefined: either
 */
export function searchWithin({ job, ways }: Bare, first: Shape | undefined): Search {
  const { rules } = job;
  const sheet = job.sheets[0]!;
  const large = inLargeCells(sheet, ways, rules, 'as they are');
  const [xs, ys] = sidesOf(large.sheet, large.ways).map(
    ({ whole, sizes }) => limitedPoints(whole, sizes, large.rules, mostSums)?.size,
  );
  const exact = xs === undefined || ys === undefined ? Number.POSITIVE_INFINITY : workWithin(xs, ys, rules);
  const isExact = exact <= mostOnOne;
  return {
    work: isExact ? exact : workWithin(fewPoints, fewPoints, rules),
    *run(known) {
      const overAll = isExact ? LimitedSheet.over(sheet, ways, rules, mostOnOne) : undefined;
      const solver = overAll ?? LimitedSheet.overFew(sheet, ways, rules, fewPoints);
      const count = yield* solver.solve([1], first);
      const most = overAll === undefined ? Number.POSITIVE_INFINITY : count;
      if (count <= known) return { trees: [], most };
      return { trees: yield* fewestCutsFirst(solver.trees(count - 1, mostAlike(count), first)), most };
    },
  };
}

const nothingFound: Found = { trees: [], most: Number.POSITIVE_INFINITY };

function sidesOf({ length, width }: Piece, ways: readonly Lying[]) {
  return [
    { whole: length, sizes: ways.map((way) => way.width) },
    { whole: width, sizes: ways.map((way) => way.height) },
  ];
}

function workWithin(xs: number, ys: number, rules: JobRules): number {
  const levels = areCounted(rules) ? rules.rounds : 1;
  const additions = xs * ys * ((xs + ys) / 4 + workOfCell);
  return workOfSearch + levels * additions * timesWithin + 2 * workOfCut * cutsOn(xs, ys);
}

/** How many cuts are listed: at each point those up to its middle. */
function cutsOn(xs: number, ys: number): number {
  return (xs * xs + ys * ys) / 4;
}

/** More than this on one leftover is not worth it. */
const mostOnOne = 10_000_000;
/** More points than these on a side are far too many. */
const mostSums = 2000;
/** So many a side are tried where all are too many. */
const fewPoints = 80;
/** To begin with takes as long as so many additions, to list a cut as these, to look at a piece within limits as these. */
const workOfSearch = 100_000;
const workOfCut = 50;
const workOfCell = 40;
/** An addition within limits. */
const timesWithin = 2;

function* fewestCutsFirst(trees: Iterable<Node>): Generator<void, readonly Node[]> {
  const found: { readonly tree: Node; readonly nodes: number }[] = [];
  for (const tree of trees) {
    found.push({ tree, nodes: nodeCount(tree) });
    yield;
  }
  return found.sort((a, b) => a.nodes - b.nodes).map(({ tree }) => tree);
}

/** How many parts a tree holds. */
export function partsIn({ shape, kids }: Node): number {
  return shape === Shape.part ? 1 : kids.reduce((all, kid) => all + partsIn(kid), 0);
}
