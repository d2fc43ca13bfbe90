import { Shape } from '../search/tree.ts';
import type { LimitedAxis } from './limitedAxis.ts';

/**
 * The values of all pieces that are cut into lines of one direction, while `LimitedSheet` works them out.
 * `at` is a point along the lines, `beside` one of the other side; as a place in the tables `beside × points
 * + at`, so that a line's own values stand in a row.
 */
export class Lines {
  readonly shape: Shape;
  readonly axis: LimitedAxis;
  /** Of a piece that is one kid of such a line, so not cut in its direction. */
  readonly kids: Int32Array;
  /** Of a line that fills the piece; then, for each row, the best of these up to each point. */
  readonly filling: Int32Array;
  /** Of a piece cut at least once in this direction. */
  readonly cut: Int32Array;
  private readonly count: number;

  constructor(shape: Shape, axis: LimitedAxis, beside: number) {
    this.shape = shape;
    this.axis = axis;
    this.count = axis.points.length;
    this.kids = new Int32Array(this.count * beside);
    this.filling = new Int32Array(2 * this.count * beside);
    this.cut = new Int32Array(this.count * beside);
  }

  /** Places of a piece in this table, whatever the direction of the lines. */
  placeOf(x: number, y: number): number {
    return this.shape === Shape.row ? y * this.count + x : x * this.count + y;
  }

  /** Works out the best cut piece, from the shorter lines. @returns  the best line in it that fills it */
  cutBest(at: number, beside: number): number {
    const { axis, kids, filling } = this;
    const row = beside * this.count;
    const { near, far } = axis;
    let line = 0;
    for (let e = axis.from[at]!, end = axis.from[at + 1]!; e < end; e++) {
      const both = kids[row + near[e]!]! + filling[2 * row + far[e]!]!;
      if (both > line) line = both;
    }
    let best = line;
    const held = axis.held[at]!;
    if (held >= 0) best = Math.max(best, filling[2 * row + this.count + held]!);
    this.cut[row + at] = best;
    return line;
  }

  /** Takes down what the piece is worth as a kid, and as a line of that kid or of several. */
  fill(at: number, beside: number, kid: number, line: number): void {
    const row = beside * this.count;
    const value = Math.max(kid, line);
    this.kids[row + at] = kid;
    this.filling[2 * row + at] = value;
    const before = at > 0 ? this.filling[2 * row + this.count + at - 1]! : 0;
    this.filling[2 * row + this.count + at] = Math.max(value, before);
  }

  /** What may not be cut is worth no more than a kid. */
  leaveWhole(at: number, beside: number): void {
    this.cut[beside * this.count + at] = 0;
  }

  /** Points of the kids of a line that is worth just `wanted`, in a cut piece. */
  kidsOfCut(at: number, beside: number, wanted: number): number[] {
    const { axis, kids, filling } = this;
    const row = beside * this.count;
    for (let e = axis.from[at]!; e < axis.from[at + 1]!; e++) {
      const [near, far] = [axis.near[e]!, axis.far[e]!];
      if (kids[row + near]! + filling[2 * row + far]! !== wanted) continue;
      return this.kidsOfTwo(near, far, beside);
    }
    for (let t = axis.held[at]!; t > 0; t--) {
      if (filling[2 * row + t]! === wanted) return this.kidsOfFilling(t, beside);
    }
    throw new Error('a value of the table that nothing gives');
  }

  /** The values of all first cuts of a piece, each with the points of its kids. */
  ways(at: number, beside: number): { readonly value: number; readonly kids: () => number[] }[] {
    const { axis, kids, filling } = this;
    const row = beside * this.count;
    const ways = [];
    for (let e = axis.from[at]!; e < axis.from[at + 1]!; e++) {
      const [near, far] = [axis.near[e]!, axis.far[e]!];
      ways.push({
        value: kids[row + near]! + filling[2 * row + far]!,
        kids: () => this.kidsOfTwo(near, far, beside),
      });
    }
    const value = this.cut[row + at]!;
    ways.push({ value, kids: () => this.kidsOfCut(at, beside, value) });
    return ways;
  }

  private kidsOfTwo(near: number, far: number, beside: number): number[] {
    const row = beside * this.count;
    const others = this.kidsOfFilling(this.pointOf(far, row), beside);
    return this.kids[row + near] === 0 ? others : [near, ...others];
  }

  private kidsOfFilling(at: number, beside: number): number[] {
    const { axis, kids, filling } = this;
    const row = beside * this.count;
    const wanted = filling[2 * row + at]!;
    if (wanted === 0) return [];
    if (kids[row + at]! === wanted) return [at];
    for (let e = axis.from[at]!; e < axis.from[at + 1]!; e++) {
      const [near, far] = [axis.near[e]!, axis.far[e]!];
      if (kids[row + near]! + filling[2 * row + far]! !== wanted) continue;
      return this.kidsOfTwo(near, far, beside);
    }
    throw new Error('a value of the table that nothing gives');
  }

  /** The point itself, where an entry means the best of all up to it. */
  private pointOf(far: number, row: number): number {
    if (far < this.count) return far;
    const value = this.filling[2 * row + far]!;
    let t = far - this.count;
    while (this.filling[2 * row + t]! < value) t--;
    return t;
  }
}
