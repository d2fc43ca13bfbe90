import { multiply } from '../measure/index.ts';
import { atSpan, diagnose, type GridSpec, type Reference, type Span, type SpecFile } from '../model/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import type { TileView } from './like.ts';
import type { Quantity } from './quantity.ts';
import { fileScope, type Scope, type Workings } from './workings.ts';

/** What `square …` and `tile …` stand for: the grid, and this tile's footprint and height. */
export function groundOf(
  reference: Extract<Reference, { kind: 'square' | 'tile' }>,
  at: Span,
  scope: Scope,
  workings: Workings,
): Quantity | undefined {
  const { tile } = scope;
  if (reference.kind === 'square') {
    const file = tile?.file ?? workings.sights.fileOf(at);
    return squareOf(reference.way, file, at, workings);
  }
  const { size } = reference;
  if (tile === undefined) {
    workings.faults.report(diagnose('E19', atSpan(at), { name: `tile ${size}`, why: 'no tile' }));
    return undefined;
  }
  return size === 'height' ? heightOf(tile, at, workings) : sideOf(size, tile, at, workings);
}

/** The size of a tile's footprint in one direction; reported at `used` where there is none. */
export function sideOf(
  way: 'across' | 'along',
  tile: TileView,
  used: Span,
  workings: Workings,
): Quantity | undefined {
  const { footprint, squares } = tile;
  if (footprint === 'none') {
    workings.faults.report(diagnose('E19', atSpan(used), { name: `tile ${way}`, why: 'no footprint' }));
    return undefined;
  }
  const scope = { tile };
  return workings.once(tile, `tile ${way}`, `tile ${way}`, (footprint ?? squares)?.at ?? tile.at, () => {
    if (footprint !== undefined) {
      const value = lengthOf(footprint[way], 'above zero', scope, workings);
      return value === undefined ? undefined : { kind: 'length', value };
    }
    const square = squareOf(way, tile.file, squares?.at ?? tile.at, workings);
    if (squares === undefined || square === undefined) return square;
    const count = wholeOf(squares[way], { least: 1, what: 'squares' }, scope, workings);
    if (count === undefined) return undefined;
    return { kind: 'length', value: multiply(square.value, { numerator: BigInt(count), denominator: 1n }) };
  });
}

/** A tile's stated height. */
export function heightOf(tile: TileView, used: Span, workings: Workings): Quantity | undefined {
  const { height } = tile;
  if (height === undefined) {
    workings.faults.report(diagnose('E19', atSpan(used), { name: 'tile height', why: 'no height' }));
    return undefined;
  }
  return workings.once(tile, 'tile height', 'tile height', height.at, () => {
    const value = lengthOf(height, 'above zero', { tile }, workings);
    return value === undefined ? undefined : { kind: 'length', value };
  });
}

/**
 * One square of the grid that a file goes by: its own, else that of the files it uses.
 *
 * @param way  `both` where the sum says `square` alone, which needs a grid as long as it is wide
 */
function squareOf(
  way: 'both' | 'across' | 'along',
  file: SpecFile,
  used: Span,
  workings: Workings,
): Quantity | undefined {
  const found = gridOf(file, used, workings);
  if (found === undefined) return undefined;
  const { square } = found;
  const across = workings.once(found, 'square across', 'square across', found.at, () =>
    grown(square.across, workings),
  );
  const along = workings.once(found, 'square along', 'square along', found.at, () =>
    grown(square.along, workings),
  );
  if (way === 'across') return across;
  if (way === 'along' || across === undefined || along === undefined) return along;
  if (across.value.numerator * along.value.denominator !== along.value.numerator * across.value.denominator) {
    workings.faults.report(diagnose('E18', atSpan(used), { why: 'not square' }));
    return undefined;
  }
  return across;
}

function grown(expression: Parameters<typeof lengthOf>[0], workings: Workings): Quantity | undefined {
  const value = lengthOf(expression, 'above zero', fileScope, workings);
  return value === undefined ? undefined : { kind: 'length', value };
}

type SquareGrid = GridSpec & { readonly square: NonNullable<GridSpec['square']> };

function gridOf(file: SpecFile, used: Span, workings: Workings): SquareGrid | undefined {
  const own = file.grid;
  if (own !== undefined && hasSquare(own)) return own;
  const [first, ...others] = workings.sights
    .from(file)
    .grids.map(({ grid }) => grid)
    .filter(hasSquare);
  if (first === undefined) {
    workings.faults.report(diagnose('E18', atSpan(used), { why: 'no grid' }));
    return undefined;
  }
  if (others.length > 0) {
    const related = [first, ...others].map(({ at }) => ({ place: atSpan(at), message: 'a grid' }));
    workings.faults.report(diagnose('E02', atSpan(used), { name: 'square' }, { related }));
    return undefined;
  }
  return first;
}

function hasSquare(grid: GridSpec): grid is SquareGrid {
  return grid.square !== undefined;
}
