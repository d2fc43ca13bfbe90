import { add, divide, floor, millimetres, multiply, rational, sum, zero } from '../measure/index.ts';
import type { Enclosure, Length, Outline, Rational, SlopeEnds } from '../model/index.ts';
import { addUp, exactly, isExact, lessBy, quotientOf, timesExact } from './enclosure.ts';
import { loopThrough } from './loop.ts';
import { asLengths, rootOf, widened } from './root.ts';
import { point } from './vector.ts';

/** A board that rises over a level run. */
export interface Inclination {
  readonly run: Length;
  readonly rise: Length;
  readonly thickness: Length;
  readonly ends: SlopeEnds;
}

/** What follows from it; all exact where the slope length √(run² + rise²) is rational. */
export interface SlopedBoard {
  /** The length that it is cut to, square, before its ends are bevelled. */
  readonly length: Enclosure<Length>;
  /** Its thickness, measured upright. */
  readonly plumb: Enclosure<Length>;
  /** How much further in a plumb end lies on one face than on the other. */
  readonly back: Length;
  /** What square ends leave open, measured level. */
  readonly gap: Enclosure<Length>;
  /** As it is seen from the side, on the datum, rising to the right. */
  readonly profile: Outline;
  /** From its lowest to its highest point, as the profile has it: never more than it is. */
  readonly height: Length;
  /** How far its top begins above its lowest point. */
  readonly foot: Length;
}

/**
 * A board of thickness t that rises s to the run, on the slope length L = √(run² + rise²):
 *
 *      plumb ends: L + t·s long, each end bevelled      square ends: L − t·s long
 *                        ●                                        ●╲ gap
 *      ┬        ╱   ╱    │                              gap  ╱   ╱  ●
 *      │ t·L/run   ╱     ●  rise                        ●   ╱  ╱    ┊ rise
 *      ┴ ●   ╱  ╱        ┬                              ┊╲ ╱  ╱     ┊
 *        │    ╱                                         ┊ ●         ┊
 *        ●  ── run ──                                   ── run ──────
 *
 * @source Pythagoras; the thickness measured upright is t / cos, and cos = run / L
 */
export function slopedBoard({ run, rise, thickness, ends }: Inclination): SlopedBoard {
  const slope = divide(rise, run);
  const long = rootOf(add(multiply(run, run), multiply(rise, rise)));
  const back = millimetres(multiply(thickness, slope));
  const plumb = timesExact(long, divide(thickness, run));
  const gap = quotientOf(exactly(multiply(thickness, rise)), long);
  const lengths = (it: Enclosure) => asLengths(widened(it));
  const common = { plumb: lengths(plumb), back };
  if (ends === 'plumb') {
    const foot = settled(plumb);
    const height = sum(rise, foot);
    const rim = [
      [zero, zero],
      [run, rise],
      [run, height],
      [zero, foot],
    ] as const;
    const gap = lengths(exactly(rational(0n)));
    const length = lengths(addUp(long, exactly(back)));
    return { ...common, length, gap, profile: profileOf(rim, isExact(plumb)), height, foot };
  }
  // Its lower end stands on its lower corner, out by the gap; its upper end touches with its lower corner, too.
  const upright = quotientOf(exactly(multiply(thickness, run)), long);
  const inward = lessBy(exactly(run), gap);
  const corner = timesExact(inward, slope);
  const [foot, height] = [settled(upright), settled(addUp(corner, upright))];
  const rim = [
    [settled(gap), zero],
    [run, settled(corner)],
    [settled(inward), height],
    [zero, foot],
  ] as const;
  const length = lengths(lessBy(long, exactly(back)));
  return { ...common, length, gap: lengths(gap), profile: profileOf(rim, isExact(long)), height, foot };
}

/** Corners of a profile that have no rational place are held to so many parts of a millimetre. */
const parts = 2000n;
const settledTo: Length = millimetres(rational(1n, 1000n));

/** Rounded down, so that what follows from it is never over what it has room for. */
function settled(it: Enclosure): Length {
  if (isExact(it)) return millimetres(it.lo);
  return millimetres(rational(floor(multiply(it.lo, rational(parts))), parts));
}

function profileOf(corners: readonly (readonly [Rational, Rational])[], isExactly: boolean): Outline {
  const rim = loopThrough(corners.map(([x, y]) => point(x, y)));
  return { rim, holes: [], marks: [], within: isExactly ? zero : settledTo };
}
