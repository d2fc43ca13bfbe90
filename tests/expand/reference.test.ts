import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { numberOf } from '../../src/expand/evaluate.ts';
import { Faults } from '../../src/expand/faults.ts';
import { Likes } from '../../src/expand/like.ts';
import { Sights } from '../../src/expand/sight.ts';
import { fileScope, Workings } from '../../src/expand/workings.ts';
import { toFraction } from '../../src/measure/index.ts';
import { specOf } from './check.ts';

/** A sum as we write it, and what an independent library of exact fractions makes of the same steps. */
interface Reckoned {
  readonly text: string;
  readonly value: Fraction;
}

const literal: fc.Arbitrary<Reckoned> = fc
  .record({ wholes: fc.nat(20), over: fc.nat(62), under: fc.constantFrom(1, 2, 4, 8, 16, 64, 3, 7) })
  .map(({ wholes, over, under }) => {
    const part = over % under;
    const text = part === 0 ? `${wholes}` : wholes === 0 ? `${part}/${under}` : `${wholes} ${part}/${under}`;
    return { text, value: new Fraction(wholes).add(new Fraction(part, under)) };
  });

const { sum } = fc.letrec<{ sum: Reckoned; deeper: Reckoned }>((tie) => ({
  sum: fc.oneof({ depthSize: 'small', maxDepth: 4 }, literal, tie('deeper')),
  deeper: fc.oneof(
    fc
      .record({
        left: tie('sum'),
        right: tie('sum'),
        sign: fc.constantFrom('+', '-', 'x', '/', '·', '÷', '−'),
      })
      .map(({ left, right, sign }) => {
        const isByZero = (sign === '/' || sign === '÷') && right.value.equals(0);
        const by = isByZero ? { text: '2', value: new Fraction(2) } : right;
        return { text: `(${left.text} ${sign} ${by.text})`, value: combined(left.value, sign, by.value) };
      }),
    fc
      .record({ left: tie('sum'), right: tie('sum'), which: fc.constantFrom('smaller', 'larger') })
      .map(({ left, right, which }) => ({
        text: `(${which} of ${left.text} and ${right.text})`,
        value: left.value.compare(right.value) <= 0 === (which === 'smaller') ? left.value : right.value,
      })),
    fc
      .record({
        of: tie('sum'),
        way: fc.constantFrom('up to', 'down to'),
        step: fc.constantFrom('1/32', '1/8', '2', '1/3'),
      })
      .map(({ of, way, step }) => {
        const steps = of.value.div(new Fraction(step));
        const count = way === 'up to' ? steps.ceil() : steps.floor();
        return { text: `(${of.text} ${way} ${step})`, value: count.mul(new Fraction(step)) };
      }),
  ),
}));

function combined(left: Fraction, sign: string, right: Fraction): Fraction {
  if (sign === '+') return left.add(right);
  if (sign === '-' || sign === '−') return left.sub(right);
  return sign === 'x' || sign === '·' ? left.mul(right) : left.div(right);
}

function worthOf(text: string): string {
  const spec = specOf(`numbers: { n: ${text} }\n`);
  const faults = new Faults();
  const sights = new Sights(spec);
  const workings = new Workings(sights, new Likes(sights, faults), faults);
  const [named] = spec.files[0].numbers;
  const value = named && numberOf(named.value, fileScope, workings);
  expect(faults.all).toEqual([]);
  return value === undefined ? 'nothing' : toFraction(value);
}

// Source: fraction.js 5.3.4 (BigInt), reckoning the same steps on its own.
describe('sums of plain numbers', () => {
  it('come to what another library of exact fractions makes of them', () => {
    fc.assert(
      fc.property(sum, ({ text, value }) => {
        fc.pre(text.length < 400);
        expect(worthOf(text)).toBe(value.toFraction());
      }),
      { numRuns: 300 },
    );
  });
});
