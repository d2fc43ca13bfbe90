import { describe, expect, it } from 'vitest';
import {
  gathered,
  product,
  type Quantity,
  quotient,
  stepped,
  type Worked,
} from '../../src/expand/quantity.ts';
import { rational, toFraction } from '../../src/measure/index.ts';

type Kind = Quantity['kind'];
const six = (kind: Kind): Quantity => ({ kind, value: rational(6n) });
const three = (kind: Kind): Quantity => ({ kind, value: rational(3n) });
const outcome = (worked: Worked): string =>
  'quantity' in worked ? worked.quantity.kind : worked.misfit.kind;

// The table of kinds in section 4 of the language, one row for each pair. Refused: `-`.
describe('kinds', () => {
  it.each<[Kind, Kind, string, string, string]>([
    // left, right, + and -, x, /
    ['bare', 'bare', 'bare', 'number', 'number'],
    ['bare', 'number', 'number', 'number', 'number'],
    ['bare', 'length', 'length', 'length', '-'],
    ['bare', 'area', '-', 'area', '-'],
    ['number', 'bare', 'number', 'number', 'number'],
    ['number', 'number', 'number', 'number', 'number'],
    ['number', 'length', '-', 'length', '-'],
    ['number', 'area', '-', 'area', '-'],
    ['length', 'bare', 'length', 'length', 'length'],
    ['length', 'number', '-', 'length', 'length'],
    ['length', 'length', 'length', 'area', 'number'],
    ['length', 'area', '-', '-', '-'],
    ['area', 'bare', '-', 'area', 'area'],
    ['area', 'number', '-', 'area', 'area'],
    ['area', 'length', '-', '-', 'length'],
    ['area', 'area', 'area', '-', 'number'],
  ])('%s with %s: + %s, x %s, / %s', (left, right, added, multiplied, divided) => {
    const say = (it: Worked): string => outcome(it).replace('unlike', '-');
    for (const how of ['sum', 'difference', 'smaller', 'larger'] as const) {
      expect(say(gathered(how, [six(left), three(right)], 'mm'))).toBe(added);
    }
    for (const how of ['up to', 'down to', 'nearest'] as const) {
      expect(say(stepped(how, six(left), three(right), 'mm'))).toBe(added);
    }
    expect(say(product(six(left), three(right)))).toBe(multiplied);
    expect(say(quotient(six(left), three(right)))).toBe(divided);
  });

  it('take a bare number beside a length for one of the unit of its file', () => {
    const inInches = gathered('sum', [six('length'), three('bare')], 'in');
    expect('quantity' in inInches && toFraction(inInches.quantity.value)).toBe('411/5'); // 6 mm + 76.2 mm
    const inMm = gathered('sum', [three('bare'), six('length')], 'mm');
    expect('quantity' in inMm && toFraction(inMm.quantity.value)).toBe('9');
  });

  it('leave a bare number without a unit alone among its like', () => {
    expect(outcome(gathered('sum', [six('bare'), three('bare')], undefined))).toBe('bare');
    expect(gathered('larger', [six('length'), six('length'), three('bare')], undefined)).toEqual({
      misfit: { kind: 'unit not known', which: 2 },
    });
  });
});

describe('steps', () => {
  const at = (numerator: bigint, denominator: bigint): Quantity => ({
    kind: 'length',
    value: rational(numerator, denominator),
  });
  const step = at(1n, 4n);

  it.each<['up to' | 'down to' | 'nearest', bigint, bigint, string]>([
    ['down to', 23n, 8n, '11/4'],
    ['up to', 23n, 8n, '3'],
    ['nearest', 23n, 8n, '3'], // a half goes up
    ['nearest', -23n, 8n, '-11/4'], // and below zero too
    ['down to', -23n, 8n, '-3'],
    ['up to', -23n, 8n, '-11/4'],
    ['down to', 11n, 4n, '11/4'],
    ['up to', 11n, 4n, '11/4'],
  ])('%s 1/4 of %s/%s is %s', (how, numerator, denominator, expected) => {
    const worked = stepped(how, at(numerator, denominator), step, 'mm');
    expect('quantity' in worked && toFraction(worked.quantity.value)).toBe(expected);
  });

  it('have to be above zero', () => {
    for (const none of [at(0n, 1n), at(-1n, 4n)]) {
      expect(outcome(stepped('nearest', six('length'), none, 'mm'))).toBe('step not above zero');
    }
  });
});

it('refuses to divide by zero, whatever the kinds', () => {
  const nothing = { kind: 'bare', value: rational(0n) } as const;
  for (const kind of ['bare', 'number', 'length', 'area'] as const) {
    expect(outcome(quotient(six(kind), nothing))).toBe('divided by zero');
  }
});
