import type { Length, Rational } from '../model/index.ts';
import { inches, millimetres } from './length.ts';
import { add, compareRationals, multiply, negate, rational, whole } from './rational.ts';
import { footMarks, inchMarks, type Unit, unitOf } from './units.ts';

/**
 * The notation of measures that are accepted, and nothing else. What is left out here on purpose is told
 * to the user by `refusing.ts`.
 *
 *   measure   [minus] amount [unit]   |   [minus] whole foot-unit [inches inch-unit]
 *   amount    2 · 3/8 · 2 3/8 · 2-3/8 · ⅜ · 2⅜ · 2 ⅜ · 2.375 · .375
 */

/** What was written, worth its exact value. */
export interface Measure {
  readonly negative: boolean;
  /** Without its sign; in millimetres where a unit was written. */
  readonly amount: Rational;
  /** The unit, that of the inches in feet and inches. */
  readonly unit: Unit | undefined;
}

/** Any kind of space that can be seen; the unseen ones (U+200B, U+2060, U+FEFF) join nothing. */
export const space = '[\\t\\n\\v\\f\\r\\p{Z}]';
/** Hyphen-minus, hyphen, non-breaking hyphen: they join a whole number and its fraction. */
export const hyphen = '[-\\u2010\\u2011]';
/** Hyphens, dashes and the minus: whatever may have been meant as one of them. */
export const anyDash = '[-\\u2010-\\u2015\\u2212]';
/** Solidus, fraction slash, division slash. */
export const slash = '[/\\u2044\\u2215]';
/** `⅟`, which needs digits behind it. */
export const oneOver = '\\u215f';

/** Source: the Unicode character database. */
const vulgarFractions: ReadonlyMap<string, Rational> = new Map(
  '¼1/4 ½1/2 ¾3/4 ⅐1/7 ⅑1/9 ⅒1/10 ⅓1/3 ⅔2/3 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8 ↉0/3'
    .split(' ')
    .map((it): [string, Rational] => {
      const [top, bottom] = it.slice(1).split('/') as [string, string]; // the table above holds a slash in each
      return [it.slice(0, 1), rational(BigInt(top), BigInt(bottom))];
    }),
);
export const vulgar = `[${[...vulgarFractions.keys()].join('')}]`;

const fractionSign = `(?:${vulgar}|${oneOver}\\d+)`;
export const fraction = `(?:\\d+${slash}\\d+|${fractionSign})`;
export const amount = [
  '\\d*\\.\\d+',
  `(?:\\d+(?:${space}+|${hyphen}))?\\d+${slash}\\d+`,
  `(?:\\d+(?:${space}*|${hyphen}))?${fractionSign}`,
  '\\d+',
].join('|');
export const mark = `(?:[${inchMarks}]|[${footMarks}]{1,2})`;
export const unitWord = '\\p{L}+\\.?';

const unit = `(?:${mark}|${unitWord})`;
const plain = `(?<amount>${amount})(?:${space}*(?<unit>${unit}))?`;
const feetAndInches = `(?<feet>\\d+)${space}*(?<foot>${unit})(?:${space}*|${hyphen})(?<inches>${amount})${space}*(?<inch>${unit})`;
// The plain minus and the typographic one (U+2212).
const pattern = new RegExp(`^${space}*(?<minus>[-\\u2212])?(?:${feetAndInches}|${plain})${space}*$`, 'u');

export const mostDigits = 30;
export const mostCharacters = 200;

/** How many digits of any script a text holds. */
export function countDigits(text: string): number {
  return text.match(/\p{Nd}/gu)?.length ?? 0;
}

/** Undefined for whatever is not to be accepted as it stands. */
export function parse(text: string): Measure | undefined {
  if (text.length > mostCharacters) return undefined;
  // So short a text can't hold too many.
  if (text.length > mostDigits && countDigits(text) > mostDigits) return undefined;
  const found = pattern.exec(text)?.groups;
  if (found === undefined) return undefined;
  const negative = found.minus !== undefined;

  if (found.feet !== undefined && found.foot !== undefined && found.inch !== undefined) {
    const [foot, inch, above] = [unitOf(found.foot), unitOf(found.inch), readAmount(found.inches ?? '')];
    if (foot?.name !== 'ft' || inch?.name !== 'in' || above === undefined) return undefined;
    if (compareRationals(above, whole(12)) >= 0) return undefined;
    const inAll = add(multiply(rational(BigInt(found.feet)), whole(12)), above);
    return { negative, amount: inches(inAll), unit: inch };
  }
  const number = readAmount(found.amount ?? '');
  if (number === undefined) return undefined;
  if (found.unit === undefined) return { negative, amount: number, unit: undefined };
  const written = unitOf(found.unit);
  return written && { negative, amount: multiply(number, written.inMm), unit: written };
}

export function toLength({ negative, amount }: Measure): Length {
  return millimetres(negative ? negate(amount) : amount);
}

const wholeAmount = /^\d+$/u;
const decimal = /^(?<whole>\d*)\.(?<parts>\d+)$/u;
const slashed = new RegExp(
  `^(?:(?<whole>\\d+)(?:${space}+|${hyphen}))?(?<top>\\d+)${slash}(?<bottom>\\d+)$`,
  'u',
);
const signed = new RegExp(
  `^(?:(?<whole>\\d+)(?:${space}*|${hyphen}))?(?:(?<vulgar>${vulgar})|${oneOver}(?<bottom>\\d+))$`,
  'u',
);

/** A number in one of the spellings of `amount`; undefined for `1/0` and `1 7/4`. */
export function readAmount(text: string): Rational | undefined {
  if (wholeAmount.test(text)) return rational(BigInt(text));
  const point = decimal.exec(text)?.groups;
  if (point !== undefined) {
    const parts = point.parts ?? '';
    return rational(BigInt(`${point.whole}${parts}`), 10n ** BigInt(parts.length));
  }
  const parts = (slashed.exec(text) ?? signed.exec(text))?.groups;
  if (parts === undefined) return undefined;
  const broken = readFraction(parts);
  if (broken === undefined || parts.whole === undefined) return broken;
  if (broken.numerator >= broken.denominator) return undefined;
  return add(rational(BigInt(parts.whole)), broken);
}

function readFraction(parts: Readonly<Record<string, string | undefined>>): Rational | undefined {
  if (parts.vulgar !== undefined) return vulgarFractions.get(parts.vulgar);
  const bottom = BigInt(parts.bottom ?? 0);
  return bottom === 0n ? undefined : rational(BigInt(parts.top ?? 1), bottom);
}
