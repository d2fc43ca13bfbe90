import fc from 'fast-check';
import { type AllowedCuts, cuttableSets, leastOf, type Size, type Stock } from './pack/exhaustive.ts';

/** One evening's session, so small that every way of cutting it can be tried. All lengths are whole millimetres. */
export interface TinySession {
  readonly materials: readonly TinyMaterial[];
}

export interface TinyMaterial {
  readonly name: string;
  readonly hasGrain: boolean;
  readonly hasFlutes: boolean;
  readonly cuts: AllowedCuts;
  readonly sheets: readonly TinySheet[];
  readonly parts: readonly TinyPart[];
}

type Side = 'length' | 'width';

export interface TinySheet {
  readonly size: Size;
  /** Left, right, bottom, top. */
  readonly trim: readonly [number, number, number, number];
  readonly grain: Side | 'unknown';
  readonly flutes: Side | 'unknown';
  /** Infinity for as many as needed. */
  readonly available: number;
  readonly price: number | undefined;
  readonly isOffcut: boolean;
}

export interface TinyPart {
  readonly size: Size;
  readonly grain: Side | 'any';
  readonly flutes: Side | 'any';
  readonly count: number;
}

const side = (min: number, max: number) => fc.integer({ min, max });
const runs = fc.constantFrom<Side>('length', 'width');
const wanted = fc.constantFrom<Side | 'any'>('any', 'any', 'length', 'width');
const noTrim = fc.constant([0, 0, 0, 0] as const);

function sheetOf(isOffcut: boolean, isPriced: boolean): fc.Arbitrary<TinySheet> {
  const edge = side(0, 1);
  return fc.record({
    size: fc.tuple(side(5, isOffcut ? 8 : 11), side(4, isOffcut ? 7 : 9)),
    trim: isOffcut ? noTrim : fc.oneof(noTrim, fc.tuple(edge, edge, edge, edge)),
    grain: isOffcut ? fc.oneof(runs, fc.constant('unknown' as const)) : runs,
    flutes: isOffcut ? fc.oneof(runs, fc.constant('unknown' as const)) : runs,
    available: isOffcut
      ? side(1, 2)
      : fc.oneof({ weight: 3, arbitrary: fc.constant(Number.POSITIVE_INFINITY) }, side(1, 3)),
    price: isPriced && !isOffcut ? side(1, 6) : fc.constant(undefined),
    isOffcut: fc.constant(isOffcut),
  });
}

function materialOf(name: string, mostParts: number): fc.Arbitrary<TinyMaterial> {
  const stock = fc
    .boolean()
    .chain((isPriced) =>
      fc.tuple(
        fc.array(sheetOf(false, isPriced), { minLength: 1, maxLength: 3 }),
        fc.array(sheetOf(true, isPriced), { maxLength: 2 }),
      ),
    );
  const part = fc.record({
    size: fc.tuple(side(1, 8), side(1, 6)),
    grain: wanted,
    flutes: wanted,
    count: side(1, 3),
  });
  const { POSITIVE_INFINITY: none } = Number;
  const cuts = fc.record({
    kerf: fc.constantFrom(0, 0, 1, 1, 2),
    leastStrip: fc.constantFrom(0, 0, 0, 1, 2, 3),
    longestCut: fc.oneof({ weight: 3, arbitrary: fc.constant(none) }, side(5, 10)),
    rounds: fc.oneof({ weight: 3, arbitrary: fc.constant(none) }, side(2, 3)),
  });
  return fc
    .tuple(fc.boolean(), fc.boolean(), cuts, stock, fc.array(part, { minLength: 1, maxLength: 5 }))
    .map(([hasGrain, hasFlutes, its, [sheets, offcuts], parts]) => {
      // Most parts are to be possible at all.
      const least = Math.max(its.kerf + 1, its.leastStrip);
      let left = mostParts;
      const few = parts.flatMap((it) => {
        const count = Math.min(left, it.count);
        left -= count;
        const size: Size = [Math.max(least, it.size[0]), Math.max(least, it.size[1])];
        return count > 0 ? [{ ...it, count, size }] : [];
      });
      return { name, hasGrain, hasFlutes, cuts: its, sheets: [...sheets, ...offcuts], parts: few };
    });
}

export const tinySession: fc.Arbitrary<TinySession> = fc
  .oneof(
    fc.tuple(materialOf('card', 6)),
    fc.tuple(materialOf('card', 6)),
    fc.tuple(materialOf('card', 5), materialOf('foam', 4)),
  )
  .map((materials) => ({ materials }));

/** The session as a person would write it down. */
export function textOf({ materials }: TinySession, steps: number): string {
  const rowsOf = (isOffcut: boolean) =>
    materials.flatMap((it) => {
      const rows = it.sheets.filter((sheet) => sheet.isOffcut === isOffcut);
      return rows.length === 0
        ? []
        : [`  ${it.name}:`, ...rows.map((sheet) => `    - ${sheetText(it, sheet)}`)];
    });
  const offcuts = rowsOf(true);
  return [
    'cardwright: session',
    'units: mm',
    'materials:',
    ...materials.map(
      ({ name, hasGrain, hasFlutes }) =>
        `  ${name}: { thickness: 1, grain: ${yesNo(hasGrain)}, flutes: ${yesNo(hasFlutes)} }`,
    ),
    'sheets:',
    ...rowsOf(false),
    ...(offcuts.length === 0 ? [] : ['offcuts:', ...offcuts]),
    'make: { wall: 1 }',
    'tiles:',
    '  wall:',
    '    footprint: none',
    '    parts:',
    ...materials.flatMap((it) =>
      it.parts.map((part, i) => `      ${it.name} ${i + 1}: ${partText(it, part)}`),
    ),
    'cutting:',
    `  effort: ${steps}`,
    '  only:',
    ...materials.map(({ name, cuts }) => `    ${name}: ${cutsText(cuts)}`),
    '',
  ].join('\n');
}

