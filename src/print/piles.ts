import { ownBlanks } from '../blank/index.ts';
import type { Batch, Evening, Length, PartMember, TileCount } from '../model/index.ts';

/** What is laid together once all is cut: the pieces for one tile and one evening, or for no tile. */
export interface Pile {
  /** What the labels of its pieces begin with; undefined for what belongs to no tile. */
  readonly letters: string | undefined;
  /** By which name the tile is asked for; undefined for what belongs to none. */
  readonly tile: string | undefined;
  /** What is printed. */
  readonly name: string;
  /** So many tiles it is for; undefined for what belongs to no tile. */
  readonly count: number | undefined;
  /** Undefined where all is made in one. */
  readonly evening: { readonly number: number; readonly of: number; readonly title: string } | undefined;
  readonly note: string | undefined;
  readonly groups: readonly PileGroup[];
  readonly fittings: readonly { readonly label: string; readonly count: number; readonly spares: number }[];
}

export interface PileGroup {
  readonly material: string;
  readonly pieces: readonly PilePiece[];
}

export interface PilePiece {
  readonly label: string;
  readonly note: string | undefined;
  /** Spares among them. */
  readonly count: number;
  readonly spares: number;
  /** As it is cut. */
  readonly length: Length;
  readonly width: Length;
}

/**
 * The piles of a batch: evening by evening, tile by tile, and then what belongs to no tile, which is made on the first.
 * Spares lie with the first pile of their tile, what no evening says anything of in a pile behind all of them.
 */
export function pilesOf(batch: Batch): readonly Pile[] {
  const { tiles, evenings } = batch;
  const all = evenings?.all ?? [];
  const shown = evenings?.now === undefined ? all : [];
  const told = evenings?.now === undefined ? undefined : eveningOf(all, evenings.now);
  const first = new Set<string>();
  const ofTile = (tile: TileCount, count: number, evening: Pile['evening']): readonly Pile[] => {
    if (count === 0) return [];
    const isFirst = !first.has(tile.name);
    first.add(tile.name);
    const { label, letters, note } = tile;
    const takes = { tile: tile.name, times: count, of: tile.count, isFirst };
    return [{ letters, tile: tile.name, name: label, count, evening, note, ...contentsOf(batch, takes) }];
  };
  const inEvenings = shown.flatMap((evening, index) =>
    tiles.flatMap((tile) => ofTile(tile, countIn(evening, tile), eveningOf(all, index))),
  );
  const others = tiles.flatMap((tile) => {
    const made = shown.reduce((sum, evening) => sum + countIn(evening, tile), 0);
    return ofTile(tile, Math.max(0, tile.count - made), told);
  });
  const loose = withoutTile(batch, told ?? eveningOf(all, 0));
  const isFirst = ({ evening }: Pile): boolean => evening?.number === 1;
  return [
    ...inEvenings.filter(isFirst),
    ...(shown.length > 0 ? loose : []),
    ...inEvenings.filter((it) => !isFirst(it)),
    ...others,
    ...(shown.length > 0 ? [] : loose),
  ];
}

function eveningOf(all: readonly Evening[], index: number): Pile['evening'] {
  const title = all[index]?.title;
  return title === undefined ? undefined : { number: index + 1, of: all.length, title };
}

function countIn({ tiles }: Evening, { name }: TileCount): number {
  return tiles.find((it) => it.name === name)?.count ?? 0;
}

/** Loose parts, and the fittings that no tile takes. */
function withoutTile(batch: Batch, evening: Pile['evening']): readonly Pile[] {
  const contents = contentsOf(batch, { tile: undefined, times: 1, of: 1, isFirst: true });
  if (contents.groups.length + contents.fittings.length === 0) return [];
  const name = contents.groups.length > 0 ? 'loose parts' : 'for all of it';
  const none = { letters: undefined, tile: undefined, count: undefined, note: undefined };
  return [{ ...none, name, evening, ...contents }];
}

interface Share {
  readonly tile: string | undefined;
  /** So many of its tiles, of how many. */
  readonly times: number;
  readonly of: number;
  readonly isFirst: boolean;
}

function contentsOf({ materials, fittings = [] }: Batch, share: Share): Pick<Pile, 'groups' | 'fittings'> {
  const groups = materials.map(ownBlanks).flatMap(({ material, parts }): readonly PileGroup[] => {
    const pieces = parts.flatMap(({ length, width, members }) =>
      members.flatMap((member): readonly PilePiece[] => {
        const { label, note } = member;
        const { count, spares } = sharedOf(member, share);
        return member.tile !== share.tile || count === 0
          ? []
          : [{ label, note, count, spares, length, width }];
      }),
    );
    return pieces.length === 0 ? [] : [{ material: material.name, pieces }];
  });
  const taken = fittings.flatMap(({ label, uses, spares: all }) => {
    const its = uses.filter(({ tile }) => tile === share.tile);
    const each = its.reduce((sum, it) => sum + it.each, 0) * share.times;
    // The first thing that takes some of it has the spares.
    const spares = share.isFirst && uses[0]?.tile === share.tile ? all : 0;
    return each === 0 ? [] : [{ label, count: each + spares, spares }];
  });
  return { groups, fittings: taken };
}

/** How many pieces of a part lie in a pile; of a filler as many as fitted are shared out by the tiles. */
function sharedOf(
  { count, spares: all = 0, each, asFits }: PartMember,
  { tile, times, of, isFirst }: Share,
): { readonly count: number; readonly spares: number } {
  if (tile === undefined || times === of) return { count, spares: all };
  const spares = isFirst ? all : 0;
  if (asFits === undefined) return { count: each * times + spares, spares };
  const share = Math.floor((count * times) / of);
  return { count: isFirst ? count - Math.floor((count * (of - times)) / of) : share, spares: 0 };
}
