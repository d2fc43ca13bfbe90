import { millimetres, showExact } from '../measure/index.ts';
import { atSpan, diagnose, type TileCount, type TileSpec } from '../model/index.ts';
import { lengthOf } from './evaluate.ts';
import type { TileView } from './like.ts';
import { amount, amountsOfTile } from './names.ts';
import { type WorkedPart, workedPart } from './parts.ts';
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
}

/** Works a tile out, made or not, so that all its faults are told. */
export function workedTile(definition: Definition<TileSpec>, workings: Workings): WorkedTile {
  const tile = workings.likes.tile(definition);
  for (const name of new Set([...tile.lengths.keys(), ...tile.numbers.keys()])) {
    for (const it of amountsOfTile(tile, name)) amount(it, { tile }, workings);
  }
  checkHeight(tile, workings);
  if (tile.parts.size === 0 && tile.isWhole) {
    workings.faults.report(diagnose('E40', atSpan(tile.at), { tile: tile.name }));
  }
  const parts = [...tile.parts.values()].map((part) => workedPart(part, tile, workings));
  return {
    name: tile.name,
    spec: definition.value,
    label: tile.label?.value,
    note: tile.note?.value,
    footprint: footprintOf(tile, workings),
    parts: parts.filter((it) => it !== undefined),
  };
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
