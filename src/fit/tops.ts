import {
  compare,
  divide,
  heightOnLine,
  larger,
  millimetres,
  minus,
  multiply,
  rational,
  smaller,
  sum,
} from '../measure/index.ts';
import type { Build, Length, LevelSide, StandingPart } from '../model/index.ts';
import { bodyOf, fillsItsBlock, type Lean, mostOff, shapeAlong, topEdgesOf } from '../outline/index.ts';
import { rangeAtSide, reachesSide, stretchesAtSide, wayOf, wayThrough } from './atSide.ts';

/** A stretch of a side on which one floor part is on top; its height goes straight from `start` to `end`. */
export interface Top {
  readonly from: Length;
  readonly to: Length;
  readonly start: Length;
  readonly end: Length;
  readonly part: StandingPart;
}

/** The highest floor along a side, with curves at their least and at their most; one list where there are none. */
export interface Tops {
  readonly least: readonly Top[];
  readonly most: readonly Top[];
}

/**
 * The highest floor along a side: at each place the highest top of the floor parts that reach it.
 *
 *        ┌─────┐
 *   ┌────┤     ├──╮          tops seen from the side
 *   └────┴─────┴───┘
 *   ├────┼─────┼───┤
 *   from      to
 *
 * @param off  how far curves may be off
 */
export function topsAt(build: Build, side: LevelSide, off: Length = mostOff): Tops {
  const reaching = build.parts.filter((part) => part.isFloor && reachesSide(build, part, side));
  const plain = reaching.filter(fillsItsBlock).map((part) => levelTop(part, side));
  const shaped = reaching.filter((part) => !fillsItsBlock(part));
  const tops = (lean: Lean): readonly Top[] => {
    const found = shaped.map((part) => topsOfShape(build, part, side, lean, off));
    const level = found.filter(areLevel);
    const bent = found.filter((it) => !areLevel(it));
    return bent.reduce(higher, highest([...plain, ...level.flat()]));
  };
  const least = tops('inward');
  return { least, most: shaped.length === 0 ? least : tops('outward') };
}

function areLevel(tops: readonly Top[]): boolean {
  return tops.every(({ start, end }) => compare(start, end) === 0);
}

function planeOf(side: LevelSide) {
  return { right: wayOf(side), up: 'up' } as const;
}

function levelTop(part: StandingPart, side: LevelSide, height = part.block.high.up): Top {
  const { low, high } = part.block;
  const way = wayOf(side);
  return { from: low[way], to: high[way], start: height, end: height, part };
}

/**
 * The tops of a part that is less than its block: its upper edge where it is seen in outline from the side; the
 * height at which it ends there where that is seen from beside; all of it only where it comes up to the side.
 *
 *        ╭────┐
 *    ╭───╯    │ high at the back,
 *    │        │ low at the front
 *    └────────┘
 */
function topsOfShape(
  build: Build,
  part: StandingPart,
  side: LevelSide,
  lean: Lean,
  off: Length,
): readonly Top[] {
  const fromThere = shapeAlong(bodyOf(part), wayThrough(side));
  const ending = rangeAtSide(part, side);
  const most = ending && (lean === 'inward' ? ending.top.lo : ending.top.hi);
  const tops =
    fromThere === undefined
      ? [levelTop(part, side, most)]
      : upToItsEnds(
          part,
          topEdgesOf(fromThere, planeOf(side), lean, off).map((edge): Top => ({ ...edge, part })),
        );
  const stretches = stretchesAtSide(build, part, side, lean);
  return tops.flatMap((top) =>
    stretches.flatMap(([low, high]) => {
      const [from, to] = [larger(top.from, low), smaller(top.to, high)];
      return compare(from, to) >= 0 ? [] : [topWithin(top, from, to)];
    }),
  );
}

/**
 * Of what slopes or bends, an end that is cut square to it is no floor: that goes on level from its upper corner.
 *
 *      ┄┄┄●
 *      ╱   ╲
 *     ╱     ● end
 */
