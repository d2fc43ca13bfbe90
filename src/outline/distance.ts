import { add, compareRationals, divide, multiply, subtract } from '../measure/index.ts';
import type { Arc, Line, Point, Rational } from '../model/index.ts';
import { radiusOf, spokes, sweepsOver } from './arc.ts';
import { between, cross, dot, less, signOf, square } from './vector.ts';

/** True where a point is at least so far from a line or an arc. */
export function isClearOf(it: Line | Arc, at: Point, distance: Rational): boolean {
  return it.kind === 'line' ? isClearOfLine(it, at, distance) : isClearOfArc(it, at, distance);
}

function isClearOfLine({ from, to }: Line, at: Point, distance: Rational): boolean {
  const way = less(to, from);
  const share = divide(dot(way, less(at, from)), square(way));
  const foot =
    signOf(share) <= 0 ? from : share.numerator >= share.denominator ? to : between(from, to, share);
  return isFurther(at, foot, distance);
}

//  Seen from the centre, a point is nearest to the arc where its spoke meets it, or else to one of its ends.
function isClearOfArc(arc: Arc, at: Point, distance: Rational): boolean {
  const spoke = less(at, arc.centre);
  if (signOf(square(spoke)) === 0) return compareRationals(radiusOf(arc).lo, distance) >= 0;
  const isAbreast = sweepsOver(arc, spoke) || spokes(arc).some((it) => isAlong(it, spoke));
  if (!isAbreast) return isFurther(at, arc.from, distance) && isFurther(at, arc.to, distance);
  const radius = radiusOf(arc).lo;
  const there = square(spoke);
  const [outer, inner] = [add(radius, distance), subtract(radius, distance)];
  if (compareRationals(there, multiply(outer, outer)) >= 0) return true;
  return signOf(inner) >= 0 && compareRationals(there, multiply(inner, inner)) <= 0;
}

function isAlong(a: Point, b: Point): boolean {
  return signOf(cross(a, b)) === 0 && signOf(dot(a, b)) > 0;
}

function isFurther(a: Point, b: Point, distance: Rational): boolean {
  if (signOf(distance) <= 0) return true;
  return compareRationals(square(less(a, b)), multiply(distance, distance)) >= 0;
}
