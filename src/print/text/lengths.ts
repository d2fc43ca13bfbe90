import {
  compare,
  floor,
  isZero,
  minus,
  nearestHalfUp,
  ratio,
  rational,
  scaled,
  subtract,
  toInches,
  zero,
} from '../../measure/index.ts';
import type { FileUnits, Length, Rational, Settings } from '../../model/index.ts';
import { type Look, signsOf } from './signs.ts';

/** How lengths stand in the text: without a unit, which the head of the page tells once. */
export interface Showing {
  readonly unit: FileUnits;
  /** The second unit, where both are asked for. */
  readonly other: FileUnits | undefined;
  readonly brief: (length: Length) => string;
  /** `3 × 1 1/2` */
  readonly pair: (length: Length, width: Length) => string;
  /** With the unit, and the other unit in square brackets where both are asked for. */
  readonly full: (length: Length) => string;
}

export function showingOf({ units, firstUnit, ruler }: Settings, look: Look): Showing {
  const unit = units.value === 'both' ? firstUnit : units.value;
  const other: FileUnits | undefined = units.value !== 'both' ? undefined : unit === 'in' ? 'mm' : 'in';
  const step = ruler.value[0];
  const show = (of: FileUnits, length: Length) => (of === 'in' ? onInchRule(length, step) : inMm(length));
  const { times } = signsOf(look);
  return {
    unit,
    other,
    brief: (length) => show(unit, length),
    pair: (length, width) => `${show(unit, length)}\u00a0${times}\u00a0${show(unit, width)}`,
    full: (length) =>
      `${show(unit, length)}\u00a0${unit}${other === undefined ? '' : ` [${show(other, length)}\u00a0${other}]`}`,
  };
}

function onInchRule(length: Length, step: Length): string {
  const exact = toInches(length);
  if (exact.denominator <= 64n && 64n % exact.denominator === 0n) return mixed(exact);
  const graduation = scaled(step, rational(nearestHalfUp(ratio(length, step))));
  const side = compare(minus(length, graduation), zero);
  return `${mixed(toInches(graduation))}${side > 0 ? '\u00a0full' : side < 0 ? '\u00a0scant' : ''}`;
}

function mixed(value: Rational): string {
  const wholes = floor(value);
  const rest = subtract(value, rational(wholes));
  if (isZero(rest)) return `${wholes}`;
  return `${wholes === 0n ? '' : `${wholes}\u00a0`}${rest.numerator}/${rest.denominator}`;
}

function inMm(length: Length): string {
  const hundredths = nearestHalfUp(scaled(length, rational(100n)));
  const decimals = `${hundredths % 100n}`.padStart(2, '0').replace(/0+$/, '');
  return `${hundredths / 100n}${decimals === '' ? '' : `.${decimals}`}`;
}
