import { describe, expect, it } from 'vitest';
import { withFractions } from '../../../src/print/page/sizes.ts';

describe('fractions in running text', () => {
  // U+2044 makes the font build a fraction up; U+2009 is a thin space. By hand.
  it.each([
    ['needs 14 3/8 in; the longest gives 3/4 in', 'needs 14\u20093\u20448 in; the longest gives 3\u20444 in'],
    ['(+1/32)', '(+1\u204432)'],
    ['on 3/8/2024', 'on 3/8/2024'],
    ['wall a/b', 'wall a/b'],
  ])('%s', (text, set) => {
    expect(withFractions(text)).toBe(set);
  });
});
