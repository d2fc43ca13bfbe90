import type { JobRules, JobSheet } from '../job.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import type { Lying } from './pattern.ts';
import { floorsBehind, sumsOf } from './raster.ts';

/**
 * A good way of filling one sheet in three rounds of cuts, each part as often as wanted: the sheet into
 * strips, a strip into stacks, a stack into parts. Three knapsacks in a row, far cheaper than the best of
 * all ways.
 *
 *     ┌──────┬────┬──────────┐
 *     ├──────┤    ├─────┬────┤   strip: stacks side by side
 *     ├──────┴────┴─────┴────┤
 *     │                      │
 */
export class StripSheet {
  /** Additions that one run takes, roughly. */
  readonly work: number;
  private readonly ways: readonly Lying[];
  private readonly rules: JobRules;
  /** Strips lie one above the other, or (`upright`) side by side. */
  private readonly upright: boolean;
  private readonly xs: readonly number[];
  private readonly ys: readonly number[];
  private readonly heights: readonly number[];
  private readonly widths: readonly number[];
  /** Indices of `ways`, the narrowest first. */
  private readonly byWidth: readonly number[];
  private readonly behindWidth: readonly Int32Array[];
  private readonly behindHeight: readonly Int32Array[];
  private readonly behindWay: readonly Int32Array[];
  private stacks: Knapsack[] = [];
  private strips: Knapsack[] = [];
  private sheet: Knapsack | undefined;

  private constructor(
    ways: readonly Lying[],
    rules: JobRules,
    upright: boolean,
    xs: readonly number[],
    ys: readonly number[],
  ) {
    this.ways = ways;
    this.rules = rules;
    this.upright = upright;
    this.xs = xs;
    this.ys = ys;
    this.widths = [...new Set(ways.map((way) => way.width))].sort((a, b) => a - b);
    this.byWidth = [...ways.keys()].sort((a, b) => ways[a]!.width - ways[b]!.width || a - b);
    this.heights = stripHeights(ways, ys);
    this.behindWidth = this.widths.map((width) => floorsBehind(xs, width));
    this.behindHeight = this.heights.map((height) => floorsBehind(ys, ys[height]!));
    this.behindWay = ways.map((way) => floorsBehind(ys, way.height));
    const { length: widths } = this.widths;
    this.work = (ys.length * widths * ways.length) / 2 + xs.length * widths * this.heights.length;
  }

  /** @returns  undefined where a side has too many sums of sizes */
  static over(
    sheet: JobSheet,
    ways: readonly Lying[],
    rules: JobRules,
    upright: boolean,
  ): StripSheet | undefined {
    const lying = upright ? ways.map((way) => ({ ...way, width: way.height, height: way.width })) : ways;
    const [width, height] = upright ? [sheet.width, sheet.length] : [sheet.length, sheet.width];
    const xs = sumsOf(
      width,
      lying.map((way) => way.width),
      mostSums,
    );
    const ys = sumsOf(
      height,
      lying.map((way) => way.height),
      mostSums,
    );
    if (xs === undefined || ys === undefined) return undefined;
    return new StripSheet(lying, rules, upright, xs, ys);
  }

  /** Yields after every few milliseconds of work. */
  *solve(values: ArrayLike<number>): Generator<void, number> {
    const { widths, heights, xs, ys } = this;
    let work = 0;
    this.stacks = [];
    for (const items of this.bestOfEachHeight(values)) {
      this.stacks.push(new Knapsack(ys.length, items));
      work += ys.length * items.length;
      if (work > workBetweenYields) {
        work = 0;
        yield;
      }
    }
    this.strips = [];
    for (const height of heights) {
      const items = widths.map((_, i) => ({
        value: this.stacks[i]!.value[height]!,
        behind: this.behindWidth[i]!,
        item: i,
      }));
      const useful = rising(items);
      this.strips.push(new Knapsack(xs.length, useful));
      work += xs.length * useful.length;
      if (work > workBetweenYields) {
        work = 0;
        yield;
      }
    }
    const items = heights.map((_, i) => ({
      value: this.strips[i]!.value[xs.length - 1]!,
      behind: this.behindHeight[i]!,
      item: i,
    }));
    this.sheet = new Knapsack(ys.length, rising(items));
    return this.sheet.value[ys.length - 1]!;
  }

