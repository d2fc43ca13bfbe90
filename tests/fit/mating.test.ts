import { describe, expect, it } from 'vitest';
import { judge, meets, type Profile, profilesOf, turnedRight } from '../../src/fit/index.ts';
import type { Build, Edge, LevelSide } from '../../src/model/index.ts';
import { here, member, mm, part, row, standUp } from './byHand.ts';

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };
const floor = (...levels: number[]): Edge => ({
  kind: 'floor',
  at: here,
  levels: levels.map((it) => ({ value: mm(it), at: here })),
});
const slab = part('slab', [mm(60), mm(60)], mm(5));

function tile(
  edges: Partial<Record<LevelSide, Edge>>,
  more: Partial<Pick<Build, 'lip' | 'rack'>> = {},
): Build {
  const none = { front: undefined, back: undefined, left: undefined, right: undefined };
  return standUp(row('up', [member(slab)]), { ...more, edges: { ...none, ...edges } }).build!;
}
const turns = (build: Build) =>
  judge(build, bench).turns.map((it) => `${it.turned}${it.mirrored ? ' mirrored' : ''}`);

// Source: the symmetries of a square with marked sides, from memory.
describe('turns in which a tile still mates', () => {
  it('are all eight for a level tile', () => {
    expect(
      turns(tile({ front: floor(5, 5), back: floor(5, 5), left: floor(5, 5), right: floor(5, 5) })),
    ).toHaveLength(8);
  });

  it('are itself and its mirror image for a ramp', () => {
    const ramp = { front: floor(0, 0), back: floor(5, 5), left: floor(0, 5), right: floor(0, 5) };
    expect(turns(tile(ramp))).toEqual(['not', 'not mirrored']);
  });

  it('are two halves, and a mirrored pair, for a ridge', () => {
    const ridge = { front: floor(0, 0), back: floor(0, 0), left: floor(5, 5), right: floor(5, 5) };
    expect(turns(tile(ridge))).toEqual(['not', 'about', 'not mirrored', 'about mirrored']);
  });

  it('keep the order of a slope along a side', () => {
    const corner = { front: floor(0, 5), back: floor(5, 5), left: floor(0, 5), right: floor(5, 5) };
    // Its diagonal is an axis: mirrored left for right and turned a quarter it is the same again.
    expect(turns(tile(corner))).toHaveLength(2);
    const twisted = { front: floor(0, 5), back: floor(5, 0), left: floor(0, 5), right: floor(5, 0) };
    expect(turns(tile(twisted))).toContain('about');
  });

  it('come back to the start after four quarters', () => {
    const start = profilesOf(
      tile({ front: floor(0, 1), back: floor(2, 3), left: floor(0, 2), right: floor(1, 3) }),
    );
    expect(turnedRight(turnedRight(turnedRight(turnedRight(start))))).toEqual(start);
    expect(turnedRight(start).back).toEqual(start.left);
  });
});

describe('two sides that lie together', () => {
  const lip = mm(2, 5);
  const at = (...levels: number[]): Profile => ({ kind: 'floor', levels: levels.map((it) => mm(it)) });
  it('agree in height within the lip, whatever their names', () => {
    expect(meets(at(5, 5), at(5, 5), lip)).toBe(true);
    expect(
      meets(
        { kind: 'floor', levels: [mm(5), mm(5)] },
        { kind: 'floor', levels: [mm(27, 5), mm(27, 5)] },
        lip,
      ),
    ).toBe(true);
    expect(meets(at(5, 5), at(6, 6), lip)).toBe(false);
    expect(meets(at(0, 5), at(5, 0), lip)).toBe(false);
  });
  it('pair a foot with its floor, a wall with a wall, and anything with what is unchecked', () => {
    expect(meets({ kind: 'foot', level: mm(5) }, at(5, 5), lip)).toBe(true);
    expect(meets(at(6, 6), { kind: 'foot', level: mm(5) }, lip)).toBe(false);
    expect(meets({ kind: 'wall' }, { kind: 'wall' }, lip)).toBe(true);
    expect(meets({ kind: 'wall' }, at(5, 5), lip)).toBe(false);
    expect(meets({ kind: 'unchecked' }, { kind: 'wall' }, lip)).toBe(true);
  });
});

describe('levels', () => {
  const faults = (build: Build) => judge(build, bench).faults.map((it) => it.kind);
  it('are those that the layers add up to, within the lip', () => {
    expect(faults(tile({ front: floor(5, 5) }))).toEqual([]);
    expect(faults(tile({ front: floor(6, 6) }))).toEqual(['level is off']);
    expect(faults(tile({ front: floor(6, 6) }, { lip: mm(1) }))).toEqual([]);
    expect(faults(tile({ front: floor(0, 6) }))).toEqual(['level is off', 'level is off']);
  });

  it('are compared square by square', () => {
    const high = part('high', [mm(30), mm(60)], mm(5));
    const build = standUp(
      row('up', [
        member(slab),
        member(high, {
          own: {
            name: undefined,
            times: 1,
            pitch: undefined,
            align: { across: { end: 'high', inward: mm(0), overhangs: false } },
          },
        }),
      ]),
      {
        edges: { front: floor(5, 5, 5), back: undefined, left: floor(5, 5), right: floor(10, 10) },
        squares: { across: 2, along: 1 },
      },
    ).build!;
    const [fault, ...others] = judge(build, bench).faults;
    expect(others).toEqual([]);
    if (fault?.kind !== 'level is off') throw new Error('another fault');
    expect([fault.side, fault.from, fault.to, fault.found]).toEqual(['front', mm(30), mm(60), mm(10)]);
  });
});

describe('a rack', () => {
  // 255 × 190 × 95 with 2 mm of play holds 4 × 3 tiles of 60 mm side by side, and 93 / 5 = 18 in a stack: computed.
  const inside = (across: number, along: number, up: number) => ({
    name: 'case',
    at: here,
    inside: { across: mm(across), along: mm(along), up: mm(up) },
    clearance: mm(2),
  });
  it('holds so many', () => {
    expect(judge(tile({}, { rack: inside(255, 190, 95) }), bench).rack).toEqual({
      rack: 'case',
      stack: 18,
      sideBySide: 12,
    });
  });
  it('is told where the tile is too large for it', () => {
    expect(judge(tile({}, { rack: inside(61, 190, 95) }), bench).faults.map((it) => it.kind)).toEqual([
      'does not fit the rack',
    ]);
    expect(
      judge(tile({}, { rack: inside(62, 190, 6) }), bench).faults.map((it) => ('way' in it ? it.way : '')),
    ).toEqual(['up']);
  });
});
