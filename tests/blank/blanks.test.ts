import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blanksFor, ownBlanks, pairFlaws } from '../../src/blank/index.ts';
import {
  compareRationals,
  divide,
  millimetres,
  multiply,
  rational,
  toFraction,
} from '../../src/measure/index.ts';
import type { MaterialDemand, Outline, PartKind, PartMember } from '../../src/model/index.ts';
import { areaOf, boxOf, circle, polygon, rectangle, through, turned } from '../../src/outline/index.ts';
import { curved, round, star, whole } from '../outline/anyOutline.ts';
import { at, made, mm } from '../outline/drawing.ts';
import { demandOf as demandForSheets, somewhere } from '../pack/demand.ts';

const wedge = made(polygon([at(0, 0), at(60, 0), at(0, 20)]));

describe('blanks of their own', () => {
  // Source: by hand.
  it('grow by what is left on at each side, turned parts too', () => {
    const part = partOf('a', rectangle40, 3, { leave: [1, 2, 3, 4] });
    const { parts } = ownBlanks(demandOf([part]));
    expect(sizes(parts)).toEqual(['43 × 27']);
    const upright = partOf('b', made(rectangle(mm(20), mm(40))), 3, { leave: [3, 4, 2, 1] });
    expect(sizes(ownBlanks(demandOf([part, upright])).parts)).toEqual(['43 × 27']);
  });

  it('are the parts themselves where nothing is left on', () => {
    const demand = demandOf([partOf('a', wedge, 3)]);
    expect(ownBlanks(demand)).toBe(demand);
  });
});