  /** For each width: of the parts that are no wider those worth something, of equally high ones the best. */
  private bestOfEachHeight(values: ArrayLike<number>): Item[][] {
    const best = new Map<number, Item>();
    let next = 0;
    return this.widths.map((width) => {
      for (; next < this.byWidth.length; next++) {
        const i = this.byWidth[next]!;
        const way = this.ways[i]!;
        if (way.width > width) break;
        const value = values[way.kind]!;
        if (value <= (best.get(way.height)?.value ?? 0)) continue;
        best.set(way.height, { value, behind: this.behindWay[i]!, item: i });
      }
      return [...best.values()];
    });
  }

  tree(): Node | undefined {
    const { upright, rules, xs, ys } = this;
    if (this.sheet === undefined || this.sheet.value[ys.length - 1] === 0) return undefined;
    const [along, across] = upright ? [Shape.column, Shape.row] : [Shape.row, Shape.column];
    const strips = this.sheet.picked(ys.length - 1).map((strip) => {
      const height = this.heights[strip]!;
      const stacks = this.strips[strip]!.picked(xs.length - 1).map((stack) => {
        const parts = this.stacks[stack]!.picked(height).map((i) => this.part(i));
        return lineOf(across, parts, rules);
      });
      return lineOf(along, stacks, rules);
    });
    return lineOf(across, strips, rules);
  }

  private part(i: number): Node {
    const { kind, width, height, turned } = this.ways[i]!;
    return this.upright ? leaf(kind, height, width, turned) : leaf(kind, width, height, turned);
  }
}

/** Heights that strips may have, as indices of sums: those of parts and their small multiples. */
function stripHeights(ways: readonly Lying[], ys: readonly number[]): number[] {
  const index = new Map(ys.map((y, i) => [y, i]));
  const heights = new Set<number>();
  for (let times = 1; times <= 8; times++) {
    for (const { height } of ways) {
      const at = index.get(height * times);
      if (at !== undefined && heights.size < mostHeights) heights.add(at);
    }
  }
  return [...heights].sort((a, b) => a - b);
}

interface Item {
  readonly value: number;
  /** For each sum, the index of what remains behind the item; −1 where it does not fit. */
  readonly behind: Int32Array;
  readonly item: number;
}

/** Items from the smallest up, without those worth no more than a smaller one. */
function rising(items: readonly Item[]): Item[] {
  let most = 0;
  return items.filter(({ value }) => {
    if (value <= most) return false;
    most = value;
    return true;
  });
}

/** The most value in each length, items as often as wanted. */
class Knapsack {
  readonly value: Float64Array;
  private readonly pick: Int32Array;
  private readonly items: readonly Item[];

  constructor(sums: number, items: readonly Item[]) {
    this.items = items;
    this.value = new Float64Array(sums);
    this.pick = new Int32Array(sums).fill(-1);
    for (let at = 1; at < sums; at++) {
      let best = this.value[at - 1]!;
      for (let i = 0; i < items.length; i++) {
        const rest = items[i]!.behind[at]!;
        if (rest < 0) continue;
        const value = this.value[rest]! + items[i]!.value;
        if (value > best) {
          best = value;
          this.pick[at] = i;
        }
      }
      this.value[at] = best;
    }
  }

  /** The items that give the value at a sum. */
  picked(sum: number): number[] {
    const picked: number[] = [];
    let at = sum;
    while (at > 0) {
      const item = this.items[this.pick[at]!];
      if (item === undefined) at--;
      else {
        picked.push(item.item);
        at = item.behind[at]!;
      }
    }
    return picked;
  }
}

const mostSums = 4000;
const mostHeights = 60;
const workBetweenYields = 1_000_000;
