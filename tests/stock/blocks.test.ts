import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Job, JobSheet } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { jobPlanOf, puttingAway, sheetsOf } from '../../src/stock/index.ts';
import { specOf } from '../expand/check.ts';

/** A job that takes one whole layer for each of its parts. */
function jobOf(parts: number, inDrawer: number): Job {
  const text = `cardwright: session
units: mm
materials: { foam: { thickness: 10, kerf: 1 } }
sheets: { foam: [{ size: [400, 300], thick: 50, price: 6.80 EUR }] }
loose: { slab: { of: foam, size: [390, 290], count: ${parts} } }
drawer: drawer.yaml
`;
  const drawer = `cardwright: drawer
units: mm
sheets: { foam: [{ size: [400, 300], thick: 50, count: ${inDrawer} }] }
`;
  const { value, diagnostics } = runToEnd(pipeline(specOf(text, { 'drawer.yaml': drawer }), {}));
  if (value === undefined) throw new Error(diagnostics.map((it) => it.message).join('; '));
  const plan = jobPlanOf(value, {
    madeBy: 'a test',
    inputs: [],
    asked: { files: [], make: [], evening: undefined },
    drawer: 'drawer.yaml',
    mark: '',
  });
  return { id: 'one', plan, events: [] };
}

const listOf = (job: Job): readonly JobSheet[] =>
  sheetsOf(job).map(({ material, number }) => ({ material, number }));

/** What the drawer loses in blocks and gains in sheets, where so many sheets are put away at a time. */
function goesOn(job: Job, goes: readonly number[]): { blocks: number; sheets: number } {
  const all = listOf(job);
  let [now, done, blocks, sheets] = [job, 0, 0, 0];
  for (const go of [...goes, all.length]) {
    const some = all.slice(done, done + go);
    done += some.length;
    if (some.length === 0) break;
    now = { ...now, events: [...now.events, { kind: 'cut', sheets: some }] };
    const { changes, elsewhere } = puttingAway(now);
    expect(elsewhere).toEqual([]);
    for (const it of changes) {
      if (it.kind === 'take') {
        expect(it.entry.thick).toBeDefined();
        blocks += it.count;
      } else {
        expect([it.entry.kind, it.entry.thick]).toEqual(['sheet', undefined]);
        sheets += Number(it.entry.count);
      }
    }
    now = { ...now, events: [...now.events, { kind: 'put away', entry: now.events.length, sheets: some }] };
  }
  return { blocks, sheets };
}

describe('blocks that are sliced', () => {
  // Source: computed. 50 is four layers of 10 and three cuts of 1; the rest is 6 thick.
  it('go out of the drawer whole, and what is left of them comes back as sheets, however it is put away', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 11 }),
        fc.integer({ min: 0, max: 3 }),
        fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 4 }),
        (parts, inDrawer, goes) => {
          const job = jobOf(parts, inDrawer);
          expect(listOf(job)).toHaveLength(parts);
          const fromDrawer = Math.min(parts, inDrawer * 4);
          const bought = parts - fromDrawer;
          const blocks = Math.ceil(fromDrawer / 4);
          const left = blocks * 4 - fromDrawer + Math.ceil(bought / 4) * 4 - bought;
          expect(goesOn(job, goes)).toEqual({ blocks, sheets: left });
        },
      ),
      { numRuns: 40 },
    );
  });
});
