import {
  add,
  compareRationals,
  divide,
  floor,
  isPositive,
  isZero,
  mmPerInch,
  multiply,
  nearestHalfUp,
  negate,
  rational,
  subtract,
} from '../measure/index.ts';
import type { FileUnits, Rational } from '../model/index.ts';

/**
 * What a sum comes to, with its kind.
 *
 *   bare    a number without a unit, from bare numbers alone: a length or a number, as its neighbours decide
 *   number  a plain number: of `numbers`, or of a product or quotient
 *   length  in millimetres
 *   area    in square millimetres; allowed on the way, never as a result
 */
export interface Quantity {
  readonly kind: 'bare' | 'number' | 'length' | 'area';
  readonly value: Rational;
}

/** Why two quantities don't go together. */
export type Misfit =
  /** `which` counts the operands from 0. */
  | { readonly kind: 'unlike'; readonly left: Unlike; readonly right: Unlike }
  | { readonly kind: 'divided by zero' }
  | { readonly kind: 'step not above zero' }
  /** A bare number beside a length, in a file that doesn't say its units. */
  | { readonly kind: 'unit not known'; readonly which: number };

export interface Unlike {
  readonly which: number;
  readonly kind: Quantity['kind'];
}

export type Worked = { readonly quantity: Quantity } | { readonly misfit: Misfit };

/** The length that a bare number is in a file of these units. */
export function bareAsMillimetres(value: Rational, units: FileUnits): Rational {
  return units === 'in' ? multiply(value, mmPerInch) : value;
}

export function negated({ kind, value }: Quantity): Quantity {
  return { kind, value: negate(value) };
}

/** Sums, differences, and the smallest or largest: all take quantities of one kind. */
export function gathered(
  how: 'sum' | 'difference' | 'smaller' | 'larger',
  operands: readonly [Quantity, ...Quantity[]],
  units: FileUnits | undefined,
): Worked {
  const alike = madeAlike(operands, units);
  if ('misfit' in alike) return alike;
  const [first, ...others] = alike.values;
  const combine = {
    sum: add,
    difference: subtract,
    smaller: (a: Rational, b: Rational) => (compareRationals(a, b) <= 0 ? a : b),
    larger: (a: Rational, b: Rational) => (compareRationals(a, b) >= 0 ? a : b),
  }[how];
  return { quantity: { kind: alike.kind, value: others.reduce<Rational>(combine, first) } };
}

/** The multiple of `step` next to `of`, in the stated direction; a half goes up. */
export function stepped(
  how: 'up to' | 'down to' | 'nearest',
  of: Quantity,
  step: Quantity,
  units: FileUnits | undefined,
): Worked {
  const alike = madeAlike([of, step], units);
  if ('misfit' in alike) return alike;
  const [amount, stride] = alike.values;
  if (stride === undefined || !isPositive(stride)) return { misfit: { kind: 'step not above zero' } };
  const steps = divide(amount, stride);
  const count = {
    'up to': () => -floor(negate(steps)),
    'down to': () => floor(steps),
    nearest: () => nearestHalfUp(steps),
  }[how]();
  return { quantity: { kind: alike.kind, value: multiply(rational(count), stride) } };
}

export function product(left: Quantity, right: Quantity): Worked {
  const dimension = dimensionOf(left) + dimensionOf(right);
  const kind = kindOf(dimension);
  if (kind === undefined) return unlike(left, right);
  return { quantity: { kind, value: multiply(left.value, right.value) } };
}

export function quotient(left: Quantity, right: Quantity): Worked {
  const kind = kindOf(dimensionOf(left) - dimensionOf(right));
  if (kind === undefined) return unlike(left, right);
  if (isZero(right.value)) return { misfit: { kind: 'divided by zero' } };
  return { quantity: { kind, value: divide(left.value, right.value) } };
}

/** In `x` and `/` a bare number is a number: the power of mm that a quantity holds. */
function dimensionOf({ kind }: Quantity): number {
  return kind === 'area' ? 2 : kind === 'length' ? 1 : 0;
}

function kindOf(dimension: number): 'number' | 'length' | 'area' | undefined {
  return (['number', 'length', 'area'] as const)[dimension];
}

function unlike(left: Quantity, right: Quantity): Worked {
  return {
    misfit: { kind: 'unlike', left: { which: 0, kind: left.kind }, right: { which: 1, kind: right.kind } },
  };
}

type Alike =
  | { readonly kind: Quantity['kind']; readonly values: readonly [Rational, ...Rational[]] }
  | { readonly misfit: Misfit };

/** Bare numbers take the kind of what stands beside them; all else must be of one kind already. */
function madeAlike(operands: readonly [Quantity, ...Quantity[]], units: FileUnits | undefined): Alike {
  const [first, ...others] = operands;
  const telling = operands.find(({ kind }) => kind !== 'bare');
  if (telling === undefined) return { kind: 'bare', values: [first.value, ...others.map((it) => it.value)] };

  const converted: Rational[] = [];
  for (const [which, operand] of operands.entries()) {
    if (operand.kind === telling.kind) converted.push(operand.value);
    else if (operand.kind !== 'bare' || telling.kind === 'area') {
      const pair = [
        { which, kind: operand.kind },
        { which: operands.indexOf(telling), kind: telling.kind },
      ] as const;
      const [left, right] = which < pair[1].which ? pair : [pair[1], pair[0]];
      return { misfit: { kind: 'unlike', left, right } };
    } else if (telling.kind === 'number') converted.push(operand.value);
    else if (units === undefined) return { misfit: { kind: 'unit not known', which } };
    else converted.push(bareAsMillimetres(operand.value, units));
  }
  const [head = first.value, ...tail] = converted;
  return { kind: telling.kind, values: [head, ...tail] };
}
