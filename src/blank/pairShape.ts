import {
  compareRationals,
  minus,
  multiply,
  rational,
  roundToStep,
  subtract,
  sum,
  zero,
} from '../measure/index.ts';
import type { Length, Outline, Point, Rational, SharedBlank } from '../model/index.ts';
import { areaOf, headToTail, type Pairing } from '../outline/index.ts';
import { partingOf } from './parting.ts';

export type PairShape = Omit<SharedBlank, 'labels'>;

interface Net {
  readonly length: Length;
  readonly width: Length;
}

/** Of what two blanks take, a shared one has to save so much: parting it is work. Source: common practice, no source. */
const leastSaved = rational(1n, 5n);

/**
 * The smallest blank that holds an outline and its half-turn, a kerf apart; undefined where it saves less than
 * a fifth of two.
 *
 * @param step  graduation of the rule that the blank's new size is taken up to
 */
export function pairShape(
  outline: Outline,
  net: Net,
  { kerf, step }: { readonly kerf: Length; readonly step: Length },
): PairShape | undefined {
  const two = multiply(areaOfBox(net), rational(2n));
  const way = headToTail(outline, net, kerf);
  if (way === undefined) return undefined;
  const box = placedIn(way, net, step);
  const area = areaOfBox(box);
  if (isTooLittle(subtract(two, area), two)) return undefined;
  return { ...box, parting: partingOf(outline, net, { box, at: box.at, kerf }), saved: subtract(two, area) };
}

/** What two by two could save at most, in mm²; undefined where that is too little to be worth it. */
export function mostSaved(outline: Outline, net: Net): Rational | undefined {
  const two = multiply(areaOfBox(net), rational(2n));
  const within = areaOf({ ...outline, holes: [] }).lo;
  const saved = subtract(two, multiply(within, rational(2n)));
  return isTooLittle(saved, two) ? undefined : saved;
}

function isTooLittle(saved: Rational, two: Rational): boolean {
  return compareRationals(saved, multiply(two, leastSaved)) < 0;
}

/**
 * The blank, taken up to a mark, with the two in its opposite corners. A curve is known to a hundredth of a
 * millimetre: what that alone would take up to the next mark stays at the one before.
 */
function placedIn(
  { along, first, shift }: Pairing,
  net: Net,
  step: Length,
): Pick<PairShape, 'length' | 'width' | 'at'> {
  const box = boxFor(along, shift.lo, net, step);
  const datum: Point = { x: zero, y: zero };
  const further: Point = { x: minus(box.length, net.length), y: minus(box.width, net.width) };
  return { ...box, at: first === 'as drawn' ? [datum, further] : [further, datum] };
}

/** Where the two boxes are one, the size stays as it is written. */
function boxFor(along: Pairing['along'], shift: Length, net: Net, step: Length): Net {
  if (shift.numerator === 0n) return net;
  return { ...net, [along]: roundToStep(sum(net[along], shift), step, 'up') };
}

function areaOfBox({ length, width }: Net): Rational {
  return multiply(length, width);
}
