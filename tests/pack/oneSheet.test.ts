import fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { pack } from '../../src/pack/index.ts';
import { type Job, Lie } from '../../src/pack/job.ts';
import { BestSheet } from '../../src/pack/patterns/bestSheet.ts';
import { waysOfLying } from '../../src/pack/patterns/pattern.ts';
import { collectParts } from '../../src/pack/search/tree.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf } from './demand.ts';

type Row = readonly [length: number, width: number, count: number, value: number];

/** `8 4 2 66; …`: length, width, count, value. */
function rows(text: string): Row[] {
  return text.split(';').map((row) => row.trim().split(' ').map(Number) as unknown as Row); // four numbers a row
}

// Source of the rows: OR-Library, files cgcut and ngcut. N. Christofides, C. Whitlock, Operations Research 25
// (1977); J. Beasley, Operations Research 33 (1985).
const instances: Record<string, { sheet: [number, number]; parts: Row[]; optimum: number }> = {
  // Source of the optima of cgcut, counts limited, orientation fixed: computed by an exact best-first search.
  cgcut1: {
    sheet: [15, 10],
    parts: rows('8 4 2 66; 3 7 1 35; 8 2 3 24; 3 4 5 17; 3 3 2 11; 3 2 2 8; 2 1 1 2'),
    optimum: 244,
  },
  cgcut2: {
    sheet: [40, 70],
    parts: rows(
      '21 22 1 582; 31 13 1 403; 9 35 3 315; 9 24 3 216; 30 7 2 210; 11 13 3 143; 10 14 1 140; 14 8 3 110; 12 8 3 94; 13 7 3 90',
    ),
    optimum: 2892,
  },
  cgcut3: {
    sheet: [40, 70],
    parts: rows(
      '31 43 4 500; 30 41 2 480; 29 39 4 460; 28 38 4 440; 27 37 3 420; 26 36 4 410; 25 35 3 400; 24 34 4 380; 33 23 4 360; 22 32 3 340; 31 21 3 320; 29 18 3 300; 17 27 2 280; 15 24 2 240; 16 25 4 260; 15 24 1 240; 23 14 4 220; 21 12 3 180; 19 11 4 160; 9 17 1 140',
    ),
    optimum: 1860,
  },
  // Source of the optima of ngcut: PackLib², page on Beasley 1985; the same with edge-to-edge cuts (computed).
  ngcut1: { sheet: [10, 10], parts: rows('3 7 2 35; 8 2 2 40; 10 2 1 27; 5 4 3 23; 2 9 2 43'), optimum: 164 },
  ngcut2: {
    sheet: [10, 10],
    parts: rows('1 10 3 28; 5 3 2 40; 9 3 3 63; 6 1 3 13; 3 8 3 31; 4 1 1 10; 7 3 2 44'),
    optimum: 230,
  },
  ngcut3: {
    sheet: [10, 10],
    parts: rows(
      '3 2 2 7; 7 2 3 20; 4 5 2 60; 4 1 2 9; 1 10 1 14; 8 4 1 79; 4 2 2 11; 3 7 3 52; 6 2 3 13; 9 1 2 21',
    ),
    optimum: 247,
  },
};

describe('one sheet with limited counts', () => {
  it.each(Object.entries(instances))('%s: what is placed is never worth more than the optimum', (_, it) => {
    // Each part in turn is asked with its neighbours in the list, so that many mixes are tried.
    for (let from = 0; from < it.parts.length; from++) {
      const some = [...it.parts.slice(from), ...it.parts.slice(0, from)].slice(0, 6);
      const demand = demandOf(
        some.map(([length, width, count]) => ({ size: [length, width], count, grain: 'length' })),
        [{ size: it.sheet, grain: 'length', available: 1 }],
      );
      const { value } = runToEnd(pack(demand, 300));
      const worth = some.reduce((sum, [, , count, each], i) => sum + (count - missing(value!, i)) * each, 0);
      expect(worth).toBeGreaterThan(0);
      expect(worth).toBeLessThanOrEqual(it.optimum);
    }
  });

  // Source: the published optimal mix of cgcut1, counts 2 1 1 2 1 1 0, computed to be worth 244.
  it('places the optimal mix of cgcut1 on one sheet', () => {
    const counts = [2, 1, 1, 2, 1, 1];
    const demand = demandOf(
      counts.map((count, i) => ({
        size: [instances.cgcut1!.parts[i]![0], instances.cgcut1!.parts[i]![1]],
        count,
        grain: 'length',
      })),
      [{ size: [15, 10], grain: 'length' }],
    );
    const { value } = runToEnd(pack(demand, 20_000));
    expect(value!.layouts.reduce((sum, { times }) => sum + times, 0)).toBe(1);
  });
});

