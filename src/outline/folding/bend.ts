import {
  add,
  divide,
  equal,
  floor,
  isNegative,
  isZero,
  multiply,
  negate,
  rational,
  subtract,
} from '../../measure/index.ts';
import type { Enclosure, FoldAngle, Rational } from '../../model/index.ts';
import { addUp, angleOf, exactly, isExact, opposite, pi, timesExact } from '../enclosure.ts';
import { rootOf, widened } from '../root.ts';

/** How far something is turned, by sine and cosine. */
export interface Turn {
  readonly sine: Enclosure;
  readonly cosine: Enclosure;
}

export const noTurn: Turn = { sine: exactly(rational(0n)), cosine: exactly(rational(1n)) };

/** Exact where sine and cosine are rational: quarter turns, and slopes such as 3 in 4. */
export function turnOf(angle: FoldAngle): Turn {
  if (angle.kind === 'degrees') return turnOfDegrees(angle.degrees);
  const { rise, run } = angle;
  const slant = rootOf(add(multiply(rise, rise), multiply(run, run)));
  return { sine: shareOf(rise, slant), cosine: shareOf(run, slant) };
}

/** In degrees, between 0 and 180. */
export function degreesOf(angle: FoldAngle): Enclosure {
  if (angle.kind === 'degrees') return exactly(angle.degrees);
  const { rise, run } = angle;
  if (isZero(run)) return exactly(rational(90n));
  const radians = angleOf(divide(rise, run));
  const turn = isNegative(run) ? addUp(radians, pi()) : radians;
  const half = pi();
  return {
    lo: divide(multiply(turn.lo, rational(180n)), half.hi),
    hi: divide(multiply(turn.hi, rational(180n)), half.lo),
  };
}

/** One turn after the other. */
export function turnedBy(one: Turn, other: Turn): Turn {
  return {
    sine: short(addUp(product(one.sine, other.cosine), product(one.cosine, other.sine))),
    cosine: short(addUp(product(one.cosine, other.cosine), opposite(product(one.sine, other.sine)))),
  };
}

export function turnedBack({ sine, cosine }: Turn): Turn {
  return { sine: opposite(sine), cosine };
}

/** @param turn more than none and less than half round */
export function halfOf({ cosine }: Turn): Turn {
  // sin² = (1 − cos) / 2 and cos² = (1 + cos) / 2 of half the angle.
  const [one, two] = [rational(1n), rational(2n)];
  const root = (lo: Rational, hi: Rational): Enclosure => ({ lo: rootOf(lo).lo, hi: rootOf(hi).hi });
  const share = (cos: Rational, sign: 1n | -1n): Rational =>
    divide(add(one, multiply(cos, rational(sign))), two);
  return {
    sine: root(share(cosine.hi, -1n), share(cosine.lo, -1n)),
    cosine: root(share(cosine.lo, 1n), share(cosine.hi, 1n)),
  };
}

/** The tangent of half of it: how far back a mitre goes, over the thickness. */
export function mitreOf({ sine, cosine }: Turn): Enclosure {
  // tan(a / 2) = sin a / (1 + cos a)
  const one = rational(1n);
  return short({
    lo: divide(sine.lo, add(one, cosine.hi)),
    hi: divide(sine.hi, add(one, cosine.lo)),
  });
}

function turnOfDegrees(degrees: Rational): Turn {
  if (isNegative(degrees)) return turnedBack(turnOfDegrees(negate(degrees)));
  const quarters = floor(divide(degrees, rational(90n)));
  let turn = withinQuarter(subtract(degrees, rational(90n * quarters)));
  for (let i = quarters % 4n; i > 0n; i--) turn = { sine: turn.cosine, cosine: opposite(turn.sine) };
  return turn;
}

function withinQuarter(degrees: Rational): Turn {
  if (isZero(degrees)) return noTurn;
  // Up to 45 degrees the series is short; beyond, sine and cosine change places.
  const rest = subtract(rational(90n), degrees);
  if (isNegative(subtract(rest, degrees))) {
    const { sine, cosine } = withinQuarter(rest);
    return { sine: cosine, cosine: sine };
  }
  const radians = timesExact(pi(), divide(degrees, rational(180n)));
  const inFine = floor(multiply(radians.lo, rational(fine)));
  return { sine: series(inFine, inFine, 1n), cosine: series(fine, inFine, 0n) };
}

// Whole numbers of 2^-96. Each step loses less than one of them, the angle was rounded down by less than two, and
// there are fewer than forty steps; `slip` is more than all of that.
const fine = 2n ** 96n;
const slip = 2n ** 10n;

/**
 * @source sin x = x − x³/3! + x⁵/5! − …, cos x = 1 − x²/2! + x⁴/4! − …; from memory
 */
function series(first: bigint, x: bigint, power: bigint): Enclosure {
  const square = (x * x) / fine;
  let [term, sum, n] = [first, first, power];
  while (term !== 0n) {
    term = (-term * square) / fine / ((n + 1n) * (n + 2n));
    sum += term;
    n += 2n;
  }
  return { lo: rational(sum - slip, fine), hi: rational(sum + slip, fine) };
}

function shareOf(part: Rational, whole: Enclosure): Enclosure {
  const [one, other] = [divide(part, whole.hi), divide(part, whole.lo)];
  return isNegative(part) ? { lo: other, hi: one } : { lo: one, hi: other };
}

function product(a: Enclosure, b: Enclosure): Enclosure {
  if (isExact(b)) return timesExact(a, b.lo);
  const [one, other] = [timesExact(a, b.lo), timesExact(a, b.hi)];
  return { lo: least(one.lo, other.lo), hi: negate(least(negate(one.hi), negate(other.hi))) };
}

function least(a: Rational, b: Rational): Rational {
  return isNegative(subtract(a, b)) ? a : b;
}

/** What is exact stays so, however long its figures. */
function short(it: Enclosure): Enclosure {
  return equal(it.lo, it.hi) ? it : widened(it, fine);
}
