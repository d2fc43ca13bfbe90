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
import { quantityOfName } from './names.ts';
import {
  bareAsMillimetres,
  gathered,
  negated,
  product,
  type Quantity,
  quotient,
  stepped,
  type Worked,
} from './quantity.ts';
import { textOf, withUnit } from './saying.ts';
import type { Scope, Workings } from './workings.ts';

/** How small a length may be where it is wanted. */
export type Least = 'above zero' | 'zero' | 'any';

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
  const quantity = quantityOf(expression, scope, workings);
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
  const isTooSmall = least === 'above zero' ? !isPositive(value) : least === 'zero' && isNegative(value);
  if (isTooSmall) {
    const comesTo = showExact(value, units ?? 'mm');
    workings.faults.report(
      diagnose('E12', place, { comesTo, least: least === 'zero' ? 'at least zero' : 'above zero' }),
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

function quantityOf(expression: Expression, scope: Scope, workings: Workings): Quantity | undefined {
  const quantity = workings.deeper(expression.at, () => workedOut(expression, scope, workings));
  if (quantity === undefined || isOfBearableSize(quantity.value)) return quantity;
  workings.faults.report(diagnose('E16', atSpan(expression.at), { found: textOf(expression) }));
  return undefined;
}

function workedOut(expression: Expression, scope: Scope, workings: Workings): Quantity | undefined {
  const { units } = workings.sights.fileOf(expression.at);
  switch (expression.kind) {
    case 'faulty':
      return undefined;
    case 'measure':
      return { kind: expression.unit, value: expression.amount };
    case 'name':
      return quantityOfName(expression.reference, expression.at, scope, workings);
    case 'negative': {
      const of = quantityOf(expression.of, scope, workings);
      return of === undefined ? undefined : negated(of);
    }
    case 'sum':
    case 'difference': {
      const operands = allOf([expression.left, expression.right], scope, workings);
      if (operands === undefined) return undefined;
      return settled(gathered(expression.kind, operands, units), expression, workings);
    }
    case 'product':
    case 'quotient': {
      const operands = allOf([expression.left, expression.right], scope, workings);
      const [left, right] = operands ?? [];
      if (left === undefined || right === undefined) return undefined;
      const combine = expression.kind === 'product' ? product : quotient;
      return settled(combine(left, right), expression, workings);
    }
    case 'smaller':
    case 'larger': {
      const operands = allOf(expression.of, scope, workings);
      if (operands === undefined) return undefined;
      return settled(gathered(expression.kind, operands, units), expression, workings);
    }
    case 'up to':
    case 'down to':
    case 'nearest': {
      const operands = allOf([expression.of, expression.step], scope, workings);
      const [of, step] = operands ?? [];
      if (of === undefined || step === undefined) return undefined;
      return settled(stepped(expression.kind, of, step, units), expression, workings);
    }
  }
}

/** All operands, so that the faults of each are told; undefined where one of them has no worth. */
function allOf(
  expressions: readonly [Expression, ...Expression[]],
  scope: Scope,
  workings: Workings,
): readonly [Quantity, ...Quantity[]] | undefined {
  const quantities = expressions.map((it) => quantityOf(it, scope, workings));
  const [first, ...others] = quantities.filter((it) => it !== undefined);
  if (first === undefined || others.length + 1 < expressions.length) return undefined;
  return [first, ...others];
}

function settled(worked: Worked, expression: Expression, workings: Workings): Quantity | undefined {
  if ('quantity' in worked) return worked.quantity;
  const { misfit } = worked;
  const parts = operandsOf(expression);
  switch (misfit.kind) {
    case 'unlike': {
      const number = [misfit.left, misfit.right].indexOf('number');
      const written = parts.length === 2 ? parts[number] : undefined;
      const { units } = workings.sights.fileOf(expression.at);
      const { left, right } = misfit;
      const asLength = written && withUnit(written, units ?? 'in');
      workings.faults.report(
        diagnose('E10', atSpan(expression.at), { how: expression.kind, left, right, asLength }),
      );
      return undefined;
    }
    case 'divided by zero': {
      const divisor = parts[1] ?? expression;
      workings.faults.report(diagnose('E11', atSpan(divisor.at), { divisor: textOf(divisor) }));
      return undefined;
    }
    case 'step not above zero': {
      const step = parts[1] ?? expression;
      workings.faults.report(diagnose('E20', atSpan(step.at), { step: textOf(step) }));
      return undefined;
    }
    case 'unit not known': {
      const bare = parts[misfit.which] ?? expression;
      workings.faults.report(diagnose('E06', atSpan(bare.at), { found: textOf(bare) }));
      return undefined;
    }
  }
}

function operandsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'smaller':
    case 'larger':
      return expression.of;
    case 'up to':
    case 'down to':
    case 'nearest':
      return [expression.of, expression.step];
    case 'sum':
    case 'difference':
    case 'product':
    case 'quotient':
      return [expression.left, expression.right];
    case 'negative':
      return [expression.of];
    default:
      return [];
  }
}

/** Squares of squares would fill the memory with digits; no measure needs as many as these. */
const mostDigits = 2n ** 1024n;

function isOfBearableSize({ numerator, denominator }: Rational): boolean {
  return numerator < mostDigits && numerator > -mostDigits && denominator < mostDigits;
}
