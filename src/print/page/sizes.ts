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
} from '../../measure/index.ts';
import type { FileUnits, Length, Rational, Settings } from '../../model/index.ts';

/** How lengths are written on the page: on the reader's first rule, in the unit that comes first. */
export interface Sizes {
  readonly one: (length: Length) => string;
  /** `3 × 1 1⁄2` */
  readonly pair: (length: Length, width: Length) => string;
  /** What a table or page says once, since the figures stand without it. */
  readonly unit: 'inches' | 'mm';
  /** The finest graduation of the first rule. */
  readonly step: Length;
}

export function sizesOf({ firstUnit, ruler, units }: Settings): Sizes {
  const unit: FileUnits = units.value === 'both' ? firstUnit : units.value;
  const [step] = ruler.value;
  const one = (length: Length): string => (unit === 'in' ? onInchRule(length, step) : inMillimetres(length));
  return {
    one,
    pair: (length, width) => `${one(length)} × ${one(width)}`,
    unit: unit === 'in' ? 'inches' : 'mm',
    step,
  };
}

/**
 * The nearest graduation; what lies a little above or below it gets the trade's word, so that a rounded
 * size is never taken for an exact one. A size that has its own short fraction is shown as it is.
 */
function onInchRule(length: Length, step: Length): string {
  const exact = toInches(length);
  if (exact.denominator <= 64n && isPowerOfTwo(exact.denominator)) return mixed(exact);
  const graduation = scaled(step, rational(nearestHalfUp(ratio(length, step))));
  const side = compare(minus(length, graduation), minus(length, length));
  return `${mixed(toInches(graduation))}${side > 0 ? ' full' : side < 0 ? ' scant' : ''}`;
}

function isPowerOfTwo(value: bigint): boolean {
  return (value & (value - 1n)) === 0n;
}

/** A thin space keeps the whole number apart from the built-up fraction that U+2044 makes. */
function mixed(value: Rational): string {
  const wholes = floor(value);
  const rest = subtract(value, rational(wholes));
  if (isZero(rest)) return `${wholes}`;
  const fraction = `${rest.numerator}\u2044${rest.denominator}`;
  return wholes === 0n ? fraction : `${wholes}\u2009${fraction}`;
}

/** To a hundredth; `≈` where that rounds. */
function inMillimetres(length: Length): string {
  const hundredths = nearestHalfUp(scaled(length, rational(100n)));
  const isExact = (100n * length.numerator) % length.denominator === 0n;
  const wholes = hundredths / 100n;
  const rest = `${hundredths % 100n}`.padStart(2, '0').replace(/0+$/, '');
  return `${isExact ? '' : '≈\u2009'}${wholes}${rest === '' ? '' : `.${rest}`}`;
}
