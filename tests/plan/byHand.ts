import { inches, millimetres, rational, whole, zero } from '../../src/measure/index.ts';
import type {
  CutTree,
  Layout,
  Length,
  MaterialDemand,
  MaterialLayouts,
  PartKind,
  PartMember,
  Settings,
  SheetKind,
  Span,
  SpecFile,
} from '../../src/model/index.ts';

/** Demands and layouts written down by hand, so that plans and prints are tried without a packer. */

export const here: Span = { source: { path: 'by-hand.yaml', text: '' }, start: 0, end: 0 };

export const mm = (amount: number): Length => millimetres(whole(amount));

/** `inch(2, 3, 8)` is 2 3/8 in. */
export const inch = (full: number, numerator = 0, denominator = 1): Length =>
  inches(rational(BigInt(full * denominator + numerator), BigInt(denominator)));

export function member(
  label: string,
  count: number,
  tile = 'wall',
  more: Partial<PartMember> = {},
): PartMember {
  return { label, count, each: count, tile, part: label, note: undefined, at: here, ...more };
}

export function kind(
  length: Length,
  width: Length,
  members: readonly [PartMember, ...PartMember[]],
  more: Partial<PartKind> = {},
): PartKind {
  const count = members.reduce((n, it) => n + it.count, 0);
  return { length, width, grain: 'any', flutes: 'any', goodSide: false, count, members, ...more };
}

export function sheet(length: Length, width: Length, more: Partial<SheetKind> = {}): SheetKind {
  return {
    at: here,
    length,
    width,
    trim: { left: zero, right: zero, bottom: zero, top: zero },
    grain: 'none',
    flutes: 'none',
    available: 'as needed',
    price: undefined,
    isOffcut: false,
    trueEdges: true,
    label: undefined,
    where: undefined,
    note: undefined,
    ...more,
  };
}

export const trimmed = (by: Length) => ({ left: by, right: by, bottom: by, top: by });

export function demand(
  parts: readonly [PartKind, ...PartKind[]],
  sheets: readonly SheetKind[],
  rules: Partial<MaterialDemand['rules']> = {},
  material: Partial<MaterialDemand['material']> = {},
): MaterialDemand {
  return {
    material: {
      name: 'greyboard',
      at: here,
      thickness: inch(0, 1, 16),
      nominal: inch(0, 1, 16),
      measured: undefined,
      hasGrain: false,
      hasFlutes: false,
      ...material,
    },
    parts,
    sheets,
    rules: {
      tool: undefined,
      kerf: zero,
      leastStrip: zero,
      longestCut: undefined,
      rounds: undefined,
      worthKeeping: undefined,
      ...rules,
    },
  };
}

export function layouts(
  of: MaterialDemand,
  trees: readonly Layout[],
  more: Partial<MaterialLayouts> = {},
): MaterialLayouts {
  const sheets = trees.reduce((n, { times }) => n + times, 0);
  return {
    demand: of,
    layouts: trees,
    unplaced: [],
    bound: { sheets, argument: 'their area alone fills it' },
    proof: { kind: 'fewest' },
    steps: 1,
    ...more,
  };
}

export const part = (index: number, turned = false): CutTree => ({ kind: 'part', part: index, turned });
export const leftOver: CutTree = { kind: 'left over' };
export const rip = (at: Length, near: CutTree, far?: CutTree): CutTree => ({ kind: 'rip', at, near, far });
export const crosscut = (at: Length, near: CutTree, far?: CutTree): CutTree => ({
  kind: 'crosscut',
  at,
  near,
  far,
});

/** `count` pieces of one size in a row, then what is left; `last` undefined where nothing is. */
export function inRow(
  cut: typeof rip,
  count: number,
  at: Length,
  each: CutTree,
  last: CutTree | undefined,
): CutTree {
  let row = cut(at, each, last);
  for (let i = 1; i < count; i++) row = cut(at, each, row);
  return row;
}

export const settings: Settings = {
  units: { value: 'in', from: 'kit' },
  firstUnit: 'in',
  ruler: { value: [inch(0, 1, 16)], from: 'built-in' },
  paper: { value: 'shared', from: 'built-in' },
  margin: { value: mm(10), from: 'built-in' },
  effort: { value: { name: 'normal', steps: 1000 }, from: 'built-in' },
};

/** A file that says nothing. */
export const emptyFile: SpecFile = {
  source: here.source,
  kind: 'session',
  title: undefined,
  note: undefined,
  units: 'in',
  uses: [],
  lengths: [],
  numbers: [],
  levels: [],
  masters: [],
  grid: undefined,
  materials: [],
  sheets: [],
  offcuts: [],
  parts: [],
  racks: [],
  tiles: [],
  make: undefined,
  loose: [],
  measured: [],
  cutting: undefined,
  print: undefined,
};
