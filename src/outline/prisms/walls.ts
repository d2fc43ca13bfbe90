import {
  absolute,
  add,
  compareRationals,
  divide,
  inOrder,
  larger,
  multiply,
  negate,
  rational,
  smaller,
  subtract,
} from '../../measure/index.ts';
import type { Enclosure, Length, Panel, Point, Rational, Segment, Way } from '../../model/index.ts';
import { timesExact } from '../enclosure.ts';
import { piecesOf } from '../flatten.ts';
import { lengthOf } from '../perimeter.ts';
import { between, cross, dot, less, plus, point, signOf } from '../vector.ts';
import { planeAcross } from './prism.ts';
import { cutAt } from './strip.ts';
import { cornersSeen, type Pierced } from './zones.ts';

/** A wall of a cut, or a side, of a panel. */
export interface Wall {
  readonly way: Way;
  readonly end: 'low' | 'high';
  /** In mm². */
  readonly area: Enclosure;
}

/** A side of a panel, or a wall of a cut in it, that looks squarely the way that the panel is looked along. */
export interface SquareWall {
  readonly end: 'low' | 'high';
  /** How far along that way it lies. */
  readonly at: Length;
  /** As it is seen along that way, where it stands. */
  readonly seen: readonly Point[];
}

/**
 * What is cut square to the faces of a panel, and along it: seen along the way through its block, each is a strip
 * across the panel.
 *
 *           ╱╱ to
 *         ╱▒▒
 *       ╱▒▒ from
 *     ╱╱
 */
export function squareWallsOf(shape: Pierced): readonly SquareWall[] {
  const { block, stance } = shape;
  return shape.panels.flatMap((panel) =>
    edgesOf(panel).flatMap((edge): readonly SquareWall[] => {
      if (!isAlong(edge)) return [];
      const seen = stripAcross(shape, panel, edge);
      if (seen.length < 3) return [];
      // The material lies to the left of travel.
      const end = compareRationals(edge.from.x, edge.to.x) < 0 ? 'low' : 'high';
      const at = point(add(block.low[stance.thickness], edge.from.y), rational(0n)).x;
      return [{ end, at, seen }];
    }),
  );
}

/** All other walls of cuts; one that slants or bends counts where it looks most. */
export function slantedWallsOf(shape: Pierced): readonly Wall[] {
  return shape.panels.flatMap((panel) =>
    edgesOf(panel)
      .filter((edge) => !isAlong(edge) && !isAtEnd(edge, panel))
      .map((edge): Wall => ({ ...looksOf(edge, panel, shape), area: areaOfWall(edge, panel, shape) })),
  );
}

const known = new WeakMap<Panel['outline'], readonly Segment[]>();

function edgesOf({ outline }: Panel): readonly Segment[] {
  const found = known.get(outline) ?? [outline.rim, ...outline.holes].flat().flatMap(piecesOf);
  known.set(outline, found);
  return found;
}

function isAlong(it: Segment): boolean {
  return it.kind === 'line' && compareRationals(it.from.y, it.to.y) === 0;
}

/** An edge at a fold, or where the whole ends, is none of a cut. */
function isAtEnd({ from, to }: Segment, panel: Panel): boolean {
  return (
    [from, to].every(({ x }) => compareRationals(x, panel.from) <= 0) ||
    [from, to].every(({ x }) => compareRationals(x, panel.to) >= 0)
  );
}

/** What of a panel lies between the ends of an edge; all the way to its corner where that goes on into a fold. */
function stripAcross(shape: Pierced, panel: Panel, { from, to }: Segment): readonly Point[] {
  const { block, stance } = shape;
  const plane = planeAcross(stance.thickness);
  const datum = point(block.low[plane.right], block.low[plane.up]);
  const [left, right] = inOrder(from.x, to.x);
  if (compareRationals(left, panel.to) >= 0 || compareRationals(right, panel.from) <= 0) return [];
  const { at, onward } = panel;
  const start = dot(plus(at, datum), onward);
  let seen = cornersSeen(panel, datum);
  if (compareRationals(left, panel.from) > 0) seen = cutAt(seen, onward, add(start, left));
  if (compareRationals(right, panel.to) < 0)
    seen = cutAt(seen, less(origin, onward), negate(add(start, right)));
  return seen;
}

const origin = point(rational(0n), rational(0n));

/** As long as its edge, as deep as its panel is there on average. */
function areaOfWall(edge: Segment, panel: Panel, shape: Pierced): Enclosure {
  const run = subtract(edge.to.x, edge.from.x);
  const long = lengthOf(edge);
  if (run.numerator !== 0n) {
    const share = divide(areaOf(stripAcross(shape, panel, edge)), absolute(run));
    return timesExact(long, share);
  }
  return timesExact(long, depthAt(panel, edge.from.x));
}

function areaOf(corners: readonly Point[]): Rational {
  const [first = origin] = corners;
  const twice = corners.reduce((all, at, i) => {
    const next = corners[(i + 1) % corners.length]!; // within
    return add(all, cross(less(at, first), less(next, first)));
  }, rational(0n));
  return divide(absolute(twice), rational(2n));
}

/** How thick a panel is at a place along it: less than all where its end slants. */
function depthAt({ seen, at, onward }: Panel, x: Rational): Rational {
  const upward = { x: negate(onward.y), y: onward.x };
  const heights = seen.flatMap((from, i) => {
    const to = seen[(i + 1) % seen.length]!; // within
    const [here, there] = [from, to].map((it) => subtract(dot(less(it, at), onward), x)) as [
      Rational,
      Rational,
    ];
    if (signOf(here) * signOf(there) > 0 || (signOf(here) === 0 && signOf(there) === 0)) return [];
    return [dot(between(from, to, divide(here, subtract(here, there))), upward)];
  });
  const [low, high] = [
    heights.reduce(smaller, heights[0] ?? rational(0n)),
    heights.reduce(larger, heights[0] ?? rational(0n)),
  ];
  return subtract(high, low);
}

function looksOf({ from, to }: Segment, { onward }: Panel, { stance }: Pierced): Pick<Wall, 'way' | 'end'> {
  const plane = planeAcross(stance.thickness);
  const { x, y } = less(to, from);
  // To the right of travel lies (y, −x): so far onward, and so far along the way through the block.
  const parts: readonly (readonly [Way, Rational])[] = [
    [plane.up, multiply(y, onward.y)],
    [plane.right, multiply(y, onward.x)],
    [stance.thickness, negate(x)],
  ];
  const [way, part] = parts.reduce((a, b) => (compareRationals(absolute(b[1]), absolute(a[1])) > 0 ? b : a));
  return { way, end: part.numerator > 0n ? 'high' : 'low' };
}
