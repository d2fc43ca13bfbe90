import { compareRationals, multiply, rational, roundToStep, subtract, sum, zero } from '../measure/index.ts';
import type { Length, Outline, Point, Rational, SharedBlank } from '../model/index.ts';
import { areaOf, headToTail, type Pairing } from '../outline/index.ts';
import { partingOf } from './parting.ts';

export type PairShape = Omit<SharedBlank, 'labels'>;

interface Net {
  readonly length: Length;
  readonly width: Length;
}

/** Of what two blanks take, a shared one has to save so much: parting it by hand is work. Source: common practice, no source. */
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
  const most = subtract(two, multiply(two, leastSaved));
  // Two can't take less than what is within their rims.
  const bare = areaOf({ ...outline, holes: [] }).lo;
  if (compareRationals(multiply(bare, rational(2n)), most) > 0) return undefined;

  let best: { readonly way: Pairing; readonly box: Net; readonly area: Rational } | undefined;
  for (const way of headToTail(outline, net, kerf)) {
    const box = boxFor(way, net, step);
    const area = areaOfBox(box);
    if (best === undefined || compareRationals(area, best.area) < 0) best = { way, box, area };
  }
  if (best === undefined || compareRationals(best.area, most) > 0) return undefined;
  const { way, box, area } = best;
  const at = placesOf(way);
  return { ...box, at, parting: partingOf(outline, net, { box, at, kerf }), saved: subtract(two, area) };
}

/** Where the two boxes are one, the size stays as it is written. */
function boxFor({ along, shift }: Pairing, net: Net, step: Length): Net {
  if (shift.numerator === 0n) return net;
  return { ...net, [along]: roundToStep(sum(net[along], shift), step, 'up') };
}

function placesOf({ along, first, shift }: Pairing): readonly [Point, Point] {
  const datum: Point = { x: zero, y: zero };
  const further: Point = along === 'length' ? { x: shift, y: zero } : { x: zero, y: shift };
  return first === 'as drawn' ? [datum, further] : [further, datum];
}

function areaOfBox({ length, width }: Net): Rational {
  return multiply(length, width);
}
