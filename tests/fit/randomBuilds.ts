import fc from 'fast-check';
import type { Added, Row } from '../../src/expand/placing/rows.ts';
import { here, member, mm, part, row } from './byHand.ts';

const way = fc.constantFrom('across', 'along', 'up');

function pieceIn(parts: number) {
  const size = fc.integer({ min: parts, max: 33 * parts }).map((count) => mm(count, parts));
  const thin = fc.integer({ min: 1, max: 5 * parts }).map((count) => mm(count, parts));
  return fc
    .tuple(fc.constantFrom('a', 'b', 'c', 'd', 'e'), size, size, thin)
    .map(([name, length, width, thickness]) => member(part(name, [length, width], thickness)));
}

/**
 * Rows within rows, as they come: most of them close nothing.
 *
 * @param parts  of a millimetre that sizes are counted in; a power of two can be had in binary floats
 */
export function anyRowIn(parts: number): fc.Arbitrary<Row> {
  const piece = pieceIn(parts);
  const inner = fc
    .tuple(way, fc.array(piece, { minLength: 1, maxLength: 4 }))
    .map(([it, pieces]) => row(it, pieces));
  return fc
    .tuple(way, fc.array(fc.oneof(piece, inner), { minLength: 1, maxLength: 5 }))
    .map(([it, members]) => row(it, members));
}

export const anyRow = anyRowIn(12);

const piece = pieceIn(12);
const offset = fc.integer({ min: -60, max: 500 }).map((twelfths) => mm(twelfths, 12));

/** Pieces thrown into the tile wherever they fall. */
export const anyAdded: fc.Arbitrary<readonly Added[]> = fc.array(
  fc.tuple(piece, offset, offset, offset).map(
    ([it, across, along, up]): Added => ({
      at: here,
      member: it,
      place: { kind: 'at', corner: { across, along, up } },
    }),
  ),
  { maxLength: 6 },
);