// Source: optima without limits on counts, orientation fixed: PackLib², page on Hifi & Zissimopoulos 1996.
const unlimited: [string, number][] = [
  ['cgcut1', 249],
  ['cgcut2', 3076],
  ['cgcut3', 2240],
];

// Source: OR-Library, file gcut1: J. Beasley, J. Opl Res. Soc. 36 (1985); the value is the area. Optima as in
// the tables of G. Cintra (University of São Paulo), orientation fixed and turned.
const gcut1 = rows(
  '167 184 1 30728; 114 118 1 13452; 167 152 1 25384; 83 140 1 11620; 70 86 1 6020; 143 166 1 23738; 120 160 1 19200; 66 148 1 9768; 87 141 1 12267; 69 165 1 11385',
);

describe('the best sheet without limits on counts', () => {
  it.each(unlimited)('%s is worth %i', (name, optimum) => {
    expect(bestWorth(instances[name]!.sheet, instances[name]!.parts, Lie.straight)).toBe(optimum);
  });

  it('gcut1 is worth 56460, and 58136 with turning', () => {
    expect(bestWorth([250, 250], gcut1, Lie.straight)).toBe(56460);
    expect(bestWorth([250, 250], gcut1, Lie.straight | Lie.turned)).toBe(58136);
  });

  const file = new URL('../../../shared/bench/oneSheet.json', import.meta.url);
  it.skipIf(!fs.existsSync(file))('gcut2 to gcut12 are reached, where their file is at hand', () => {
    const all: { id: string; sheet: [number, number]; parts: Row[]; optimum: { O: number; R: number } }[] =
      JSON.parse(fs.readFileSync(file, 'utf8')).instances;
    for (const { id, sheet, parts, optimum } of all.filter((it) => /^gcut(\d|1[012])$/.test(it.id))) {
      expect([id, bestWorth(sheet, parts, Lie.straight)]).toEqual([id, optimum.O]);
      expect([id, bestWorth(sheet, parts, Lie.straight | Lie.turned)]).toEqual([id, optimum.R]);
    }
  });
});

function missing({ unplaced }: MaterialLayouts, part: number): number {
  return unplaced.reduce((sum, it) => sum + (it.part === part ? it.count : 0), 0);
}

/** The value the table gives, after a look that its tree is worth as much. */
function bestWorth([length, width]: readonly [number, number], parts: readonly Row[], ways: number): number {
  const sheet = { length, width, available: 1, cost: 1 };
  const rules = {
    kerf: 0,
    leastStrip: 0,
    longestCut: Number.POSITIVE_INFINITY,
    rounds: Number.POSITIVE_INFINITY,
  };
  const kinds = parts.map(([l, w]) => ({ length: l, width: w, count: 1 }));
  const job: Job = { kinds, sheets: [sheet], rules, lies: new Uint8Array(kinds.length).fill(ways) };
  const lying = waysOfLying(job, [...kinds.keys()], 0);
  const best = BestSheet.over(sheet, lying, rules, Number.POSITIVE_INFINITY)!;
  const values = parts.map(([, , , value]) => value);
  const run = best.solve(values);
  let next = run.next();
  while (!next.done) next = run.next();
  const placed: number[] = [];
  const [tree] = best.trees(next.value - 1, 1);
  collectParts(tree!, placed);
  expect(tree!.width).toBeLessThanOrEqual(length);
  expect(tree!.height).toBeLessThanOrEqual(width);
  expect(placed.reduce((sum, kind) => sum + values[kind]!, 0)).toBe(next.value);
  return next.value;
}
