import type { NonEmpty, PartKind, PartMember } from '../model/index.ts';
import type { DealtSheets } from './deal.ts';
import type { Piece } from './pieces.ts';

/** A layout, as it was dealt. */
export interface DealtLayout {
  readonly root: Piece;
  /** Which kind of part lies in each place. */
  readonly slots: readonly number[];
  readonly dealt: readonly DealtSheets[];
}

/**
 * Brings the parts of one tile together: onto few sheets, there into few strips, there side by side. Only labels
 * change places, among parts that are the same to the knife and sheets that are cut equally often, so sheets,
 * cuts, settings and pictures stay what they are.
 *
 *   sheet 1  A A │ B        sheet 1  A A │ A
 *   sheet 2  B B │ A   →    sheet 2  B B │ B
 */
export function together(
  kinds: NonEmpty<PartKind>,
  layouts: readonly DealtLayout[],
): readonly (readonly DealtSheets[])[] {
  const tables = layouts.flatMap(({ root, slots, dealt }, layout) => {
    const strips = stripsOf(root);
    return dealt.map(({ times, members }) => ({ layout, slots, strips, times, members: [...members] }));
  });
  const crowds = crowdsOf(tables);
  const spots = spotsByKind(tables).filter(({ length }) => length > 1 && length <= mostSpots);
  for (let round = 0; round < mostRounds; round++) {
    const swaps = spots.reduce((sum, of) => sum + swapAll(of, crowds), 0);
    if (swaps === 0) break;
  }
  for (const of of spots) sortInStrips(of, kinds);
  return layouts.map((_, layout) =>
    tables.filter((table) => table.layout === layout).map(({ times, members }) => ({ times, members })),
  );
}

/** Each looks at all others: so many of a kind take a blink. More lie beside their like anyway. */
const mostSpots = 200;
const mostRounds = 6;

interface Table {
  readonly slots: readonly number[];
  /** By place: the strips that it comes from, the outermost first. */
  readonly strips: readonly (readonly string[])[];
  readonly times: number;
  readonly members: PartMember[];
}

interface Spot {
  readonly table: Table;
  readonly place: number;
  /** Where it lies, from the sheet to the innermost strip. */
  readonly wheres: readonly string[];
}

function stripsOf(root: Piece): readonly (readonly string[])[] {
  const strips: string[][] = [];
  const look = (piece: Piece, path: readonly string[]): void => {
    if (piece.kind === 'part') strips[piece.place] = [...path];
    if (piece.kind !== 'cut') return;
    for (const [i, it] of piece.into.entries()) {
      look(it, it.kind === 'cut' ? [...path, `${path[path.length - 1] ?? ''}/${i}`] : path);
    }
  };
  look(root, []);
  return strips;
}

function spotsByKind(tables: readonly Table[]): readonly (readonly Spot[])[] {
  const byKind = new Map<number, Spot[]>();
  for (const [index, table] of tables.entries()) {
    for (const [place, kind] of table.slots.entries()) {
      const wheres = [`${index}`, ...table.strips[place]!.map((strip) => `${index}${strip}`)];
      byKind.set(kind, [...(byKind.get(kind) ?? []), { table, place, wheres }]);
    }
  }
  return [...byKind.values()];
}

/** How many parts of each tile lie on a sheet or in a strip. */
type Crowds = Map<string, number>;

function crowdsOf(tables: readonly Table[]): Crowds {
  const crowds: Crowds = new Map();
  for (const of of spotsByKind(tables)) for (const spot of of) shift(crowds, spot, tileOf(spot), 1);
  return crowds;
}

function tileOf({ table, place }: Spot): string | undefined {
  return table.members[place]!.tile;
}

/** Loose parts belong to nothing, so they may lie anywhere. */
function shift(crowds: Crowds, { wheres }: Spot, tile: string | undefined, by: number): void {
  if (tile === undefined) return;
  for (const where of wheres) {
    const key = `${where}\n${tile}`;
    crowds.set(key, (crowds.get(key) ?? 0) + by);
  }
}

/** Swaps what lies better the other way round. @returns how often */
function swapAll(spots: readonly Spot[], crowds: Crowds): number {
  let swaps = 0;
  for (const [i, one] of spots.entries()) {
    for (const other of spots.slice(i + 1)) {
      if (one.table.times !== other.table.times || tileOf(one) === tileOf(other)) continue;
      const before = costsOf(one, other, crowds);
      swap(one, other, crowds);
      if (isLess(costsOf(one, other, crowds), before)) swaps++;
      else swap(one, other, crowds);
    }
  }
  return swaps;
}

function swap(one: Spot, other: Spot, crowds: Crowds): void {
  const [a, b] = [one.table.members[one.place]!, other.table.members[other.place]!];
  shift(crowds, one, a.tile, -1);
  shift(crowds, other, b.tile, -1);
  one.table.members[one.place] = b;
  other.table.members[other.place] = a;
  shift(crowds, one, b.tile, 1);
  shift(crowds, other, a.tile, 1);
}

/**
 * Of the sheets, then of the strips that two spots lie in: on how many the parts of their tiles are found; and
 * where that is the same, how evenly they are strewn, since the last of a tile leaves only after the others. A swap
 * changes nothing elsewhere.
 */
function costsOf(one: Spot, other: Spot, crowds: Crowds): readonly number[] {
  const tiles = new Set([tileOf(one), tileOf(other)]);
  const depth = Math.max(one.wheres.length, other.wheres.length);
  return Array.from({ length: depth }, (_, level) => {
    const wheres = new Set([one.wheres[level], other.wheres[level]]);
    let found = 0;
    let evenness = 0;
    for (const where of wheres) {
      for (const tile of tiles) {
        const count = where === undefined ? 0 : (crowds.get(`${where}\n${tile}`) ?? 0);
        if (count > 0) found++;
        evenness -= count * count;
      }
    }
    return [found, evenness];
  }).flat();
}

/** In one strip, parts that are the same to the knife lie in the order of the batch. */
function sortInStrips(spots: readonly Spot[], kinds: NonEmpty<PartKind>): void {
  const strips = new Map<string, Spot[]>();
  for (const spot of spots) {
    const strip = spot.wheres[spot.wheres.length - 1]!;
    strips.set(strip, [...(strips.get(strip) ?? []), spot]);
  }
  for (const inStrip of strips.values()) {
    const { table, place } = inStrip[0]!;
    const rank = new Map(kinds[table.slots[place]!]!.members.map((member, i) => [member, i]));
    const sorted = inStrip
      .map((it) => it.table.members[it.place]!)
      .sort((a, b) => rank.get(a)! - rank.get(b)!);
    for (const [i, it] of inStrip.entries()) it.table.members[it.place] = sorted[i]!;
  }
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((it, i) => it !== b[i]);
  return at >= 0 && a[at]! < b[at]!;
}
