import { add, compareRationals, multiply, opposite, rational, sum } from '../../measure/index.ts';
import type { Length, Outline, Point, Segment } from '../../model/index.ts';
import { arcRound, isOnItsSide, sweepsOver } from '../arc.ts';
import { boxOf } from '../box.ts';
import { keepsBetween } from '../curve.ts';
import { heightsAt } from '../heights.ts';
import { arrivingOf, leavingOf, reversed } from '../loop.ts';
import { cross, isSame, point, signOf, square } from '../vector.ts';

/** The upper edge of an outline, from its left end to its right. */
export type TopEdge = readonly Segment[];

/**
 * The upper edge of an outline: what a card can be laid over from above.
 *
 *        ╭──╮ ───● b
 *    a ●─╯  ╰─╯  │       from the upper left corner a to the upper right one b
 *      └─────────┘
 *
 * @returns `turnsBack` is the place along the base where it goes back under itself
 */
export function topEdgeOf(outline: Outline): { readonly edge: TopEdge } | { readonly turnsBack: Length } {
  const rim = outline.rim.flatMap(cutAtSides);
  const { left, right } = boxOf(outline);
  const corners = rim.map(({ from }) => from);
  const [first, last] = [highestAt(corners, left.lo), highestAt(corners, right.hi)];
  if (first === undefined || last === undefined) {
    return { turnsBack: first === undefined ? left.lo : right.hi };
  }
  // The rim runs against the clock, so above it goes from the right to the left.
  const start = corners.indexOf(last);
  const round = [...rim.slice(start), ...rim.slice(0, start)];
  const end = round.findIndex(({ to }) => isSame(to, first));
  const edge = reversed(round.slice(0, end + 1));
  const back = edge.find((it) => !goesOn(it));
  return back === undefined ? { edge } : { turnsBack: back.from.x };
}

/** An arc that reaches furthest to a side between its ends, cut there. */
function cutAtSides(it: Segment): readonly Segment[] {
  if (it.kind !== 'arc' || it.radius === undefined) return [it];
  const { centre, radius } = it;
  const sides = [radius, opposite(radius)]
    .filter((out) => sweepsOver(it, { x: out, y: rational(0n) }))
    .map((out) => point(add(centre.x, out), centre.y));
  const [one, two] = sides;
  const isLater = one !== undefined && two !== undefined && isOnItsSide({ ...it, to: one }, two);
  const ends = [it.from, ...(isLater ? [two, one] : sides), it.to];
  return ends.slice(1).map((to, i) => arcRound(ends[i]!, to, centre, it.turn, radius)); // one before each
}

function highestAt(corners: readonly Point[], x: Length): Point | undefined {
  const there = corners.filter((it) => compareRationals(it.x, x) === 0);
  return there.reduce<Point | undefined>(
    (high, it) => (high === undefined || compareRationals(it.y, high.y) > 0 ? it : high),
    undefined,
  );
}

/** True for what never goes back to the left. */
function goesOn(it: Segment): boolean {
  if (compareRationals(it.from.x, it.to.x) > 0) return false;
  switch (it.kind) {
    case 'line':
      return true;
    case 'arc':
      return [1n, -1n].every((sign) => !sweepsOver(it, { x: rational(sign), y: rational(0n) }));
    case 'curve':
      return keepsBetween(it, 'x');
  }
}

/** Where an edge turns at a point, and which way: over a crest, or into a hollow. */
export interface Turn {
  readonly at: Point;
  readonly before: Segment;
  readonly after: Segment;
  readonly bends: 'over' | 'into';
}

/** The corners of an edge; smooth joints are none. */
export function turnsOf(edge: TopEdge): readonly Turn[] {
  return edge.slice(1).flatMap((after, i): readonly Turn[] => {
    const before = edge[i]!; // one before each
    const [came, goes] = [arrivingOf(before), leavingOf(after)];
    const turn = cross(came, goes);
    const most = multiply(multiply(square(came), square(goes)), smoothly);
    if (compareRationals(multiply(turn, turn), most) <= 0) return [];
    return [{ at: after.from, before, after, bends: signOf(turn) > 0 ? 'into' : 'over' }];
  });
}

/** The square of the sine of a turn that is none: points without a rational place are held to a grid. */
const smoothly = rational(1n, 2n ** 40n);

/** Where two edges differ, and how high either is there; undefined where they are one and the same. */
export function differenceOf(
  one: Outline,
  other: Outline,
  edge: TopEdge,
): { readonly at: Length } | undefined {
  const places = edge.flatMap(({ from, to }) => {
    const step = multiply(add(to.x, { ...from.x, numerator: -from.x.numerator }), rational(1n, sampled));
    return Array.from(
      { length: Number(sampled) + 1 },
      (_, i) => point(add(from.x, multiply(step, rational(BigInt(i)))), from.y).x,
    );
  });
  const at = places.find((x) => {
    const [a, b] = [heightsAt(one, x), heightsAt(other, x)];
    if (a === undefined || b === undefined) return true;
    const isApart = (low: Length, high: Length) => compareRationals(sum(high, hardly), low) < 0;
    return isApart(a.top.lo, b.top.hi) || isApart(b.top.lo, a.top.hi);
  });
  return at && { at };
}

const sampled = 8n;
/** Less than anybody could see. */
const hardly = point(rational(1n, 1000n), rational(0n)).x;
