import { compareRationals, divide, multiply, negate, rational } from '../../measure/index.ts';
import type { Curve, Enclosure, Length, Point, Rational, Segment } from '../../model/index.ts';
import { radiusOf } from '../arc.ts';
import { split } from '../curve.ts';
import { asLengths, rootOf, snapped, widened } from '../root.ts';
import { cross, dot, half, less, middle, signOf, square, type Vector } from '../vector.ts';
import { type TopEdge, turnsOf } from './topEdge.ts';

/** How tightly an edge bends at its tightest, over a crest or into a hollow. */
export interface Tightest {
  /** Of the edge itself; 0 at a corner. */
  readonly radius: Enclosure<Length>;
  readonly at: Point;
}

/**
 * The least radius of an edge where it goes over a crest, or into a hollow: exact for arcs, enclosed for curves.
 * undefined where it nowhere does.
 */
export function tightestOf(edge: TopEdge, bends: 'over' | 'into'): Tightest | undefined {
  const corner = turnsOf(edge).find((it) => it.bends === bends);
  if (corner !== undefined)
    return { radius: asLengths({ lo: rational(0n), hi: rational(0n) }), at: corner.at };
  const found = edge.flatMap((it) => tightestIn(it, bends));
  return found.reduce<Tightest | undefined>(
    (least, it) => (least === undefined || compareRationals(it.radius.lo, least.radius.lo) < 0 ? it : least),
    undefined,
  );
}

function tightestIn(it: Segment, bends: 'over' | 'into'): readonly Tightest[] {
  switch (it.kind) {
    case 'line':
      return [];
    case 'arc':
      // From left to right over a crest is with the clock.
      return (it.turn === 'right') === (bends === 'over')
        ? [{ radius: asLengths(radiusOf(it)), at: it.from }]
        : [];
    case 'curve':
      return tightestOfCurve(it, bends);
  }
}

interface Piece {
  readonly curve: Curve;
  /** The square of the most that it bends the way asked for. */
  readonly most: Rational;
}

const mostPieces = 400;

/**
 * The bend of B is B'×B'' / |B'|³. Of a piece, the products of the control points of B' and B'' bound the first,
 * the shortest of B' the second; the piece with the highest bound is halved until it is little above what is reached.
 */
function tightestOfCurve(curve: Curve, bends: 'over' | 'into'): readonly Tightest[] {
  const sign = bends === 'over' ? -1 : 1;
  let pieces: readonly Piece[] = [{ curve, most: mostBend(curve, sign) }];
  let reached: { readonly bend: Rational; readonly at: Point } = largerOf(
    bendAtStart(curve, sign),
    bendAtEnd(curve, sign),
  );
  for (let count = 0; count < mostPieces; count++) {
    const [worst] = pieces;
    if (worst === undefined || isLittleAbove(worst.most, reached.bend)) break;
    const halves = split(worst.curve, half).map(short);
    const [first] = halves;
    if (first !== undefined) reached = largerOf(reached, bendAtEnd(first, sign));
    pieces = [...pieces.slice(1), ...halves.map((it) => ({ curve: it, most: mostBend(it, sign) }))]
      .filter(({ most }) => compareRationals(most, reached.bend) > 0)
      .sort((a, b) => compareRationals(b.most, a.most));
  }
  const most = pieces[0]?.most ?? reached.bend;
  if (compareRationals(most, hardly) <= 0) return [];
  const lo = divide(rational(1n), rootOf(most).hi);
  const hi =
    compareRationals(reached.bend, hardly) <= 0 ? straight : divide(rational(1n), rootOf(reached.bend).lo);
  return [tight(lo, hi, reached.at)];
}

/** A radius of a hundred metres is none worth naming; and the square of the bend that it is. */
const straight = rational(100_000n);
const hardly = divide(rational(1n), multiply(straight, straight));

function tight(lo: Rational, hi: Rational, at: Point): Tightest {
  return { radius: asLengths(widened({ lo, hi }, 2n ** 40n)), at };
}

function isLittleAbove(most: Rational, reached: Rational): boolean {
  if (compareRationals(most, hardly) <= 0) return true;
  return compareRationals(most, multiply(reached, rational(1001n, 1000n))) <= 0;
}

function largerOf<T extends { readonly bend: Rational }>(a: T, b: T): T {
  return compareRationals(a.bend, b.bend) >= 0 ? a : b;
}

/** Figures stay short, and the curve stays where it is to a trillionth of a millimetre. */
function short(it: Curve): Curve {
  const near = ({ x, y }: Point): Point => ({ x: snapped(x, fine) as Length, y: snapped(y, fine) as Length }); // lengths as before
  return {
    kind: 'curve',
    from: near(it.from),
    leaving: near(it.leaving),
    arriving: near(it.arriving),
    to: near(it.to),
  };
}

const fine = 2n ** 80n;

function bendAtStart({ from, leaving, arriving }: Curve, sign: 1 | -1) {
  const [first, second] = [less(leaving, from), less(arriving, leaving)];
  return { bend: bendBy(first, less(second, first), sign), at: from };
}

function bendAtEnd({ leaving, arriving, to }: Curve, sign: 1 | -1) {
  const [second, third] = [less(arriving, leaving), less(to, arriving)];
  return { bend: bendBy(third, less(third, second), sign), at: to };
}

/** The square of the bend, from B'/3 and B''/6; 0 where it bends the other way. */
function bendBy(way: Vector, change: Vector, sign: 1 | -1): Rational {
  const turn = cross(way, change);
  const long = square(way);
  if (signOf(turn) !== sign || signOf(long) === 0) return rational(0n);
  return squareOfBend(turn, long);
}

//  κ = 18 (u × w) / 27 |u|³ for u = B'/3, w = B''/6.
function squareOfBend(turn: Rational, long: Rational): Rational {
  const over = multiply(rational(4n, 9n), multiply(turn, turn));
  return divide(over, multiply(long, multiply(long, long)));
}

function mostBend({ from, leaving, arriving, to }: Curve, sign: 1 | -1): Rational {
  const ways = [less(leaving, from), less(arriving, leaving), less(to, arriving)];
  const changes = [less(ways[1]!, ways[0]!), less(ways[2]!, ways[1]!)]; // three of three
  const turns = ways.flatMap((way) => changes.map((change) => cross(way, change)));
  const signed = turns.map((it) => (sign > 0 ? it : negate(it)));
  const turn = signed.reduce((a, b) => (compareRationals(a, b) >= 0 ? a : b));
  if (signOf(turn) <= 0) return rational(0n);
  return squareOfBend(turn, leastSquare(ways));
}

/** No more than the square of the shortest way between some: how far they all go in one direction. */
function leastSquare(ways: readonly Vector[]): Rational {
  const [first, last] = [ways[0]!, ways.at(-1)!]; // three of them
  const mean = middle(first, last);
  const goes = ways.map((way) => dot(way, mean)).reduce((a, b) => (compareRationals(a, b) <= 0 ? a : b));
  const long = square(mean);
  if (signOf(goes) <= 0 || signOf(long) === 0) return tiny;
  return divide(multiply(goes, goes), long);
}

/** Where a curve all but stands still: as tight as can be. */
const tiny = rational(1n, 2n ** 60n);
