import { millimetres, rational } from '../../src/measure/index.ts';
import type {
  CutRules,
  Length,
  MaterialDemand,
  NonEmpty,
  PartKind,
  SheetKind,
  Side,
  Span,
} from '../../src/model/index.ts';

export const somewhere: Span = { source: { path: 'kit.yaml', text: 'parts' }, start: 0, end: 5 };

/** A whole number of millimetres, or a text like `5/4`. */
export function mm(amount: number | string): Length {
  const [numerator, denominator = '1'] = `${amount}`.split('/');
  return millimetres(rational(BigInt(numerator!), BigInt(denominator)));
}

export interface PartLine {
  readonly size: readonly [number | string, number | string];
  readonly count?: number;
  readonly grain?: Side | 'any';
  readonly flutes?: Side | 'any';
  readonly label?: string;
}

export interface SheetLine {
  readonly size: readonly [number | string, number | string];
  readonly available?: number | 'as needed';
  readonly grain?: SheetKind['grain'];
  readonly flutes?: SheetKind['flutes'];
  readonly trim?: readonly [number, number, number, number];
  readonly price?: number;
  readonly pack?: number;
  readonly isOffcut?: boolean;
}

export interface RuleLine {
  readonly kerf?: number | string;
  readonly leastStrip?: number;
  readonly longestCut?: number;
  readonly rounds?: number;
}

/** A material's demand from a few lines; all that is left out is as in the language: free, none, as needed. */
export function demandOf(
  parts: readonly PartLine[],
  sheets: readonly SheetLine[],
  rules: RuleLine = {},
): MaterialDemand {
  return {
    material: {
      name: 'greyboard',
      at: somewhere,
      thickness: mm(2),
      nominal: mm(2),
      measured: undefined,
      hasGrain: true,
      hasFlutes: true,
    },
    parts: parts.map(partOf) as unknown as NonEmpty<PartKind>, // every test gives at least one
    sheets: sheets.map(sheetOf),
    rules: rulesOf(rules),
  };
}

function partOf({ size, count = 1, grain = 'any', flutes = 'any', label }: PartLine, i: number): PartKind {
  const name = label ?? `part ${i}`;
  return {
    length: mm(size[0]),
    width: mm(size[1]),
    grain,
    flutes,
    goodSide: false,
    count,
    members: [
      { label: name, tile: undefined, part: name, note: undefined, count, each: count, at: somewhere },
    ],
  };
}

function sheetOf({ size, available, grain, flutes, trim, price, pack, isOffcut }: SheetLine): SheetKind {
  const [left, right, bottom, top] = trim ?? [0, 0, 0, 0];
  return {
    at: somewhere,
    length: mm(size[0]),
    width: mm(size[1]),
    trim: { left: mm(left), right: mm(right), bottom: mm(bottom), top: mm(top) },
    grain: grain ?? 'length',
    flutes: flutes ?? 'length',
    available: available ?? (isOffcut === true ? 1 : 'as needed'),
    price: price === undefined ? undefined : { amount: rational(BigInt(price)), currency: 'EUR' },
    ...(pack === undefined || pack === 1 ? {} : { pack }),
    isOffcut: isOffcut ?? false,
    trueEdges: true,
    label: undefined,
    where: undefined,
    note: undefined,
  };
}

function rulesOf({ kerf = 0, leastStrip = 0, longestCut, rounds }: RuleLine): CutRules {
  return {
    tool: undefined,
    kerf: mm(kerf),
    leastStrip: mm(leastStrip),
    longestCut: longestCut === undefined ? undefined : mm(longestCut),
    rounds,
    worthKeeping: undefined,
  };
}
