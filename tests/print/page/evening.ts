import { compare, minus, smaller, sum, zero } from '../../../src/measure/index.ts';
import type {
  CutTree,
  Layout,
  Length,
  Made,
  MaterialDemand,
  NonEmpty,
  PartKind,
  Settings,
  SheetKind,
} from '../../../src/model/index.ts';
import {
  crosscut,
  demand,
  emptyFile,
  inch,
  kind,
  layouts,
  leftOver,
  member,
  mm,
  part,
  rip,
  settings,
  sheet,
  trimmed,
} from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';

/** Evenings at the table, packed by a simple rule of the tests' own, so that pages are tried without `pack/`. */
export function madeOf(
  title: string,
  demands: readonly MaterialDemand[],
  more: Partial<Settings> = {},
  tiles: Made['batch']['tiles'] = [],
): Made {
  const chosen = { ...settings, ...more };
  const packed = demands.map((it) => layouts(it, inStrips(it)));
  return {
    spec: { files: [emptyFile] },
    batch: { title, notes: [], tiles, materials: demands, builds: [], wander: undefined, settings: chosen },
    fits: [],
    layouts: packed,
    plans: plan(packed, chosen),
  };
}

/** An evening of one material, laid out as these trees say, each on a sheet of the first kind. */
export function withLayouts(title: string, of: MaterialDemand, trees: readonly CutTree[]): Made {
  const evening = madeOf(title, []);
  const packed = layouts(
    of,
    trees.map((tree): Layout => ({ sheet: 0, tree, times: 1 })),
  );
  return {
    ...evening,
    batch: { ...evening.batch, materials: [of] },
    layouts: [packed],
    plans: plan([packed], evening.batch.settings),
  };
}

/** Sheet after sheet: strips as wide as their first part, filled from the left; equal sheets are merged. */
function inStrips(of: MaterialDemand): readonly Layout[] {
  const left = of.parts.map(({ count }) => count);
  const result: Layout[] = [];
  for (const [index, from] of of.sheets.entries()) {
    let available = from.available === 'as needed' ? 500 : from.available;
    while (available > 0 && left.some((count) => count > 0)) {
      available--;
      const { length, width } = squared(from);
      const tree = strips(of, left, length, width);
      if (tree === undefined) break;
      const last = result[result.length - 1];
      if (last !== undefined && last.sheet === index && same(last.tree, tree)) {
        result[result.length - 1] = { ...last, times: last.times + 1 };
      } else result.push({ sheet: index, tree, times: 1 });
    }
  }
  return result;
}

function squared({ length, width, trim }: SheetKind): { length: Length; width: Length } {
  return {
    length: minus(minus(length, trim.left), trim.right),
    width: minus(minus(width, trim.bottom), trim.top),
  };
}

function strips(of: MaterialDemand, left: number[], length: Length, width: Length): CutTree | undefined {
  const index = left.findIndex(
    (count, at) => count > 0 && fits(of.parts[at]!.length, length) && fits(of.parts[at]!.width, width),
  );
  const kindOf = of.parts[index];
  if (kindOf === undefined) return undefined;
  const strip = row(of, left, length, kindOf.width) ?? leftOver;
  const rest = beyond(width, kindOf.width, of.rules.kerf);
  if (rest === undefined && compare(kindOf.width, width) === 0) return strip;
  const far = rest === undefined ? undefined : (strips(of, left, length, rest) ?? leftOver);
  return rip(kindOf.width, strip, far);
}

function row(of: MaterialDemand, left: number[], length: Length, width: Length): CutTree | undefined {
  const index = left.findIndex(
    (count, at) =>
      count > 0 && compare(of.parts[at]!.width, width) === 0 && fits(of.parts[at]!.length, length),
  );
  const kindOf = of.parts[index];
  if (kindOf === undefined) return undefined;
  left[index] = left[index]! - 1;
  if (compare(kindOf.length, length) === 0) return part(index);
  const rest = beyond(length, kindOf.length, of.rules.kerf);
  return crosscut(
    kindOf.length,
    part(index),
    rest === undefined ? undefined : (row(of, left, rest, width) ?? leftOver),
  );
}

function fits(size: Length, room: Length): boolean {
  return compare(smaller(size, room), size) === 0;
}

function beyond(whole: Length, near: Length, kerf: Length): Length | undefined {
  const rest = minus(whole, sum(near, kerf));
  return compare(rest, zero) > 0 ? rest : undefined;
}

