import { millimetres, showExact } from '../measure/index.ts';
import {
  atSpan,
  type Build,
  diagnose,
  type Named,
  type PartSpec,
  type Placed,
  type TileCount,
  type TileSpec,
} from '../model/index.ts';
import { lengthOf } from './evaluate.ts';
import { fittingCalled, type Taken, workedTakes } from './fittings.ts';
import type { TileView } from './like.ts';
import { theOne } from './meaning.ts';
import { amount, amountsOfTile } from './names.ts';
import { closedParts, type OpenPart, openPart, type WorkedPart } from './parts.ts';
import { built } from './placing/building.ts';
import type { Definition } from './sight.ts';
import { heightOf, sideOf } from './tileGround.ts';
import { fileScope, type Workings } from './workings.ts';

/** A tile with every sum worked out. */
export interface WorkedTile {
  readonly name: string;
  readonly spec: TileSpec;
  readonly label: string | undefined;
  readonly note: string | undefined;
  readonly footprint: TileCount['footprint'];
  /** Those that can be cut as they are written. */
  readonly parts: readonly WorkedPart[];
  /** Fittings that go into one of it, those of its parts among them. */
  readonly takes: readonly Taken[];
  /** How they stand; undefined without a build, or with a faulty one. */
  readonly build: Build | undefined;
}

/** Works a tile out, made or not, so that all its faults are told. */
export function workedTile(definition: Definition<TileSpec>, workings: Workings): WorkedTile {
  const tile = workings.likes.tile(definition);
  for (const name of new Set([...tile.lengths.keys(), ...tile.numbers.keys()])) {
    for (const it of amountsOfTile(tile, name)) amount(it, { tile }, workings);
  }
  checkHeight(tile, workings);
  if (tile.parts.size === 0 && tile.build === undefined && tile.isWhole) {
    workings.faults.report(diagnose('E40', atSpan(tile.at), { tile: tile.name }));
  }
  const footprint = footprintOf(tile, workings);
  const { build, parts } = standingParts(tile, footprint, workings);
  return {
    name: tile.name,
    spec: definition.value,
    label: tile.label?.value,
    note: tile.note?.value,
    footprint,
    parts,
    takes: [
      ...workedTakes(tile.takes.values(), undefined, { tile }, workings),
      ...takenByParts(parts),
      ...letIn(tile, build, workings),
    ],
    build,
  };
}

/** As often as each part is there. */
export function takenByParts(parts: readonly WorkedPart[]): readonly Taken[] {
  return parts.flatMap(({ count, takes = [] }) => takes.map((it) => ({ ...it, count: it.count * count })));
}

/** Fittings that have a place in the tile, counted; one that is unknown has been told of where it was to be let in. */
function letIn(tile: TileView, build: Build | undefined, workings: Workings): readonly Taken[] {
  return [...tile.fittings.values()].flatMap(({ name, at }): readonly Taken[] => {
    const count = build?.fittings?.filter(({ fitting }) => fitting === name).length ?? 0;
    const fitting = count === 0 ? undefined : fittingCalled(name, at, workings);
    return fitting === undefined ? [] : [{ fitting, part: undefined, count }];
  });
}

/** The tile's parts as its build makes them, or as they are written where it has none. */
function standingParts(
  tile: TileView,
  footprint: TileCount['footprint'],
  workings: Workings,
): { readonly build: Build | undefined; readonly parts: readonly WorkedPart[] } {
  const opened = new Map<string, OpenPart | undefined>();
  const open = (part: Named<PartSpec>): OpenPart | undefined => {
    if (!opened.has(part.name)) opened.set(part.name, openPart(part, tile, workings));
    return opened.get(part.name);
  };
  const own = [...tile.parts.values()].map(open).filter((it) => it !== undefined);
  if (tile.build === undefined) {
    tellOfClaims(tile, workings);
    return {
      build: undefined,
      parts: own.flatMap((part) => closedParts(part, [...tile.parts.keys()], workings)),
    };
  }
  const { parts: shared } = workings.sights.from(tile.file);
  const find = (name: Placed<string>): OpenPart | 'faulty' | undefined => {
    const ofTile = tile.parts.get(name.value);
    if (ofTile !== undefined) return open(ofTile) ?? 'faulty';
    // A build taken over from another file sees that file's shared parts.
    const meanings = workings.sights.from(workings.sights.fileOf(name.at)).parts.get(name.value);
    if (meanings === undefined) return undefined;
    const part = theOne(meanings, atSpan(name.at), () => 'a part', workings.faults);
    return (part && open(part)) ?? 'faulty';
  };
  return built(tile, footprint, own, find, [...tile.parts.keys(), ...shared.keys()], workings);
}

/** What only a build can make good. */
function tellOfClaims(tile: TileView, { faults }: Workings): void {
  if (!tile.isWhole) return;
  const { added, glueOrder, beyond, store, edges, fittings } = tile;
  const [firstAdded] = added ?? [];
  const [firstEdge] = edges.values();
  const [firstBeyond] = beyond ?? [];
  const [firstFitting] = fittings.values();
  const needed = [
    ['added', firstAdded?.at],
    ['glue order', glueOrder?.at],
    ['fittings', firstFitting?.at],
  ] as const;
  const claimed = [
    ['edges', firstEdge?.at],
    ['beyond', firstBeyond?.at],
    ['store', store?.at],
  ] as const;
  for (const [key, at] of needed) {
    if (at !== undefined) faults.report(diagnose('E72', atSpan(at), { tile: tile.name, key }));
  }
  for (const [key, at] of claimed) {
    if (at !== undefined) faults.report(diagnose('E73', atSpan(at), { tile: tile.name, key }));
  }
}

function footprintOf(tile: TileView, workings: Workings): TileCount['footprint'] {
  // A variant of a tile that wasn't found would be asked for a grid it may never have needed.
  if (tile.footprint === 'none' || !tile.isWhole) return undefined;
  const across = sideOf('across', tile, tile.at, workings);
  const along = sideOf('along', tile, tile.at, workings);
  if (across === undefined || along === undefined) return undefined;
  return { across: millimetres(across.value), along: millimetres(along.value) };
}

function checkHeight(tile: TileView, workings: Workings): void {
  const { height } = tile;
  if (height === undefined) return;
  const worked = heightOf(tile, height.at, workings);
  const limit = tile.file.grid?.tallest ?? workings.sights.from(tile.file).grids[0]?.grid.tallest;
  if (worked === undefined || limit === undefined) return;
  const tallest = lengthOf(limit, 'above zero', fileScope, workings);
  if (tallest === undefined) return;
  if (worked.value.numerator * tallest.denominator <= tallest.numerator * worked.value.denominator) return;
  const units = workings.sights.fileOf(height.at).units ?? 'mm';
  workings.faults.report(
    diagnose(
      'E39',
      atSpan(height.at),
      { height: showExact(millimetres(worked.value), units), tallest: showExact(tallest, units) },
      { related: [{ place: atSpan(limit.at), message: 'the tallest that is allowed' }] },
    ),
  );
}
