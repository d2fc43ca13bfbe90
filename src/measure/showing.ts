import type { FileUnits, Length, NonEmpty, Rational, ShownUnits } from '../model/index.ts';
import { decimalPlaces, exactDecimal, roundedDecimal, significantDecimal } from './decimals.ts';
import { inches, isZero, millimetres, minus, opposite, sum, toInches } from './length.ts';
import { type MixedNumber, mixedText, toMixedNumber } from './mixedNumber.ts';
import { compareRationals, rational } from './rational.ts';
import {
  divides,
  isMultiple,
  nearestMark,
  oneInch,
  oneMm,
  type RoundingWay,
  type Tendency,
  tendencyOf,
} from './rounding.ts';

/** How lengths are shown. */
export interface Style {
  readonly units: ShownUnits;
  /** The unit that comes first where both are shown; the other follows in square brackets. */
  readonly firstUnit: FileUnits;
  /** Graduations of the rules at hand; the one used first comes first. */
  readonly ruler: NonEmpty<Length>;
  /** Lengths of a foot and more as feet and inches; without it in inches. */
  readonly feet?: 'shown';
}

/**
 * A piece of a shown length. The pieces put together without anything between them are its text. `mixed` can
 * be set with a built-up fraction, a `word` brings its spaces along.
 */
export type ShownPart =
  | { readonly kind: 'mixed'; readonly text: string; readonly value: MixedNumber }
  | { readonly kind: 'decimal'; readonly text: string }
  | { readonly kind: 'word'; readonly text: string };

export interface ShownLength {
  /** `2 3/8 in`, `60.325 mm`, `2 3/8 in [60.325 mm]`, `2 3/8 in full (+0.0069)`, `~8.5 mm (-0.033)`. */
  readonly text: string;
  readonly parts: readonly ShownPart[];
  /** Without units, for a drawing or a table whose heading names them. */
  readonly compact: string;
  readonly compactParts: readonly ShownPart[];
  /** True where any number in it is rounded; each of these is marked, with its error behind it. */
  readonly isRounded: boolean;
  /** True length less the one shown, of the first rounded number. */
  readonly error: Length | undefined;
}

/**
 * Shows a length for a person with a rule in hand.
 *
 * Inches: exact where a rule has the mark. Else the nearest mark of the first inch rule, `scant` for a
 * little under it and `full` for a little over, and by how much. Millimetres: the exact decimal where it
 * ends, else as many digits as the mm rule has, with `~`. Halves go up. Every error is true less shown, in
 * the unit of its number: exact where it is short, else to two digits, and as `<` where it is less than a millionth.
 */
export function showLength(length: Length, style: Style): ShownLength {
  return assemble(
    unitsOf(style).map((unit) => (unit === 'in' ? inInches(length, style) : inMm(length, style))),
  );
}

/**
 * Shows a length that is marked, set on a stop or checked with a rule: as `showLength`, but millimetres too are
 * exact only where a rule has the mark: `58.5 mm scant (-0.13)`.
 */
export function showMark(length: Length, style: Style): ShownLength {
  return assemble(
    unitsOf(style).map((unit) => (unit === 'in' ? inInches(length, style) : onMmRule(length, style))),
  );
}

/** The rules that marks of a unit are read on: those at hand, else the finest in common use. */
export function rulesFor(unit: FileUnits, ruler: readonly Length[]): NonEmpty<Length> {
  if (unit === 'in') return inchScales(ruler);
  const [first = finestMm, ...others] = mmScales(ruler);
  return [first, ...others];
}

/**
 * Shows, as a mark, a length that has no rational form, such as a diagonal.
 *
 * @param length  one close to it
 * @param error   true length less `length`, so finely that two digits of what any mark misses are right
 */
export function showRounded(length: Length, error: Length, style: Style): ShownLength {
  return showMark(sum(length, error), style);
}

/**
 * A length without any rounding, in one unit: `2 46/127 in`, `60.325 mm`, `8 7/15 mm`. What `readMeasure`
 * makes of it is the same length (as long as it has no more than 30 digits).
 */
export function showExact(length: Length, unit: FileUnits): string {
  return `${bareExact(length, unit)} ${unit}`;
}

