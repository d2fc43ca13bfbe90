import type { CutPart } from '../expand/index.ts';
import {
  compare,
  equal,
  millimetres,
  minus,
  multiply,
  rational,
  roundToStep,
  subtract,
  sum,
  toFraction,
  zero,
} from '../measure/index.ts';
import type {
  Bevel,
  DrawnSide,
  Length,
  MaterialDemand,
  Outline,
  Point,
  SharedBlank,
} from '../model/index.ts';
import { edgesKey, headToTail, polygon } from '../outline/index.ts';
import { pairFlaws } from './checkPair.ts';
import { isHeld } from './held.ts';
import type { Pair } from './inPairs.ts';
import type { PairShape } from './pairShape.ts';

/**
 * Rectangles that end in a bevel, two in one blank: one slanting cut is an end of both. Seen from the side, the
 * second is the first turned half round.
 *
 *      ┌───────────────────┬─────────────────┐ lies up
 *      │        1         ╱        2         │
 *      └─────────────────┴───────────────────┘ lies below
 *      ├───────────────────┤
 *                        ├─┤ so much less than two
 *
 * What is turned so lies face down, which a good side forbids; where both its ends slant the same way, it is itself
 * again.
 *
 * @param step  graduation of the first rule: a blank that has no exact size is taken up to it
 */
export function bevelPairsOf(
  parts: readonly CutPart[],
  { rules, sheets }: MaterialDemand,
  step: Length,
): readonly Pair[] {
  return alikeBevelled(parts).flatMap((alike): readonly Pair[] => {
    const [first] = alike;
    const count = alike.reduce((all, { member }) => all + member.count, 0);
    if (first === undefined || count < 2) return [];
    const shapes = lengthways.flatMap((way) => bevelPair(first, way, rules.kerf, step) ?? []);
    const [best] = shapes.sort((a, b) => compare(millimetres(b.saved), millimetres(a.saved)));
    if (best === undefined || !sheets.some((sheet) => isHeld(best, sheet))) return [];
    return [{ of: { parts: alike }, shape: best }];
  });
}

/** The way that a blank is longer: along the length of its parts or along their width. */
interface Lengthways {
  readonly size: 'length' | 'width';
  readonly beside: 'length' | 'width';
  readonly low: DrawnSide;
  readonly high: DrawnSide;
}

const lengthways: readonly Lengthways[] = [
  { size: 'length', beside: 'width', low: 'left', high: 'right' },
  { size: 'width', beside: 'length', low: 'bottom', high: 'top' },
];

/** Plain rectangles but for their bevels, by what has to be the same of two that share a blank. */
function alikeBevelled(parts: readonly CutPart[]): readonly (readonly CutPart[])[] {
  const groups = new Map<string, CutPart[]>();
  for (const part of parts) {
    const { drawn, cutTo } = part.member;
    const { bevels = [], rebates, outline, leave, bores, folds } = drawn ?? {};
    const isPlain = [rebates, outline, leave, bores, folds, cutTo].every((it) => it === undefined);
    const isExact = bevels.every(({ back }) => equal(back.lo, back.hi));
    if (bevels.length === 0 || !isPlain || !isExact) continue;
    const { length, width, grain, flutes, goodSide } = part.worked;
    const sizes = [length, width].map(toFraction);
    const key = [...sizes, grain, flutes, goodSide, edgesKey({ bevels })].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), part]);
  }
  return [...groups.values()];
}

function bevelPair(
  { worked, member }: CutPart,
  way: Lengthways,
  kerf: Length,
  step: Length,
): PairShape | undefined {
  const bevels = member.drawn?.bevels ?? [];
  const [low, high] = [way.low, way.high].map((side) => bevels.find((it) => it.side === side));
  const [any] = [low, high].filter((it) => it !== undefined);
  if (any === undefined || (worked.goodSide && !isItselfTurned(low, high))) return undefined;
  const { thickness } = any;
  const [long, wide] = [worked[way.size], worked[way.beside]];
  const side = sideView(long, thickness, low, high);
  const box = { length: long, width: thickness };
  const pairing = side && headToTail(side, box, kerf);
  if (side === undefined || pairing?.along !== 'length') return undefined;
  const { lo, hi } = pairing.shift;
  const whole = equal(lo, hi) ? sum(long, hi) : roundToStep(sum(long, hi), step, 'up');
  const saved = subtract(multiply(multiply(long, wide), rational(2n)), multiply(whole, wide));
  if (saved.numerator <= 0n) return undefined;
  const further = minus(whole, long);
  const isFirst = pairing.first === 'as drawn';
  const [one, other] = isFirst ? [zero, further] : [further, zero];
  checkFromTheSide(side, box, { one, other, whole }, kerf);
  const place = (along: Length, across: Length): Point =>
    way.size === 'length' ? { x: along, y: across } : { x: across, y: along };
  // Of the first as drawn, the end at the cut.
  const bevel = isFirst ? high : low;
  const end = isFirst ? long : one;
  const inward = millimetres(bevel === undefined ? zero : bevel.back.hi);
  const shorter = isFirst ? minus(end, inward) : sum(end, inward);
  const [up, below] = bevel?.longFace === 'other' ? [shorter, end] : [end, shorter];
  return {
    ...(way.size === 'length' ? { length: whole, width: wide } : { length: wide, width: whole }),
    at: [place(one, zero), place(other, zero)],
    parting: { from: place(up, zero), to: place(up, wide) },
    slant: { below, isFaceDown: !isItselfTurned(low, high) },
    saved,
  };
}

/** Both ends slant the same way, so that a half-turn seen from the side changes nothing. */
function isItselfTurned(low: Bevel | undefined, high: Bevel | undefined): boolean {
  return (
    low !== undefined &&
    high !== undefined &&
    low.longFace !== high.longFace &&
    equal(low.back.lo, high.back.lo) &&
    equal(low.back.hi, high.back.hi)
  );
}

/** The good side at the bottom. */
function sideView(
  long: Length,
  thickness: Length,
  low: Bevel | undefined,
  high: Bevel | undefined,
): Outline | undefined {
  const inAt = (bevel: Bevel | undefined, face: Bevel['longFace']): Length =>
    bevel === undefined || bevel.longFace === face ? zero : bevel.back.hi;
  return polygon([
    { x: inAt(low, 'good'), y: zero },
    { x: minus(long, inAt(high, 'good')), y: zero },
    { x: minus(long, inAt(high, 'other')), y: thickness },
    { x: inAt(low, 'other'), y: thickness },
  ]).value;
}

interface Places {
  readonly one: Length;
  readonly other: Length;
  readonly whole: Length;
}

function checkFromTheSide(
  side: Outline,
  box: { readonly length: Length; readonly width: Length },
  { one, other, whole }: Places,
  kerf: Length,
): void {
  const at: SharedBlank['at'] = [
    { x: one, y: zero },
    { x: other, y: zero },
  ];
  const flaws = pairFlaws(side, box, { at, length: whole, width: box.width }, kerf);
  if (flaws.length > 0) throw new Error(`two bevelled parts don't go into one blank: ${flaws.join('; ')}`);
}
