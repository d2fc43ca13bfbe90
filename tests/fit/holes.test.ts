import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { holesIn } from '../../src/fit/holes.ts';
import { judge, unmetBy } from '../../src/fit/index.ts';
import { toDrawnMm } from '../../src/measure/index.ts';
import {
  type Build,
  type Edge,
  endOfSide,
  type LevelSide,
  levelSides,
  type Pole,
  type StandingFitting,
  type TileSide,
  ways,
} from '../../src/model/index.ts';
import { circle } from '../../src/outline/index.ts';
import { here, member, mm, part, row, standUp } from './byHand.ts';
import { anyRow } from './randomBuilds.ts';

type Kernel = Awaited<ReturnType<typeof initManifold>>;
let kernel: Kernel;
beforeAll(async () => {
  kernel = await initManifold();
  kernel.setup();
});

const bench = { ruler: [mm(1, 2)] as const, wander: undefined };

function hole(side: TileSide, [across, along, up]: readonly number[], more: Partial<StandingFitting> = {}) {
  const at = { across: mm(across ?? 0), along: mm(along ?? 0), up: mm(up ?? 0) };
  const size = { diameter: mm(6), deep: mm(2), pole: undefined, leastWall: mm(0) };
  return { fitting: 'magnet', at: here, side, middle: at, ...size, ...more } satisfies StandingFitting;
}

const kinds = (build: Build) => holesIn(build).faults.map(({ kind }) => kind);

type Solid = InstanceType<Kernel['Manifold']>;

function blockSolid({ block: { low, high } }: Build['parts'][number]): Solid {
  const [from, to] = [low, high].map((it) => ways.map((way) => toDrawnMm(it[way])));
  const [x = 0, y = 0, z = 0] = from ?? [];
  const [X = 0, Y = 0, Z = 0] = to ?? [];
  return kernel.Manifold.cube([X - x, Y - y, Z - z]).translate([x, y, z]);
}

/** A prism of 64 corners within the round hole: what sticks out of it sticks out of the hole. */
function holeSolid({ side, middle, diameter, deep }: StandingFitting): Solid {
  const { way, end } = endOfSide[side];
  const length = toDrawnMm(deep);
  const upright = kernel.Manifold.cylinder(length, toDrawnMm(diameter) / 2, toDrawnMm(diameter) / 2, 64);
  const turned =
    way === 'up' ? upright : way === 'across' ? upright.rotate([0, 90, 0]) : upright.rotate([-90, 0, 0]);
  const box = turned.boundingBox();
  const shift = ways.map((it, i) => {
    const at = toDrawnMm(middle[it]);
    if (it !== way) return at - ((box.min[i] ?? 0) + (box.max[i] ?? 0)) / 2;
    return end === 'low' ? at - (box.min[i] ?? 0) : at - (box.max[i] ?? 0);
  }) as [number, number, number]; // three ways
  return turned.translate(shift);
}

const anySide = fc.constantFrom<TileSide>('left', 'right', 'front', 'back', 'bottom', 'top');
const places = fc.tuple(...[60, 60, 30].map((most) => fc.integer({ min: 0, max: most * 4 })));

// Source of what is expected: manifold-3d 3.5.4, an independent solid kernel in binary floats.
describe('the hole for a fitting, against an independent kernel', () => {
  it('is never let pass where some of it is outside all parts', () => {
    fc.assert(
      fc.property(anyRow, anySide, places, fc.integer({ min: 1, max: 40 }), (outer, side, at, deep) => {
        const plain = standUp(outer).build;
        if (plain === undefined) return;
        const [across = 0, along = 0, up = 0] = at;
        const middle = { across: mm(across, 4), along: mm(along, 4), up: mm(up, 4) };
        const it = hole(side, [], { middle, deep: mm(deep, 2) });
        const build = { ...plain, fittings: [it] };
        const outside = plain.parts.reduce((left, part) => left.subtract(blockSolid(part)), holeSolid(it));
        if (outside.volume() > 1e-6) expect(kinds(build)).not.toEqual([]);
      }),
      { numRuns: 120 },
    );
  });

  it('is told to break out of a single block exactly where it does', () => {
    fc.assert(
      fc.property(anySide, places, fc.integer({ min: 1, max: 80 }), (side, at, deep) => {
        const slab = part('slab', [mm(60), mm(60)], mm(30));
        const plain = standUp(row('up', [member(slab)])).build!;
        const [across = 0, along = 0, up = 0] = at;
        const middle = { across: mm(across, 4), along: mm(along, 4), up: mm(up, 4) };
        // Corners of the prism lie on the ways themselves, so it breaks out of a face no later than the hole does.
        const it = hole(side, [], { middle, deep: mm(deep, 2) });
        const outside = holeSolid(it).subtract(blockSolid(plain.parts[0]!));
        expect(kinds({ ...plain, fittings: [it] }).length > 0).toBe(outside.volume() > 1e-6);
      }),
      { numRuns: 300 },
    );
  });
});