function yesNo(it: boolean): string {
  return it ? 'yes' : 'no';
}

function sheetText({ hasGrain, hasFlutes }: TinyMaterial, sheet: TinySheet): string {
  const [left, right, bottom, top] = sheet.trim;
  const keys = [
    `size: [${sheet.size.join(', ')}]`,
    `trim: { left: ${left}, right: ${right}, bottom: ${bottom}, top: ${top} }`,
    ...(hasGrain ? [`grain: ${sheet.grain}`] : []),
    ...(hasFlutes ? [`flutes: ${sheet.flutes}`] : []),
    ...(sheet.price === undefined ? [] : [`price: ${sheet.price}.00 EUR`]),
    ...(Number.isFinite(sheet.available) ? [`count: ${sheet.available}`] : []),
  ];
  return `{ ${keys.join(', ')} }`;
}

function partText(
  { name, hasGrain, hasFlutes }: TinyMaterial,
  { size, grain, flutes, count }: TinyPart,
): string {
  const keys = [
    `of: ${name}`,
    `size: [${size.join(', ')}]`,
    `count: ${count}`,
    ...(hasGrain ? [`grain: ${grain}`] : []),
    ...(hasFlutes ? [`flutes: ${flutes}`] : []),
  ];
  return `{ ${keys.join(', ')} }`;
}

function cutsText({ kerf, leastStrip, longestCut, rounds }: AllowedCuts): string {
  const keys = [
    `kerf: ${kerf}`,
    `least strip: ${leastStrip}`,
    ...(Number.isFinite(longestCut) ? [`longest cut: ${longestCut}`] : []),
    ...(Number.isFinite(rounds) ? [`rounds: ${rounds}`] : []),
  ];
  return `{ ${keys.join(', ')} }`;
}

/** What is true of a material, found by trying all there is. */
export interface Truth {
  /** Parts, one by one, that no sheet can give, or that are no wider than the kerf. */
  readonly impossible: number;
  /** The fewest sheets that must be bought for the others, offcuts being free; infinite: they don't all fit. */
  readonly fewest: number;
  /** The least these cost; undefined where there is no choice of prices. */
  readonly least: number | undefined;
}

export function truthOf(material: TinyMaterial): Truth {
  const all = material.parts.flatMap((part) => Array.from({ length: part.count }, () => part));
  const alone = stockOf(material, all, () => 0);
  const parts = all.filter(
    ({ size }, i) =>
      Math.min(...size) > material.cuts.kerf && alone.some(({ isCuttable }) => isCuttable(1 << i)),
  );
  const least = (priceOf: (sheet: TinySheet) => number) =>
    leastOf(
      parts.length,
      stockOf(material, parts, (it) => (it.isOffcut ? 0 : priceOf(it))),
    ).at(-1)!;
  const prices = material.sheets.filter(({ isOffcut }) => !isOffcut).map(({ price }) => price);
  const isChoice = new Set(prices).size > 1 && prices.every((it) => it !== undefined);
  return {
    impossible: all.length - parts.length,
    fewest: least(() => 1),
    least: isChoice ? least(({ price }) => price!) : undefined,
  };
}

function stockOf(
  material: TinyMaterial,
  parts: readonly TinyPart[],
  priceOf: (sheet: TinySheet) => number,
): Stock[] {
  return material.sheets.flatMap((sheet) => {
    const [left, right, bottom, top] = sheet.trim;
    const size: Size = [sheet.size[0] - left - right, sheet.size[1] - bottom - top];
    if (Math.min(...size) <= 0 || !canBeSquared(sheet, material.cuts.longestCut)) return [];
    const lying = parts.map((part) => waysOf(material, part, sheet));
    const isCuttable = cuttableSets(lying, size, material.cuts);
    return [{ available: sheet.available, price: priceOf(sheet), isCuttable }];
  });
}

/** Sizes along and across the sheet, in each way in which the part may lie there. */
function waysOf({ hasGrain, hasFlutes }: TinyMaterial, part: TinyPart, sheet: TinySheet): Size[] {
  const [length, width] = part.size;
  // `side` of the part lies along the sheet's length.
  const runsRight = (asked: Side | 'any', has: Side | 'unknown', lying: Side) =>
    asked === 'any' || (has !== 'unknown' && (has === 'length') === (asked === lying));
  return (['length', 'width'] as const).flatMap((lying): Size[] => {
    if (hasGrain && !runsRight(part.grain, sheet.grain, lying)) return [];
    if (hasFlutes && !runsRight(part.flutes, sheet.flutes, lying)) return [];
    return [lying === 'length' ? [length, width] : [width, length]];
  });
}

/** In some order of the trims, each is cut along what the others have left. */
function canBeSquared({ size, trim }: TinySheet, longestCut: number): boolean {
  const from = (edges: readonly number[], length: number, width: number): boolean =>
    edges.length === 0 ||
    edges.some((edge) => {
      const isEnd = edge < 2;
      if ((isEnd ? width : length) > longestCut) return false;
      const others = edges.filter((it) => it !== edge);
      return isEnd ? from(others, length - trim[edge]!, width) : from(others, length, width - trim[edge]!);
    });
  return from(
    [0, 1, 2, 3].filter((edge) => trim[edge]! > 0),
    ...size,
  );
}