function same(a: CutTree, b: CutTree): boolean {
  return (
    JSON.stringify(a, (_, value) => (typeof value === 'bigint' ? `${value}` : value)) ===
    JSON.stringify(b, (_, value) => (typeof value === 'bigint' ? `${value}` : value))
  );
}

const tile = (name: string, label: string, count: number): Made['batch']['tiles'][0] => ({
  name,
  label,
  letters: name.replaceAll(/(\w)\w*\W*/g, '$1').toUpperCase(),
  note: undefined,
  count,
  footprint: { across: inch(3), along: inch(3) },
});

/** Walls and ramps for a terraced vineyard on squares of 3 in. */
export function vineyard(more: Partial<Settings> = {}): Made {
  const eighth = inch(0, 1, 8);
  const rules = { worthKeeping: { long: inch(3), short: inch(1, 1, 2) } };
  const greyboard = demand(
    [
      kind(inch(3), inch(2, 7, 8), [member('RW board', 6, 'retaining wall', { part: 'board' })]),
      kind(inch(3), inch(3), [
        member('T top card', 4, 'terrace', { part: 'turf' }),
        member('C top card', 2, 'cistern', { part: 'turf' }),
      ]),
      kind(inch(3), inch(1, 1, 2), [
        member('RW face', 4, 'retaining wall', { part: 'face', note: 'arched drain, see its master' }),
        member('RW back', 4, 'retaining wall', { part: 'back' }),
        member('BW face', 1, 'blind wall', { part: 'face' }),
      ]),
      kind(inch(1, 1, 4), inch(1, 1, 4), [member('edging', 40, undefined, { part: 'edging' })]),
      kind(inch(2, 13, 16), inch(0, 15, 16), [member('S tread', 3, 'steps', { part: 'tread 3' })]),
    ] satisfies NonEmpty<PartKind>,
    [
      sheet(inch(8), inch(5), { available: 1, isOffcut: true, label: 'G1', grain: 'length' }),
      sheet(inch(16), inch(12), { trim: trimmed(eighth), grain: 'length' }),
    ],
    rules,
    { hasGrain: true },
  );
  const twinwall = demand(
    [
      kind(inch(3), inch(3), [member('T bed', 4, 'terrace', { part: 'bed' })], { flutes: 'length' }),
      kind(inch(3), inch(2, 7, 8), [member('RW layer', 6, 'retaining wall', { part: 'layer' })], {
        flutes: 'length',
      }),
    ],
    [
      sheet(inch(9), inch(6, 1, 4), {
        available: 1,
        isOffcut: true,
        label: 'T1',
        where: 'shoe box',
        flutes: 'length',
        grain: 'unknown',
      }),
      sheet(inch(12), inch(12), { trim: trimmed(eighth), flutes: 'width', grain: 'length' }),
    ],
    rules,
    { name: 'twin-wall card', thickness: inch(0, 3, 16), hasFlutes: true, hasGrain: true },
  );
  const foam = demand(
    [
      kind(inch(3), inch(2, 7, 8), [member('RW fill', 6, 'retaining wall', { part: 'fill' })]),
      kind(inch(3), inch(3), [member('T fill', 4, 'terrace', { part: 'fill' })]),
      kind(inch(0, 1, 2), inch(0, 1, 4), [member('RW stones', 72, 'retaining wall', { part: 'stones' })]),
    ],
    [sheet(inch(24), inch(12))],
    { ...rules, kerf: inch(0, 1, 32), tool: 'hot wire' },
    { name: 'foam', thickness: inch(0, 1, 2) },
  );
  const packetCard = demand(
    [
      kind(inch(2, 1, 2), inch(0, 1, 4), [member('T vines', 24, 'terrace', { part: 'vines' })], {
        grain: 'width',
      }),
    ],
    [sheet(inch(11), inch(8), { grain: 'width' })],
    rules,
    { name: 'packet card', thickness: inch(0, 1, 64), hasGrain: true },
  );
  return madeOf('Vineyard, two evenings', [greyboard, twinwall, foam, packetCard], more, [
    tile('retaining wall', 'retaining wall', 3),
    tile('terrace', 'terrace', 4),
    tile('cistern', 'cistern', 2),
    tile('blind wall', 'blind wall', 1),
    tile('steps', 'steps', 1),
  ]);
}

export const a4 = { name: 'a4', width: mm(210), height: mm(297) } as const;
export const letter = { name: 'letter', width: inch(8, 1, 2), height: inch(11) } as const;
