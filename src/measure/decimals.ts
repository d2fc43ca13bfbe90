import type { Rational } from '../model/index.ts';
import { compareRationals, divide, multiply, rational } from './rational.ts';
import { type RoundingWay, roundToWhole } from './rounding.ts';

/** Decimals are made by integer division alone: a binary float is wrong for many sixty-fourths of an inch. */

/** `60.325`, `-0.5`, `8`; undefined where the decimals never end. */
export function exactDecimal(number: Rational): string | undefined {
  const places = decimalPlaces(number);
  return places === undefined
    ? undefined
    : pointed(number.numerator * (10n ** BigInt(places) / number.denominator), places);
}

/** How many decimals a number has; undefined where they never end. */
export function decimalPlaces(number: Rational): number | undefined {
  let [rest, twos, fives] = [number.denominator, 0, 0];
  for (; rest % 2n === 0n; twos++) rest /= 2n;
  for (; rest % 5n === 0n; fives++) rest /= 5n;
  return rest === 1n ? Math.max(twos, fives) : undefined;
}

/** With exactly so many decimals, zeros at the end included: `7.0`. */
export function roundedDecimal(number: Rational, places: number, way: RoundingWay = 'half up'): string {
  return pointed(roundToWhole(multiply(number, rational(10n ** BigInt(places))), way), places);
}

/** With so many significant digits, zeros at the end included: `11.0`. `number` is not 0. */
export function significantDecimal(number: Rational, digits: number, way: RoundingWay = 'half up'): string {
  const size = number.numerator < 0n ? rational(-number.numerator, number.denominator) : number;
  let places = digits;
  // The first digit kept must not be a zero, nor may there be one digit more.
  while (compareRationals(size, powerOfTen(digits - 1 - places)) < 0) places++;
  while (compareRationals(size, powerOfTen(digits - places)) >= 0) places--;
  // 9.96 to two digits is 10, not 10.0.
  if (compareRationals(roundedTo(size, places, way), powerOfTen(digits - places)) >= 0) places--;
  return places >= 0 ? roundedDecimal(number, places, way) : `${roundedTo(number, places, way).numerator}`;
}

/** @param places below zero: tens, hundreds, … */
function roundedTo(number: Rational, places: number, way: RoundingWay): Rational {
  const step = powerOfTen(-places);
  return multiply(step, rational(roundToWhole(divide(number, step), way)));
}

function powerOfTen(power: number): Rational {
  const known = powers.get(power);
  if (known !== undefined) return known;
  const made = power < 0 ? rational(1n, 10n ** BigInt(-power)) : rational(10n ** BigInt(power));
  if (Math.abs(power) <= mostKept) powers.set(power, made);
  return made;
}

/** Asked for again and again where many lengths are shown. */
const powers = new Map<number, Rational>();
const mostKept = 40;

/** A whole number of tenths, hundredths, … as a decimal. */
function pointed(units: bigint, places: number): string {
  if (places === 0) return `${units}`;
  const digits = `${units < 0n ? -units : units}`.padStart(places + 1, '0');
  return `${units < 0n ? '-' : ''}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}
