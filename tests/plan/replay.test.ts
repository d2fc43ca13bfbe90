import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toDrawnMm } from '../../src/measure/index.ts';
import { anyLayouts, onOneTable, partsOf } from './anyLayouts.ts';
import { settings } from './byHand.ts';
import { plan } from './planned.ts';
import { type Pile, settingsByPicture, work, workInOrder } from './workshop.ts';

it('gives exactly the parts that were asked for, to hands that only follow the steps', () => {
  fc.assert(
    fc.property(anyLayouts, (material) => {
      const { demand: asked } = material;
      const [planned] = plan([material], settings);
      const got = new Map<string, number>();
      for (const one of planned!.sheets) {
        for (const [name, pieces] of Object.entries(work(one, asked.rules.kerf))) {
          if (name.startsWith('keep') || name === 'scrap' || name === 'sheet') continue;
          expect(name).not.toMatch(/^strip/);
          const [l, w] = name.slice(1).split('x').map(Number);
          for (const piece of pieces) {
            expect([
              [l, w],
              [w, l],
            ]).toContainEqual([piece.length, piece.width]);
          }
          got.set(name, (got.get(name) ?? 0) + pieces.length * one.times);
        }
      }
      // A sheet that is one part, or nothing but left over, is never cut: it stays in the pile as it is.
      const places = partsOf(material.layouts[0]!.tree);
      if (material.layouts[0]!.tree.kind === 'part' || places.length === 0) return;
      for (const { members } of asked.parts) {
        for (const { label, count } of members) expect(got.get(label)).toBe(count);
      }
    }),
    { numRuns: 500 },
  );
});

it('gives the same to hands that follow the order over all sheets, with as many settings as it tells', () => {
  fc.assert(
    fc.property(fc.array(anyLayouts, { minLength: 1, maxLength: 3 }), (several) => {
      const material = onOneTable(several);
      const [planned] = plan([material], settings);
      const { piles, settings: set } = workInOrder(planned!);
      expect(set).toBe(planned!.order.length);
      expect(set).toBeLessThanOrEqual(planned!.settingsByPicture);
      expect(planned!.settingsByPicture).toBe(settingsByPicture(planned!));
      const kerf = material.demand.rules.kerf;
      expect(piles.map(sorted)).toEqual(planned!.sheets.map((one) => sorted(work(one, kerf))));
    }),
    { numRuns: 300 },
  );
});

function sorted(pile: Pile) {
  const order = (a: { length: number; width: number }, b: typeof a) =>
    a.length - b.length || a.width - b.width;
  return Object.entries(pile)
    .map(([name, pieces]) => [name, [...pieces].sort(order)] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
}

it('draws every piece inside the squared sheet, none on another, and loses nothing but kerf', () => {
  fc.assert(
    fc.property(anyLayouts, (material) => {
      const kerf = toDrawnMm(material.demand.rules.kerf);
      for (const one of plan([material], settings)[0]!.sheets) {
        const boxes = [...one.pieces, ...one.leftovers].map(({ box }) => ({
          l: toDrawnMm(box.left),
          b: toDrawnMm(box.bottom),
          r: toDrawnMm(box.left) + toDrawnMm(box.length),
          t: toDrawnMm(box.bottom) + toDrawnMm(box.width),
        }));
        for (const [i, a] of boxes.entries()) {
          expect(a.l >= 0 && a.b >= 0).toBe(true);
          expect(a.r <= toDrawnMm(one.inside.length) && a.t <= toDrawnMm(one.inside.width)).toBe(true);
          for (const b of boxes.slice(i + 1)) {
            expect(a.r <= b.l || b.r <= a.l || a.t <= b.b || b.t <= a.b).toBe(true);
          }
        }
        const area = boxes.reduce((sum, it) => sum + (it.r - it.l) * (it.t - it.b), 0);
        const whole = toDrawnMm(one.inside.length) * toDrawnMm(one.inside.width);
        expect(kerf > 0 ? area <= whole : area === whole).toBe(true);
      }
    }),
    { numRuns: 200 },
  );
});
