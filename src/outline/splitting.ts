import {
  add,
  compareRationals,
  divide,
  floor,
  multiply,
  negate,
  rational,
  subtract,
} from '../measure/index.ts';
import type { Arc, Curve, Point, Rational, Segment } from '../model/index.ts';
import { arcRound, radiusSquare, spokes } from './arc.ts';
import { doOverlap, hullOf, isNear, meetings, pairsOf } from './crossing.ts';
import { split } from './curve.ts';
import { lineTo } from './loop.ts';
import { snapped } from './root.ts';
import { cross, dot, half, isSame, less, signOf, square } from './vector.ts';

/** Points that lie within a touch of each other, as one of them. */
export class Pool {
  readonly #cells = new Map<string, Point[]>();

  /** The point itself, or one met before that is as good as it. */
  settled(at: Point): Point {
    const [x, y] = [cellOf(at.x), cellOf(at.y)];
    for (const dx of [0n, -1n, 1n]) {
      for (const dy of [0n, -1n, 1n]) {
        const known = this.#cells.get(`${x + dx} ${y + dy}`)?.find((it) => isNear(it, at));
        if (known !== undefined) return known;
      }
    }
    const cell = `${x} ${y}`;
    this.#cells.set(cell, [...(this.#cells.get(cell) ?? []), at]);
    return at;
  }
}

/** A cell is wider than a touch, so near points are neighbours at most. */
function cellOf(a: Rational): bigint {
  return floor(multiply(a, rational(2n ** 16n)));
}

/**
 * Cuts all segments where any two of them meet, so that afterwards they share no more than ends, or the whole
 * of themselves. What is shorter than a touch is left out.
 */
export function cutWhereTheyMeet(
  groups: readonly (readonly Segment[])[],
  pool: Pool,
): readonly (readonly Segment[])[] {
  const all = groups.flat();
  for (const { from } of all) pool.settled(from);
  const met: Point[][] = all.map(() => []);
  for (const [i, j] of pairsOf(all.map(hullOf))) {
    const points = meetings(all[i]!, all[j]!).map((at) => pool.settled(at)); // both within
    met[i]!.push(...points);
    met[j]!.push(...points);
  }
  let next = 0;
  return groups.map((group) =>
    group.flatMap((it) => {
      const cut = cutAt(it, met[next]!, pool);
      next++;
      return cut;
    }),
  );
}

function cutAt(it: Segment, met: readonly Point[], pool: Pool): readonly Segment[] {
  const [from, to] = [pool.settled(it.from), pool.settled(it.to)];
  const inner = met.filter((at, i) => !isSame(at, from) && !isSame(at, to) && met.indexOf(at) === i);
  const stops = [from, ...inOrderAlong(it, inner), to];
  return piecesOf(it, stops).filter((piece) => !isSame(piece.from, piece.to));
}

/** A segment in pieces that end at points on it, in whatever order these are given. */
export function partedAt(it: Segment, inner: readonly Point[]): readonly Segment[] {
  return piecesOf(it, [it.from, ...inOrderAlong(it, inner), it.to]);
}

function inOrderAlong(it: Segment, met: readonly Point[]): readonly Point[] {
  if (met.length < 2) return met;
  return met
    .map((at) => ({ at, place: placeAlong(it, at) }))
    .sort((a, b) => compareRationals(a.place, b.place))
    .map(({ at }) => at);
}

/** A number that grows along a segment. */
function placeAlong(it: Segment, at: Point): Rational {
  switch (it.kind) {
    case 'line':
      return dot(less(it.to, it.from), less(at, it.from));
    case 'arc':
      return placeOnArc(it, at);
    case 'curve':
      return shareOf(it, at, 0) ?? rational(0n);
  }
}

/** From 0 over 2 at half a turn to 4 after a whole one: 1 − cos φ, then 3 + cos φ. */
function placeOnArc(arc: Arc, at: Point): Rational {
  const [first] = spokes(arc);
  const spoke = less(at, arc.centre);
  const turned = arc.turn === 'left' ? cross(first, spoke) : negate(cross(first, spoke));
  const cosine = divide(dot(first, spoke), radiusSquare(arc));
  return signOf(turned) >= 0 ? subtract(rational(1n), cosine) : add(rational(3n), cosine);
}

function piecesOf(it: Segment, stops: readonly Point[]): readonly Segment[] {
  if (it.kind === 'curve') return piecesOfCurve(it, stops);
  return stops.slice(1).map((to, i): Segment => {
    const from = stops[i]!;
    if (it.kind === 'line' || isSame(from, to)) return lineTo(from, to);
    return arcRound(from, to, it.centre, it.turn, it.radius);
  });
}

function piecesOfCurve(curve: Curve, stops: readonly Point[]): readonly Segment[] {
  const pieces: Curve[] = [];
  let [rest, done] = [curve, rational(0n)];
  for (const stop of stops.slice(1, -1)) {
    const share = shareOf(curve, stop, 0) ?? done;
    const left = subtract(rational(1n), done);
    const [piece, after] = split(rest, snapped(divide(subtract(share, done), left)));
    pieces.push({ ...piece, to: stop });
    rest = { ...after, from: stop };
    done = share;
  }
  return [...pieces, { ...rest, to: stops.at(-1)! }].map((piece, i) => ({ ...piece, from: stops[i]! }));
}

const mostHalvings = 16;

/** How much of the parameter's way a point of the curve lies along. */
function shareOf(curve: Curve, at: Point, halvings: number): Rational | undefined {
  if (!doOverlap(hullOf(curve), { left: at.x, right: at.x, bottom: at.y, top: at.y })) return undefined;
  if (halvings === mostHalvings) {
    const way = less(curve.to, curve.from);
    const share = divide(dot(less(at, curve.from), way), square(way));
    return signOf(share) < 0 ? rational(0n) : share.numerator > share.denominator ? rational(1n) : share;
  }
  const [first, second] = split(curve, half);
  const inFirst = shareOf(first, at, halvings + 1);
  if (inFirst !== undefined) return multiply(inFirst, half);
  const inSecond = shareOf(second, at, halvings + 1);
  return inSecond === undefined ? undefined : add(half, multiply(inSecond, half));
}
