import type { JobRules, JobSheet } from '../job.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import { type InLargeCells, inJobCells, inLargeCells } from './largeCells.ts';
import { axisOf, fewOfLimitedAxis, type LimitedAxis, limitedPoints } from './limitedAxis.ts';
import { Lines } from './lines.ts';
import type { Lying } from './pattern.ts';
import { firstNotBelow } from './raster.ts';
import { Shavings } from './shavings.ts';

/**
 * The most valuable way of filling one sheet within limits on strips, cuts and rounds, each part as often as
 * wanted. Where cuts are limited, a piece can't be looked on as one a little smaller: what is too much has to
 * come off, by a cut that is allowed. So this goes over pieces of exact sizes, cut across into kids that are
 * cut up, into kids that are cut across, and so on:
 *
 *     filling(x) = the larger of   kid(x)
 *                                  kid(near) + filling(x − near)
 *     cut(x)     = the larger of   kid(near) + filling(x − near)
 *                                  filling(x′)   where what is behind x′ may come off
 *     kid        = a part of just that size, or a piece cut the other way; with a round less, if they are counted
 *
 * With a least strip, what is lost in the kerf is a piece's last cut that way (`Shavings`): a kid may be such a
 * piece, too. A piece may be cut across only where it is no higher than the longest cut, likewise up. Values are whole
 * numbers, so the result over all points is exact.
 *
 * @source  recursions by states of the piece in hand: J. Beasley, Algorithms for unconstrained two-dimensional
 *          guillotine cutting, J. Opl Res. Soc. 36 (1985), there also by stages; from memory. The points that
 *          the limits ask for are argued in `limitedAxis.ts`; tested against every way of cutting
 */
export class LimitedSheet {
  /** Additions that one run takes, roughly. */
  readonly work: number;
  private readonly cell: number;
  private readonly ways: readonly Lying[];
  private readonly rules: JobRules;
  private readonly xs: LimitedAxis;
  private readonly ys: LimitedAxis;
  /** What a part of just that size is worth, row by row, and which one it is. */
  private readonly seed: Int32Array;
  private readonly seedWay: Int32Array;
  private readonly shavings: { readonly across: Shavings; readonly up: Shavings };
  /** By rounds left, the last with all of them; a single one where they are free. */
  private readonly levels: { readonly across: Lines; readonly up: Lines }[];

  private constructor({ ways, rules, cell }: InLargeCells, xs: LimitedAxis, ys: LimitedAxis) {
    this.cell = cell;
    this.ways = ways;
    this.rules = rules;
    this.xs = xs;
    this.ys = ys;
    const rounds = areCounted(rules) ? rules.rounds : 1;
    this.work = workOf(xs, ys) * rounds;
    this.seed = new Int32Array(xs.points.length * ys.points.length);
    this.seedWay = new Int32Array(xs.points.length * ys.points.length);
    this.shavings = {
      across: new Shavings(Shape.row, ways, rules, xs, ys),
      up: new Shavings(Shape.column, ways, rules, ys, xs),
    };
    this.levels = Array.from({ length: rounds }, () => ({
      across: new Lines(Shape.row, xs, ys.points.length),
      up: new Lines(Shape.column, ys, xs.points.length),
    }));
  }

  /** @returns  undefined where it would take more than `mostWork` additions */
  static over(
    sheet: JobSheet,
    ways: readonly Lying[],
    rules: JobRules,
    mostWork: number,
  ): LimitedSheet | undefined {
    return LimitedSheet.within(inLargeCells(sheet, ways, rules, 'as they are'), mostWork);
  }

  /** The same with limits made a little tighter where that spares cells: a good sheet in place of the best. */
  static overSafe(
    sheet: JobSheet,
    ways: readonly Lying[],
    rules: JobRules,
    mostWork: number,
  ): LimitedSheet | undefined {
    return LimitedSheet.within(inLargeCells(sheet, ways, rules, 'tighter'), mostWork);
  }

  private static within(large: InLargeCells, mostWork: number): LimitedSheet | undefined {
    const { sheet, rules } = large;
    const [widths, heights] = sizesOf(large);
    const xs = limitedPoints(sheet.length, widths, rules, mostPoints);
    const ys = limitedPoints(sheet.width, heights, rules, mostPoints);
    if (xs === undefined || ys === undefined) return undefined;
    const rounds = areCounted(rules) ? rules.rounds : 1;
    // Told beforehand, roughly, what it would take, since to list all cuts is work, too.
    if (rounds * leastWorkOf(xs.size, ys.size) > mostWork) return undefined;
    const found = new LimitedSheet(large, axisOf(xs, rules), axisOf(ys, rules));
    return found.work > mostWork ? undefined : found;
  }

