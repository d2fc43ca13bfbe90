import { describe, expect, it } from 'vitest';
import { inches, millimetres, rational, showThickness } from '../../src/measure/index.ts';

const thou = (amount: bigint) => inches(rational(amount, 1000n));

// Source: computed by hand from 1 in = 127/5 mm.
describe('a thickness', () => {
  it.each([
    [inches(rational(1n, 32n)), 'in', '1/32 in'],
    [thou(18n), 'in', '0.018 in'],
    [millimetres(rational(31n, 20n)), 'in', '1.55 mm'],
    [millimetres(rational(31n, 20n)), 'mm', '1.55 mm'],
    [inches(rational(1n, 16n)), 'mm', '1.5875 mm'],
    [inches(rational(1n, 64n)), 'mm', '1/64 in'],
    [inches(rational(1n, 3n)), 'mm', '8 7/15 mm'],
  ] as const)('is shown without rounding', (length, unit, text) => {
    expect(showThickness(length, unit)).toBe(text);
  });
});