describe('what stays beside a hole', () => {
  const slab = (size = 60) => standUp(row('up', [member(part('slab', [mm(size), mm(60)], mm(10)))])).build!;

  // Source: computed.
  it('is the least of what is beside it and behind it', () => {
    const at = (it: StandingFitting) => holesIn({ ...slab(), fittings: [it] }).thinnestWall;
    expect(at(hole('left', [0, 30, 5]))).toEqual(mm(2));
    expect(at(hole('left', [0, 30, 4]))).toEqual(mm(1));
    expect(at(hole('left', [0, 4, 5]))).toEqual(mm(1));
    expect(at(hole('top', [30, 30, 10], { deep: mm(19, 2) }))).toEqual(mm(1, 2));
    // Right through: nothing is behind it.
    expect(at(hole('top', [30, 30, 10], { deep: mm(10) }))).toEqual(mm(27));
  });

  it('may be no less than the least wall', () => {
    const build = (leastWall: number) => ({
      ...slab(),
      fittings: [hole('left', [0, 30, 4], { leastWall: mm(leastWall) })],
    });
    expect(kinds(build(1))).toEqual([]);
    expect(kinds(build(2))).toEqual(['thin wall']);
  });

  it('is told of the part with which it is', () => {
    const board = part('board', [mm(60), mm(60)], mm(10));
    const build = standUp(row('up', [member(board), member(part('thin', [mm(60), mm(60)], mm(4)))])).build!;
    const { faults } = holesIn({ ...build, fittings: [hole('left', [0, 30, 12])] });
    expect(faults.map((it) => it.kind === 'thin wall' && it.part.name)).toEqual(['thin']);
  });

  // Source: the distance of a point from a circle round the origin, computed with a 3-4-5 triangle.
  it('of a round part goes by its round edge, to 0.01 mm', () => {
    const disc = part('disc', [mm(40), mm(40)], mm(10), { outline: circle(mm(40)).value! });
    const build = standUp(row('up', [member(disc)]), { footprint: { across: mm(40), along: mm(40) } }).build!;
    const wall = (x: number, y: number) =>
      toDrawnMm(holesIn({ ...build, fittings: [hole('top', [20 + x, 20 + y, 10])] }).thinnestWall!);
    // 15 from the middle, so 5 from the edge: 2 beside a hole of radius 3; behind it stay 8.
    expect(Math.abs(wall(9, 12) - 2)).toBeLessThanOrEqual(0.0101);
    expect(Math.abs(wall(-9, 12) - 2)).toBeLessThanOrEqual(0.0101);
    expect(Math.abs(wall(12, 16) - -3)).toBeLessThanOrEqual(0.0101);
  });

  it('is nothing where no part is, or only air behind a thin one', () => {
    expect(kinds({ ...slab(), fittings: [hole('left', [0, 30, 20])] })).toEqual(['hole in the air']);
    const wall = part('wall', [mm(60), mm(20)], mm(1));
    const build = standUp(row('along', [member(wall)])).build!;
    const middle = { across: mm(30), along: mm(59, 2), up: mm(10) };
    const { faults } = holesIn({ ...build, fittings: [hole('front', [], { middle })] });
    expect(faults).toMatchObject([{ kind: 'hole in the air', from: mm(1), to: mm(2) }]);
  });

  it('between two holes counts as well', () => {
    const two = (apart: number, leastWall = mm(0)) => ({
      ...slab(),
      fittings: [hole('left', [0, 20, 5], { leastWall }), hole('left', [0, 20 + apart, 5], { leastWall })],
    });
    expect(kinds(two(5))).toEqual(['holes meet']);
    expect(kinds(two(6))).toEqual([]);
    expect(kinds(two(7, mm(2)))).toEqual(['holes meet']);
    expect(kinds(two(8, mm(2)))).toEqual([]);
    const across = [hole('left', [0, 4, 5], { deep: mm(10) }), hole('front', [5, 0, 5], { deep: mm(10) })];
    expect(kinds({ ...slab(), fittings: across })).toEqual(['holes meet']);
  });
});

