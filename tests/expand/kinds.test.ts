import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { showExact } from '../../src/measure/index.ts';
import { batchOf } from './check.ts';

const opening = `cardwright: session
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16, grain: yes, flutes: yes } }
`;

/** The kinds of some loose parts, given as `[size] rules`. */
function kindsOf(...parts: readonly string[]): readonly string[] {
  const loose = parts.map((part, index) => `  p${index}: { of: card, ${part} }\n`).join('');
  const batch = batchOf(`${opening}loose:\n${loose}`);
  return (batch.materials[0]?.parts ?? []).map(
    ({ length, width, grain, flutes, goodSide, members }) =>
      `${showExact(length, 'in')} x ${showExact(width, 'in')} ${grain} ${flutes} ${goodSide}: ${members.map(({ label }) => label).join(' ')}`,
  );
}

describe('parts that are the same to the knife', () => {
  it('are one kind, also with their sizes swapped', () => {
    expect(kindsOf('size: [3, 2]', 'size: [2, 3]', 'size: [3.0, (1 + 1)]')).toEqual([
      '3 in x 2 in any any false: p0 p1 p2',
    ]);
  });

  it('are one kind where the grain runs the same way in them', () => {
    expect(
      kindsOf('size: [3, 2], grain: length', 'size: [2, 3], grain: width', 'size: [2, 3], grain: length'),
    ).toEqual(['3 in x 2 in length any false: p0 p1', '3 in x 2 in width any false: p2']);
  });

  it('are one kind where they are square and bound to one side', () => {
    expect(kindsOf('size: [2, 2], grain: length', 'size: [2, 2], grain: width')).toEqual([
      '2 in x 2 in length any false: p0 p1',
    ]);
  });

  it('mind both grain and flutes together', () => {
    expect(
      kindsOf(
        'size: [2, 2], grain: length, flutes: width',
        'size: [2, 2], grain: width, flutes: length',
        'size: [2, 2], grain: width, flutes: width',
      ),
    ).toEqual(['2 in x 2 in length length false: p2', '2 in x 2 in length width false: p0 p1']);
  });

  it('have the same good side', () => {
    expect(kindsOf('size: [3, 2]', 'size: [3, 2], good side: yes')).toHaveLength(2);
  });
});

it('leaves materials out that nothing is cut from', () => {
  const batch = batchOf(`cardwright: session
units: in
materials: { card: { thickness: 1/16 }, foam: { thickness: 1/2 } }
loose: { post: { of: foam, size: [2, 1/2] } }
`);
  expect(batch.materials.map(({ material }) => material.name)).toEqual(['foam']);
});

describe('the order in which parts are written', () => {
  const size = fc.constantFrom('1', '1 1/2', '2', '2 3/8');
  const part = fc.record({
    length: size,
    width: size,
    grain: fc.constantFrom('any', 'length', 'width'),
    count: fc.integer({ min: 1, max: 9 }),
  });
  const written = (parts: readonly { readonly text: string }[]) =>
    batchOf(`${opening}tiles:\n  wall:\n    parts:\n${parts.map(({ text }) => text).join('')}`);

  it('changes nothing that is cut', () => {
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (parts) => {
        const lines = parts.map(({ length, width, grain, count }, index) => ({
          text: `      p${index}: { of: card, size: [${length}, ${width}], grain: ${grain}, count: ${count} }\n`,
        }));
        const bare = (batch: ReturnType<typeof written>) =>
          batch.materials.flatMap(({ parts: kinds }) =>
            kinds.map(({ members, ...kind }) => ({ ...kind, members: members.map(({ at, ...it }) => it) })),
          );
        expect(bare(written([...lines].reverse()))).toEqual(bare(written(lines)));
      }),
      { numRuns: 40 },
    );
  });
});

describe('an inch file and the same kit in millimetres', () => {
  const part = fc.record({
    length: fc.integer({ min: 1, max: 640 }),
    width: fc.integer({ min: 1, max: 640 }),
    count: fc.integer({ min: 1, max: 9 }),
  });
  const kit = (units: 'in' | 'mm', parts: readonly { length: number; width: number; count: number }[]) => {
    // 1/64 in = 0.396875 mm exactly.
    const measure = (sixtyFourths: number) =>
      units === 'in' ? `${sixtyFourths}/64` : `(${sixtyFourths} x 0.396875 mm)`;
    const lines = parts.map(
      ({ length, width, count }, index) =>
        `  p${index}: { of: card, size: [${measure(length)}, ${measure(width)}], count: ${count} }\n`,
    );
    return batchOf(`cardwright: session
units: ${units}
materials: { card: { thickness: ${measure(4)} } }
loose:
${lines.join('')}`);
  };

  it('come to the same kinds and counts', () => {
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (parts) => {
        const kinds = (units: 'in' | 'mm') =>
          kit(units, parts).materials.flatMap((demand) =>
            demand.parts.map(({ length, width, count, members }) => ({
              length,
              width,
              count,
              labels: members.map(({ label }) => label),
            })),
          );
        expect(kinds('mm')).toEqual(kinds('in'));
      }),
      { numRuns: 40 },
    );
  });
});
