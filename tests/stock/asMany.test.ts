import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { specOf } from '../expand/check.ts';

interface Sheet {
  readonly length: number;
  readonly width: number;
  readonly count: number;
}

/** How many sets the program makes, and at most how many it says there could be. */
function asMany(parts: string, of: string, sheets: readonly Sheet[]): { made: number; most: number } {
  const listed = sheets.map(({ length, width, count }) => `{ size: [${length}, ${width}], count: ${count} }`);
  const text = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [200, 200] }] }
drawer: drawer.yaml
tiles: { tile: { footprint: none, parts: ${parts} } }
sets: { count: most, of: ${of} }
`;
  const drawer = `cardwright: drawer\nunits: in\noffcuts: { card: [${listed.join(', ')}] }\n`;
  const { value } = runToEnd(pipeline(specOf(text, { 'drawer.yaml': drawer }), {}));
  const said = value?.batch.notes.at(-1) ?? '0 x set, no more are possible';
  const made = Number(/(\d+) x set/.exec(said)?.[1] ?? 0);
  const most = / (\d+) at most/.exec(said)?.[1];
  if (value !== undefined) {
    for (const { demand, layouts } of value.layouts)
      for (const { sheet } of layouts) expect(demand.sheets[sheet]?.isOffcut).toBe(true);
  }
  return { made, most: most === undefined ? made : Number(most) };
}

const aSheet = fc.record({
  length: fc.integer({ min: 1, max: 14 }),
  width: fc.integer({ min: 1, max: 14 }),
  count: fc.integer({ min: 1, max: 2 }),
});
const sheetsOf = fc.array(aSheet, { minLength: 1, maxLength: 3 });

describe('as many as the drawer allows', () => {
  // Source: computed: of equal squares, a rectangle holds ⌊L/a⌋ × ⌊W/a⌋, whichever way they are cut.
  it('is exactly what the drawer holds, of squares', () => {
    fc.assert(
      fc.property(
        sheetsOf,
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 1, max: 3 }),
        (sheets, side, each) => {
          const squares = sheets.reduce(
            (all, { length, width, count }) =>
              all + count * Math.floor(length / side) * Math.floor(width / side),
            0,
          );
          const sets = Math.floor(squares / each);
          const found = asMany(
            `{ top: { of: card, size: [${side}, ${side}] } }`,
            `{ tile: ${each} }`,
            sheets,
          );
          expect(found.made).toBe(sets);
          expect(found.most).toBeGreaterThanOrEqual(sets);
        },
      ),
      { numRuns: 40 },
    );
  });

  // Source: exhaustive search: every way of dealing the strips of so many sets onto the sheets.
  it('is what trying every way gives, of strips as wide as the sheets', () => {
    const aLength = fc.integer({ min: 2, max: 7 });
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 3, max: 13 }), { minLength: 1, maxLength: 3 }),
        aLength,
        aLength,
        (sheets, a, b) => {
          let sets = 0;
          while (
            fits(
              [...sheets],
              Array.from({ length: sets + 1 }, () => [a, b])
                .flat()
                .sort((x, y) => y - x),
            )
          )
            sets++;
          const found = asMany(
            `{ one: { of: card, size: [${a}, 9] }, two: { of: card, size: [${b}, 9] } }`,
            '{ tile: 1 }',
            sheets.map((length) => ({ length, width: 9, count: 1 })),
          );
          // A strip of 9 could also lie along a sheet that is longer; then more may go in than strips side by side.
          if (sheets.every((length) => length < 9)) expect(found.made).toBe(sets);
          else expect(found.made).toBeGreaterThanOrEqual(sets);
          expect(found.most).toBeGreaterThanOrEqual(found.made);
        },
      ),
      { numRuns: 40 },
    );
  });
});

function fits(room: number[], strips: readonly number[]): boolean {
  const [first, ...rest] = strips;
  if (first === undefined) return true;
  return room.some((left, i) => {
    if (left < first) return false;
    const next = [...room];
    next[i] = left - first;
    return fits(next, rest);
  });
}
