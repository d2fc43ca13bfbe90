import { describe, expect, it } from 'vitest';
import { judge } from '../../src/fit/index.ts';
import { inches, rational, toFraction } from '../../src/measure/index.ts';
import type { Outline } from '../../src/model/index.ts';
import { polygon } from '../../src/outline/index.ts';
import { at, made } from '../outline/drawing.ts';
import { flush, here, member, mm, own, part, row, standUp, whereIs } from './byHand.ts';

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };
const inch = (numerator: number, denominator = 1) => inches(rational(BigInt(numerator), BigInt(denominator)));
const kinds = (build: Parameters<typeof judge>[0], ruler = bench.ruler[0]) =>
  judge(build, { ruler: [ruler], wander: undefined }).faults.map((it) => it.kind);

describe('a tile stood up from its rows', () => {
  // Closing sums: common practice, no source.
  const wall = inch(1, 16);
  const face = part('face', [inch(3), inch(3, 2)], wall);
  const board = part('board', [inch(3), inch(23, 8)], wall);
  const layer = part('layer', [inch(3), inch(23, 8)], inch(3, 16));
  const fill = part('fill', [inch(3), inch(23, 8)], inch(1, 2));
  const core = (it = layer) =>
    row(
      'up',
      [board, it, it, fill, fill, board].map((each) => member(each)),
    );
  const footprint = { across: inch(3), along: inch(3) };

  it('closes a core between two walls: 1/16 + 2 7/8 + 1/16 = 3', () => {
    const { build } = standUp(row('along', [member(face), core(), member(face)]), {
      footprint,
      height: inch(3, 2),
    });
    expect(kinds(build!, inch(1, 16))).toEqual([]);
    expect(build!.parts.map(({ name }) => name)).toEqual([
      'face 1',
      'board 1',
      'layer 1',
      'layer 2',
      'fill 1',
      'fill 2',
      'board 2',
      'face 2',
    ]);
    expect(build!.parts[0]!.facing).toBe('front');
    expect(build!.parts[1]!.facing).toBe('top');
  });

  it('tells the innermost row when the layers are too thick, and the tile only once', () => {
    const thick = { ...layer, thickness: inch(1, 4) };
    const { build } = standUp(row('along', [member(face), core(thick), member(face)]), {
      footprint,
      height: inch(3, 2),
    });
    const { faults } = judge(build!, { ruler: [inch(1, 16)], wander: undefined });
    expect(faults.map((it) => it.kind)).toEqual(['does not close']);
    const [fault] = faults;
    if (fault?.kind !== 'does not close') throw new Error('another fault');
    expect([fault.way, fault.what]).toEqual(['up', 'row up']);
    expect(toFraction(fault.extent)).toBe(toFraction(inch(13, 8)));
    expect(fault.right).toEqual([]);
  });

  it('says what the core should be when it was cut to the full square', () => {
    const full = part('core', [inch(3), inch(3)], inch(1, 2));
    const { build } = standUp(
      row('along', [
        member(face),
        member(full, { stance: { length: undefined, thickness: { value: 'up', at: here } } }),
        member(face),
      ]),
      { footprint },
    );
    const { faults } = judge(build!, { ruler: [inch(1, 16)], wander: undefined });
    const [fault, ...others] = faults;
    expect(others).toEqual([]);
    if (fault?.kind !== 'does not close') throw new Error('another fault');
    expect(fault.right.map(({ parts, right }) => [parts, toFraction(right)])).toEqual([
      [[{ part: 'core', size: 'width' }], toFraction(inch(23, 8))],
    ]);
  });

  it('makes what faces the other way a part of its own where the hands differ', () => {
    const cheek = part('cheek', [mm(60), mm(20)], mm(2), { isHanded: true });
    const plain = part('plain', [mm(60), mm(20)], mm(2));
    const facing = (it: 'left' | 'right') => ({ facing: { value: it, at: here } });
    const { build } = standUp(
      row('across', [
        member(cheek, facing('left')),
        member(plain, facing('left')),
        member(plain, { flip: 'length' }),
        member(plain, { flip: 'both' }),
        member(cheek, facing('right')),
      ]),
    );
    expect(build!.parts.map((it) => [it.part, it.facing, it.isTurnedOver])).toEqual([
      ['cheek, other hand', 'left', true],
      ['plain', 'left', true],
      ['plain', 'left', true],
      ['plain', 'right', false],
      ['cheek', 'right', false],
    ]);
  });

  it('turns a drawing with the piece, so that it stays the same hand', () => {
    const outline = made(polygon([at(0, 0), at(60, 0), at(60, 20), at(0, 10)]));
    const cheek = part('cheek', [mm(60), mm(20)], mm(2), { isHanded: true, outline });
    const { build } = standUp(
      row('across', [
        member(cheek),
        member(cheek, { flip: 'length' }),
        member(cheek, { flip: 'width' }),
        member(cheek, { flip: 'both' }),
        member(cheek, { flip: 'length', facing: { value: 'right', at: here } }),
      ]),
    );
    // At the corner that is cut down: where it lies in the block, by hand.
    const low = (it: Outline) =>
      it.rim.map(({ from }) => `${toFraction(from.x)},${toFraction(from.y)}`).sort();
    expect(build!.parts.map((it) => [it.part, it.facing, low(it.outline!).join(' ')])).toEqual([
      ['cheek', 'right', '0,0 0,10 60,0 60,20'],
      ['cheek', 'left', '0,0 0,20 60,0 60,10'],
      ['cheek', 'left', '0,10 0,20 60,0 60,20'],
      ['cheek', 'right', '0,0 0,20 60,10 60,20'],
      ['cheek, other hand', 'right', '0,0 0,20 60,0 60,10'],
    ]);
  });

  it('sets steps flush with the back', () => {
    const body = part('body', [mm(60), mm(60)], mm(5));
    const upper = part('upper', [mm(60), mm(40)], mm(5));
    const { build } = standUp(
      row('up', [member(body), member(upper)], { ofMembers: { along: flush('high') } }),
    );
    expect(whereIs(build!, 'upper')).toBe('across 0..60, along 20..60, up 5..10');
    expect(kinds(build!)).toEqual([]);
  });

  it('gives rests what the thicknesses leave: 14 + 1.5 + 1 + 27 + 1 + 1.5 + 14 = 60', () => {
    const base = part('base', [mm(60), mm(60)], mm(3, 2), { isFloor: false });
    const verge = part('verge', [mm(60), mm(14)], mm(5), { lies: true });
    const rail = part('rail', [mm(60), mm(5)], mm(3, 2));
    const middle = part('middle', [mm(60), 'rest'], mm(5), { lies: true });
    const gap = { kind: 'gap', at: here, size: mm(1) } as const;
    const { build } = standUp(
      row('up', [
        member(base),
        row('along', [member(verge), member(rail), gap, member(middle), gap, member(rail), member(verge)]),
      ]),
      { height: mm(13, 2) },
    );
    expect(whereIs(build!, 'middle')).toBe('across 0..60, along 33/2..87/2, up 3/2..13/2');
    expect(whereIs(build!, 'rail 2')).toBe('across 0..60, along 89/2..46, up 3/2..13/2');
    expect(kinds(build!)).toEqual([]);
  });

  it('stands posts evenly along a panel, on top of a deck and inset from its back', () => {
    const deck = part('deck', [mm(120), mm(60)], mm(5));
    const post = part('post', [mm(30), mm(5)], mm(5), { isFloor: false });
    const panel = part('panel', [mm(70), mm(30)], mm(3, 2), { isFloor: false });
    const roof = part('roof', [mm(74), mm(16)], mm(3, 2), { isFloor: false });
    const rest = { kind: 'gap', at: here, size: 'rest' } as const;
    const posts = row('across', [member(post), rest, member(post), rest, member(post)], {
      to: { value: mm(70), at: here },
      stance: { length: { value: 'up', at: here }, thickness: undefined },
    });
    const over = { end: 'high', inward: mm(-2), overhangs: true } as const;
    const shelter = row(
      'up',
      [row('along', [posts, member(panel)]), member(roof, { own: { ...own, align: { along: over } } })],
      { own: { ...own, align: { along: flush('high', mm(6)) } } },
    );
    const { build, said } = standUp(row('up', [member(deck)]), {
      footprint: { across: mm(120), along: mm(60) },
      added: [
        {
          at: here,
          member: shelter,
          place: { kind: 'against', side: 'top', of: { value: 'deck', at: here } },
        },
      ],
    });
    expect(said).toEqual([]);
    // The gaps: (70 − 3 × 5) / 2 = 27.5.
    expect(whereIs(build!, 'post 2')).toBe('across 115/2..125/2, along 95/2..105/2, up 5..35');
    expect(whereIs(build!, 'panel')).toBe('across 25..95, along 105/2..54, up 5..35');
    expect(whereIs(build!, 'roof')).toBe('across 23..97, along 40..56, up 35..73/2');
    expect(kinds(build!)).toEqual([]);
  });

  it('fits a planter into the room that its own walls leave: 16 − 2 × 1.5 = 13', () => {
    const base = part('base', [mm(60), mm(60)], mm(5));
    const side = part('side', [mm(24), mm(10)], mm(3, 2), { isFloor: false });
    const end = part('end', ['rest', mm(10)], mm(3, 2), { isFloor: false });
    const soil = part('soil', ['rest', 'rest'], mm(5), { lies: true, isFloor: false });
    const planter = row(
      'along',
      [member(side), row('across', [member(end), member(soil), member(end)]), member(side)],
      {
        to: { value: mm(16), at: here },
      },
    );
    const { build, said } = standUp(row('up', [member(base)]), {
      added: [
        {
          at: here,
          member: planter,
          place: { kind: 'against', side: 'top', of: { value: 'base', at: here } },
        },
      ],
    });
    expect(said).toEqual([]);
    const soilPiece = build!.parts.find(({ name }) => name === 'soil')!;
    expect([soilPiece.size.length, soilPiece.size.width].map(toFraction)).toEqual(['21', '13']);
    expect(kinds(build!)).toEqual([]);
  });

  it('adds the glue line between neighbours', () => {
    const slab = part('slab', [mm(60), mm(60)], mm(5));
    const { build } = standUp(row('up', [member(slab), member(slab), member(slab)]), {
      glueLine: mm(1, 10),
      height: mm(76, 5),
    });
    expect(kinds(build!)).toEqual([]);
    expect(judge(build!, bench).contacts).toHaveLength(2);
  });

  it('names marks that serve where the nearest would be over', () => {
    // Board that measures 1.6 mm, a 3 in tile: the core is 73 mm exactly; 2 7/8 in is 73.025 mm.
    const thin = { ...face, thickness: mm(8, 5) };
    const lying = { value: 'up', at: here } as const;
    const narrow = part('core', [inch(3), mm(73)], inch(1, 2));
    const outer = row('along', [
      member(thin),
      member(narrow, { stance: { length: undefined, thickness: lying } }),
      member(thin),
    ]);
    const { build } = standUp(outer, { footprint, slack: inch(1, 64) });
    const onSixteenths = judge(build!, { ruler: [inch(1, 16)], wander: undefined }).faults;
    const [fault] = onSixteenths;
    if (fault?.kind !== 'does not close as marked') throw new Error(`another fault: ${fault?.kind}`);
    expect(toFraction(fault.extent)).toBe('3049/40'); // 1.6 + 73.025 + 1.6 = 76.225
    expect(fault.serves.map((marks) => marks.map(({ mark }) => toFraction(mark)))).toEqual([
      [toFraction(inch(183, 64))],
      ['73'],
    ]);
    const withMm = judge(build!, { ruler: [inch(1, 16), mm(1)], wander: undefined });
    expect(withMm.faults).toEqual([]);
    expect(withMm.marks.filter(({ isChosen }) => isChosen).map(({ mark }) => toFraction(mark))).toEqual([
      '73',
    ]);
  });

  it('names the piece that floats, sticks out or shares space', () => {
    const slab = part('slab', [mm(60), mm(60)], mm(5));
    const crate = part('crate', [mm(10), mm(10)], mm(10), { isFloor: false });
    const at = (across: number, along: number, up: number) =>
      standUp(row('up', [member(slab)]), {
        added: [
          {
            at: here,
            member: member(crate),
            place: { kind: 'at', corner: { across: mm(across), along: mm(along), up: mm(up) } },
          },
        ],
      }).build!;
    expect(kinds(at(10, 10, 5))).toEqual([]);
    expect(kinds(at(10, 10, 6))).toEqual(['floats']);
    expect(kinds(at(10, 10, 4))).toEqual(['overlaps']);
    expect(kinds(at(55, 10, 5))).toEqual(['sticks out']);
    expect(kinds(at(60, 10, 5))).toEqual(['sticks out', 'floats']);
  });

  it('is short by the slack and no more', () => {
    const slab = (across: ReturnType<typeof mm>) =>
      standUp(row('up', [member(part('slab', [across, mm(60)], mm(5)))])).build!;
    expect(kinds(slab(mm(60)))).toEqual([]);
    expect(kinds(slab(mm(298, 5)), mm(1, 10))).toEqual([]);
    expect(kinds(slab(mm(2979, 50)), mm(1, 50))).toEqual(['does not close']);
    expect(kinds(slab(mm(3001, 50)), mm(1, 50))).toEqual(['does not close']);
  });
});
