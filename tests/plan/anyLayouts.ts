import fc from 'fast-check';
import { compare } from '../../src/measure/index.ts';
import type { CutTree, Layout, MaterialLayouts, PartKind, SheetKind } from '../../src/model/index.ts';
import { demand, kind, layouts, member, mm, sheet, trimmed } from './byHand.ts';

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

export function partsOf(tree: CutTree): readonly number[] {
  if (tree.kind === 'left over') return [];
  if (tree.kind === 'part') return [tree.part];
  return [...partsOf(tree.near), ...(tree.far === undefined ? [] : partsOf(tree.far))];
}

export const anyLayouts: fc.Arbitrary<MaterialLayouts> = fc
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

/** Several sheets of one material, cut with the kerf of the first. */
export function onOneTable(several: readonly MaterialLayouts[]): MaterialLayouts {
  const [first] = several;
  const { kerf } = first!.demand.rules;
  const alike = several.filter(({ demand: { rules } }) => compare(rules.kerf, kerf) === 0);
  const parts: PartKind[] = [];
  const sheets: SheetKind[] = [];
  const trees: Layout[] = [];
  for (const [i, { demand: of, layouts: its }] of alike.entries()) {
    const offset = parts.length;
    parts.push(
      ...of.parts.map((it): PartKind => {
        const [head, ...more] = it.members.map((one) => ({ ...one, label: `${one.label} of ${i}` }));
        return { ...it, members: [head!, ...more] };
      }),
    );
    for (const { tree, times } of its)
      trees.push({ sheet: sheets.length, tree: renumbered(tree, offset), times });
    sheets.push(...of.sheets);
  }
  const [part, ...others] = parts;
  return layouts(demand([part!, ...others], sheets, first!.demand.rules), trees);
}

function renumbered(tree: CutTree, by: number): CutTree {
  if (tree.kind === 'part') return { ...tree, part: tree.part + by };
  if (tree.kind === 'left over') return tree;
  const far = tree.far === undefined ? undefined : renumbered(tree.far, by);
  return { ...tree, near: renumbered(tree.near, by), far };
}