/** The same without its unit, as a file of that unit has it: `2 46/127`, `60.325`. */
export function bareExact(length: Length, unit: FileUnits): string {
  return unit === 'in' ? mixedText(toInches(length)) : (exactDecimal(length) ?? mixedText(length));
}

/**
 * A thickness or a kerf, which no rule is laid to: exact, in the unit asked for where that is a fraction of up
 * to 64ths or a short decimal, else in the other: `1/32 in`, `0.018 in`, and `1.55 mm` also where inches are asked.
 */
export function showThickness(length: Length, unit: FileUnits): string {
  const inUnits =
    unit === 'in' ? [shortInches(length), shortMm(length)] : [shortMm(length), shortInches(length)];
  return inUnits.find((text) => text !== undefined) ?? showExact(length, unit);
}

function shortInches(length: Length): string | undefined {
  const amount = toInches(length);
  if (64n % amount.denominator === 0n) return `${mixedText(amount)} in`;
  const decimal = exactDecimal(amount);
  return decimal !== undefined && decimalPlaces(amount)! <= 4 ? `${decimal} in` : undefined;
}

function shortMm(length: Length): string | undefined {
  const decimal = exactDecimal(length);
  return decimal !== undefined && decimalPlaces(length)! <= 4 ? `${decimal} mm` : undefined;
}

/**
 * The decimal beside an exact fraction that no rule has: `~2.3622 in (+0.0000047)` for 2 46/127 in. Undefined
 * where what `showExact` gives says it all.
 */
export function showDecimal(length: Length, unit: FileUnits): string | undefined {
  const amount = unit === 'in' ? toInches(length) : length;
  const isPlain = unit === 'in' ? 64n % amount.denominator === 0n : exactDecimal(length) !== undefined;
  return isPlain ? undefined : assemble([asDecimal(length, amount, unit, 4)]).text;
}

/**
 * The nearest mark of one rule, in the unit that the rule divides: `2 3/8 in full (+0.0069)`, `60.5 mm scant (-0.175)`;
 * on request in feet and inches, `1' 2 3/8" full (+0.0069)`, or in thousandths of an inch, `2362 thou full (+0.2)`.
 */
export function showOnRuler(
  length: Length,
  step: Length,
  way: RoundingWay = 'half up',
  as?: 'ft' | 'thou',
): ShownLength {
  const { mark, error, tendency } = nearestMark(length, step, way);
  const isOff = !isZero(error);
  if (as === 'thou') {
    const off = isOff ? ` ${tendency} (${errorIn(thouOf(error))})` : '';
    const number = mixed(thouOf(mark));
    return {
      text: `${number.text} thou${off}`,
      parts: [number, word(` thou${off}`)],
      compact: `${number.text}${off}`,
      compactParts: [number, word(off)],
      isRounded: isOff,
      error: isOff ? error : undefined,
    };
  }
  if (as === 'ft') {
    const style: Style = { units: 'in', firstUnit: 'in', ruler: [step], feet: 'shown' };
    return assemble([{ ...marked(mark, isOff ? error : undefined, style), tendency }]);
  }
  const unit: FileUnits = divides(step, oneInch) && !divides(step, oneMm) ? 'in' : 'mm';
  const number = unit === 'in' ? mixed(toInches(mark)) : decimal(exactDecimal(mark) ?? mixedText(mark));
  return assemble([{ unit, number: [number], marks: 'none', error: isOff ? error : undefined, tendency }]);
}

/** A length without any rounding: `1' 2 3/8"`, `-3"`. */
export function showFeet(length: Length): string {
  const style: Style = { units: 'in', firstUnit: 'in', ruler: [finestInch], feet: 'shown' };
  const { number, marks } = marked(length, undefined, style);
  return `${textOf(number)}${marks === 'none' ? '"' : ''}`;
}

/** A length without any rounding: `2375 thou`, `2362 26/127 thou`. */
export function showThou(length: Length): string {
  const amount = thouOf(length);
  return `${exactDecimal(amount) ?? mixedText(amount)} thou`;
}

