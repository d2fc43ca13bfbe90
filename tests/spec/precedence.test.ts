import fc from 'fast-check';
import { create, type MathNode, parseDependencies } from 'mathjs/number';
import { describe, expect, it } from 'vitest';
import { type Tree, treeOf } from '../../src/spec/sum/precedence.ts';

// Source: the parser of mathjs, a general-purpose library of mathematics, as an independent reader.
const { parse } = create(parseDependencies ?? {}, {}) as unknown as { parse: (text: string) => MathNode };

interface Theirs {
  readonly type: string;
  readonly name?: string;
  readonly fn?: unknown;
  readonly args?: readonly Theirs[];
}

function theirs({ type, name = '', fn, args = [] }: Theirs): Tree {
  if (type === 'SymbolNode') return { kind: 'operand', token: Number(name.slice(1)) };
  if (type === 'FunctionNode') {
    const called = (fn as Theirs).name ?? ''; // a function node's fn is a symbol node
    return { kind: 'call', token: Number(called.slice(1)), of: args.map(theirs) };
  }
  const kinds = { add: 'sum', subtract: 'difference', multiply: 'product', divide: 'quotient' } as const;
  const [left, right] = args;
  if (type !== 'OperatorNode' || left === undefined || right === undefined) throw new Error(type);
  return { kind: kinds[fn as keyof typeof kinds], left: theirs(left), right: theirs(right) };
}

/** Symbols as the check of a sum writes them. */
const symbols = fc.letrec<{ sum: string; operand: string }>((tie) => ({
  operand: fc.oneof(
    { maxDepth: 5, depthSize: 'small' },
    fc.nat(400).map((token) => `t${token}`),
    fc
      .tuple(fc.nat(400), fc.array(tie('sum'), { minLength: 1, maxLength: 3 }))
      .map(([token, of]) => `t${token}(${of.join(', ')})`),
  ),
  sum: fc
    .tuple(
      tie('operand'),
      fc.array(fc.tuple(fc.constantFrom('+', '-', '*', '/'), tie('operand')), { maxLength: 5 }),
    )
    .map(([first, others]) => `${first}${others.map(([sign, it]) => ` ${sign} ${it}`).join('')}`),
})).sum;

describe('which sign goes before which', () => {
  it('is what a library of mathematics makes of it', () => {
    fc.assert(
      fc.property(symbols, (text) => {
        expect(treeOf(text)).toEqual(theirs(parse(text)));
      }),
      { numRuns: 500 },
    );
  });

  it('is read from the left among equals', () => {
    const [a, b, c] = [0, 1, 2].map((token) => ({ kind: 'operand', token }));
    expect(treeOf('t0 - t1 - t2')).toEqual({
      kind: 'difference',
      left: { kind: 'difference', left: a, right: b },
      right: c,
    });
    expect(treeOf('t0 - t1 * t2')).toEqual({
      kind: 'difference',
      left: a,
      right: { kind: 'product', left: b, right: c },
    });
  });

  it.each([
    '',
    't0 +',
    '+ t0',
    't0 t1',
    't0(',
    't0(t1',
    '(t0)',
    't0)',
    't0(t1 t2)',
    't0(t1 t2 t3)',
    't0 ^ t1',
    'x',
  ])('does not take %j', (text) => {
    expect(() => treeOf(text)).toThrow();
  });
});
