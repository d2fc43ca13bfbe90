import { expect, it } from 'vitest';
import { faultsOf } from '../page/collisions.ts';
import { composed } from './composed.ts';
import { outlines } from './evening.ts';

it('sets nothing on the pages of masters on top of anything', () => {
  const { pages } = composed(outlines);
  expect(pages.length).toBeGreaterThan(5);
  for (const { page, number } of pages) expect(faultsOf(page, 10), `page ${number}`).toEqual([]);
});
