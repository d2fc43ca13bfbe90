import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blanksFor } from '../../src/blank/index.ts';
import { toDrawnMm, toFraction } from '../../src/measure/index.ts';
import type { MaterialDemand, PartMember } from '../../src/model/index.ts';
import { batchOf } from '../expand/check.ts';
import { mm } from '../outline/drawing.ts';

/** Walls of a yard of 60 x 60 mm, 20 high. */
function yard(frame: string, { more = '', kerf = 0, thickness = 5 } = {}): MaterialDemand {
  const batch = batchOf(`cardwright: kit
units: mm
materials: { foam: { thickness: ${thickness}, kerf: ${kerf} } }
sheets: { foam: [{ size: [400, 300] }] }
tiles:
  yard:
    footprint: [60, 60]
    parts:
      wall: { of: foam, size: [rest, 20]${more} }
    build: ${frame}
`);
  const [demand] = batch.materials;
  if (demand === undefined) throw new Error('nothing is cut');
  return demand;
}

const round = '{ frame: { front: wall, back: wall, left: wall, right: wall }, corners: mitre }';

function blanksOf(demand: MaterialDemand): readonly string[] {
  return blanksFor(demand, mm(1)).first.parts.flatMap(({ length, width, members }) =>
    members.map(({ label, count }) => `${count} × ${label}: ${toFraction(length)} × ${toFraction(width)}`),
  );
}

function sharedIn(demand: MaterialDemand): NonNullable<PartMember['shared']> {
  const shared = blanksFor(demand, mm(1)).first.parts.flatMap(({ members }) =>
    members.flatMap((it) => it.shared ?? []),
  );
  const [first] = shared;
  if (first === undefined) throw new Error('nothing is shared');
  return first;
}

describe('two bevelled parts in one blank', () => {
  // Expected: 2 × 60 − 5, by hand.
  it('are shorter by what the bevel goes back, and the second lies face down', () => {
    const demand = yard(round);
    expect(blanksOf(demand)).toEqual(['2 × pair of YA wall: 115 × 20']);
    expect(sharedIn(demand)).toMatchObject({
      at: [
        { x: mm(0), y: mm(0) },
        { x: mm(55), y: mm(0) },
      ],
      parting: { from: { x: mm(60), y: mm(0) }, to: { x: mm(60), y: mm(20) } },
      slant: { below: mm(55), isFaceDown: true },
    });
    expect(toFraction(sharedIn(demand).saved)).toBe('100');
  });

  // Expected: a kerf of 3 across a slant of 45° is 3 × √2 = 4.24… along, so 120 − 8 + 4.24…, taken up to a whole
  // millimetre.
  it('lie a kerf apart, square to the slant', () => {
    expect(blanksOf(yard(round, { kerf: 3, thickness: 8 }))).toEqual(['2 × pair of YA wall: 117 × 20']);
  });

  it('are none where the kerf takes more than the bevel saves', () => {
    expect(blanksOf(yard(round, { kerf: 4 }))).toEqual(['4 × YA wall: 60 × 20']);
  });

  it('are none where a good side may not lie face down', () => {
    expect(blanksOf(yard(round, { more: ', good side: yes' }))).toEqual(['4 × YA wall: 60 × 20']);
  });

  // Expected: a slope of 30 on 40 is 50 long, and 8 × 3/4 = 6 more for its plumb ends; two of them 2 × 56 − 6.
  it.each(['', ', good side: yes'])('lie the same way up where both ends slant alike%s', (more) => {
    const [demand] = batchOf(`cardwright: session
units: mm
materials: { foam: { thickness: 8 } }
sheets: { foam: [{ size: [400, 300] }] }
tiles:
  ramp:
    footprint: [20, 40]
    parts: { deck: { of: foam, size: [20, rest]${more} } }
    build: { up: [{ part: deck, slope: { to: back, rise: 30 } }] }
make: { ramp: 2 }
`).materials;
    expect(blanksOf(demand!)).toEqual(['1 × pair of RA deck: 106 × 20']);
    expect(sharedIn(demand!)).toMatchObject({
      parting: { from: { x: mm(0), y: mm(56) }, to: { x: mm(20), y: mm(56) } },
      slant: { below: mm(50), isFaceDown: false },
    });
  });

  it('leave an odd one alone', () => {
    const three = '{ frame: { front: wall, left: wall }, corners: mitre }';
    const ell = yard(`{ up: [${three}, ${three}], to: free }`, { more: ', by eye: 1' });
    expect(blanksOf(ell)).toEqual(['2 × pair of YA wall: 115 × 20', '1 × YA wall: 60 × 20']);
  });

  it('keep to themselves where they have no bevel', () => {
    expect(blanksOf(yard(round.replace('mitre', 'pinwheel')))).toEqual(['4 × YA wall: 55 × 20']);
  });
});

// Seen from the side: on each face the first ends and the second begins; nothing here is shared with what lays them.
describe('from the side', () => {
  const anyYard = fc.record({
    room: fc.integer({ min: 40, max: 120 }),
    thickness: fc.integer({ min: 8, max: 14 }),
    kerf: fc.integer({ min: 0, max: 4 }),
  });

  it('the two end where the kerf begins, and where it ends, on both faces', () => {
    fc.assert(
      fc.property(anyYard, ({ room, thickness, kerf }) => {
        const [demand] = batchOf(`cardwright: kit
units: mm
materials: { foam: { thickness: ${thickness}, kerf: ${kerf} } }
sheets: { foam: [{ size: [400, 300] }] }
tiles:
  yard:
    footprint: [${room}, ${room}]
    parts: { wall: { of: foam, size: [rest, 20] } }
    build: ${round}
`).materials;
        const { at, length, parting, slant } = sharedIn(demand!);
        const [first, second, whole] = [at[0].x, at[1].x, length].map(toDrawnMm) as [number, number, number];
        const apart = kerf * Math.SQRT2;
        // Long above, short below: the first lies as drawn.
        expect(first).toBe(0);
        expect(second - (room - thickness)).toBeGreaterThanOrEqual(apart - 1e-9);
        expect(second - (room - thickness)).toBeLessThan(apart + 1 + 1e-9);
        expect(whole - second).toBe(room);
        expect([parting!.from.x, slant!.below].map(toDrawnMm)).toEqual([room, room - thickness]);
      }),
      { numRuns: 60 },
    );
  });
});
