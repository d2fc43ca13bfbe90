import fc from 'fast-check';
import { expect, it } from 'vitest';
import { drawSheet } from '../../../src/print/text/drawing.ts';
import { showingOf } from '../../../src/print/text/lengths.ts';
import { setOut } from '../../../src/print/text/scale.ts';
import { anyLayouts } from '../../plan/anyLayouts.ts';
import { settings } from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';

const look = { width: 120, ascii: false };

it('writes every label into the picture, or a number that is spelt out', () => {
  fc.assert(
    fc.property(anyLayouts, (material) => {
      for (const sheet of plan([material], settings)[0]!.sheets) {
        const drawing = drawSheet(sheet, {
          columns: look.width,
          share: 1,
          kerf: material.demand.rules.kerf,
          showing: showingOf(settings, look),
          look,
        });
        const picture = drawing.lines.join('\n');
        const spelt = drawing.numbered.join('\n');
        for (const { member } of sheet.pieces) {
          expect(picture.includes(member.label) || spelt.includes(member.label), picture).toBe(true);
        }
        for (const [i] of drawing.numbered.entries()) expect(picture).toContain(`${i + 1}`);
        for (const { keep } of sheet.leftovers) {
          if (keep !== undefined) expect(picture.includes(keep) || spelt.includes(keep)).toBe(true);
        }
      }
    }),
    { numRuns: 80 },
  );
});

it('keeps the order of all edges, whatever has to give way', () => {
  const edges = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 2, maxLength: 20 });
  fc.assert(
    fc.property(
      edges,
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 1, max: 30 }),
      (some, least, tenths) => {
        const sorted = [...new Set(some)].sort((a, b) => a - b);
        const stretches = sorted.slice(1).map((to, i) => ({ from: sorted[i]!, to }));
        const ticks = setOut(stretches, tenths / 10, least);
        for (const { from, to } of stretches) {
          expect(ticks.at(to) - ticks.at(from)).toBeGreaterThanOrEqual(least);
        }
      },
    ),
  );
});

it('falls back to the true place after a narrow stretch', () => {
  // Worked out by eye: 1 unit is one cell; the stretch 0 to 1 needs three, what follows has room to give.
  const ticks = setOut(
    [
      { from: 0, to: 1 },
      { from: 1, to: 20 },
      { from: 20, to: 40 },
    ],
    1,
    3,
  );
  expect([ticks.at(1), ticks.at(20), ticks.at(40), ticks.worstShift]).toEqual([3, 20, 40, 2]);
});

it('draws no more columns than it is given', () => {
  fc.assert(
    fc.property(anyLayouts, fc.integer({ min: 36, max: 150 }), (material, columns) => {
      for (const sheet of plan([material], settings)[0]!.sheets) {
        const { lines } = drawSheet(sheet, {
          columns,
          share: 1,
          kerf: material.demand.rules.kerf,
          showing: showingOf(settings, look),
          look,
        });
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
      }
    }),
    { numRuns: 60 },
  );
});