  /** The same over no more than about `most` points a side: a good sheet in place of the best. */
  static overFew(sheet: JobSheet, ways: readonly Lying[], rules: JobRules, most: number): LimitedSheet {
    const large = inLargeCells(sheet, ways, rules, 'tighter');
    const [widths, heights] = sizesOf(large);
    const xs = fewOfLimitedAxis(large.sheet.length, widths, large.rules, most);
    const ys = fewOfLimitedAxis(large.sheet.width, heights, large.rules, most);
    return new LimitedSheet(large, xs, ys);
  }

  /**
   * Yields after every few milliseconds of work.
   *
   * @param values  of one part, by kind; whole numbers so small that no sheet is worth 2^31
   * @param first   shape of what the first cuts part the sheet into: a row by crosscuts, a column by rips
   * @returns       the value of the best sheet
   */
  *solve(values: ArrayLike<number>, first?: Shape): Generator<void, number> {
    this.plant(values);
    yield* this.shavings.across.solve(values);
    yield* this.shavings.up.solve(values);
    for (const [level, { across, up }] of this.levels.entries()) yield* this.solveLevel(across, up, level);
    return Math.max(this.seed.at(-1)!, ...this.roots(first).flatMap(({ cut, shaved }) => [cut, shaved]));
  }

  /** Trees worth more than `over` at the values last solved for, the best first, each with another first cut. */
  *trees(over: number, most: number, first?: Shape): Generator<Node, void> {
    const [x, y] = [this.xs.points.length - 1, this.ys.points.length - 1];
    const level = this.levels.length - 1;
    const found = this.roots(first).flatMap(({ lines, cut, shaved }) => {
      const [at, beside] = lines.shape === Shape.row ? [x, y] : [y, x];
      const whole = { value: shaved, tree: () => this.shavedTree(lines, level, x, y, shaved) };
      if (cut === 0) return [whole];
      const ways = lines.ways(at, beside).map(({ value, kids }) => ({
        value,
        tree: () => this.lineTree(lines, level, kids(), x, y),
      }));
      return [whole, ...ways];
    });
    const good = found.filter(({ value }) => value > over).sort((a, b) => b.value - a.value);
    const inCells = (tree: Node): Node => (this.cell === 1 ? tree : inJobCells(tree, this.cell));
    let isNone = true;
    for (const { tree } of good.slice(0, most)) {
      const found = tree();
      if (found === undefined) continue;
      isNone = false;
      yield inCells(found);
    }
    if (isNone && this.seed.at(-1)! > over) yield inCells(this.partTree(x, y));
  }

  private *solveLevel(across: Lines, up: Lines, level: number): Generator<void, void> {
    const { xs, ys, seed } = this;
    const isCounted = areCounted(this.rules);
    // With rounds counted a kid is what the level before gives, else what is cut the other way here.
    const below = isCounted ? this.levels[level - 1] : { across, up };
    let work = 0;
    for (let y = 1; y < ys.points.length; y++) {
      const isRowFree = this.mayCut(ys.points[y]!);
      for (let x = 1; x < xs.points.length; x++) {
        let [acrossLine, upLine] = [0, 0];
        if (isRowFree) acrossLine = across.cutBest(x, y);
        else across.leaveWhole(x, y);
        if (this.mayCut(xs.points[x]!)) upLine = up.cutBest(y, x);
        else up.leaveWhole(y, x);
        const part = seed[y * xs.points.length + x]!;
        const [narrower, lower] = [this.shaved(across, level, x, y), this.shaved(up, level, x, y)];
        let rowKid = Math.max(part, narrower, isCounted ? 0 : lower);
        let columnKid = Math.max(part, lower, isCounted ? 0 : narrower);
        if (below !== undefined) {
          const [upPlace, acrossPlace] = [up.placeOf(x, y), across.placeOf(x, y)];
          rowKid = Math.max(rowKid, below.up.cut[upPlace]!, isCounted ? below.up.kids[upPlace]! : 0);
          columnKid = Math.max(
            columnKid,
            below.across.cut[acrossPlace]!,
            isCounted ? below.across.kids[acrossPlace]! : 0,
          );
        }
        across.fill(x, y, rowKid, acrossLine);
        up.fill(y, x, columnKid, upLine);
        work += workOfPiece + xs.from[x + 1]! - xs.from[x]! + ys.from[y + 1]! - ys.from[y]!;
        if (work > workBetweenYields) {
          work = 0;
          yield;
        }
      }
    }
  }

