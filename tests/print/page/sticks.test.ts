import { describe, expect, it } from 'vitest';
import type { Mark, Page } from '../../../src/print/page/index.ts';
import { sticksOf } from '../../../src/print/page/stickPages.ts';
import { float, inch } from '../../outline/drawing.ts';
import { crosscut, demand, kind, leftOver, member, part, sheet } from '../../plan/byHand.ts';
import { faultsOf } from './collisions.ts';
import { vineyard, withLayouts } from './evening.ts';
import { sheetPages } from './sheetPages.ts';

/** A sheet of 24 in with cuts at 3, 9 and 20 1/2 in: too long for one strip on any usual paper. */
const long = withLayouts(
  'Night',
  demand([kind(inch(3), inch(2), [member('A', 1)])], [sheet(inch(24), inch(2))]),
  [crosscut(inch(3), part(0), crosscut(inch(6), leftOver, crosscut(inch(23, 2), leftOver, leftOver)))],
);
const marksOfLong = [inch(3), inch(9), inch(41, 2)];

interface Strip {
  readonly title: string;
  /** Of the tick marks and of the crosses, from the left end of the strip. */
  readonly ticks: readonly number[];
  readonly crosses: ReadonlyMap<string, number>;
}

/** Strips as they stand on the pages, told apart by their title above them. */
function stripsOn(pages: readonly Page[]): readonly Strip[] {
  return pages.flatMap(({ marks }) => {
    const titles = marks.flatMap((it) => (it.kind === 'words' && /, step \d+/.test(it.text) ? [it] : []));
    return titles.map(({ text, at }) => {
      const near = (y: number): boolean => y > at.y && y < at.y + 22.5;
      const left = Math.min(...endsOf(marks, 'part outline', near), ...endsOf(marks, 'datum edge', near));
      const ticks = marks.flatMap((it) =>
        it.kind === 'stroke' && it.role === 'running mark'
          ? it.paths.flatMap(({ points: [{ x, y }] }) => (near(y) ? [x - left] : []))
          : [],
      );
      const keys = marks.flatMap((it) =>
        it.kind === 'words' && it.role === 'key' && near(it.at.y) ? [it] : [],
      );
      return { title: text, ticks, crosses: new Map(keys.map((it) => [it.text, it.at.x - 1 - left])) };
    });
  });
}

function endsOf(marks: readonly Mark[], role: string, near: (y: number) => boolean): readonly number[] {
  return marks.flatMap((it) =>
    it.kind === 'stroke' && it.role === role
      ? it.paths.flatMap(({ points }) => points.flatMap(({ x, y }) => (near(y) ? [x] : [])))
      : [],
  );
}

function printed(made: typeof long): readonly Page[] {
  const all = sheetPages(made, [], { sticks: true }).value!;
  const first = all.findIndex(({ bookmarks }) => bookmarks.includes('story sticks'));
  expect(first).toBeGreaterThan(0);
  return all.slice(first);
}

describe('a story stick', () => {
  it('has the marks of the plan', () => {
    expect(sticksOf(long.plans).map(({ marks }) => marks)).toEqual([marksOfLong]);
  });

  it('bears them at full size, its strips joined by their crosses', () => {
    const strips = stripsOn(printed(long));
    expect(strips.length).toBeGreaterThan(2);
    const found = new Set<number>();
    let shift = 0;
    for (const [i, { ticks, crosses }] of strips.entries()) {
      if (i > 0) {
        const before = strips[i - 1]!.crosses;
        const shared = [...crosses.keys()].filter((name) => before.has(name));
        expect(shared.length).toBe(1);
        shift += before.get(shared[0]!)! - crosses.get(shared[0]!)!;
      }
      for (const it of ticks) found.add(Math.round((it + shift) * 1000) / 1000);
    }
    // Source: 3, 9 and 20 1/2 in at 25.4 mm an inch.
    expect([...found].sort((a, b) => a - b)).toEqual([76.2, 228.6, 520.7]);
    expect(marksOfLong.map(float)).toEqual([76.2, 228.6, 520.7]);
  });

  it('is printed once for edges with the same marks, and names them all', () => {
    const sticks = sticksOf(vineyard().plans);
    const texts = sticks.map(({ marks }) => marks.map(float).join());
    expect(new Set(texts).size).toBe(texts.length);
    const uses = sticks.flatMap((it) => it.uses);
    const steps = vineyard().plans.flatMap(({ sheets }) =>
      sheets.flatMap((it) => it.steps.filter(({ kind }) => kind === 'rip' || kind === 'crosscut')),
    );
    expect(uses.length).toBe(steps.length);
  });

  it('has nothing on top of anything', () => {
    for (const page of [...printed(long), ...printed(vineyard())]) expect(faultsOf(page, 10)).toEqual([]);
  });

  it('is printed only where it is asked for', () => {
    const { value } = sheetPages(long);
    expect(value!.some(({ bookmarks }) => bookmarks.includes('story sticks'))).toBe(false);
  });
});
