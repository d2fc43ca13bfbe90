import { add, divide, multiply, rational, subtract } from '../../measure/index.ts';
import type { Rational } from '../../model/index.ts';
import { signOf } from '../vector.ts';

/** How a smooth line leaves its first point and comes to its last: level, or as it likes. */
export type End = 'flat' | 'free';

/**
 * Slopes for a piecewise cubic through points, such that between two of them it never leaves what lies between
 * them: rising where they rise, level at a crest.
 *
 * At a point between two secants of one sign the slope is their harmonic mean, weighted by the runs h:
 *   1/m = α/S₀ + (1 − α)/S₁   with   α = (h₀ + 2h₁) / 3(h₀ + h₁)
 * so at most three times the smaller secant, which is enough for a piece to be monotone. It is chosen since it
 * is rational, local (a point moved changes four pieces), the same read from either end, and can't overshoot.
 *
 * A free end has no bend at it, m₀ = (3S₀ − m₁)/2, and so stays within the same limit.
 *
 * @param at      places of the points, each above the one before
 * @param heights as many; at least two
 * @source Fritsch and Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM J.
 *         Sci. Stat. Comput. 5 (1984) 300–304, with Brodlie's weights; from memory. The free end: ours
 */
export function slopesThrough(
  at: readonly Rational[],
  heights: readonly Rational[],
  ends: readonly [End, End],
): readonly Rational[] {
  const runs = at.slice(1).map((it, i) => subtract(it, at[i]!));
  const secants = runs.map((run, i) => divide(subtract(heights[i + 1]!, heights[i]!), run));
  const inner = secants.slice(1).map((next, i) => meanSlope(secants[i]!, next, runs[i]!, runs[i + 1]!));
  const [first, last] = [secants[0]!, secants.at(-1)!]; // two points have a secant
  const flat = rational(0n);
  if (inner.length === 0) return slopesOfOne(first, ends);
  return [
    ends[0] === 'flat' ? flat : freeSlope(first, inner[0]!),
    ...inner,
    ends[1] === 'flat' ? flat : freeSlope(last, inner.at(-1)!),
  ];
}

function meanSlope(before: Rational, after: Rational, run: Rational, nextRun: Rational): Rational {
  if (signOf(before) * signOf(after) <= 0) return rational(0n);
  const both = multiply(rational(3n), add(run, nextRun));
  const alpha = divide(add(run, multiply(rational(2n), nextRun)), both);
  const inverse = add(divide(alpha, before), divide(subtract(rational(1n), alpha), after));
  return divide(rational(1n), inverse);
}

function freeSlope(secant: Rational, next: Rational): Rational {
  return divide(subtract(multiply(rational(3n), secant), next), rational(2n));
}

function slopesOfOne(secant: Rational, ends: readonly [End, End]): readonly Rational[] {
  const flat = rational(0n);
  if (ends[0] === 'free' && ends[1] === 'free') return [secant, secant];
  return ends.map((end) => (end === 'flat' ? flat : freeSlope(secant, flat)));
}
