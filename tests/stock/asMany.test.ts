import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { specOf } from '../expand/check.ts';
import { fullest, type Highs, loadHighs, termsOf } from '../pack/everyWay.ts';

interface Sheet {
  readonly length: number;
  readonly width: number;
  readonly count: number;
}

/** How many sets the program makes, and at most how many it says there could be. */
function asMany(
  parts: string,
  of: string,
  sheets: readonly Sheet[],
  grain = '',
): { made: number; most: number } {
  const listed = sheets.map(
    ({ length, width, count }) => `{ size: [${length}, ${width}], count: ${count}${grain} }`,
  );
  const text = `cardwright: session
units: in
materials: { card: { thickness: 1/16${grain === '' ? '' : ', grain: yes'} } }
sheets: { card: [{ size: [200, 200]${grain} }] }
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

  // Reference: HiGHS (package highs) over every way of cutting each sheet from edge to edge.
  it('is never more than an integer program finds, nor the bound less, and the same where that is claimed', async () => {
    const highs = await loadHighs();
    const aSide = fc.integer({ min: 1, max: 4 });
    const aRoom = fc.record({
      length: fc.integer({ min: 3, max: 7 }),
      width: fc.integer({ min: 3, max: 6 }),
      count: fc.integer({ min: 1, max: 3 }),
    });
    const seen = { proved: 0, best: 0, all: 0 };
    fc.assert(
      fc.property(
        fc.array(fc.tuple(aSide, aSide), { minLength: 1, maxLength: 2 }),
        fc.array(aRoom, { minLength: 1, maxLength: 3 }),
        (sides, sheets) => {
          // Of all too small there would be too many ways for a reference.
          fc.pre(sides.every(([l, w]) => l * w > 1));
          const sets = mostByProgram(sides, sheets, highs);
          const parts = sides.map(([l, w], i) => `p${i}: { of: card, size: [${l}, ${w}], grain: length }`);
          const found = asMany(`{ ${parts.join(', ')} }`, '{ tile: 1 }', sheets, ', grain: length');
          expect(found.made).toBeLessThanOrEqual(sets);
          expect(found.most).toBeGreaterThanOrEqual(sets);
          if (found.most === found.made) expect(found.made).toBe(sets);
          seen.all++;
          if (found.made === sets) seen.best++;
          if (found.most === found.made) seen.proved++;
        },
      ),
      { numRuns: 80 },
    );
    expect(seen.best).toBeGreaterThan(seen.all * 0.8);
    expect(seen.proved).toBeGreaterThan(seen.all * 0.25);
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

/** The most sets that an integer program finds, over every way of filling each sheet. */
function mostByProgram(
  sides: readonly (readonly [number, number])[],
  sheets: readonly Sheet[],
  highs: Highs,
): number {
  const area = sheets.reduce((sum, { length, width, count }) => sum + length * width * count, 0);
  const ofSet = sides.reduce((sum, [l, w]) => sum + l * w, 0);
  const wants = sides.map((size) => ({ size, count: Math.floor(area / ofSet) }));
  if (wants[0]?.count === 0) return 0;
  const ways = sheets.flatMap(({ length, width }, sheet) =>
    fullest(wants, [length, width]).map((holds) => ({ sheet, holds })),
  );
  const program = [
    'Maximize\n sets: n',
    'Subject To',
    ...wants.map((_, part) => {
      const made = ways.map(({ holds }, i): [number, string] => [holds[part]!, `x${i}`]);
      return ` w${part}: ${termsOf([...made, [-1, 'n']])} >= 0`;
    }),
    ...sheets.map(({ count }, sheet) => {
      const filled = ways.flatMap((it, i): [number, string][] => (it.sheet === sheet ? [[1, `x${i}`]] : []));
      return ` s${sheet}: ${termsOf(filled)} <= ${count}`;
    }),
    `Bounds\n 0 <= n <= 10000`,
    `General\n n ${ways.map((_, i) => `x${i}`).join(' ')}`,
    'End',
  ].join('\n');
  return Math.round(highs.solve(program, { mip_rel_gap: 0 }).ObjectiveValue);
}

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

describe('as many as the fittings at hand allow', () => {
  const session = (magnets: string, takes = 'disc magnet: 4'): [string, Readonly<Record<string, string>>] => [
    `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [200, 200] }] }
fittings: { disc magnet: { pack: 50 }, skewer: {} }
drawer: drawer.yaml
tiles: { tile: { footprint: none, parts: { top: { of: card, size: [3, 3] } }, takes: { ${takes} } } }
make: { tile: most }
spares: { disc magnet: 2 }
`,
    {
      'drawer.yaml': `cardwright: drawer\nunits: in\nsheets: { card: [{ size: [30, 30], count: 1 }] }\n${magnets}`,
    },
  ];
  const noteOf = (magnets: string, takes?: string) => {
    const { value, diagnostics } = runToEnd(pipeline(specOf(...session(magnets, takes)), {}));
    return value?.batch.notes.at(-1) ?? diagnostics.map(({ code, message }) => `${code} ${message}`).join();
  };

  // Source: computed: a sheet of 30 in holds 100 tiles of 3 in; m magnets are enough for (m - 2) / 4 of them, rounded down.
  it('is what the magnets are enough for, where they are fewer than the sheets, spares taken off', () => {
    fc.assert(
      fc.property(fc.integer({ min: 6, max: 600 }), (magnets) => {
        const most = Math.min(100, Math.floor((magnets - 2) / 4));
        expect(noteOf(`fittings: { disc magnet: ${magnets} }\n`)).toBe(
          `as many as what is at hand allows: ${most} x tile, no more are possible`,
        );
      }),
      { numRuns: 15 },
    );
  });

  it('is none where a fitting is missing, which is named; a drawer that counts none sets no limit', () => {
    expect(noteOf('fittings: { disc magnet: 5 }\n')).toBe(
      'K36 what is at hand of "disc magnet" is not enough for one "tile"',
    );
    expect(noteOf('fittings: { disc magnet: 5 }\n', 'skewer: 1')).toContain('"skewer"');
    expect(noteOf('')).toContain('100 x tile, no more are possible');
  });
});
