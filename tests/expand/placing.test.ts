import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toDrawnMm } from '../../src/measure/index.ts';
import { ways as allWays } from '../../src/model/index.ts';
import { expandText } from './check.ts';
import {
  type AddedOf,
  type GapOf,
  type MemberOf,
  type PieceOf,
  placed,
  type RowOf,
  type Side,
  type TileOf,
  type Way,
  ways,
  written,
} from './placer.ts';

// Expected: the placer of the tests, which shares nothing with the program's but what the language says.
const wayOf: Readonly<Record<Side, Way>> = {
  left: 'across',
  right: 'across',
  front: 'along',
  back: 'along',
  bottom: 'up',
  top: 'up',
};
const sides = Object.keys(wayOf) as readonly Side[]; // the keys of a literal

const quarters = (least: number, most: number) =>
  fc.integer({ min: least * 4, max: most * 4 }).map((it) => it / 4);
const maybe = <T>(it: fc.Arbitrary<T>, weight = 3) => fc.option(it, { freq: weight, nil: undefined });
const anyWay = fc.constantFrom(...ways);

/** @param around  the way of the row it stands in, in which nothing can be aligned */
function piece(name: string, around: Way, mayStretch: boolean): fc.Arbitrary<PieceOf> {
  const size = mayStretch
    ? fc.oneof(
        { arbitrary: quarters(2, 20), weight: 5 },
        { arbitrary: fc.constant('rest' as const), weight: 1 },
      )
    : quarters(2, 20);
  const free = sides.filter((side) => wayOf[side] !== around);
  return fc
    .record({
      length: size,
      width: size,
      thickness: fc.constantFrom('card' as const, 'board' as const, 'block' as const),
      lies: fc.boolean(),
      clad: fc.oneof(
        { arbitrary: fc.constant([]), weight: 3 },
        {
          arbitrary: fc.uniqueArray(
            fc.constantFrom('left' as const, 'right' as const, 'bottom' as const, 'top' as const),
            {
              maxLength: 3,
            },
          ),
          weight: 1,
        },
      ),
      flip: maybe(fc.constantFrom('length' as const, 'width' as const, 'both' as const)),
      wished: fc.tuple(maybe(anyWay), maybe(anyWay)),
      lie: fc.oneof(
        { arbitrary: fc.constant({}), weight: 2 },
        { arbitrary: fc.constantFrom(...free).map((flush) => ({ flush })), weight: 1 },
        {
          arbitrary: fc.tuple(fc.constantFrom(...free), quarters(0, 5)).map((inset) => ({ inset })),
          weight: 1,
        },
      ),
      repeats: maybe(fc.record({ times: fc.integer({ min: 2, max: 3 }), apart: maybe(quarters(0, 4), 1) })),
    })
    .map(({ wished: [length, thickness], lie, repeats, lies, ...it }): PieceOf => {
      // A length the way of the thickness can't be, and is told elsewhere.
      const stance = {
        length: length === (thickness ?? around) || (lies && length === 'up') ? undefined : length,
        thickness,
      };
      return { kind: 'part', name, lies, ...it, says: { ...stance, ...lie, ...(mayStretch ? repeats : {}) } };
    })
    .filter(
      ({ says, lies }) =>
        says.length === undefined || says.length !== (says.thickness ?? (lies ? 'up' : around)),
    );
}

const gap: fc.Arbitrary<GapOf> = fc
  .oneof({ arbitrary: quarters(0, 6), weight: 4 }, { arbitrary: fc.constant('rest' as const), weight: 1 })
  .map((size) => ({ kind: 'gap', size }));

function row(name: string, depth: number, around: Way | undefined): fc.Arbitrary<RowOf> {
  return anyWay.chain((way) => {
    const free = sides.filter((side) => wayOf[side] !== way);
    const member = (i: number): fc.Arbitrary<MemberOf> => {
      const stands = piece(`${name} p${i}`, way, true);
      if (depth === 0) return fc.oneof({ arbitrary: stands, weight: 4 }, { arbitrary: gap, weight: 1 });
      return fc.oneof(
        { arbitrary: stands, weight: 3 },
        { arbitrary: row(`${name} r${i}`, depth - 1, way), weight: 2 },
        { arbitrary: gap, weight: 1 },
      );
    };
    const own = around === undefined ? [] : sides.filter((side) => wayOf[side] !== around);
    return fc
      .record({
        first: piece(`${name} p0`, way, false),
        members: fc
          .integer({ min: 0, max: 3 })
          .chain((count) => fc.tuple(...Array.from({ length: count }, (_, i) => member(i + 1)))),
        flush: fc.uniqueArray(fc.constantFrom(...free), { maxLength: 2, selector: (side) => wayOf[side] }),
        inset:
          own.length === 0
            ? fc.constant(undefined)
            : maybe(fc.tuple(fc.constantFrom(...own), quarters(0, 5))),
        thickness: maybe(anyWay),
      })
      .map(
        ({ first, members, flush, inset, thickness }): RowOf => ({
          kind: 'row',
          name,
          way,
          members: [first, ...members],
          flush,
          stance: { thickness },
          says: { inset },
        }),
      )
      .filter(isStandable);
  });
}