function upToItsEnds({ profile }: StandingPart, tops: readonly Top[]): readonly Top[] {
  if (profile === undefined) return tops;
  const isSteep = ({ from, to, start, end }: Top) =>
    compare(larger(minus(end, start), minus(start, end)), minus(to, from)) > 0;
  const firstFloor = tops.findIndex((it) => !isSteep(it) || compare(it.start, it.end) > 0);
  const lastFloor = tops.findLastIndex((it) => !isSteep(it) || compare(it.start, it.end) < 0);
  if (firstFloor < 0 || lastFloor < 0) return tops;
  const [low, high] = [tops[firstFloor]!.start, tops[lastFloor]!.end]; // just found
  return tops.map((it, i) => {
    const level = i < firstFloor ? low : i > lastFloor ? high : undefined;
    return level === undefined ? it : { ...it, start: level, end: level };
  });
}

/** Of tops that are level, at each place the highest: it is painted first, and what is painted stays. */
function highest(tops: readonly Top[]): readonly Top[] {
  const ends = distinct(tops.flatMap(({ from, to }) => [from, to]));
  const cellAt = new Map(ends.map((end, index) => [textOf(end), index]));
  const owner = new Array<Top | undefined>(Math.max(0, ends.length - 1)).fill(undefined);
  const nextFree = Array.from({ length: ends.length + 1 }, (_, index) => index);
  const freeFrom = (cell: number): number => {
    let free = cell;
    while (nextFree[free] !== free) {
      nextFree[free] = nextFree[nextFree[free]!]!;
      free = nextFree[free]!;
    }
    return free;
  };
  for (const top of [...tops].sort((a, b) => compare(b.start, a.start))) {
    const last = cellAt.get(textOf(top.to)) ?? 0;
    for (let cell = freeFrom(cellAt.get(textOf(top.from)) ?? 0); cell < last; cell = freeFrom(cell)) {
      owner[cell] = top;
      nextFree[cell] = cell + 1;
    }
  }
  return owner.flatMap((top, cell) =>
    top === undefined ? [] : [{ ...top, from: ends[cell]!, to: ends[cell + 1]! }],
  );
}

/**
 * At each place the higher of two runs of tops, neither of which has two at one place.
 *
 *      ──╲    ╱──
 *         ╲  ╱
 *          ╲╱          cut where they cross, too
 */
function higher(all: readonly Top[], others: readonly Top[]): readonly Top[] {
  const cuts = distinct([...all, ...others].flatMap(({ from, to }) => [from, to]));
  let [i, j] = [0, 0];
  return cuts.slice(1).flatMap((to, cut): readonly Top[] => {
    const from = cuts[cut]!; // one before each
    while (all[i] !== undefined && compare(all[i]!.to, from) <= 0) i++;
    while (others[j] !== undefined && compare(others[j]!.to, from) <= 0) j++;
    const [a, b] = [all[i], others[j]].map((it) =>
      it === undefined || compare(it.from, from) > 0 ? undefined : topWithin(it, from, to),
    );
    if (a === undefined || b === undefined) return [a ?? b].filter((it) => it !== undefined);
    return higherOf(a, b);
  });
}

function higherOf(a: Top, b: Top): readonly Top[] {
  const [atStart, atEnd] = [minus(a.start, b.start), minus(a.end, b.end)];
  const [s, e] = [atStart.numerator, atEnd.numerator];
  if (s >= 0n && e >= 0n) return [a];
  if (s <= 0n && e <= 0n) return [b];
  const share = divide(atStart, minus(atStart, atEnd));
  const at = sum(a.from, millimetres(multiply(minus(a.to, a.from), share)));
  const [first, second] = s > 0n ? [a, b] : [b, a];
  return [topWithin(first, first.from, at), topWithin(second, at, second.to)];
}

/** A stretch of a top, between its own ends. */
export function topWithin(top: Top, from: Length, to: Length): Top {
  return { ...top, from, to, start: heightAt(top, from), end: heightAt(top, to) };
}

function heightAt({ from, to, start, end }: Top, at: Length): Length {
  if (compare(start, end) === 0 || compare(at, from) === 0) return start;
  if (compare(at, to) === 0) return end;
  const { over, under } = heightOnLine(at, from, start, to, end);
  return millimetres(rational(over, under));
}

function distinct(lengths: readonly Length[]): readonly Length[] {
  return [...lengths]
    .sort(compare)
    .filter((it, index, all) => index === 0 || compare(it, all[index - 1]!) !== 0);
}

function textOf({ numerator, denominator }: Length): string {
  return `${numerator}/${denominator}`;
}
