import type { NonEmpty, PartKind, PartMember } from '../model/index.ts';
import { Pace } from '../pack/index.ts';
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
export function* together(
  kinds: NonEmpty<PartKind>,
  layouts: readonly DealtLayout[],
): Generator<undefined, readonly (readonly DealtSheets[])[]> {
  const tables = layouts.map(({ root, slots, dealt }) => {
    const strips = stripsOf(root);
    return dealt.map(({ times, members }) => ({ slots, strips, times, members: [...members] }));
  });
  yield;
  const all = yield* spotsByKind(tables.flat());
  const crowds = new Crowds(all.flat());
  yield;
  const spots = all.filter(({ length }) => length > 1 && length <= mostSpots);
  const pace = new Pace();
  for (let round = 0; round < mostRounds; round++) {
    let swaps = 0;
    for (const of of spots) {
      swaps += swapAll(of, crowds);
      if (pace.isDue(workOfPair * of.length * of.length)) yield;
    }
    if (swaps === 0) break;
  }
  for (const of of spots) {
    sortInStrips(of, kinds);
    if (pace.isDue(of.length)) yield;
  }
  return tables.map((ofLayout) => ofLayout.map(({ times, members }) => ({ times, members })));
}

/** Rounds and calls for looking at two spots, halved as each pair is looked at once. */
const workOfPair = 6;

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
  /** Where it lies, from the sheet to the innermost strip, in numbers of the batch. */
  readonly wheres: readonly number[];
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

function* spotsByKind(tables: readonly Table[]): Generator<undefined, readonly (readonly Spot[])[]> {
  const byKind = new Map<number, Spot[]>();
  let next = 0;
  for (const table of tables) {
    const sheet = next++;
    const numbers = new Map<string, number>();
    const numberOf = (strip: string): number => {
      const known = numbers.get(strip) ?? next++;
      numbers.set(strip, known);
      return known;
    };
    for (const [place, kind] of table.slots.entries()) {
      const spot = { table, place, wheres: [sheet, ...table.strips[place]!.map(numberOf)] };
      const ofKind = byKind.get(kind);
      if (ofKind === undefined) byKind.set(kind, [spot]);
      else ofKind.push(spot);
    }
    yield;
  }
  return [...byKind.values()];
}

/** How many parts of each tile lie on a sheet or in a strip. Loose parts belong to nothing, so they may lie anywhere. */
class Crowds {
  private readonly tiles = new Map<string, number>();
  private readonly counts = new Map<number, number>();

  constructor(spots: readonly Spot[]) {
    for (const spot of spots) {
      const tile = tileOf(spot);
      if (tile !== undefined && !this.tiles.has(tile)) this.tiles.set(tile, this.tiles.size);
    }
    for (const spot of spots) this.shift(spot, tileOf(spot), 1);
  }

  of(where: number | undefined, tile: string | undefined): number {
    if (where === undefined || tile === undefined) return 0;
    return this.counts.get(this.key(where, tile)) ?? 0;
  }

  shift({ wheres }: Spot, tile: string | undefined, by: number): void {
    if (tile === undefined) return;
    for (const where of wheres) {
      const key = this.key(where, tile);
      this.counts.set(key, (this.counts.get(key) ?? 0) + by);
    }
  }

  private key(where: number, tile: string): number {
    return where * this.tiles.size + this.tiles.get(tile)!;
  }
}

function tileOf({ table, place }: Spot): string | undefined {
  return table.members[place]!.tile;
}

/** Swaps what lies better the other way round. @returns how often */
function swapAll(spots: readonly Spot[], crowds: Crowds): number {
  let swaps = 0;
  for (let i = 0; i < spots.length; i++) {
    const one = spots[i]!;
    for (let j = i + 1; j < spots.length; j++) {
      const other = spots[j]!;
      if (one.table.times !== other.table.times || tileOf(one) === tileOf(other)) continue;
      if (!liesBetterSwapped(one, other, crowds)) continue;
      swap(one, other, crowds);
      swaps++;
    }
  }
  return swaps;
}

function swap(one: Spot, other: Spot, crowds: Crowds): void {
  const [a, b] = [one.table.members[one.place]!, other.table.members[other.place]!];
  crowds.shift(one, a.tile, -1);
  crowds.shift(other, b.tile, -1);
  one.table.members[one.place] = b;
  other.table.members[other.place] = a;
  crowds.shift(one, b.tile, 1);
  crowds.shift(other, a.tile, 1);
}

/**
 * Of the sheets, then of the strips that two spots lie in: on how many the parts of their tiles are found; and
 * where that is the same, how evenly they are strewn, since the last of a tile leaves only after the others. The
 * first of these that a swap changes decides; it changes nothing elsewhere.
 */
function liesBetterSwapped(one: Spot, other: Spot, crowds: Crowds): boolean {
  const [mine, theirs] = [tileOf(one), tileOf(other)];
  const depth = Math.max(one.wheres.length, other.wheres.length);
  for (let level = 0; level < depth; level++) {
    const [here, there] = [one.wheres[level], other.wheres[level]];
    if (here === there) continue;
    let found = 0;
    let evenness = 0;
    const change = (where: number | undefined, tile: string | undefined, by: number): void => {
      if (where === undefined || tile === undefined) return;
      const before = crowds.of(where, tile);
      found += Number(before + by > 0) - Number(before > 0);
      evenness -= (before + by) ** 2 - before ** 2;
    };
    change(here, mine, -1);
    change(here, theirs, 1);
    change(there, mine, 1);
    change(there, theirs, -1);
    if (found !== 0) return found < 0;
    if (evenness !== 0) return evenness < 0;
  }
  return false;
}

/** In one strip, parts that are the same to the knife lie in the order of the batch. */
function sortInStrips(spots: readonly Spot[], kinds: NonEmpty<PartKind>): void {
  const strips = new Map<number, Spot[]>();
  for (const spot of spots) {
    const strip = spot.wheres[spot.wheres.length - 1]!;
    const inStrip = strips.get(strip);
    if (inStrip === undefined) strips.set(strip, [spot]);
    else inStrip.push(spot);
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
