import { describe, expect, it } from 'vitest';
import { didYouMean, nearest } from '../../src/model/index.ts';

describe('the nearest known word', () => {
  // Source: computed by hand, one slip each but for the last.
  it.each([
    ['kref', ['kerf', 'trim'], 'kerf'],
    ['sqaure', ['slack', 'square'], 'square'],
    ['tiels', ['title', 'tiles'], 'tiles'],
    ['least_strip', ['least strip'], 'least strip'],
    ['Grain', ['grain'], 'grain'],
    ['matreails', ['materials', 'make'], 'materials'],
  ])('takes %s for one of %j', (word, known, meant) => {
    expect(nearest(word, known)).toBe(meant);
  });

  it.each([
    ['zzzzqqq', ['check', 'cut']],
    ['cm', ['mm', 'in']],
    ['height', ['units', 'grid']],
    ['', ['of']],
  ])('says nothing where %s is like none of %j', (word, known) => {
    expect(nearest(word, known)).toBeUndefined();
    expect(didYouMean(word, known)).toBe('');
  });

  it('prefers the word listed first of two that are equally near', () => {
    expect(nearest('wail', ['wall', 'waif'])).toBe('wall');
    expect(nearest('wail', ['waif', 'wall'])).toBe('waif');
  });

  it('ends a message', () => {
    expect(didYouMean('kref', ['kerf'])).toBe('; did you mean "kerf"?');
  });
});
