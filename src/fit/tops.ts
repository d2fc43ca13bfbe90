import { compare, divide, millimetres, minus, multiply, opposite, sum } from '../measure/index.ts';
import type { Build, Length, LevelSide, Outline, StandingPart } from '../model/index.ts';
import { endHeightOf, isShaped, type Lean, mostOff, reachBetween, topEdgesOf } from '../outline/index.ts';

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

/** The way in which a side runs, from its left or front end. */
export function wayOf(side: LevelSide): 'across' | 'along' {
  return side === 'front' || side === 'back' ? 'across' : 'along';
}

/** The way from one side to that over against it. */
export function wayThrough(side: LevelSide): 'across' | 'along' {
  return wayOf(side) === 'across' ? 'along' : 'across';
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
  const plain = reaching.filter((part) => !isShaped(part)).map((part) => levelTop(part, side));
  const shaped = reaching.filter(isShaped);
  const tops = (lean: Lean): readonly Top[] => {
    const level = shaped.flatMap((part) => levelTops(build, part, side, lean));
    const bent = shaped.filter(({ stance }) => stance.thickness === wayThrough(side));
    return bent
      .map((part) => topEdgesOf(part, planeOf(side), lean, off).map((edge): Top => ({ ...edge, part })))
      .reduce(higher, highest([...plain, ...level]));
  };
  const least = tops('inward');
  return { least, most: shaped.length === 0 ? least : tops('outward') };
}

/** A tile may fall short of its footprint by the slack, so a part that comes so near still reaches its side. */
export function reachesSide(build: Build, { block }: StandingPart, side: LevelSide): boolean {
  const way = wayThrough(side);
  return isLow(side)
    ? compare(block.low[way], build.slack) <= 0
    : compare(sum(block.high[way], build.slack), build.footprint[way]) >= 0;
}

function isLow(side: LevelSide): boolean {
  return side === 'front' || side === 'left';
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
 * The tops of a shaped part that are level: of one that lies, where it comes up to the side; of one that stands
 * across the side, the height at which it ends there.
 *
 *        ╭────┐
 *    ╭───╯    │ high at the back,
 *    │        │ low at the front
 *    └────────┘
 */
function levelTops(
  build: Build,
  part: StandingPart & { readonly outline: Outline },
  side: LevelSide,
  lean: Lean,
): readonly Top[] {
  const through = wayThrough(side);
  const { thickness } = part.stance;
  if (thickness === 'up') {
    const near = sum(build.slack, mostOff);
    const far = build.footprint[through];
    const strip = isLow(side)
      ? ([opposite(far), near] as const)
      : ([minus(far, near), sum(far, far)] as const);
    const plane = { right: wayOf(side), up: through } as const;
    return reachBetween(part, plane, strip, lean).map(([from, to]) => ({
      ...levelTop(part, side),
      from,
      to,
    }));
  }
  if (thickness !== wayOf(side)) return [];
  const height = endHeightOf(part, { right: through, up: 'up' }, isLow(side) ? 'left' : 'right');
  return [levelTop(part, side, height === undefined ? undefined : lean === 'inward' ? height.lo : height.hi)];
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
  const share = divide(minus(at, from), minus(to, from));
  return sum(start, millimetres(multiply(minus(end, start), share)));
}

function distinct(lengths: readonly Length[]): readonly Length[] {
  return [...lengths]
    .sort(compare)
    .filter((it, index, all) => index === 0 || compare(it, all[index - 1]!) !== 0);
}

function textOf({ numerator, denominator }: Length): string {
  return `${numerator}/${denominator}`;
}
