import type { Rational } from '../model/index.ts';

/** A number as a rule is read: so many whole units and a fraction below 1, in lowest terms. */
export interface MixedNumber {
  readonly negative: boolean;
  readonly whole: bigint;
  /** 0 where there is no fraction; the denominator is then 1. */
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export function toMixedNumber(number: Rational): MixedNumber {
  const negative = number.numerator < 0n;
  const size = negative ? -number.numerator : number.numerator;
  const whole = size / number.denominator;
  return { negative, whole, numerator: size - whole * number.denominator, denominator: number.denominator };
}

/** `2 3/8`, `-2 3/8` (the sign is that of all of it), `3/8`, `-3/8`, `2`, `0`. */
export function mixedText(number: Rational): string {
  const { negative, whole, numerator, denominator } = toMixedNumber(number);
  const fraction = numerator === 0n ? '' : `${numerator}/${denominator}`;
  const size =
    whole === 0n && fraction !== '' ? fraction : `${whole}${fraction === '' ? '' : ` ${fraction}`}`;
  return negative ? `-${size}` : size;
}