function thouOf(length: Length): Rational {
  const inch = toInches(length);
  return rational(1000n * inch.numerator, inch.denominator);
}

function errorIn(amount: Rational): string {
  const places = decimalPlaces(amount);
  const isShort = places !== undefined && places <= mostErrorDecimals;
  const text = isShort ? exactDecimal(amount) : withoutLastZeros(significantDecimal(amount, 2));
  return `${amount.numerator < 0n ? '' : '+'}${text}`;
}

function withoutLastZeros(digits: string): string {
  return digits.includes('.') ? digits.replace(/\.?0+$/u, '') : digits;
}

/** From mark to mark of the finest rules in common use; taken where no rule of the unit is at hand. */
export const finestInch: Length = inches(rational(1n, 64n));
const finestMm: Length = millimetres(rational(1n, 2n));
/** More are no size that anyone remembers between list and knife. */
const mostDecimals = 4;
const digitsWithoutRule = 2;
const mostErrorDecimals = 3;
const leastErrorSaid = rational(1n, 1_000_000n);

interface InOneUnit {
  readonly unit: FileUnits;
  readonly number: readonly ShownPart[];
  /** `carried`: the number brings its marks of feet and inches along. */
  readonly marks: 'carried' | 'none';
  readonly error: Length | undefined;
  /** Undefined for a rounded decimal, which is marked with `~`. */
  readonly tendency: Tendency | undefined;
}

function unitsOf({ units, firstUnit }: Style): readonly FileUnits[] {
  if (units !== 'both') return [units];
  return firstUnit === 'in' ? ['in', 'mm'] : ['mm', 'in'];
}

/** The rules that divide an inch; those that also divide a millimetre (1 mm / 5) are no inch rules. */
export function inchScales(ruler: readonly Length[], otherwise: Length = finestInch): NonEmpty<Length> {
  const [first = otherwise, ...others] = ruler.filter(
    (step) => divides(step, oneInch) && !divides(step, oneMm),
  );
  return [first, ...others];
}

export function mmScales(ruler: readonly Length[]): readonly Length[] {
  return ruler.filter((step) => divides(step, oneMm));
}

function inInches(length: Length, style: Style): InOneUnit {
  const scales = inchScales(style.ruler);
  if (scales.some((step) => isMultiple(length, step))) return marked(length, undefined, style);
  const { mark, error } = nearestMark(length, scales[0]);
  if (!isZero(mark)) return marked(mark, error, style);
  // Nearer to zero than to the first mark: no rule will do, so thousandths.
  return asDecimal(length, toInches(length), 'in', 4);
}

function marked(mark: Length, error: Length | undefined, style: Style): InOneUnit {
  const inAll = toInches(mark);
  const size = inAll.numerator < 0n ? rational(-inAll.numerator, inAll.denominator) : inAll;
  const feet = size.numerator / (12n * size.denominator);
  const tendency = error && tendencyOf(mark, error);
  if (style.feet === undefined || feet === 0n) {
    return { unit: 'in', number: [mixed(inAll)], marks: 'none', error, tendency };
  }
  const rest = rational(size.numerator - feet * 12n * size.denominator, size.denominator);
  const sign = inAll.numerator < 0n ? '-' : '';
  const below = isZero(rest) ? [] : [word(' '), mixed(rest), word('"')];
  return { unit: 'in', number: [word(`${sign}${feet}'`), ...below], marks: 'carried', error, tendency };
}

function inMm(length: Length, style: Style): InOneUnit {
  const [step] = mmScales(style.ruler);
  const places = step === undefined ? digitsWithoutRule : (decimalPlaces(step) ?? digitsWithoutRule);
  return asDecimal(length, length, 'mm', places);
}

function onMmRule(length: Length, style: Style): InOneUnit {
  const scales = rulesFor('mm', style.ruler);
  const isOnRule = scales.some((step) => isMultiple(length, step));
  const { mark, error, tendency } = nearestMark(length, scales[0]);
  // Nearer to zero than to the first mark: no rule will do.
  if (!isOnRule && isZero(mark)) return asDecimal(length, length, 'mm', 3);
  const at = isOnRule ? length : mark;
  const number = [decimal(exactDecimal(at) ?? mixedText(at))];
  return isOnRule
    ? { unit: 'mm', number, marks: 'none', error: undefined, tendency: undefined }
    : { unit: 'mm', number, marks: 'none', error, tendency };
}

