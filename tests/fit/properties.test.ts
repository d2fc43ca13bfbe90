import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Member, Row } from '../../src/expand/placing/rows.ts';
import { judge } from '../../src/fit/index.ts';
import { compare, minus, scaled, sum, toFraction } from '../../src/measure/index.ts';
import { type Fault, type Length, type StandingRow, ways } from '../../src/model/index.ts';
import { here, member, mm, part, row, standUp } from './byHand.ts';
import { anyRow } from './randomBuilds.ts';

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };

function shuffled(it: Row, order: readonly number[]): Row {
  const members = it.members
    .map((each, index): { each: Member; key: number } => ({
      each: each.kind === 'row' ? shuffled(each, order) : each,
      key: order[index % order.length] ?? 0,
    }))
    .sort((a, b) => a.key - b.key)
    .map(({ each }) => each);
  return { ...it, members };
}

/** The same rows with every length so many times as long. */
function enlarged(it: Row, by: Length): Row {
  const grown = (length: Length | 'rest'): Length | 'rest' =>
    length === 'rest' ? length : scaled(length, by);
  return {
    ...it,
    members: it.members.map((each): Member => {
      if (each.kind === 'row') return enlarged(each, by);
      if (each.kind === 'gap') return { ...each, size: grown(each.size) };
      const { part: of, own } = each;
      const { clad } = of;
      const strips = [...(clad?.sides ?? [])].map(
        ([side, card]) => [side, { ...card, thickness: scaled(card.thickness, by) }] as const,
      );
      return {
        ...each,
        own: { ...own, pitch: own.pitch && { ...own.pitch, size: scaled(own.pitch.size, by) } },
        part: {
          ...of,
          clad: clad && { ...clad, sides: new Map(strips) },
          thickness: scaled(of.thickness, by),
          length: grown(of.length),
          width: grown(of.width),
        },
      };
    }),
  };
}

const kinds = (faults: readonly Fault[]) =>
  faults.map(({ kind }) => kind).filter((it) => it !== 'does not close as marked');

describe('whatever the rows', () => {
  it('shuffling them never changes an extent', () => {
    const order = fc.array(fc.integer(), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(anyRow, order, (it, keys) => {
        const [one, two] = [it, shuffled(it, keys)].map((each) => standUp(each).build?.row.extent);
        for (const way of ways) expect(one && toFraction(one[way])).toBe(two && toFraction(two[way]));
      }),
    );
  });

  it('scaling all lengths never changes a verdict', () => {
    fc.assert(
      fc.property(anyRow, fc.integer({ min: 1, max: 254 }), (it, factor) => {
        const by = mm(factor, 10);
        const small = standUp(it).build!;
        const large = standUp(enlarged(it, by), {
          footprint: { across: scaled(mm(60), by), along: scaled(mm(60), by) },
          slack: scaled(mm(2, 5), by),
          lip: scaled(mm(2, 5), by),
        }).build!;
        expect(kinds(judge(large, bench).faults)).toEqual(kinds(judge(small, bench).faults));
      }),
      { numRuns: 60 },
    );
  });

  it('a row is as long as its members together', () => {
    fc.assert(
      fc.property(anyRow, (it) => {
        const check = (standing: StandingRow): void => {
          const lengths = standing.members.map((each) =>
            each.kind === 'gap'
              ? each.size
              : minus(each.block.high[standing.way], each.block.low[standing.way]),
          );
          expect(toFraction(sum(...lengths))).toBe(toFraction(standing.extent[standing.way]));
          for (const each of standing.members) if (each.kind === 'row') check(each);
        };
        check(standUp(it).build!.row);
      }),
    );
  });
});