// Source: the tiles are laid against each other in every turn by the rotations of the plane, in this test.
describe('what is let into the sides of tiles', () => {
  const level: Edge = {
    kind: 'floor',
    at: here,
    levels: [
      { value: mm(10), at: here },
      { value: mm(10), at: here },
    ],
  };
  const edges = { front: level, back: level, left: level, right: level };
  const slab = part('slab', [mm(60), mm(60)], mm(10));
  const tile = (name: string, fittings: readonly StandingFitting[]): Build => ({
    ...standUp(row('up', [member(slab)]), { edges }).build!,
    tile: name,
    fittings,
  });

  interface Let {
    readonly side: LevelSide;
    readonly where: number;
    readonly pole: Pole;
  }

  /** From the left end, seen from outside. */
  function letIn({ side, where, pole }: Let): StandingFitting {
    const middle = {
      front: [where, 0, 5],
      right: [60, where, 5],
      back: [60 - where, 60, 5],
      left: [0, 60 - where, 5],
    }[side];
    return hole(side, middle, { pole });
  }

  /** Where it is, and which way it looks, once the tile is turned so many quarters about its middle. */
  function turned({ middle, side, pole }: StandingFitting, quarters: number) {
    const looks = { front: [0, -1], back: [0, 1], left: [-1, 0], right: [1, 0] }[side as LevelSide];
    const turn = ([x = 0, y = 0]: readonly number[]): readonly number[] => [-y, x];
    let [at, way]: (readonly number[])[] = [
      [toDrawnMm(middle.across) - 30, toDrawnMm(middle.along) - 30],
      looks,
    ];
    for (let i = 0; i < quarters; i++) [at, way] = [turn(at ?? []), turn(way ?? [])];
    return { at: at ?? [], way: way ?? [], pole };
  }

  /** Lays the second to the right of the first, both in every turn. */
  function pushesOrMisses(one: Build, other: Build): boolean {
    for (let a = 0; a < 4; a++) {
      for (let b = 0; b < 4; b++) {
        const right = (one.fittings ?? []).map((it) => turned(it, a)).filter(({ way }) => way[0] === 1);
        const left = (other.fittings ?? []).map((it) => turned(it, b)).filter(({ way }) => way[0] === -1);
        if (right.length === 0 || left.length === 0) continue;
        const isMet = (it: (typeof right)[number], all: typeof right) =>
          all.some(({ at, pole }) => Math.abs((at[1] ?? 0) - (it.at[1] ?? 0)) < 0.3 && pole !== it.pole);
        if (!right.every((it) => isMet(it, left)) || !left.every((it) => isMet(it, right))) return true;
      }
    }
    return false;
  }

  const anyLet = fc.record({
    side: fc.constantFrom<LevelSide>(...levelSides),
    where: fc.constantFrom(15, 30, 45),
    pole: fc.constantFrom<Pole>('out', 'in'),
  });
  const anyLets = fc.uniqueArray(anyLet, {
    selector: ({ side, where }) => `${side} ${where}`,
    minLength: 1,
    maxLength: 8,
  });

  it('meets its like in every turn, or is told', () => {
    const told = { yes: 0, no: 0 };
    const look = (one: Build, other: Build) => {
      const expected = [one, other].some((a) => [one, other].some((b) => pushesOrMisses(a, b)));
      const found = [...unmetBy([one, other]).values()].flat().length > 0;
      told[expected ? 'yes' : 'no']++;
      expect(found).toBe(expected);
    };
    fc.assert(
      fc.property(anyLets, anyLets, (lets, others) =>
        look(tile('one', lets.map(letIn)), tile('other', others.map(letIn))),
      ),
      { numRuns: 300 },
    );
    // Pairs with one pole out and one in, as far from either end, are those that do meet.
    const pair = (side: LevelSide, where: number): readonly Let[] => [
      { side, where, pole: 'out' },
      { side, where: 60 - where, pole: 'in' },
    ];
    fc.assert(
      fc.property(fc.subarray([...levelSides], { minLength: 1 }), fc.subarray([...levelSides]), (a, b) =>
        look(
          tile('one', a.flatMap((side) => pair(side, 15)).map(letIn)),
          tile('other', b.flatMap((side) => pair(side, 15)).map(letIn)),
        ),
      ),
      { numRuns: 100 },
    );
    expect(told.yes).toBeGreaterThan(50);
    expect(told.no).toBeGreaterThan(50);
  });

  it('is told of the tile it belongs to, as pushed away or as unmet', () => {
    const good: readonly Let[] = [
      { side: 'left', where: 15, pole: 'out' },
      { side: 'left', where: 45, pole: 'in' },
    ];
    const turnedRound: readonly Let[] = good.map((it) => ({
      ...it,
      side: 'right',
      pole: it.pole === 'out' ? 'in' : 'out',
    }));
    const faults = unmetBy([tile('a', good.map(letIn)), tile('b', turnedRound.map(letIn))]);
    expect([...faults.values()].flat()).toMatchObject([{ kind: 'does not meet', isPushedAway: true }]);
    const off = unmetBy([tile('a', [letIn({ side: 'left', where: 15, pole: 'out' })])]);
    expect(off.get('a')).toMatchObject([{ isPushedAway: false, side: 'left', where: mm(15), high: mm(5) }]);
  });

  it('counts among the verdicts on its tile', () => {
    const build = tile('a', [letIn({ side: 'left', where: 30, pole: 'out' })]);
    const unmet = unmetBy([build]).get('a');
    expect(judge(build, bench, unmet).faults.map(({ kind }) => kind)).toEqual(['does not meet']);
    expect(judge(build, bench).thinnestWall).toEqual(mm(2));
  });
});