describe('shared blanks', () => {
  // Source: two equal right triangles make a rectangle.
  it('hold two wedges each, an odd one stays alone', () => {
    const [shared, own] = waysOf(demandOf([partOf('a', wedge, 7)]), mm(1));
    expect(counts(shared!.parts)).toEqual(['1 × a: 60 × 20', '3 × pair of a: 60 × 20']);
    expect(counts(own!.parts)).toEqual(['7 × a: 60 × 20']);
    const member = memberOf(shared!, 'pair of a');
    expect(member.shared).toMatchObject({ labels: ['a', 'a'], saved: rational(1200n) });
    expect(member.shared?.parting).toEqual({ from: at(60, 0), to: at(0, 20) });
  });

  // Source: by hand: a kerf of 3 across a 3-4-5 slope is 5 along its base, 15/4 up its side: 45 × 30 is less
  // than 40 × 34. Its cut is the first's slope, drawn on to the corner.
  it('keep a kerf between the two, and are taken up to a mark of the rule', () => {
    const triangle = made(polygon([at(0, 0), at(40, 0), at(0, 30)]));
    const shared = mostShared(demandOf([partOf('a', triangle, 2)], { kerf: 3 }), mm(1));
    expect(counts(shared.parts)).toEqual(['1 × pair of a: 45 × 30']);
    const parting = memberOf(shared, 'pair of a').shared!.parting!;
    expect([parting.from, parting.to]).toEqual([at(40, 0), at(0, 30)]);
  });

  it('take two of different labels, where one of each is over', () => {
    const parts = [partOf('b', wedge, 3), partOf('a', wedge, 3), partOf('c', wedge, 1)];
    const shared = mostShared(demandOf(parts), mm(1));
    expect([...counts(shared.parts)].sort()).toEqual([
      '1 × b + a: 60 × 20',
      '1 × c: 60 × 20',
      '1 × pair of a: 60 × 20',
      '1 × pair of b: 60 × 20',
    ]);
  });

  it('never take the other hand, nor what is bound another way', () => {
    const other = made(polygon([at(0, 0), at(60, 0), at(60, 20)]));
    const parts = [partOf('a', wedge, 1, { goodSide: true }), partOf('b', other, 1, { goodSide: true })];
    expect(waysOf(demandOf(parts), mm(1))).toHaveLength(1);
    const bound = [partOf('a', wedge, 1, { grain: 'length' }), partOf('b', wedge, 1)];
    expect(waysOf(demandOf(bound), mm(1))).toHaveLength(1);
    const graded = [partOf('a', wedge, 2, { grain: 'width' })];
    const shared = mostShared(demandOf(graded), mm(1));
    expect(shared.parts.map(({ grain }) => grain)).toEqual(['width']);
  });

  it('turn the grain with a blank that is longer the other way', () => {
    // Two flat wedges of 60 × 40, cut off at 15, one above the other: 60 × 55 is still longer along.
    const blunt = made(polygon([at(0, 0), at(60, 0), at(60, 5), at(0, 60)]));
    const part = partOf('a', blunt, 2, { grain: 'length' });
    const shared = mostShared(demandOf([part]), mm(1));
    expect(shared.parts).toHaveLength(1);
    const [{ length, width, grain }] = shared.parts;
    expect([toFraction(length), toFraction(width), grain]).toEqual(['65', '60', 'width']);
  });

  it('are not for what is trimmed after gluing, for rectangles, circles, and what no sheet holds', () => {
    expect(waysOf(demandOf([partOf('a', wedge, 2, { leave: [1, 1, 1, 1] })]), mm(1))).toHaveLength(1);
    expect(waysOf(demandOf([partOf('a', rectangle40, 2)]), mm(1))).toHaveLength(1);
    expect(waysOf(demandOf([partOf('a', made(circle(mm(40))), 2)]), mm(1))).toHaveLength(1);
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const demand = demandOf([partOf('a', shoulder, 2)]);
    expect(waysOf(demand, mm(1))).toHaveLength(2);
    const low = { ...demand, sheets: demand.sheets.map((it) => ({ ...it, width: mm(28) })) };
    expect(waysOf(low, mm(1))).toHaveLength(1);
  });

  // Source: by hand: a top edge that is its own half-turn lies on the other's: 25 + 5, and no straight cut does.
  it('come second where a curve parts the two, exact as far as the curve is known', () => {
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const [own, shared] = waysOf(demandOf([partOf('a', shoulder, 2)]), mm(1));
    expect(counts(own!.parts)).toEqual(['2 × a: 381/5 × 25']);
    expect(counts(shared!.parts)).toEqual(['1 × pair of a: 381/5 × 30']);
    const pair = memberOf(shared!, 'pair of a').shared!;
    expect(pair.parting).toBeUndefined();
    expect(pair.at.map(({ y }) => toFraction(y)).sort()).toEqual(['0', '5']);
  });

  it('are parted straight first, along curves too only where that is another way', () => {
    const shoulder = made(through([at(0, 5), at(76.2, 25)], ['flat', 'flat']));
    const ways = waysOf(demandOf([partOf('a', shoulder, 2), partOf('b', wedge, 2)]), mm(1));
    expect(ways.map(({ parts }) => counts(parts).map((it) => it.split(':')[0]))).toEqual([
      ['2 × a', '1 × pair of b'],
      ['1 × pair of a', '1 × pair of b'],
      ['2 × a', '2 × b'],
    ]);
  });

  // 5/4 of what both take within their rims is the least that can save a fifth.
  it('hold both, a kerf apart, whatever the outline, and save a fifth at least', () => {
    let paired = 0;
    fc.assert(
      fc.property(fc.oneof(star, round, curved), whole(0, 2), whole(0, 3), (drawn, kerf, turns) => {
        const outline = turns === 0 ? drawn : turned(drawn, (turns * 90) as 90 | 180 | 270);
        const demand = demandOf([partOf('a', turned(outline, 180), 2)], { kerf });
        const { parts } = mostShared(demand, mm(1, 2));
        const [{ members, length, width }] = parts;
        const { shared, drawn: its } = members[0];
        if (shared === undefined || its?.outline === undefined) return;
        paired++;
        expect(pairFlaws(its.outline, its.net, shared, mm(kerf))).toEqual([]);
        const two = multiply(multiply(its.net.length, its.net.width), rational(2n));
        expect(
          compareRationals(multiply(length, width), multiply(two, rational(4n, 5n))),
        ).toBeLessThanOrEqual(0);
        const within = multiply(areaOf({ ...its.outline, holes: [] }).lo, rational(2n));
        expect(compareRationals(divide(within, rational(101n, 100n)), multiply(length, width))).toBeLessThan(
          0,
        );
      }),
      { numRuns: 20 },
    );
    expect(paired).toBeGreaterThan(3);
  });
});