describe('cut to its marks', () => {
  const lying = { length: undefined, thickness: { value: 'up', at: here } } as const;
  const walls = fc.record({
    wall: fc.integer({ min: 10, max: 40 }).map((tenths) => mm(tenths, 10)),
    share: fc.integer({ min: 20, max: 80 }),
    slack: fc.integer({ min: 0, max: 10 }).map((tenths) => mm(tenths, 10)),
    twice: fc.boolean(),
  });

  /** The same rows with every size as it is marked, of the parts and their strips. */
  function asMarked(it: Row, markOf: (name: string, size: 'length' | 'width', exact: Length) => Length): Row {
    return {
      ...it,
      members: it.members.map((each): Member => {
        if (each.kind === 'row') return asMarked(each, markOf);
        if (each.kind === 'gap') return each;
        const { name, length, width } = each.part;
        return {
          ...each,
          part: {
            ...each.part,
            length: length === 'rest' ? length : markOf(name, 'length', length),
            width: width === 'rest' ? width : markOf(name, 'width', width),
          },
        };
      }),
    };
  }

  it('whatever its rows, a build that closes as marked closes', () => {
    let closing = 0;
    let rounded = 0;
    fc.assert(
      fc.property(anyRow, fc.integer({ min: 1, max: 12 }), (it, quarters) => {
        const drawn = standUp(it).build!;
        const { across, along } = drawn.row.extent;
        const around = { footprint: { across, along }, slack: mm(quarters, 4) };
        const { marks, faults } = judge(standUp(it, around).build!, bench);
        if (faults.some(({ kind }) => kind === 'does not close as marked')) return;
        closing++;
        if (marks.some(({ exact, mark }) => compare(exact, mark) !== 0)) rounded++;
        const cut = asMarked(
          it,
          (name, size, exact) =>
            marks.find((mark) => mark.part === name && mark.size === size)?.mark ?? exact,
        );
        const { build } = standUp(cut, around);
        for (const way of ['across', 'along'] as const) {
          const reach = build!.row.extent[way];
          const room = around.footprint[way];
          expect(compare(reach, room), `${way} over`).toBeLessThanOrEqual(0);
          expect(compare(sum(reach, around.slack), room), `${way} short`).toBeGreaterThanOrEqual(0);
        }
        // No size is off by more than the slack: the mark next to it, or one further down.
        for (const { exact, mark } of marks) {
          const off = minus(mark, exact);
          expect(compare(off, mm(1, 2))).toBeLessThanOrEqual(0);
          expect(compare(sum(off, around.slack, mm(1, 2)), mm(0))).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 60 },
    );
    expect(closing).toBeGreaterThan(12);
    expect(rounded).toBeGreaterThan(6);
  });

  it('a build that closes as marked closes', () => {
    let closing = 0;
    fc.assert(
      fc.property(walls, ({ wall, share, slack, twice }) => {
        // Two fills of odd sizes between two walls, 76.2 mm in all.
        const room = minus(mm(762, 10), sum(wall, wall));
        const one = scaled(room, mm(share, 100));
        const two = minus(room, one);
        const build = (first: Length, second: Length) => {
          const [a, b] = [part('a', [mm(60), first], mm(5)), part('b', [mm(60), second], mm(5))];
          const skin = part('skin', [mm(60), mm(5)], wall);
          const fills = twice
            ? [member(b, { stance: lying }), member(a, { stance: lying })]
            : [member(a, { stance: lying }), member(b, { stance: lying })];
          return standUp(row('along', [member(skin), ...fills, member(skin)]), {
            footprint: { across: mm(60), along: mm(762, 10) },
            slack,
          }).build!;
        };
        const { marks, faults } = judge(build(one, two), bench);
        const markOf = (name: string) => marks.find((it) => it.part === name && it.size === 'width')?.mark;
        const [first, second] = [markOf('a'), markOf('b')];
        if (faults.length > 0 || first === undefined || second === undefined) return;
        closing++;
        expect(kinds(judge(build(first, second), bench).faults)).toEqual([]);
        const total = sum(wall, wall, first, second);
        expect(compare(total, mm(762, 10))).toBeLessThanOrEqual(0);
        expect(compare(sum(total, slack), mm(762, 10))).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 200 },
    );
    expect(closing).toBeGreaterThan(20);
  });
});
