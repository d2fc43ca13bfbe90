import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Layout, MaterialPlan, PartKind, SheetPlan } from '../../src/model/index.ts';
import { runToEnd } from '../../src/pipeline.ts';
import { type Dealt, deal } from '../../src/plan/deal.ts';
import { partedSheet } from '../../src/plan/parting.ts';
import { laidDown } from '../../src/plan/pieces.ts';
import { together } from '../../src/plan/together.ts';
import { anyLayouts, onOneTable } from './anyLayouts.ts';
import { crosscut, demand, inRow, kind, layouts, member, mm, part, rip, settings, sheet } from './byHand.ts';
import { plan } from './planned.ts';

const labelsOf = ({ pieces }: SheetPlan) => pieces.map((piece) => piece.member.label);

describe('parts of one tile', () => {
  it('lie on one sheet, whichever tile each kind of part names first', () => {
    const asked = demand(
      [
        kind(mm(10), mm(10), [member('A face', 2, 'A'), member('B face', 2, 'B')]),
        kind(mm(20), mm(10), [member('B bed', 2, 'B'), member('A bed', 2, 'A')]),
      ],
      [sheet(mm(60), mm(10)), sheet(mm(60), mm(10))],
    );
    const tree = crosscut(
      mm(20),
      part(1),
      crosscut(mm(20), part(1), inRow(crosscut, 1, mm(10), part(0), part(0))),
    );
    const { sheets } = plan(
      [
        layouts(
          asked,
          [0, 1].map((at): Layout => ({ sheet: at, tree, times: 1 })),
        ),
      ],
      settings,
    )[0]!;
    const tiles = sheets.map(({ pieces }) => [...new Set(pieces.map((piece) => piece.member.tile))]);
    expect(tiles).toEqual([['A'], ['B']]);
  });

  it('lie in one strip, where both are on one sheet', () => {
    const asked = demand(
      [
        kind(mm(10), mm(10), [member('A face', 2, 'A'), member('B face', 2, 'B')]),
        kind(mm(20), mm(10), [member('B bed', 1, 'B'), member('A bed', 1, 'A')]),
      ],
      [sheet(mm(40), mm(20))],
    );
    const strip = inRow(crosscut, 2, mm(10), part(0), part(1));
    const [only] = plan(
      [layouts(asked, [{ sheet: 0, tree: rip(mm(10), strip, strip), times: 1 }])],
      settings,
    )[0]!.sheets;
    const [first, second] = [labelsOf(only!).slice(0, 3), labelsOf(only!).slice(3)];
    expect([first, second].map((labels) => new Set(labels.map((label) => label[0])).size)).toEqual([1, 1]);
  });
});

/** On how many sheets the parts of each tile lie, all tiles together: counted from what is printed. */
function scatter(
  sheets: readonly { times: number; members: PartKind['members'] | SheetPlan['pieces'][0]['member'][] }[],
) {
  return sheets.reduce((sum, { times, members }) => {
    const tiles = new Set(members.flatMap(({ tile }) => tile ?? []));
    return sum + tiles.size * times;
  }, 0);
}

it('never takes or adds a label, a cut, a setting or a picture, and scatters no tile further', () => {
  fc.assert(
    fc.property(fc.array(anyLayouts, { minLength: 1, maxLength: 3 }), (several) => {
      const material = onOneTable(several);
      const { parts, rules, sheets: stock } = material.demand;
      const laid = material.layouts.map(({ tree, sheet: at }) =>
        laidDown(partedSheet(tree, stock[at]!, rules.kerf), rules.kerf),
      );
      const { dealt } = runToEnd(
        deal(
          parts,
          laid.map(({ slots }, i) => ({ slots, times: material.layouts[i]!.times })),
        ),
      );
      const gathered = runToEnd(
        together(
          parts,
          laid.map((it, i) => ({ ...it, dealt: dealt[i]! })),
        ),
      );

      expect(gathered.map((of) => of.map(({ times }) => times))).toEqual(
        dealt.map((of) => of.map(({ times }) => times)),
      );
      expect(countsByKind(gathered, laid)).toEqual(countsByKind(dealt, laid));
      const flat = (of: typeof dealt) =>
        of.flat().map(({ times, members }) => ({ times, members: [...members] }));
      expect(scatter(flat(gathered))).toBeLessThanOrEqual(scatter(flat(dealt)));
    }),
    { numRuns: 200 },
  );
});

function countsByKind(dealt: Dealt['dealt'], laid: readonly { slots: readonly number[] }[]) {
  const counts = new Map<string, number>();
  for (const [i, of] of dealt.entries()) {
    for (const { times, members } of of) {
      for (const [place, { label }] of members.entries()) {
        const key = `${laid[i]!.slots[place]} ${label}`;
        counts.set(key, (counts.get(key) ?? 0) + times);
      }
    }
  }
  return Object.fromEntries([...counts].sort(([a], [b]) => (a < b ? -1 : 1)));
}

it('leaves the cuts and settings of a plan what they are without tiles', () => {
  fc.assert(
    fc.property(anyLayouts, (material) => {
      const without = {
        ...material,
        demand: {
          ...material.demand,
          parts: material.demand.parts.map((it) => ({
            ...it,
            members: it.members.map((one) => ({ ...one, tile: undefined })),
          })) as unknown as typeof material.demand.parts, // as many as before
        },
      };
      const sums = ([planned]: readonly MaterialPlan[]) => [
        planned!.order.map(({ size, uses }) => [size, uses.reduce((sum, { cuts }) => sum + cuts, 0)]),
        planned!.sheets.map(({ times }) => times),
      ];
      expect(sums(plan([material], settings))).toEqual(sums(plan([without], settings)));
    }),
    { numRuns: 100 },
  );
});
