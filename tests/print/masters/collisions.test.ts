import { expect, it } from 'vitest';
import { allPages } from '../drawn.ts';
import { faultsOf } from '../page/collisions.ts';
import { composed } from './composed.ts';
import { outlines } from './evening.ts';

it('sets nothing on the pages of masters on top of anything', () => {
  const pages = allPages(composed(outlines).pages());
  expect(pages.length).toBeGreaterThan(5);
  for (const [index, page] of pages.entries()) expect(faultsOf(page, 10), `page ${index + 1}`).toEqual([]);
});
