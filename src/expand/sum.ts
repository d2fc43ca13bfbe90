import { compareRationals } from '../measure/index.ts';
import { atSpan, diagnose, type Expression, operandsOf, type Rational } from '../model/index.ts';
import { quantityOfName } from './names.ts';
import {
  gathered,
  negated,
  product,
  type Quantity,
  quotient,
  stepped,
  type Unlike,
  type Worked,
} from './quantity.ts';
import { textOf, withUnit } from './saying.ts';
import { placeOf, type Scope, type Workings } from './workings.ts';

/** What a sum comes to, whatever its kind; its faults are told. */
export function quantityOf(expression: Expression, scope: Scope, workings: Workings): Quantity | undefined {
  const instead = workings.instead.size > 0 ? workings.instead.get(placeOf(expression.at)) : undefined;
  if (instead !== undefined) return { kind: 'length', value: instead };
  return workings.deeper(expression.at, () =>
    borne(workedOut(expression, scope, workings), expression, workings),
  );
}

/** Nothing with so many digits that squares of squares would fill the memory. */
function borne(
  quantity: Quantity | undefined,
  expression: Expression,
  workings: Workings,
): Quantity | undefined {
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
    case 'difference':
    case 'product':
    case 'quotient':
      return alongTheSum(expression, scope, workings);
    case 'smaller':
    case 'larger': {
      const operands = allOf(expression.of, scope, workings);
      if (operands === undefined) return undefined;
      return settled(gathered(expression.kind, operands, units), expression, workings);
    }
    case 'up to':
    case 'down to':
    case 'nearest': {
      // What has no rational length comes to its multiple from either end of what is known of it.
      const ends = isDeveloped(expression.of) ? (['lo', 'hi'] as const) : [undefined];
      const found: Quantity[] = [];
      for (const developed of ends) {
        const inside = developed === undefined ? scope : { ...scope, developed };
        const operands = allOf([expression.of, expression.step], inside, workings);
        const [of, step] = operands ?? [];
        if (of === undefined || step === undefined) return undefined;
        const rounded = settled(stepped(expression.kind, of, step, units), expression, workings);
        if (rounded === undefined) return undefined;
        found.push(rounded);
      }
      const [first, other] = found;
      if (first === undefined || other === undefined) return first;
      const isLess = compareRationals(first.value, other.value) < 0;
      return isLess === (expression.kind === 'down to') ? first : other;
    }
  }
}

function isDeveloped(expression: Expression): boolean {
  if (expression.kind === 'name') {
    const { reference } = expression;
    return reference.kind === 'size' && reference.size === 'developed length';
  }
  return operandsOf(expression).some(isDeveloped);
}

type OfTwo = Extract<Expression, { readonly left: Expression }>;

/**
 * From the left end on: `a + b - c` nests to the left, and as many levels as it has signs would fill the call
 * stack for nothing. All operands are worked out, so that the faults of each are told.
 */
function alongTheSum(whole: OfTwo, scope: Scope, workings: Workings): Quantity | undefined {
  const spine: OfTwo[] = [];
  let head: Expression = whole;
  while ('left' in head) {
    spine.push(head);
    head = head.left;
  }
  let quantity = quantityOf(head, scope, workings);
  for (const step of spine.toReversed()) {
    const right = quantityOf(step.right, scope, workings);
    quantity =
      quantity === undefined || right === undefined
        ? undefined
        : borne(settled(ofTwo(step, quantity, right, workings), step, workings), step, workings);
  }
  return quantity;
}

function ofTwo({ kind, at }: OfTwo, left: Quantity, right: Quantity, workings: Workings): Worked {
  if (kind === 'product') return product(left, right);
  if (kind === 'quotient') return quotient(left, right);
  return gathered(kind, [left, right], workings.sights.fileOf(at).units);
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
      const { left, right } = misfit;
      const { units } = workings.sights.fileOf(expression.at);
      const number = [left, right].find(({ kind }) => kind === 'number');
      const written = number && parts[number.which];
      const said = ({ which, kind }: Unlike) => ({ text: textOf(parts[which] ?? expression), kind });
      workings.faults.report(
        diagnose('E10', atSpan(expression.at), {
          how: expression.kind,
          left: said(left),
          right: said(right),
          asLength: written && withUnit(written, units ?? 'in'),
        }),
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

/** No measure needs as many digits as these. */
const mostDigits = 2n ** 1024n;

function isOfBearableSize({ numerator, denominator }: Rational): boolean {
  return numerator < mostDigits && numerator > -mostDigits && denominator < mostDigits;
}
