import type { JobRules, JobSheet } from '../job.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import type { Lying } from './pattern.ts';
import { fewPoints, firstNotBelow, rasterPoints } from './raster.ts';

/**
 * The most valuable way of filling one sheet, each part as often as wanted, by dynamic programming over the
 * raster points of both sides: a piece is a part, or is cut in two.
 *
 *     best(x, y) = the larger of   the best part that fits x × y
 *                                  best(x′, y) + best(x − x′, y)    for each point x′ ≤ x / 2
 *                                  best(x, y′) + best(x, y − y′)    for each point y′ ≤ y / 2
 *
 * Values are whole numbers, so its result is exact.
 *
 * @source  J. Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, J. Opl Res. Soc. 36
 *          (1985), recursion of the staged-free case; from memory
 */
export class BestSheet {
  /** Additions that one run takes, roughly. */
  readonly work: number;
  private readonly ways: readonly Lying[];
  private readonly rules: JobRules;
  private readonly across: Axis;
  private readonly up: Axis;
  private readonly value: Int32Array;
  /** The same values with the axes swapped, so that both kinds of cuts run along memory. */
  private readonly swapped: Int32Array;
  private readonly seed: Int32Array;
  private readonly seedWay: Int32Array;
  /** By way, the least piece that holds it; −1 for none. */
  private readonly spots: Int32Array;
  private readonly rowRises: Int32Array;
  private readonly columnRises: Int32Array;
  private readonly columnCounts: Int32Array;

  private constructor(ways: readonly Lying[], rules: JobRules, across: Axis, up: Axis) {
    this.ways = ways;
    this.rules = rules;
    this.across = across;
    this.up = up;
    const cells = across.points.length * up.points.length;
    this.work = workOf(across.points.length, up.points.length);
    this.value = new Int32Array(cells);
    this.swapped = new Int32Array(cells);
    this.seed = new Int32Array(cells);
    this.seedWay = new Int32Array(cells);
    this.spots = Int32Array.from(ways, ({ width, height }) => spotOf(across, up, width, height));
    this.rowRises = new Int32Array(across.points.length);
    this.columnRises = new Int32Array(cells);
    this.columnCounts = new Int32Array(across.points.length);
  }

  /** @returns  undefined where it would take more than `mostWork` additions */
  static over(
    sheet: JobSheet,
    ways: readonly Lying[],
    rules: JobRules,
    mostWork: number,
  ): BestSheet | undefined {
    const x = rasterPoints(
      sheet.length,
      ways.map((way) => way.width),
      mostSums,
    );
    const y = rasterPoints(
      sheet.width,
      ways.map((way) => way.height),
      mostSums,
    );
    if (x === undefined || y === undefined || x.length === 0 || y.length === 0) return undefined;
    if (workOf(x.length, y.length) > mostWork) return undefined;
    return new BestSheet(ways, rules, axisOf(x), axisOf(y));
  }

  /** The same over no more than `most` points a side: far less work, and a good sheet in place of the best. */
  static overFew(sheet: JobSheet, ways: readonly Lying[], rules: JobRules, most: number): BestSheet {
    const x = fewPoints(
      sheet.length,
      ways.map((way) => way.width),
      most,
    );
    const y = fewPoints(
      sheet.width,
      ways.map((way) => way.height),
      most,
    );
    return new BestSheet(ways, rules, axisOf(x), axisOf(y));
  }

  /**
   * Yields after every few milliseconds of work.
   *
   * @param values  of one part, by kind; whole numbers so small that no sheet is worth 2^31
   * @returns       the value of the best sheet
   */
  *solve(values: ArrayLike<number>): Generator<void, number> {
    const { across, up, value, swapped, seed } = this;
    const [xs, ys] = [across.points.length, up.points.length];
    this.plant(values);
    const rowsBetweenYields = Math.max(1, Math.floor((ys * workBetweenYields) / this.work));
    // A cut is worth a look only where the near piece is worth more than the one a point smaller: in this
    // row, and in each column.
    const { rowRises, columnRises, columnCounts } = this;
    columnCounts.fill(0);
    for (let y = 0; y < ys; y++) {
      if (y % rowsBetweenYields === rowsBetweenYields - 1) yield;
      const row = y * xs;
      const upFrom = up.from[y]!;
      const upCount = up.from[y + 1]! - upFrom;
      let rowCount = 0;
      let before = 0;
      for (let x = 0; x < xs; x++) {
        const below = y > 0 ? value[row - xs + x]! : 0;
        let best = seed[row + x]!;
        if (before > best) best = before;
        if (below > best) best = below;
        const acrossFrom = across.from[x]!;
        const acrossCount = across.from[x + 1]! - acrossFrom;
        for (let k = 0; k < rowCount; k++) {
          const i = rowRises[k]!;
          if (i >= acrossCount) break;
          const both = value[row + i]! + value[row + across.behind[acrossFrom + i]!]!;
          if (both > best) best = both;
        }
        const column = x * ys;
        const columnCount = columnCounts[x]!;
        for (let k = 0; k < columnCount; k++) {
          const i = columnRises[column + k]!;
          if (i >= upCount) break;
          const both = swapped[column + i]! + swapped[column + up.behind[upFrom + i]!]!;
          if (both > best) best = both;
        }
        value[row + x] = best;
        swapped[column + y] = best;
        if (best > before) rowRises[rowCount++] = x;
        if (best > below) columnRises[column + columnCounts[x]!++] = y;
        before = best;
      }
    }
    return value[xs * ys - 1]!;
  }