describe('the check of a shared blank', () => {
  const net = { length: mm(60), width: mm(20) };
  const pair = { ...net, at: [at(0, 0), at(0, 0)] as const };

  it('passes what is right, and is told of each thing that is not', () => {
    expect(pairFlaws(wedge, net, pair, mm(0))).toEqual([]);
    expect(pairFlaws(wedge, net, pair, mm(1))).toEqual(['the two are nearer than the kerf']);
    expect(pairFlaws(wedge, net, { ...pair, at: [at(0, 0), at(1, 0)] }, mm(0))).toEqual([
      'the second sticks out of the blank',
    ]);
    expect(pairFlaws(wedge, net, { ...pair, at: [at(1, 0), at(0, 0)] }, mm(0))).toEqual([
      'the first sticks out of the blank',
      'the two run into each other',
    ]);
  });

  // Source: by hand: 1 across a slope of 3 in 1 is √10 = 3.1623 along.
  it('sees a tenth of a millimetre too little', () => {
    const far = (along: number) => ({ ...pair, length: mm(70), at: [at(0, 0), at(along, 0)] as const });
    expect(pairFlaws(wedge, net, far(3.2), mm(1))).toEqual([]);
    expect(pairFlaws(wedge, net, far(3.1), mm(1))).toEqual(['the two are nearer than the kerf']);
  });
});

const rectangle40 = made(rectangle(mm(40), mm(20)));

interface Ways {
  /** At its left, right, bottom and top. */
  readonly leave?: readonly [number, number, number, number];
  readonly goodSide?: boolean;
  readonly grain?: PartKind['grain'];
}

function partOf(label: string, outline: Outline, count: number, ways: Ways = {}): PartKind {
  const { right, top } = boxOf(outline);
  const [length, width] = [millimetres(right.hi), millimetres(top.hi)];
  const [l, r, b, t] = ways.leave ?? [0, 0, 0, 0];
  const member: PartMember = {
    label,
    tile: undefined,
    part: label,
    note: undefined,
    count,
    each: count,
    at: somewhere,
    drawn: {
      outline,
      master: undefined,
      isMirrored: false,
      net: { length, width },
      leave: ways.leave && { left: mm(l), right: mm(r), bottom: mm(b), top: mm(t) },
      roundedTo: undefined,
    },
  };
  const isTurned = compareRationals(length, width) < 0;
  const { goodSide = false, grain = 'any' } = ways;
  const lies = isTurned
    ? { length: width, width: length, members: [{ ...member, isTurned }] as const }
    : { length, width, members: [member] as const };
  return { ...lies, grain, flutes: 'any', goodSide, count };
}

function demandOf(parts: readonly PartKind[], { kerf = 0 } = {}): MaterialDemand {
  const { parts: none, ...demand } = demandForSheets([], [{ size: [400, 300] }], { kerf });
  const [first = none[0], ...others] = parts;
  return { ...demand, parts: [first, ...others] };
}

/** The way in which the most blanks are shared. */
function mostShared(demand: MaterialDemand, step: ReturnType<typeof mm>): MaterialDemand {
  const blanks = ({ parts }: MaterialDemand) => parts.reduce((all, { count }) => all + count, 0);
  return waysOf(demand, step).reduce((a, b) => (blanks(a) <= blanks(b) ? a : b));
}

function waysOf(demand: MaterialDemand, step: ReturnType<typeof mm>): readonly MaterialDemand[] {
  const { first, others } = blanksFor(demand, step);
  return [first, ...others.flatMap(({ form }) => form() ?? [])];
}

function memberOf({ parts }: MaterialDemand, label: string): PartMember {
  return parts.flatMap(({ members }) => members).find((it) => it.label === label)!;
}

function sizes(parts: readonly PartKind[]): readonly string[] {
  return parts.map(({ length, width }) => `${toFraction(length)} × ${toFraction(width)}`);
}

function counts(parts: readonly PartKind[]): readonly string[] {
  return parts.flatMap((kind) =>
    kind.members.map(({ label, count }) => `${count} × ${label}: ${sizes([kind])[0]}`),
  );
}