/** False where a piece would wish its length the way of its thickness. */
function isStandable({ members, way, stance }: RowOf): boolean {
  return members.every((it) => {
    if (it.kind !== 'part' || it.says.length === undefined) return true;
    return it.says.length !== (it.says.thickness ?? (it.lies ? 'up' : (stance.thickness ?? way)));
  });
}

const corner = fc.tuple(quarters(-10, 60), quarters(-10, 60), quarters(0, 40));
const added = (i: number, of: readonly string[]): fc.Arbitrary<AddedOf> =>
  fc.oneof(
    fc
      .tuple(piece(`a${i}`, 'up', false), corner)
      .map(
        ([it, at]): AddedOf => ({
          piece: { ...it, says: { length: it.says.length, thickness: it.says.thickness } },
          place: { kind: 'at', corner: at },
        }),
      )
      .filter(
        ({ piece: it }) => it.says.length === undefined || it.says.length !== (it.says.thickness ?? 'up'),
      ),
    fc
      .constantFrom(...sides)
      .chain((side) =>
        fc
          .tuple(piece(`a${i}`, wayOf[side], false), fc.constantFrom(...of))
          .map(([it, target]): AddedOf => ({ piece: it, place: { kind: 'against', side, of: target } })),
      ),
  );

function namesIn(member: MemberOf): readonly string[] {
  if (member.kind === 'gap') return [];
  if (member.kind === 'part') return (member.says.times ?? 1) === 1 ? [member.name] : [];
  return [member.name, ...member.members.flatMap(namesIn)];
}

const tiles: fc.Arbitrary<TileOf> = row('r', 2, undefined).chain((it) =>
  fc.record({
    squares: fc.tuple(fc.integer({ min: 1, max: 2 }), fc.integer({ min: 1, max: 3 })),
    glue: fc.constantFrom(0, 0, 0.25),
    row: fc.constant(it),
    added: fc
      .integer({ min: 0, max: 3 })
      .chain((count) =>
        fc.tuple(...Array.from({ length: count }, (_, i) => added(i, ['tile', ...namesIn(it)]))),
      ),
  }),
);

/** A rest in thirds is off by a hair in floats. */
function near(it: unknown): unknown {
  if (typeof it === 'number') return Math.round(it * 1e6) / 1e6 + 0;
  return Array.isArray(it) ? it.map(near) : it;
}

describe('where pieces stand', () => {
  it('is where the language says, in rows, against things, at places, clad, turned and over several squares', () => {
    let stood = 0;
    fc.assert(
      fc.property(tiles, (tile) => {
        const expected = placed(tile);
        const text = written(tile);
        const { value, diagnostics } = expandText(text);
        const isFaulty = diagnostics.some(({ severity }) => severity === 'error' || severity === 'fatal');
        expect(
          isFaulty,
          `${text}\n${diagnostics.map(({ code, message }) => `${code} ${message}`).join('\n')}`,
        ).toBe(expected === undefined);
        if (expected === undefined) return;
        const [build] = value?.builds ?? [];
        const counts = new Map<string, number>();
        const found = new Map(
          (build?.parts ?? []).map(({ part, block }) => {
            const number = (counts.get(part) ?? 0) + 1;
            counts.set(part, number);
            const box = [block.low, block.high].map((it) => allWays.map((way) => toDrawnMm(it[way])));
            return [`${part} #${number}`, box] as const;
          }),
        );
        stood++;
        const inOrder = (all: ReadonlyMap<string, unknown>) =>
          [...all].sort(([a], [b]) => (a < b ? -1 : 1)).map((it) => near(it));
        expect(inOrder(found), text).toEqual(inOrder(expected));
      }),
      { numRuns: 150 },
    );
    expect(stood).toBeGreaterThan(50);
  });
});
