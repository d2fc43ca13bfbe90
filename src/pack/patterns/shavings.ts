import type { JobRules } from '../job.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import type { LimitedAxis } from './limitedAxis.ts';
import { Lines } from './lines.ts';
import type { Lying } from './pattern.ts';
import { firstNotBelow } from './raster.ts';

/**
 * The values of pieces that are shaved along one direction: what comes off is lost in the kerf, and then all
 * that is left to do is to cut them the other way, into parts that are just as wide.
 *
 *              ├──── size ────┤▒│
 *            ┌ ┌──────────────┬─┐
 *            │ │     part     │▒│
 *     beside │ ├──────────────┤▒│
 *            │ │     part     │▒│
 *            └ └──────────────┴─┘
 *              └───── point ────┘
 */
export class Shavings {
  /** The other way; a piece's place along it is that of its size in `sizes`. */
  private readonly lines: Lines;
  private readonly rules: JobRules;
  private readonly ways: readonly Lying[];
  /** Sizes of parts along the direction, and for each of its points those that it may be shaved down to. */
  private readonly sizes: readonly number[];
  private readonly within: readonly (readonly number[])[];
  /** What a part of just that size is worth, and which one it is. */
  private readonly seed: Int32Array;
  private readonly seedWay: Int32Array;

  /** @param shape  of the lines that are shaved at their ends */
  constructor(shape: Shape, ways: readonly Lying[], rules: JobRules, axis: LimitedAxis, beside: LimitedAxis) {
    const isRow = shape === Shape.row;
    this.rules = rules;
    this.ways = ways;
    this.sizes = [...new Set(ways.map(({ width, height }) => (isRow ? width : height)))];
    const loss = rules.leastStrip > 0 ? rules.kerf : 0;
    this.within = axis.points.map((point) =>
      loss === 0 ? none : this.sizes.flatMap((size, i) => (size < point && point - size <= loss ? [i] : [])),
    );
    this.lines = new Lines(isRow ? Shape.column : Shape.row, beside, this.sizes.length);
    this.seed = new Int32Array(this.sizes.length * beside.points.length);
    this.seedWay = new Int32Array(this.seed.length);
  }

  /** Yields after every size. */
  *solve(values: ArrayLike<number>): Generator<void, void> {
    const { lines, seed, sizes, rules } = this;
    if (this.within.every((sizesHere) => sizesHere.length === 0)) return;
    this.plant(values);
    const { points } = lines.axis;
    for (const [i, size] of sizes.entries()) {
      const mayCut = size - rules.kerf <= rules.longestCut;
      for (let at = 1; at < points.length; at++) {
        let kid = seed[i * points.length + at]!;
        let line = 0;
        if (mayCut) {
          line = lines.cutBest(at, i);
          for (let t = at - 1; t > 0 && points[at]! - points[t]! <= rules.kerf; t--) {
            kid = Math.max(kid, seed[i * points.length + t]!);
          }
        } else lines.leaveWhole(at, i);
        lines.fill(at, i, kid, line);
      }
      yield;
    }
  }

  /** @param mayCut  the shaved piece may be cut the other way */
  best(at: number, beside: number, mayCut: boolean): number {
    const { lines, seed } = this;
    const count = lines.axis.points.length;
    let best = 0;
    for (const i of this.within[at]!) {
      const place = i * count + beside;
      const value = mayCut ? Math.max(lines.kids[place]!, lines.cut[place]!) : seed[place]!;
      if (value > best) best = value;
    }
    return best;
  }

  /** What such a piece that is worth just `wanted` is cut into. */
  tree(at: number, beside: number, mayCut: boolean, wanted: number): Node | undefined {
    const { lines, seed } = this;
    const count = lines.axis.points.length;
    for (const i of this.within[at]!) {
      const place = i * count + beside;
      if (seed[place] === wanted) return this.leafAt(i, beside, wanted);
      if (!mayCut) continue;
      if (lines.kids[place] === wanted) return this.leafAt(i, beside, wanted);
      if (lines.cut[place] !== wanted) continue;
      const kids = lines.kidsOfCut(beside, i, wanted);
      const leaves = kids.map((point) => this.leafAt(i, point, lines.kids[i * count + point]!));
      return lineOf(lines.shape, leaves, this.rules);
    }
    return undefined;
  }

  /** The part in a piece that is no more than a kerf larger. */
  private leafAt(size: number, beside: number, wanted: number): Node {
    const place = size * this.lines.axis.points.length;
    let at = beside;
    while (this.seed[place + at] !== wanted) at--;
    const way = this.ways[this.seedWay[place + at]!]!;
    return leaf(way.kind, way.width, way.height, way.turned);
  }

  private plant(values: ArrayLike<number>): void {
    const { lines, seed, seedWay, sizes } = this;
    const { points } = lines.axis;
    seed.fill(0);
    this.ways.forEach((way, index) => {
      const [size, cross] = lines.shape === Shape.column ? [way.width, way.height] : [way.height, way.width];
      const at = firstNotBelow(points, cross);
      if (points[at] !== cross) return;
      const place = sizes.indexOf(size) * points.length + at;
      if (values[way.kind]! <= seed[place]!) return;
      seed[place] = values[way.kind]!;
      seedWay[place] = index;
    });
  }
}

const none: readonly number[] = [];
