import fc from 'fast-check';
import type { Added, CladToStand, Member, Row } from '../../src/expand/placing/rows.ts';
import type { DrawnSide } from '../../src/model/index.ts';
import { here, member, mm, own, part, row } from './byHand.ts';

const way = fc.constantFrom('across', 'along', 'up');

function pieceIn(parts: number) {
  const size = fc.integer({ min: parts, max: 33 * parts }).map((count) => mm(count, parts));
  const thin = fc.integer({ min: 1, max: 5 * parts }).map((count) => mm(count, parts));
  const sides = fc.uniqueArray(fc.constantFrom<DrawnSide>('left', 'right', 'bottom', 'top'), {
    maxLength: 2,
  });
  const clad = fc
    .option(fc.tuple(sides, thin), { freq: 3, nil: undefined })
    .map((it) => it && cladWith(it[0], it[1]));
  return fc
    .tuple(fc.constantFrom('a', 'b', 'c', 'd', 'e'), size, size, thin, clad)
    .map(([name, length, width, thickness, skin]) => {
      // Pieces of one name are alike, as in a kit.
      const full = [name, length, width, thickness]
        .map((it) => (typeof it === 'string' ? it : `${it.numerator}/${it.denominator}`))
        .join(' ');
      return member(part(full, [length, width], thickness, { clad: skin }));
    });
}

function cladWith(sides: readonly DrawnSide[], thickness: ReturnType<typeof mm>): CladToStand {
  const card = { name: 'card', thickness, hasGrain: false, hasFlutes: false };
  return {
    sides: new Map(sides.map((side) => [side, card])),
    exposedFlutes: undefined,
    nameOf: (side) => `${side} strip of ${thickness.numerator}/${thickness.denominator}`,
  };
}

/**
 * Rows within rows, as they come, with gaps, repeats and strips: most of them close nothing.
 *
 * @param parts  of a millimetre that sizes are counted in; a power of two can be had in binary floats
 */
export function anyRowIn(parts: number): fc.Arbitrary<Row> {
  const size = fc.integer({ min: 1, max: 9 * parts }).map((count) => mm(count, parts));
  const gap = size.map((it): Member => ({ kind: 'gap', at: here, size: it }));
  const repeated = fc
    .tuple(pieceIn(parts), fc.integer({ min: 1, max: 3 }), fc.option(size, { nil: undefined }))
    .map(
      ([it, times, apart]): Member => ({
        ...it,
        own: { ...own, times, pitch: apart && { kind: 'apart', size: apart, at: here } },
      }),
    );
  const piece = fc.oneof({ arbitrary: repeated, weight: 5 }, { arbitrary: gap, weight: 1 });
  const inner = fc
    .tuple(way, repeated, fc.array(piece, { maxLength: 3 }))
    .map(([it, first, pieces]) => row(it, [first, ...pieces]));
  return fc
    .tuple(way, repeated, fc.array(fc.oneof(piece, inner), { maxLength: 4 }))
    .map(([it, first, members]) => row(it, [first, ...members]));
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
