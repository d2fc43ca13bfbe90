import {
  add,
  compare,
  divide,
  floor,
  isPositive,
  millimetres,
  minus,
  negate,
  scaled,
  subtract,
  sum,
  times,
} from '../../measure/index.ts';
import type { BoxSide, Drawn, Length, Outline, OutlineFacet, WallInFlat } from '../../model/index.ts';
import { boxOf, type HeldBox } from '../box.ts';
import { isExact } from '../enclosure.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import type { Motion } from '../loop.ts';
import { middleOf, snapped } from '../root.ts';
import { half, point } from '../vector.ts';

/** Clear of one end of an edge; undefined: in its middle. `low` is the left or the bottom end. */
export type AlongEdge = { readonly end: 'low' | 'high'; readonly clear: Length } | undefined;

/** So many, from start to start (`every`) or with so much between them (`apart`). */
export type Repeat =
  | { readonly times: number; readonly every: Length }
  | { readonly times: number; readonly apart: Length };

/**
 * Where the low ends of a cut and its repeats lie along an edge.
 *
 *     low                                      high
 *      ├──clear──┤■■■■■├─apart─┤■■■■■├───────────┤
 *                ├────every────┤
 */
export function startsAlong(
  cut: string,
  size: Length,
  low: Length,
  high: Length,
  along: AlongEdge,
  repeat: Repeat | undefined,
): Drawn<readonly Length[]> {
  const count = repeat?.times ?? 1;
  const pitch = pitchOf(size, repeat);
  if (count > 1 && subtract(pitch, size).numerator <= 0n) {
    return undrawn(
      fault('T17', [repeat !== undefined && 'every' in repeat ? 'every' : 'apart'], (show) => ({
        cut,
        every: show(pitch),
        size: show(size, 'up'),
      })),
    );
  }
  const all = sum(size, times(pitch, count - 1));
  return drawn(Array.from({ length: count }, (_, i) => startOf(i)));

  function startOf(i: number): Length {
    const on = times(pitch, i);
    if (along === undefined) return sum(low, scaled(minus(minus(high, low), all), half), on);
    if (along.end === 'low') return sum(low, along.clear, on);
    return minus(minus(minus(high, along.clear), size), on);
  }
}

function pitchOf(size: Length, repeat: Repeat | undefined): Length {
  if (repeat === undefined) return size;
  return 'every' in repeat ? repeat.every : sum(size, repeat.apart);
}

/** A cut of that size and all its repeats have to lie on the edge. */
export function onTheEdge(
  cut: string,
  side: BoxSide,
  size: Length,
  room: Length,
  along: AlongEdge,
  repeat: Repeat | undefined,
  facet: OutlineFacet,
): Drawn<undefined> {
  const count = repeat?.times ?? 1;
  const pitch = pitchOf(size, repeat);
  const all = sum(size, times(pitch, count - 1));
  const needs = along === undefined ? all : sum(all, along.clear);
  if (compare(needs, room) <= 0) return drawn(undefined);
  const first = minus(needs, times(pitch, count - 1));
  const more = count > 1 && isPositive(pitch) ? floor(divide(minus(room, first), pitch)) : -1n;
  const most = more < 0n ? undefined : Number(more) + 1;
  const at: OutlineFacet = most === undefined ? facet : ['times'];
  return undrawn(
    fault('T12', at, (show) => ({ cut, side, needs: show(needs, 'up'), has: show(room, 'near'), most })),
  );
}

/**
 * Where the place of a cut belongs to a wall that is folded at its ends, it keeps within what of that is flat.
 *
 * @errors T43
 */
export function keptFlat(
  cut: string,
  wall: WallInFlat | undefined,
  starts: readonly Length[],
  size: Length,
  facet: OutlineFacet,
): Drawn<undefined> {
  if (wall === undefined) return drawn(undefined);
  const { name, low, from, to } = wall;
  const over = starts.find((it) => compare(it, from) < 0 || compare(sum(it, size), to) > 0);
  if (over === undefined) return drawn(undefined);
  return undrawn(
    fault('T43', facet, (show) => ({
      cut,
      wall: name,
      takes: `${show(minus(over, low))} to ${show(minus(sum(over, size), low), 'near')}`,
      has: `${show(minus(from, low))} to ${show(minus(to, low))}`,
    })),
  );
}

/** An outline's box by rational numbers: exact where it is, else in the middle of where it may be. */
export function boxForPlacing(outline: Outline, wall?: WallInFlat): HeldBox {
  const box = boxOf(outline);
  const settled = (side: BoxSide): Length =>
    isExact(box[side]) ? box[side].lo : millimetres(snapped(middleOf(box[side])));
  return {
    left: wall?.low ?? settled('left'),
    right: wall?.high ?? settled('right'),
    bottom: settled('bottom'),
    top: settled('top'),
  };
}

/** Draws along an edge (x, from its low end) and into the part (y). */
export function frameOf(side: BoxSide, { left, right, bottom, top }: HeldBox): Motion {
  switch (side) {
    case 'bottom':
      return { move: ({ x, y }) => point(x, add(bottom, y)), swapsHands: false };
    case 'top':
      return { move: ({ x, y }) => point(x, add(top, negate(y))), swapsHands: true };
    case 'left':
      return { move: ({ x, y }) => point(add(left, y), x), swapsHands: true };
    case 'right':
      return { move: ({ x, y }) => point(subtract(right, y), x), swapsHands: false };
  }
}

/** The two ends of an edge, and how deep the part is behind it. */
export function edgeRoom(
  side: BoxSide,
  { left, right, bottom, top }: HeldBox,
): { readonly low: Length; readonly high: Length; readonly depth: Length } {
  return side === 'bottom' || side === 'top'
    ? { low: left, high: right, depth: minus(top, bottom) }
    : { low: bottom, high: top, depth: minus(right, left) };
}