  private roots(
    first: Shape | undefined,
  ): { readonly lines: Lines; readonly cut: number; readonly shaved: number }[] {
    const { across, up } = this.levels.at(-1)!;
    const [x, y] = [this.xs.points.length - 1, this.ys.points.length - 1];
    const asked = [across, up].filter(({ shape }) => first === undefined || shape === first);
    return asked.map((lines) => ({
      lines,
      cut: lines.cut[lines.placeOf(x, y)]!,
      shaved: this.shaved(lines, this.levels.length - 1, x, y),
    }));
  }

  /** What the piece is worth when it is shaved in the direction of these lines. */
  private shaved({ shape }: Lines, level: number, x: number, y: number): number {
    const mayCut = level > 0 || !areCounted(this.rules);
    if (shape === Shape.row) {
      return this.mayCut(this.ys.points[y]!) ? this.shavings.across.best(x, y, mayCut) : 0;
    }
    return this.mayCut(this.xs.points[x]!) ? this.shavings.up.best(y, x, mayCut) : 0;
  }

  private shavedTree(
    { shape }: Lines,
    level: number,
    x: number,
    y: number,
    wanted: number,
  ): Node | undefined {
    const mayCut = level > 0 || !areCounted(this.rules);
    if (shape === Shape.row) return this.shavings.across.tree(x, y, mayCut, wanted);
    return this.shavings.up.tree(y, x, mayCut, wanted);
  }

  /** Parts that are just a piece. */
  private plant(values: ArrayLike<number>): void {
    const { xs, ys, seed, seedWay } = this;
    seed.fill(0);
    this.ways.forEach((way, i) => {
      const x = firstNotBelow(xs.points, way.width);
      const y = firstNotBelow(ys.points, way.height);
      if (xs.points[x] !== way.width || ys.points[y] !== way.height) return;
      const at = y * xs.points.length + x;
      if (values[way.kind]! <= seed[at]!) return;
      seed[at] = values[way.kind]!;
      seedWay[at] = i;
    });
  }

  /** A cut is as long as the piece it parts is across. */
  private mayCut(length: number): boolean {
    return length - this.rules.kerf <= this.rules.longestCut;
  }

  private besides({ shape }: Lines): readonly number[] {
    return (shape === Shape.row ? this.ys : this.xs).points;
  }

  /** A line of kids, given by their points, in the piece of the points x and y. */
  private lineTree(lines: Lines, level: number, points: readonly number[], x: number, y: number): Node {
    const isRow = lines.shape === Shape.row;
    const kids = points.map((point) =>
      isRow ? this.kidTree(lines, level, point, y) : this.kidTree(lines, level, x, point),
    );
    return lineOf(lines.shape, kids, this.rules, this.besides(lines)[isRow ? y : x]!);
  }

  /** What stands as a kid in lines: a part, or lines the other way. */
  private kidTree(lines: Lines, level: number, x: number, y: number): Node {
    const wanted = lines.kids[lines.placeOf(x, y)]!;
    if (this.seed[y * this.xs.points.length + x]! === wanted) return this.partTree(x, y);
    if (this.shaved(lines, level, x, y) === wanted) return this.shavedTree(lines, level, x, y, wanted)!;
    const isCounted = areCounted(this.rules);
    const below = isCounted ? level - 1 : level;
    const { across, up } = this.levels[below]!;
    const other = lines.shape === Shape.row ? up : across;
    if (!isCounted && this.shaved(other, level, x, y) === wanted) {
      return this.shavedTree(other, level, x, y, wanted)!;
    }
    const place = other.placeOf(x, y);
    if (other.cut[place]! !== wanted) return this.kidTree(other, below, x, y);
    const [at, beside] = other.shape === Shape.row ? [x, y] : [y, x];
    return this.lineTree(other, below, other.kidsOfCut(at, beside, wanted), x, y);
  }

  private partTree(x: number, y: number): Node {
    const way = this.ways[this.seedWay[y * this.xs.points.length + x]!]!;
    return leaf(way.kind, way.width, way.height, way.turned);
  }
}

function sizesOf({ ways }: InLargeCells): [number[], number[]] {
  return [ways.map((way) => way.width), ways.map((way) => way.height)];
}

/** A piece is cut at most points up to its middle. */
function leastWorkOf(x: number, y: number): number {
  return (x * x * y + y * y * x) / 6;
}

function workOf(xs: LimitedAxis, ys: LimitedAxis): number {
  return xs.near.length * ys.points.length + ys.near.length * xs.points.length;
}

/** So many rounds or more limit nothing worth having; patterns are checked for them all the same. */
const manyRounds = 7;

/** Whether the limit on rounds is looked at, level by level. */
export function areCounted({ rounds }: JobRules): boolean {
  return rounds < manyRounds;
}

const workBetweenYields = 200_000;
/** Beside that of its cuts, in rounds and calls. */
const workOfPiece = 20;
const mostPoints = 2500;