  /**
   * Trees worth more than `over` at the values last solved for, the best first: the best one for each place
   * of the first cut.
   */
  *trees(over: number, most: number): Generator<Node, void> {
    const { across, up, value } = this;
    const [x, y] = [across.points.length - 1, up.points.length - 1];
    const row = y * across.points.length;
    const found: { readonly worth: number; readonly shape: Shape; readonly at: readonly Piece[] }[] = [];
    for (let i = 0; across.from[x]! + i < across.from[x + 1]!; i++) {
      const behind = across.behind[across.from[x]! + i]!;
      const worth = value[row + i]! + value[row + behind]!;
      if (worth > over)
        found.push({
          worth,
          shape: Shape.row,
          at: [
            { x: i, y },
            { x: behind, y },
          ],
        });
    }
    for (let i = 0; up.from[y]! + i < up.from[y + 1]!; i++) {
      const behind = up.behind[up.from[y]! + i]!;
      const worth = value[i * across.points.length + x]! + value[behind * across.points.length + x]!;
      if (worth > over)
        found.push({
          worth,
          shape: Shape.column,
          at: [
            { x, y: i },
            { x, y: behind },
          ],
        });
    }
    const worth = value[row + x]!;
    if (worth > over) found.push({ worth, shape: Shape.row, at: [{ x, y }] });
    found.sort((a, b) => b.worth - a.worth);
    for (const { shape, at } of found.slice(0, most)) {
      const kids: Node[] = [];
      for (const piece of at) this.grow(piece.x, piece.y, shape, kids);
      yield lineOf(shape, kids, this.rules);
    }
  }

  private plant(values: ArrayLike<number>): void {
    const { ways, spots, seed, seedWay } = this;
    seed.fill(0);
    for (let i = 0; i < ways.length; i++) {
      const at = spots[i]!;
      const worth = values[ways[i]!.kind]!;
      if (at < 0 || worth <= seed[at]!) continue;
      seed[at] = worth;
      seedWay[at] = i;
    }
  }

  /** Lays the best way of filling a piece into a line, as kids of it; a line of the same direction is taken apart. */
  private grow(atX: number, atY: number, line: Shape, into: Node[]): void {
    const { across, up, value } = this;
    const xs = across.points.length;
    let [x, y] = [atX, atY];
    const wanted = value[y * xs + x]!;
    if (wanted === 0) return;
    while (x > 0 && value[y * xs + x - 1] === wanted) x--;
    while (y > 0 && value[(y - 1) * xs + x] === wanted) y--;
    if (this.seed[y * xs + x] === wanted) {
      const way = this.ways[this.seedWay[y * xs + x]!]!;
      into.push(leaf(way.kind, way.width, way.height, way.turned));
      return;
    }
    const kids = (shape: Shape) => (shape === line ? into : []);
    for (let i = 0; across.from[x]! + i < across.from[x + 1]!; i++) {
      const behind = across.behind[across.from[x]! + i]!;
      if (value[y * xs + i]! + value[y * xs + behind]! !== wanted) continue;
      const row = kids(Shape.row);
      this.grow(i, y, Shape.row, row);
      this.grow(behind, y, Shape.row, row);
      if (row !== into) into.push(lineOf(Shape.row, row, this.rules));
      return;
    }
    for (let i = 0; up.from[y]! + i < up.from[y + 1]!; i++) {
      const behind = up.behind[up.from[y]! + i]!;
      if (value[i * xs + x]! + value[behind * xs + x]! !== wanted) continue;
      const column = kids(Shape.column);
      this.grow(x, i, Shape.column, column);
      this.grow(x, behind, Shape.column, column);
      if (column !== into) into.push(lineOf(Shape.column, column, this.rules));
      return;
    }
    throw new Error('a value of the table that nothing gives');
  }
}

/** A piece from the corner to the points of these numbers. */
interface Piece {
  readonly x: number;
  readonly y: number;
}

/** The points of one side; for point i those up to half of it, each with the point that fits behind it. */
interface Axis {
  readonly points: readonly number[];
  /** Where the list of point i begins in `behind`; its entry j belongs to the cut at point j. */
  readonly from: Int32Array;
  readonly behind: Int32Array;
}

function spotOf(across: Axis, up: Axis, width: number, height: number): number {
  const x = firstNotBelow(across.points, width);
  const y = firstNotBelow(up.points, height);
  return x < across.points.length && y < up.points.length ? y * across.points.length + x : -1;
}

function axisOf(points: readonly number[]): Axis {
  const from = new Int32Array(points.length + 1);
  let halves = 0;
  for (const [i, point] of points.entries()) {
    while (2 * points[halves]! <= point) halves++;
    from[i + 1] = from[i]! + halves;
  }
  const behind = new Int32Array(from[points.length]!);
  for (let i = 0; i < points.length; i++) {
    let at = i;
    for (let k = from[i]!; k < from[i + 1]!; k++) {
      while (points[at]! > points[i]! - points[k - from[i]!]!) at--;
      behind[k] = at;
    }
  }
  return { points, from, behind };
}

/** Additions of one run over so many points a side, roughly. */
export function workOf(xs: number, ys: number): number {
  return (xs * ys * (xs + ys)) / 4;
}

const workBetweenYields = 200_000;

/** More sums than this on one side are not even listed. */
const mostSums = 4000;
