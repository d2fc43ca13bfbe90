import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { millimetres, rational, toFraction } from '../../src/measure/index.ts';
import { batchOf, check } from './check.ts';

const bench = { ruler: [millimetres(rational(1n))] as const, wander: undefined };

function wallOf(build: string, footprint: string, height: number): string {
  return `cardwright: session
units: mm
materials: { foam: { thickness: 5 } }
sheets: { foam: [{ size: [400, 400] }] }
tiles:
  wall:
    footprint: ${footprint}
    height: ${height}
    parts:
      brick: { of: foam, size: [20, 8], floor: no }
      half brick: { of: foam, size: [10, 8], floor: no }
    build: ${build}
`;
}

/** Left, front and bottom corners of all that stands, by the part's name, in millimetres. */
function cornersOf(text: string): readonly string[] {
  const [build] = batchOf(text).builds;
  return build!.parts
    .map(({ part, block }) =>
      [part, ...(['across', 'along', 'up'] as const).map((way) => toFraction(block.low[way]))].join(' '),
    )
    .sort();
}

describe('bricks in courses', () => {
  it('stand where rows of them written out do', () => {
    const course = '{ across: [3 x brick], length: across, thickness: along }';
    const offset = '{ across: [half brick, 2 x brick, half brick], length: across, thickness: along }';
    expect(
      batchOf(
        wallOf('{ courses: brick, half: half brick, long: 3, high: 3 }', '[60, 5]', 24),
      ).builds[0]?.parts.map(({ block, part }) => ({ block, part })),
    ).toEqual(
      batchOf(wallOf(`{ up: [${course}, ${offset}, ${course}] }`, '[60, 5]', 24)).builds[0]?.parts.map(
        ({ block, part }) => ({ block, part }),
      ),
    );
  });

  // Independent: each corner by arithmetic, a brick is 20 × 8, a half 10.
  it('have exact counts, and every second course half a brick along', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }), (long, high) => {
        const half = high === 1 ? '' : 'half: half brick, ';
        const text = wallOf(
          `{ courses: brick, ${half}long: ${long}, high: ${high} }`,
          `[${20 * long}, 5]`,
          8 * high,
        );
        const bare = high === 1 ? text.replace(/ {6}half brick.*\n/u, '') : text;
        const expected = Array.from({ length: high }, (_, course) => {
          const up = 8 * course;
          if (course % 2 === 0) return Array.from({ length: long }, (_, i) => `brick ${20 * i} 0 ${up}`);
          return [
            `half brick 0 0 ${up}`,
            ...Array.from({ length: long - 1 }, (_, i) => `brick ${10 + 20 * i} 0 ${up}`),
            `half brick ${20 * long - 10} 0 ${up}`,
          ];
        }).flat();
        expect(cornersOf(bare)).toEqual(expected.sort());
        const batch = batchOf(bare);
        const counts = batch.materials[0]!.parts.map(({ count }) => count);
        expect(counts.reduce((a, b) => a + b)).toBe(expected.length);
        const [verdict] = batch.builds.map((build) => judge(build, bench));
        expect(
          verdict!.faults.filter(({ kind }) => kind === 'does not close' || kind === 'overlaps'),
        ).toEqual([]);
      }),
      { numRuns: 36 },
    );
  });

  it('pave the ground where they are stacked along', () => {
    expect(
      cornersOf(
        wallOf('{ courses: brick, half: half brick, long: 2, high: 2, stack: along }', '[40, 16]', 5),
      ),
    ).toEqual(
      ['brick 0 0 0', 'brick 20 0 0', 'brick 10 8 0', 'half brick 0 8 0', 'half brick 30 8 0'].sort(),
    );
  });

  it('go up a side where they run along', () => {
    expect(
      cornersOf(wallOf('{ courses: brick, half: half brick, long: 1, high: 2, run: along }', '[5, 20]', 16)),
    ).toEqual(['brick 0 0 0', 'half brick 0 0 8', 'half brick 0 10 8']);
  });

  it('are told where a course does not fill its room, with the size that would', () => {
    const [build] = batchOf(
      wallOf('{ courses: brick, half: half brick, long: 3, high: 2 }', '[62, 5]', 16),
    ).builds;
    expect(judge(build!, bench).faults.map(({ kind }) => kind)).toContain('does not close');
  });

  it('name a part that is not there as any row does', () => {
    check(`
cardwright: session
units: mm
materials: { foam: { thickness: 5 } }
tiles:
  wall:
    footprint: [60, 5]
    parts: { brick: { of: foam, size: [20, 8] } }
    build: { courses: brick, half: half bric, long: 3, high: 2 }
#                                  ^^^^^^^^^ error E50: no part is called "half bric"
`);
  });
});
