import { compareRationals } from '../measure/index.ts';
import type { Arc, Curve, Loop, Outline, Point } from '../model/index.ts';
import { radiusSquare } from './arc.ts';
import { split } from './curve.ts';
import { cross, half, isSame, less, sideOf, signOf, square } from './vector.ts';

export type Standing = 'inside' | 'outside' | 'edge';

/**
 * Where a point lies, decided in whole numbers. (Where a curve takes part, `edge` also stands for points that
 * are within a millionth of a millimetre of it.)
 */
export function standingOf({ rim, holes }: Outline, at: Point): Standing {
  return standingInLoops([rim, ...holes], at);
}

/**
 * Counts how often a ray to the right crosses the edges. An arc crosses as its chord does, and once more for
 * a point between the two:
 *
 *        ╭──╮ arc
 *       ╱ p  ╲              p moved by a hair to the right, and by a hair of a hair up, so that it never
 *      ●──────● chord       lies on a chord, nor a vertex on the ray
 */
export function standingInLoops(loops: readonly Loop[], at: Point): Standing {
  let isInside = false;
  for (const it of loops.flat()) {
    const crosses = crossesRay(it, at);
    if (crosses === 'edge') return 'edge';
    if (crosses) isInside = !isInside;
  }
  return isInside ? 'inside' : 'outside';
}

function crossesRay(it: Loop[number], at: Point): boolean | 'edge' {
  switch (it.kind) {
    case 'line':
      return isOnLine(it, at) ? 'edge' : chordCrosses(it, at);
    case 'arc':
      return arcCrosses(it, at);
    case 'curve':
      return curveCrosses(it, at, 0);
  }
}

interface Chord {
  readonly from: Point;
  readonly to: Point;
}

function isOnLine({ from, to }: Chord, at: Point): boolean {
  const isBetween = (axis: 'x' | 'y') =>
    compareRationals(from[axis], at[axis]) * compareRationals(to[axis], at[axis]) <= 0;
  return isBetween('x') && isBetween('y') && sideOf(from, to, at) === 0;
}

function chordCrosses({ from, to }: Chord, at: Point): boolean {
  const isAbove = ({ y }: Point) => compareRationals(y, at.y) > 0;
  if (isAbove(from) === isAbove(to)) return false;
  // To the left of an edge that goes up, or to the right of one that goes down.
  return sideOf(from, to, at) === (isAbove(to) ? 1 : -1);
}

function arcCrosses(arc: Arc, at: Point): boolean | 'edge' {
  if (isSame(arc.from, at) || isSame(arc.to, at)) return 'edge';
  const crosses = chordCrosses(arc, at);
  const off = compareRationals(square(less(at, arc.centre)), radiusSquare(arc));
  if (off > 0 || !isBehindChord(arc, at)) return crosses;
  return off === 0 ? 'edge' : !crosses;
}

/** On the arc's side of the chord, for a point within its circle or on it. */
function isBehindChord(arc: Arc, at: Point): boolean {
  const way = less(arc.to, arc.from);
  const side = signOf(cross(way, less(at, arc.from))) || -signOf(way.y) || signOf(way.x);
  return arc.turn === 'left' ? side < 0 : side > 0;
}

const mostHalvings = 26;

/** A curve crosses as its chord does for any point outside a box that holds the curve. */
function curveCrosses(it: Curve, at: Point, halvings: number): boolean | 'edge' {
  if (!isInItsBox(it, at)) return chordCrosses(it, at);
  if (isSame(it.from, at) || isSame(it.to, at) || halvings === mostHalvings) return 'edge';
  const [first, second] = split(it, half).map((part) => curveCrosses(part, at, halvings + 1));
  return first === 'edge' || second === 'edge' ? 'edge' : first !== second;
}

function isInItsBox({ from, leaving, arriving, to }: Curve, at: Point): boolean {
  const isAmong = (axis: 'x' | 'y') => {
    const sides = [from, leaving, arriving, to].map((it) => compareRationals(it[axis], at[axis]));
    return sides.some((it) => it <= 0) && sides.some((it) => it >= 0);
  };
  return isAmong('x') && isAmong('y');
}
