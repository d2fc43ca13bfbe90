import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MaterialLayouts } from '../../src/model/index.ts';
import { pack, verify } from '../../src/pack/index.ts';
import { type Job, type JobRules, Lie } from '../../src/pack/job.ts';
import { bareJob } from '../../src/pack/patterns/bareJob.ts';
import { LimitedSheet } from '../../src/pack/patterns/limitedSheet.ts';
import { canBeCut } from '../../src/pack/search/cuttable.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { demandOf, type PartLine, type RuleLine, type SheetLine } from './demand.ts';

const side = (most: number) => fc.integer({ min: 1, max: most });

/** One sheet in cells, each part as often as wanted, with all limits at once. */
const smallSheet = fc.record({
  sheet: fc.tuple(side(14), side(11)),
  parts: fc.array(fc.tuple(side(6), side(6), side(9)), { minLength: 1, maxLength: 3 }),
  kerf: fc.integer({ min: 0, max: 2 }),
  leastStrip: fc.constantFrom(0, 0, 1, 2, 3),
  longestCut: fc.constantFrom(6, 9, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY),
  rounds: fc.constantFrom(1, 2, 3, Number.POSITIVE_INFINITY),
});

describe('the best sheet within limits', () => {
  it('is worth what every way of cutting gives at most', () => {
    fc.assert(
      fc.property(smallSheet, ({ sheet, parts, kerf, leastStrip, longestCut, rounds }) => {
        const rules = { kerf, leastStrip, longestCut, rounds };
        // In cells one kerf is added to every size; a part narrower than the least strip is set aside earlier.
        const ways = parts
          .filter(([w, h]) => Math.min(w, h) >= leastStrip)
          .map(([w, h], kind) => ({ kind, width: w + kerf, height: h + kerf, turned: false }));
        fc.pre(ways.length > 0);
        const values = parts.filter(([w, h]) => Math.min(w, h) >= leastStrip).map(([, , value]) => value);
        const whole = { length: sheet[0] + kerf, width: sheet[1] + kerf, available: 1, cost: 1 };
        const solver = LimitedSheet.over(whole, ways, rules, 1e9)!;
        const run = solver.solve(values);
        let next = run.next();
        while (!next.done) next = run.next();
        const pieces = ways.map(({ width, height }, i) => [width - kerf, height - kerf, values[i]!] as const);
        expect(next.value).toBe(bestByHand(sheet[0], sheet[1], pieces, rules));
        for (const tree of solver.trees(0, 5)) expect(canBeCut(tree, whole, rules)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });
});

// The kerf is a part of a cell here, so the job's cells are far smaller than those of the sizes.
it('is worth no more than that of the job in larger cells, by which it is bounded', () => {
  const fine = fc.record({
    sheet: fc.tuple(side(14), side(11)),
    parts: fc.array(fc.tuple(side(6), side(6), side(9)), { minLength: 1, maxLength: 3 }),
    cell: fc.integer({ min: 2, max: 5 }),
    kerf: fc.integer({ min: 1, max: 7 }),
    leastStrip: fc.integer({ min: 1, max: 30 }),
  });
  let bounded = 0;
  fc.assert(
    fc.property(fine, ({ sheet, parts, cell, kerf, leastStrip }) => {
      const none = Number.POSITIVE_INFINITY;
      const kinds = parts
        .filter(([w, h]) => cell * Math.min(w, h) >= leastStrip)
        .map(([w, h]) => ({ length: cell * w + kerf, width: cell * h + kerf, count: 1 }));
      fc.pre(kinds.length > 0);
      const values = parts
        .filter(([w, h]) => cell * Math.min(w, h) >= leastStrip)
        .map(([, , value]) => value);
      const job: Job = {
        kinds,
        sheets: [{ length: cell * sheet[0] + kerf, width: cell * sheet[1] + kerf, available: none, cost: 1 }],
        rules: { kerf, leastStrip, longestCut: none, rounds: none },
        lies: new Uint8Array(kinds.length).fill(Lie.straight),
      };
      const bare = bareJob(job, [...kinds.keys()]);
      if (bare === undefined) return;
      const [best, looser] = [job, bare].map((it) => {
        const ways = it.kinds.map(({ length, width }, kind) => ({
          kind,
          width: length,
          height: width,
          turned: false,
        }));
        const run = LimitedSheet.over(it.sheets[0]!, ways, it.rules, 1e9)!.solve(values);
        let next = run.next();
        while (!next.done) next = run.next();
        return next.value;
      });
      expect(looser).toBeGreaterThanOrEqual(best!);
      bounded++;
    }),
    { numRuns: 300 },
  );
  expect(bounded).toBeGreaterThan(50);
});

/** Every cut of every piece, as the rules are written down, without any thought of what is of use. */
function bestByHand(
  length: number,
  width: number,
  parts: readonly (readonly [number, number, number])[],
  { kerf, leastStrip, longestCut, rounds }: JobRules,
): number {
  const known = new Map<string, number>();
  // Ways in which the piece, or what it was cut from, was shaved, as text.
  const best = (
    l: number,
    w: number,
    left: number,
    last: 'rip' | 'crosscut' | '',
    shaved: string,
  ): number => {
    if (l <= 0 || w <= 0) return 0;
    const key = `${l} ${w} ${left} ${last} ${shaved}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let most = Math.max(0, ...parts.flatMap(([pl, pw, value]) => (pl === l && pw === w ? [value] : [])));
    const tryCuts = (kind: 'rip' | 'crosscut', size: number, cutLength: number) => {
      const leftThen = kind === last ? left : left - 1;
      if (leftThen < 0 || cutLength > longestCut || shaved.includes(kind)) return;
      for (let at = Math.max(1, leastStrip); at < size; at++) {
        const far = size - at - kerf;
        if (far > 0 && far < leastStrip) continue;
        const after = far <= 0 && leastStrip > 0 ? `${shaved} ${kind}` : shaved;
        const [near, behind] =
          kind === 'rip'
            ? [best(l, at, leftThen, kind, after), best(l, far, leftThen, kind, after)]
            : [best(at, w, leftThen, kind, after), best(far, w, leftThen, kind, after)];
        most = Math.max(most, near + behind);
      }
    };
    tryCuts('rip', w, l);
    tryCuts('crosscut', l, w);
    known.set(key, most);
    return most;
  };
  return best(length, width, Number.isFinite(rounds) ? rounds : 40, '', '');
}

function sheetsOf({ layouts }: MaterialLayouts): number {
  return layouts.reduce((sum, { times }) => sum + times, 0);
}

function packed(
  parts: readonly PartLine[],
  sheet: SheetLine,
  rules: RuleLine,
  steps = 2000,
): MaterialLayouts {
  const { value } = runToEnd(pack(demandOf(parts, [sheet], rules), steps));
  expect(verify(value!)).toEqual([]);
  return value!;
}

describe('rounds of cuts', () => {
  // By hand: 2 × 2 parts of 50 × 40 on 100 × 80 take a rip and two crosscuts, or the other way round.
  it('count the changes of direction', () => {
    const grid = { size: [50, 40], count: 4 } as const;
    expect(sheetsOf(packed([grid], { size: [100, 80] }, { rounds: 2 }))).toBe(1);
  });

  // By hand: with rips alone a strip is as long as the sheet.
  it('are one where strips alone are wanted', () => {
    const value = packed([{ size: [100, 20], count: 8 }], { size: [100, 80] }, { rounds: 1 });
    expect(sheetsOf(value)).toBe(2);
    expect(value.proof).toEqual({ kind: 'fewest' });
  });

  // By hand: 60 × 60 leaves a strip of 40 × 60. A second round gives 40 × 30 twice; to bring one of these down
  // to 30 × 30 is a third.
  it('let more of them onto a sheet the more there are', () => {
    const parts = [{ size: [60, 60] }, { size: [40, 30] }, { size: [30, 30] }] as const;
    const fixed = parts.map((part) => ({ ...part, grain: 'length' as const }));
    expect(sheetsOf(packed(fixed, { size: [100, 60] }, { rounds: 2 }))).toBe(2);
    expect(sheetsOf(packed(fixed, { size: [100, 60] }, { rounds: 3 }))).toBe(1);
  });

  it('are said to be too few for a part that needs two', () => {
    const { diagnostics } = runToEnd(
      pack(demandOf([{ size: [50, 40] }], [{ size: [100, 80] }], { rounds: 1 }), 0),
    );
    expect(diagnostics.map(({ code }) => code)).toEqual(['P08']);
    expect(diagnostics[0]!.message).toContain('in 1 round of cuts');
  });
});

describe('the longest cut', () => {
  it('counts for the trim, too, whichever edges come off first', () => {
    const codes = (trim: readonly [number, number, number, number], longestCut: number) =>
      runToEnd(
        pack(demandOf([{ size: [50, 40] }], [{ size: [100, 80], trim }], { longestCut }), 0),
      ).diagnostics.map(({ code }) => code);
    expect(codes([0, 0, 2, 2], 99)).toEqual(['P10']);
    expect(codes([0, 0, 2, 2], 100)).toEqual([]);
    expect(codes([1, 1, 0, 0], 80)).toEqual([]);
    // The ends first, 80 long, then the sides, 98 long.
    expect(codes([1, 1, 2, 2], 98)).toEqual([]);
    expect(codes([1, 1, 2, 2], 97)).toEqual(['P10']);
  });

  it('and that is told once for a sheet, not for every part', () => {
    const parts = [{ size: [50, 40] }, { size: [30, 20] }, { size: [10, 5] }] as const;
    const { value, diagnostics } = runToEnd(
      pack(demandOf(parts, [{ size: [100, 80], trim: [0, 0, 2, 2] }], { longestCut: 99 }), 0),
    );
    expect(diagnostics.map(({ code }) => code)).toEqual(['P10']);
    expect(value?.layouts ?? []).toEqual([]);
  });

  it('is named where the offcuts are used up, as more of the same sheets would not do', () => {
    const sheets = [
      { size: [100, 80], trim: [0, 0, 2, 2] },
      { size: [60, 50], isOffcut: true, available: 1 },
    ] as const;
    const parts = [{ size: [50, 40], count: 2 }] as const;
    const { diagnostics } = runToEnd(pack(demandOf(parts, sheets, { longestCut: 99 }), 0));
    expect(diagnostics.map(({ code }) => code)).toEqual(['P04']);
    expect(diagnostics[0]!.message).toContain(
      'the trim of a sheet of 100 × 80 mm takes a longer cut than 99 mm',
    );
    expect(diagnostics[0]!.hints.join()).toContain('longest cut:');
  });
});

describe('large batches within limits', () => {
  const kinds = [
    { size: [63, 31], count: 180 },
    { size: [42, 22], count: 240 },
    { size: [57, 48], count: 130 },
    { size: [35, 34], count: 210 },
    { size: [90, 27], count: 90 },
  ] as const;
  it.each([
    [{ leastStrip: 9 }, 2],
    [{ longestCut: 210, kerf: 1 }, 1],
    [{ rounds: 2, kerf: 1 }, 1],
    [{ rounds: 3, leastStrip: 6 }, 2],
  ] as const)('%j: come within %i of the bound', (rules, most) => {
    const value = packed(kinds, { size: [260, 200] }, rules, 4000);
    expect(value.unplaced).toEqual([]);
    expect(sheetsOf(value) - value.bound.sheets).toBeLessThanOrEqual(most);
  });
});