/** Exactly if the decimals end soon enough to be read, else rounded to so many places. */
function asDecimal(length: Length, number: Rational, unit: FileUnits, places: number): InOneUnit {
  const own = decimalPlaces(number);
  const exact =
    own !== undefined && own <= (unit === 'in' ? places : mostDecimals) ? exactDecimal(number) : undefined;
  if (exact !== undefined) {
    return { unit, number: [decimal(exact)], marks: 'none', error: undefined, tendency: undefined };
  }
  const text = roundedDecimal(number, places);
  const shown = rational(BigInt(text.replace('.', '')), 10n ** BigInt(places));
  const error = minus(length, unit === 'in' ? inches(shown) : millimetres(shown));
  return { unit, number: [decimal(text)], marks: 'none', error, tendency: undefined };
}

/** The first unit, and the second in square brackets (the bracket method of dual dimensions). */
function assemble(shown: readonly InOneUnit[]): ShownLength {
  const dressed = (withUnits: boolean): readonly ShownPart[] =>
    shown.flatMap((it, index) =>
      index === 0 ? dress(it, withUnits) : [word(' ['), ...dress(it, withUnits), word(']')],
    );
  const parts = dressed(true);
  const rounded = shown.find((it) => it.error !== undefined);
  return new Assembled(parts, rounded?.error, () => dressed(false));
}

class Assembled implements ShownLength {
  readonly parts: readonly ShownPart[];
  readonly text: string;
  readonly isRounded: boolean;
  readonly error: Length | undefined;
  readonly #bare: () => readonly ShownPart[];

  constructor(parts: readonly ShownPart[], error: Length | undefined, bare: () => readonly ShownPart[]) {
    this.parts = parts;
    this.text = textOf(parts);
    this.isRounded = error !== undefined;
    this.error = error;
    this.#bare = bare;
  }

  /** Worked out when it is asked for: nobody wants a length with its unit and without. */
  get compactParts(): readonly ShownPart[] {
    return this.#bare();
  }

  get compact(): string {
    return textOf(this.compactParts);
  }
}

function dress(it: InOneUnit, withUnits: boolean): readonly ShownPart[] {
  const unit = withUnits && it.marks === 'none' ? [word(` ${it.unit}`)] : [];
  if (it.error === undefined) return [...it.number, ...unit];
  const error = word(` (${errorText(it.error, it.unit)})`);
  if (it.tendency === undefined) return [word('~'), ...it.number, ...unit, error];
  return [...it.number, ...unit, word(` ${it.tendency}`), error];
}

/**
 * `+0.0069`, `-1/64`: with its sign, in the unit of the number it belongs to. Of less than a millionth of that only so
 * much is said, `+<0.000001`: its digits would be those of how finely a curve is reckoned.
 */
export function errorText(error: Length, unit: FileUnits): string {
  const amount = unit === 'in' ? toInches(error) : error;
  const sign = amount.numerator < 0n ? '-' : '+';
  const size = amount.numerator < 0n ? (unit === 'in' ? toInches(opposite(error)) : opposite(error)) : amount;
  if (unit === 'in' && 64n % size.denominator === 0n) return `${sign}${mixedText(size)}`;
  if (compareRationals(size, leastErrorSaid) < 0) return `${sign}<${exactDecimal(leastErrorSaid)}`;
  const places = decimalPlaces(size);
  if (places !== undefined && places <= mostErrorDecimals) return `${sign}${exactDecimal(size)}`;
  return sign + withoutLastZeros(significantDecimal(size, 2));
}

function textOf(parts: readonly ShownPart[]): string {
  return parts.map((part) => part.text).join('');
}

function mixed(number: Rational): ShownPart {
  return { kind: 'mixed', text: mixedText(number), value: toMixedNumber(number) };
}

function decimal(text: string): ShownPart {
  return { kind: 'decimal', text };
}

function word(text: string): ShownPart {
  return { kind: 'word', text };
}
