import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import type { Job, Length } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { type Change, jobPlanOf, puttingAway, sheetsOf } from '../../src/stock/index.ts';
import { specOf } from '../expand/check.ts';

const aSize = fc.record({
  length: fc.integer({ min: 20, max: 200 }),
  width: fc.integer({ min: 20, max: 200 }),
  count: fc.integer({ min: 1, max: 4 }),
});
const anEvening = fc.record({
  parts: fc.array(aSize, { minLength: 1, maxLength: 4 }),
  offcuts: fc.array(aSize, { maxLength: 4 }),
  sheets: fc.integer({ min: 0, max: 2 }),
  trim: fc.constantFrom(0, 3),
  kerf: fc.constantFrom(0, 0, 2),
  pack: fc.constantFrom(1, 3),
});
type Evening = typeof anEvening extends fc.Arbitrary<infer T> ? T : never;

/** A job of which all is cut. */
function cutJob({ parts, offcuts, sheets, trim, kerf, pack }: Evening): Job {
  const loose = parts.map(
    ({ length, width, count }, i) => `p${i}: { of: card, size: [${length}, ${width}], count: ${count} }`,
  );
  const text = `cardwright: session
units: mm
materials: { card: { thickness: 1, kerf: ${kerf} } }
sheets: { card: [{ size: [420, 297], price: 2.40 EUR, pack: ${pack} }] }
loose: { ${loose.join(', ')} }
drawer: drawer.yaml
cutting: { trim: ${trim}, worth keeping: [40, 30] }
`;
  const listed = offcuts.map(
    ({ length, width, count }, i) => `{ size: [${length}, ${width}], count: ${count}, label: B${i} }`,
  );
  const whole = sheets === 0 ? '' : `sheets: { card: [{ size: [420, 297], count: ${sheets} }] }\n`;
  const drawer = `cardwright: drawer\nunits: mm\n${whole}offcuts: { card: [${listed.join(', ')}] }\n`;
  const { value, diagnostics } = runToEnd(pipeline(specOf(text, { 'drawer.yaml': drawer }), {}));
  if (value === undefined) throw new Error(diagnostics.map((it) => it.message).join('; '));
  const plan = jobPlanOf(value, {
    madeBy: 'a test',
    inputs: [],
    asked: { files: [], make: [], evening: undefined },
    drawer: 'drawer.yaml',
    mark: '',
  });
  const job: Job = { id: 'one', plan, events: [] };
  const all = sheetsOf(job).map(({ material, number }) => ({ material, number }));
  return { ...job, events: [{ kind: 'cut', sheets: all }] };
}

/** All sizes here are halves of a millimetre, which a float holds exactly. */
function mm(length: Length): number {
  const [numerator, denominator = '1'] = toFraction(length).split('/');
  return Number(numerator) / Number(denominator);
}

const areaOf = (it: { readonly length: Length; readonly width: Length }): number =>
  mm(it.length) * mm(it.width);
const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);
const moved = (changes: readonly Change[], kind: Change['kind']): number =>
  sum(
    changes
      .filter((it) => it.kind === kind)
      .map((it) => areaOf(it.entry) * (it.kind === 'take' ? it.count : Number(it.entry.count))),
  );

describe('what goes out of a drawer and is bought', () => {
  // Source: computed: no area comes or goes but as dust, and a cut is no wider than its kerf.
  it('is what was asked for, what is put away, the scrap, the trim and the kerf', () => {
    let seen = { taken: 0, put: 0, bought: 0, leftOfPacks: 0 };
    fc.assert(
      fc.property(anEvening, (evening) => {
        const job = cutJob(evening);
        const { changes } = puttingAway(job);
        const pictures = sheetsOf(job).map(({ picture }) => picture);
        const fresh = pictures.filter((it) => !it.sheet.inDrawer);
        const inPacks = Math.ceil(fresh.length / evening.pack) * evening.pack;
        const bought = inPacks * 420 * 297;
        const trim = sum(pictures.map(({ sheet, inside }) => areaOf(sheet) - areaOf(inside)));
        const leftovers = pictures.flatMap((it) => it.leftovers);
        const scrap = sum(leftovers.filter(({ keep }) => !keep).map(({ box }) => areaOf(box)));
        const asked = sum(evening.parts.map(({ length, width, count }) => length * width * count));
        const [taken, put] = [moved(changes, 'take'), moved(changes, 'put')];
        const dust = taken + bought - asked - put - scrap - trim;

        const { kerf } = evening;
        const boxes = pictures.flatMap((it) => [...it.pieces, ...it.leftovers]).map(({ box }) => box);
        const most = sum(boxes.map((it) => kerf * (mm(it.length) + mm(it.width) + kerf)));
        expect(dust).toBeGreaterThanOrEqual(0);
        expect(dust).toBeLessThanOrEqual(most); // nothing at all where the knife takes nothing
        seen = {
          taken: seen.taken + taken,
          put: seen.put + put,
          bought: seen.bought + bought,
          leftOfPacks: seen.leftOfPacks + inPacks - fresh.length,
        };
      }),
      { numRuns: 40 },
    );
    expect(Object.values(seen).every((it) => it > 0)).toBe(true);
  });
});
