import {
  compareRationals,
  isNegative,
  isPositive,
  millimetres,
  mixedText,
  rational,
  showExact,
  toFraction,
} from '../measure/index.ts';
import { atSpan, diagnose, type Expression, type Length, type Rational } from '../model/index.ts';
import { bareAsMillimetres } from './quantity.ts';
import { textOf, withUnit } from './saying.ts';
import { quantityOf } from './sum.ts';
import type { Scope, Workings } from './workings.ts';

/** How small a length may be where it is wanted. */
export type Least = 'above zero' | 'zero' | 'any' | { readonly aboveZeroOrLeftOut: string };

/** The most that one thing is counted to, and the longest length: 100 m. */
export const mostOfOneThing = 1_000_000;
const longest: Length = millimetres(rational(100_000n));

/** Works a sum out where a length is wanted. */
export function lengthOf(
  expression: Expression,
  least: Least,
  scope: Scope,
  workings: Workings,
): Length | undefined {
  const quantity = quantityOf(expression, scope, workings);
  if (quantity === undefined) return undefined;
  const { faults, sights } = workings;
  const place = atSpan(expression.at);
  const { units } = sights.fileOf(expression.at);
  if (quantity.kind === 'number') {
    faults.report(
      diagnose('E07', place, {
        found: textOf(expression),
        comesTo: mixedText(quantity.value),
        asLength: withUnit(expression, units ?? 'in'),
      }),
    );
    return undefined;
  }
  if (quantity.kind === 'area') {
    faults.report(diagnose('E09', place, { found: textOf(expression), wanted: 'a length' }));
    return undefined;
  }
  if (quantity.kind === 'bare' && units === undefined) {
    faults.report(diagnose('E06', place, { found: textOf(expression) }));
    return undefined;
  }
  const value = millimetres(
    quantity.kind === 'bare' && units !== undefined
      ? bareAsMillimetres(quantity.value, units)
      : quantity.value,
  );
  return isAllowed(value, least, expression, workings) ? value : undefined;
}

/** Works a sum out where a plain number is wanted. */
export function numberOf(expression: Expression, scope: Scope, workings: Workings): Rational | undefined {
  const quantity = quantityOf(expression, { ...scope, wanted: 'number' }, workings);
  if (quantity === undefined) return undefined;
  if (quantity.kind === 'bare' || quantity.kind === 'number') return quantity.value;
  workings.faults.report(
    quantity.kind === 'area'
      ? diagnose('E09', atSpan(expression.at), { found: textOf(expression), wanted: 'a number' })
      : diagnose('E08', atSpan(expression.at), { found: textOf(expression) }),
  );
  return undefined;
}

/** Works a sum out where something is counted. */
export function wholeOf(
  expression: Expression,
  { least, what }: { readonly least: number; readonly what: string },
  scope: Scope,
  workings: Workings,
): number | undefined {
  const value = numberOf(expression, scope, workings);
  if (value === undefined) return undefined;
  const place = atSpan(expression.at);
  if (value.denominator !== 1n) {
    workings.faults.report(diagnose('E14', place, { what, comesTo: mixedText(value) }));
    return undefined;
  }
  if (value.numerator < BigInt(least) || value.numerator > BigInt(mostOfOneThing)) {
    workings.faults.report(
      diagnose('E15', place, { what, comesTo: toFraction(value), least: `${least}`, most: '1 000 000' }),
    );
    return undefined;
  }
  return Number(value.numerator);
}

function isAllowed(value: Length, least: Least, expression: Expression, workings: Workings): boolean {
  const { units } = workings.sights.fileOf(expression.at);
  const place = atSpan(expression.at);
  const isTooSmall = least === 'zero' ? isNegative(value) : least !== 'any' && !isPositive(value);
  if (isTooSmall) {
    workings.faults.report(
      diagnose('E12', place, {
        comesTo: showExact(value, units ?? 'mm'),
        least: least === 'zero' ? 'zero' : 'above zero',
        key: typeof least === 'string' ? undefined : least.aboveZeroOrLeftOut,
        units: units ?? 'mm',
      }),
    );
    return false;
  }
  const size = isNegative(value) ? millimetres({ ...value, numerator: -value.numerator }) : value;
  if (compareRationals(size, longest) > 0) {
    workings.faults.report(diagnose('E13', place, { comesTo: showExact(value, units ?? 'mm') }));
    return false;
  }
  return true;
}
