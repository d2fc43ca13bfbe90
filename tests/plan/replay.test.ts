import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toDrawnMm } from '../../src/measure/index.ts';
import type { CutTree, MaterialLayouts, PartKind } from '../../src/model/index.ts';
import { plan } from '../../src/plan/index.ts';
import { demand, kind, layouts, member, mm, settings, sheet, trimmed } from './byHand.ts';
import { work } from './workshop.ts';

/** Grows any cut tree on whole millimetres; leaves become parts of as many kinds as there are sizes. */
function grow(
  length: number,
  width: number,
  kerf: number,
  choices: Iterator<number>,
  kinds: string[],
): CutTree {
  const choose = (below: number) => (choices.next().value ?? 0) % below;
  const what = choose(4);
  const isRip = what === 0;
  const whole = isRip ? width : length;
  if (what >= 2 || whole < 2) {
    if (choose(5) === 0) return { kind: 'left over' };
    const turned = choose(2) === 0;
    const key = turned ? `${width}x${length}` : `${length}x${width}`;
    if (!kinds.includes(key)) kinds.push(key);
    return { kind: 'part', part: kinds.indexOf(key), turned };
  }
  const at = 1 + choose(whole - 1);
  const rest = whole - at - kerf;
  const child = (size: number) =>
    isRip ? grow(length, size, kerf, choices, kinds) : grow(size, width, kerf, choices, kinds);
  const near = child(at);
  return { kind: isRip ? 'rip' : 'crosscut', at: mm(at), near, far: rest > 0 ? child(rest) : undefined };
}

function partsOf(tree: CutTree): readonly number[] {
  if (tree.kind === 'left over') return [];
  if (tree.kind === 'part') return [tree.part];
  return [...partsOf(tree.near), ...(tree.far === undefined ? [] : partsOf(tree.far))];
}

const anyLayouts: fc.Arbitrary<MaterialLayouts> = fc
  .record({
    length: fc.integer({ min: 2, max: 60 }),
    width: fc.integer({ min: 2, max: 60 }),
    kerf: fc.integer({ min: 0, max: 3 }),
    trim: fc.integer({ min: 0, max: 2 }),
    times: fc.integer({ min: 1, max: 4 }),
    choices: fc.array(fc.nat(1000), { minLength: 40, maxLength: 120 }),
    split: fc.nat(1000),
  })
  .map(({ length, width, kerf, trim, times, choices, split }) => {
    const kinds: string[] = [];
    const tree = grow(length, width, kerf, choices[Symbol.iterator](), kinds);
    if (kinds.length === 0) kinds.push('1x1');
    const places = partsOf(tree);
    const parts = kinds.map((key, i): PartKind => {
      const count = Math.max(1, places.filter((place) => place === i).length * times);
      const [l, w] = key.split('x').map(Number);
      const some = count > 1 ? 1 + (split % (count - 1)) : count;
      const rest = count - some;
      const a = member(`A${key}`, some);
      return kind(mm(l!), mm(w!), rest > 0 ? [a, member(`B${key}`, rest, 'ramp')] : [a]);
    });
    const asked = demand(
      parts as [PartKind, ...PartKind[]],
      [sheet(mm(length + 2 * trim), mm(width + 2 * trim), { trim: trimmed(mm(trim)) })],
      { kerf: mm(kerf), worthKeeping: { long: mm(8), short: mm(4) } },
    );
    return layouts(asked, [{ sheet: 0, tree, times }]);
  });

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
