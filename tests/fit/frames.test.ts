import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { toDrawnMm } from '../../src/measure/index.ts';
import type { Build } from '../../src/model/index.ts';
import { batchOf } from '../expand/check.ts';
import { kernelOfSolids, type Solid } from './bodiesByHand.ts';
import { mm } from './byHand.ts';

// Source of every volume here: manifold-3d 3.5.4, an independent solid kernel in binary floats.
let solid: (it: Build['parts'][number]) => Solid;
beforeAll(async () => {
  ({ solid } = await kernelOfSolids());
});

const bench = { ruler: [mm(1, 4)] as const, wander: undefined };

function yard(
  corners: string,
  { across, along, thick, other }: { across: number; along: number; thick: number; other: number },
): Build {
  const [build] = batchOf(`cardwright: kit
units: mm
materials: { one: { thickness: ${thick} }, other: { thickness: ${other} } }
tiles:
  yard:
    footprint: [${across}, ${along}]
    height: 12
    parts:
      wall: { of: one, size: [rest, 12] }
      end:  { of: other, size: [rest, 12] }
      fill: { of: one, size: [rest, 12], good side: yes }
    build:
      frame: { front: wall, back: wall, left: end, right: end }
      corners: ${corners}
      inside: { along: [fill, gap rest] }
`).builds;
  if (build === undefined) throw new Error('nothing stands');
  return build;
}

const corners = fc.constantFrom('front through', 'sides through', 'pinwheel', 'mitre', '{ rebate: 1 }');
const room = fc.record({
  across: fc.integer({ min: 40, max: 120 }),
  along: fc.integer({ min: 40, max: 120 }),
  thick: fc.integer({ min: 2, max: 9 }),
  other: fc.integer({ min: 2, max: 9 }),
});

describe('walls round a room', () => {
  it('stand soundly, whatever their corners: nothing overlaps, floats or gapes', () => {
    fc.assert(
      fc.property(corners, room, (kind, sizes) => {
        const build = yard(kind, kind === 'mitre' ? { ...sizes, other: sizes.thick } : sizes);
        expect(judge(build, bench).faults.map(({ kind: of }) => of)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it('fill all of their box but the room within, and share nothing', () => {
    fc.assert(
      fc.property(corners, room, (kind, sizes) => {
        const { across, along, thick } = sizes;
        const other = kind === 'mitre' ? thick : sizes.other;
        const walls = yard(kind, { ...sizes, other }).parts.filter(({ part }) => part !== 'fill');
        const solids = walls.map((it) => solid(it));
        const apiece = solids.reduce((all, it) => all + it.volume(), 0);
        const [first, ...rest] = solids;
        const together = rest.reduce((all, it) => all.add(it), first!).volume();
        const expected = 12 * (across * along - (across - 2 * other) * (along - 2 * thick));
        expect(apiece).toBeCloseTo(expected, 3);
        expect(together).toBeCloseTo(expected, 3);
      }),
      { numRuns: 40 },
    );
  });

  it('touch each other in the slant of a mitre: t × √2 wide, as high as they are', () => {
    const build = yard('mitre', { across: 60, along: 40, thick: 5, other: 5 });
    const { contacts } = judge(build, bench);
    const joints = contacts.filter(({ part, other }) => part.part !== 'fill' && other.part !== 'fill');
    expect(joints.length).toBe(4);
    for (const { area } of joints) expect(toDrawnMm(area.lo as never)).toBeCloseTo(5 * Math.SQRT2 * 12, 6);
  });
});
