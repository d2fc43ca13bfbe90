import type { JobRules, JobSheet } from '../job.ts';
import { Pace } from '../pace.ts';
import { leaf, lineOf, type Node, Shape } from '../search/tree.ts';
import type { Lying } from './pattern.ts';
import { firstNotBelow, floorsBehind, sumsOf } from './raster.ts';

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
    const pace = new Pace();
    this.stacks = [];
    // A wider stack holds what a narrower one does, so it goes on from there with what is new.
    let stack = Knapsack.ofNothing(ys.length);
    for (const { items, added } of this.bestOfEachHeight(values)) {
      stack = stack.with(added, items);
      this.stacks.push(stack);
      if (pace.isDue(ys.length * (1 + added.length))) yield;
    }
    this.strips = [];
    const empty = Knapsack.ofNothing(xs.length);
    for (const height of heights) {
      const items = widths.map((_, i) => ({
        value: this.stacks[i]!.value[height]!,
        behind: this.behindWidth[i]!,
        item: i,
      }));
      const useful = rising(items);
      this.strips.push(empty.with(useful));
      if (pace.isDue(xs.length * useful.length)) yield;
    }
    const items = heights.map((_, i) => ({
      value: this.strips[i]!.value[xs.length - 1]!,
      behind: this.behindHeight[i]!,
      item: i,
    }));
    this.sheet = Knapsack.ofNothing(ys.length).with(rising(items));
    return this.sheet.value[ys.length - 1]!;
  }

  /** For each width: of the parts that are no wider those worth something, of equally high ones the best. */
  private bestOfEachHeight(
    values: ArrayLike<number>,
  ): { readonly items: readonly Item[]; readonly added: readonly Item[] }[] {
    const best = new Map<number, Item>();
    let next = 0;
    return this.widths.map((width) => {
      const added: Item[] = [];
      for (; next < this.byWidth.length; next++) {
        const i = this.byWidth[next]!;
        const way = this.ways[i]!;
        if (way.width > width) break;
        const value = values[way.kind]!;
        if (value <= (best.get(way.height)?.value ?? 0)) continue;
        const item = { value, behind: this.behindWay[i]!, item: i };
        best.set(way.height, item);
        added.push(item);
      }
      return { items: [...best.values()], added };
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

/**
 * The most value in each length, items as often as wanted. What lies in a length is found out only where it is
 * asked for.
 */
class Knapsack {
  readonly value: Float64Array;
  private readonly items: readonly Item[];

  private constructor(value: Float64Array, items: readonly Item[]) {
    this.value = value;
    this.items = items;
  }

  static ofNothing(sums: number): Knapsack {
    return new Knapsack(new Float64Array(sums), []);
  }

  /**
   * The same with more to choose from. In which order items come off a length makes no difference to what
   * fits, so each can be added to all lengths in turn.
   *
   * @param items  all there are then, without those that an equally large one has made idle
   */
  with(added: readonly Item[], items = added): Knapsack {
    const more = new Knapsack(this.value.slice(), items);
    for (const { value, behind } of added) more.take(value, behind);
    return more;
  }

  private take(worth: number, behind: Int32Array): void {
    const { value } = this;
    for (let at = firstNotBelow(behind, 0); at < value.length; at++) {
      const both = value[behind[at]!]! + worth;
      if (both > value[at]!) value[at] = both;
    }
  }

  /** The items that give the value at a sum: where several would do, the first. */
  picked(sum: number): number[] {
    const { value, items } = this;
    const picked: number[] = [];
    let at = sum;
    while (at > 0) {
      const here = value[at]!;
      const it =
        here > value[at - 1]!
          ? items.find(({ value: worth, behind }) => behind[at]! >= 0 && value[behind[at]!]! + worth === here)
          : undefined;
      if (it === undefined) at--;
      else {
        picked.push(it.item);
        at = it.behind[at]!;
      }
    }
    return picked;
  }
}

const mostSums = 4000;
const mostHeights = 60;
