import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { Visible } from '../../src/fit/faces.ts';
import { habitFaults } from '../../src/fit/habits.ts';
import { touchingOf } from '../../src/fit/touching.ts';
import {
  compare,
  equal,
  floor,
  larger,
  minus,
  multiply,
  rational,
  smaller,
  sum,
  zero,
} from '../../src/measure/index.ts';
import { type Length, type Outline, type Stance, type StandingPart, ways } from '../../src/model/index.ts';
import {
  bodyOf,
  boxOf,
  circle,
  difference,
  laid,
  onDatum,
  planeAcross,
  shiftBy,
  sideAreaOf,
} from '../../src/outline/index.ts';
import { curved, notchedBoard, round, star } from '../outline/anyOutline.ts';
import { made } from '../outline/drawing.ts';
import {
  blockAt,
  drawn,
  float,
  kernelOfSolids,
  mitredWalls,
  piece,
  type Solid,
  spanIn,
} from './bodiesByHand.ts';
import { mm } from './byHand.ts';

let solid: (it: StandingPart, isFlat?: boolean) => Solid;
beforeAll(async () => {
  ({ solid } = await kernelOfSolids());
});

function touching(parts: readonly StandingPart[], glueLine: Length = zero) {
  return touchingOf({ parts, glueLine } as never); // all that it looks at
}

const whole = (min: number, max: number) => fc.integer({ min, max }).map((it) => mm(it));

/** Outlines whose box has a size in whole quarters, so that blocks meet exactly in floats, too. */
const shapes: fc.Arbitrary<Outline> = fc
  .oneof(star, notchedBoard, round, curved)
  .map(onDatum)
  .filter((it) => {
    const box = boxOf(it);
    return Object.values(box).every(({ lo, hi }) => equal(lo, hi) && lo.denominator <= 4n);
  });

function sizeOf(outline: Outline): readonly [Length, Length] {
  const { left, right, bottom, top } = boxOf(outline);
  return [minus(right.lo, left.lo), minus(top.lo, bottom.lo)];
}

const stances: fc.Arbitrary<Stance> = fc
  .shuffledSubarray([...ways], { minLength: 3, maxLength: 3 })
  .map(([length, width, thickness]) => ({ length, width, thickness }) as Stance); // three of three

const nowhere = [zero, zero, zero];

/** Sloping, bent or folded: what it fills is told by its profile alone. */
const bent = fc.tuple(shapes, fc.constantFrom(...ways), whole(2, 40)).map(([outline, along, thick]) => {
  const [x, y] = sizeOf(outline);
  const { right } = planeAcross(along);
  const size = ways.map((way) => (way === along ? thick : way === right ? x : y));
  const thickness = ways.find((way) => way !== along) ?? 'up';
  const stance = { length: along, width: ways.find((way) => way !== along && way !== thickness)!, thickness };
  const flat = piece('bent', blockAt(nowhere, size), stance);
  return { ...flat, size: { ...flat.size, thickness: mm(1, 16) }, profile: { along, outline } };
});

/** A plate with an outline, two of whose edges are bevelled or rebated. */
const bevelled = fc
  .tuple(
    shapes,
    stances,
    whole(1, 6),
    fc.constantFrom('length', 'width'),
    fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 4, maxLength: 4 }),
  )
  .map(([outline, stance, thick, side, cuts]) => {
    const [x, y] = sizeOf(outline);
    const size = ways.map((way) => (way === stance.length ? x : way === stance.width ? y : thick));
    const block = blockAt(nowhere, size);
    const along = stance[side === 'length' ? 'width' : 'length'];
    const { right } = planeAcross(along);
    const long = spanIn(block, stance[side]);
    const [a, b, c, d] = cuts.map((it) => mm(it + 1, 3)) as [Length, Length, Length, Length]; // four of four
    // All along the low face at the one end at least, and along the high one at the other, so that it fills its block.
    const corners = [
      [zero, zero],
      [minus(long, b), zero],
      [long, thick],
      [c, thick],
    ] as const;
    const stepped = [
      [zero, zero],
      [minus(long, d), zero],
      [minus(long, d), mm(1, 2)],
      [long, mm(1, 2)],
      [long, thick],
      [a, thick],
    ] as const;
    const points = cuts[0]! % 2 === 0 ? corners : stepped;
    const isAlongRight = right === stance[side];
    const profile = drawn(isAlongRight ? points : [...points].reverse().map(([u, v]) => [v, u] as const));
    return piece('bevelled', block, stance, { outline, profile: { along, outline: profile } });
  });
const plain = fc
  .tuple(stances, whole(2, 40), whole(2, 40), whole(1, 6))
  .map(([stance, ...size]) => piece('plain', blockAt(nowhere, size), stance));
const flat = fc.tuple(shapes, stances, whole(1, 6)).map(([outline, stance, thick]) => {
  const [x, y] = sizeOf(outline);
  const size = ways.map((way) => (way === stance.length ? x : way === stance.width ? y : thick));
  return piece('flat', blockAt(nowhere, size), stance, { outline });
});

function movedTo(it: StandingPart, low: readonly Length[]): StandingPart {
  return {
    ...it,
    block: blockAt(
      low,
      ways.map((way) => spanIn(it.block, way)),
    ),
  };
}

const anyBody = fc.oneof(
  { arbitrary: bevelled, weight: 3 },
  { arbitrary: bent, weight: 3 },
  { arbitrary: plain, weight: 1 },
  { arbitrary: flat, weight: 1 },
);
/** Where the second of two bodies begins: by the first, of the room in which their blocks meet. */
const share = fc.integer({ min: 0, max: 16 });
const pairs = fc
  .tuple(anyBody, anyBody, share, share, share, fc.constantFrom(...ways, undefined, undefined, undefined))
  .map(([one, other, x, y, z, behind]): readonly [StandingPart, StandingPart] => {
    const low = [x, y, z].map((it, i) => {
      const way = ways[i]!; // three of three
      const [mine, theirs] = [spanIn(one.block, way), spanIn(other.block, way)];
      if (way === behind) return mine;
      const quarters = floor(multiply(sum(mine, theirs), rational(BigInt(it), 4n)));
      return minus(mm(quarters, 4), theirs);
    });
    return [
      { ...one, name: 'one' },
      { ...movedTo(other, low), name: 'other' },
    ];
  });

/** What a hole leaves of a board; the board where it leaves it in pieces. */
const pierced = (long: Length, wide: Length) =>
  fc
    .tuple(
      fc.boolean(),
      fc.integer({ min: -4, max: 40 }),
      fc.integer({ min: -4, max: 40 }),
      fc.integer({ min: 2, max: 12 }),
    )
    .map(([isPlain, x, y, d]) => {
      const board = drawn([
        [zero, zero],
        [long, zero],
        [long, wide],
        [zero, wide],
      ]);
      if (isPlain) return undefined;
      const left = difference(board, laid(made(circle(mm(d))), shiftBy({ x: mm(x), y: mm(y) })));
      const isAsLarge = left.length === 1 && sizeOf(left[0]!).every((it, i) => equal(it, [long, wide][i]!));
      return isAsLarge ? left[0] : undefined;
    });

/**
 * Two boards that were one, cut apart at a slant, each perhaps with a hole.
 *
 *       one    ╱  other
 */
const mates = fc
  .tuple(
    fc.constantFrom(...ways),
    fc.integer({ min: 2, max: 30 }),
    fc.integer({ min: 2, max: 30 }),
    whole(1, 8),
    whole(4, 30),
  )
  .chain(([along, a, b, thick, high]) => {
    const [from, to, long] = [mm(a), mm(b), mm(32)];
    const { right, up } = planeAcross(along);
    const size = (across: Length) =>
      ways.map((way) => (way === along ? high : way === right ? across : thick));
    const stance = { length: right, width: along, thickness: up };
    const far = larger(from, to);
    const near = smaller(from, to);
    const at = (across: Length) => ways.map((way) => (way === right ? across : zero));
    const left = drawn([
      [zero, zero],
      [from, zero],
      [to, thick],
      [zero, thick],
    ]);
    const rest = drawn([
      [minus(from, near), zero],
      [minus(long, near), zero],
      [minus(long, near), thick],
      [minus(to, near), thick],
    ]);
    return fc
      .tuple(pierced(far, high), pierced(minus(long, near), high))
      .map(([first, second]): readonly [StandingPart, StandingPart] => [
        piece('one', blockAt(nowhere, size(far)), stance, {
          ...(first && { outline: first }),
          profile: { along, outline: left },
        }),
        piece('other', blockAt(at(near), size(minus(long, near))), stance, {
          ...(second && { outline: second }),
          profile: { along, outline: rest },
        }),
      ]);
  });

// Source of every expected value in this block: manifold-3d 3.5.4, an independent solid kernel in binary floats.
describe('bodies, against an independent kernel', () => {
  it('share space where the kernel finds some', () => {
    fc.assert(
      fc.property(pairs, ([one, other]) => {
        const { overlaps, doubts } = touching([one, other]);
        const volume = solid(one).intersect(solid(other)).volume();
        if (doubts.length > 0) expect(volume).toBeLessThan(5);
        else if (overlaps.length > 0) expect(volume).toBeGreaterThan(0);
        else expect(volume).toBeLessThan(1e-6);
      }),
      { numRuns: 80 },
    );
  });

  it('touch over as much as the kernel finds covered', () => {
    fc.assert(
      fc.property(pairs, ([one, other]) => {
        const { contacts, overlaps, doubts } = touching([one, other]);
        if (overlaps.length + doubts.length > 0) return;
        const [a, b] = [solid(one), solid(other)];
        const covered = (a.surfaceArea() + b.surfaceArea() - a.add(b).surfaceArea()) / 2;
        const [lo, hi] = (['lo', 'hi'] as const).map((end) =>
          contacts.reduce((all, { area }) => all + float(area[end]), 0),
        ) as [number, number]; // two of two
        expect(covered).toBeGreaterThan(lo - 1e-2);
        expect(covered).toBeLessThan(hi + 1e-2);
      }),
      { numRuns: 80 },
    );
  });

  it('touch along a slant over as much as the kernel finds covered', () => {
    fc.assert(
      fc.property(mates, ([one, other]) => {
        const { contacts, overlaps, doubts } = touching([one, other]);
        expect([overlaps, doubts]).toEqual([[], []]);
        // Pushed into each other by a hair, they share a layer as large as the seam; a sum of surfaces would count
        // what floats leave open between them.
        const push = 1e-3;
        const seam = other.profile!.outline.rim[3]!;
        const [run, rise] = [float(minus(seam.to.x, seam.from.x)), float(minus(seam.to.y, seam.from.y))];
        const { right } = planeAcross(other.profile!.along);
        const by = ways.map((way) => (way === right ? -push : 0)) as [number, number, number]; // three ways
        const shared = solid(one).intersect(solid(other).translate(by)).volume();
        const covered = (shared / push) * Math.hypot(run / rise, 1);
        const [lo, hi] = (['lo', 'hi'] as const).map((end) =>
          contacts.reduce((all, { area }) => all + float(area[end]), 0),
        ) as [number, number]; // two of two
        expect(covered).toBeGreaterThan(lo - 1e-2);
        expect(covered).toBeLessThan(hi + 1e-2);
      }),
      { numRuns: 60 },
    );
  });

  it('look six ways with as much as their surface is', () => {
    fc.assert(
      fc.property(anyBody, (it) => {
        const body = bodyOf(it);
        const areas = ways.flatMap((way) =>
          (['low', 'high'] as const).map((end) => sideAreaOf(body, way, end)),
        );
        const [lo, hi] = (['lo', 'hi'] as const).map((end) =>
          areas.reduce((all, area) => all + float(area[end]), 0),
        ) as [number, number];
        const surface = solid(it).surfaceArea();
        expect(surface).toBeGreaterThan(lo - 1e-2 - surface * 1e-3);
        expect(surface).toBeLessThan(hi + 1e-2 + surface * 1e-3);
      }),
      { numRuns: 60 },
    );
  });
});

// Source: computed. A mitre of boards t thick is a face t·√2 wide; 665857/470832 is a convergent of √2, over it by 2e-12.
describe('four mitred walls', () => {
  const frames = fc.record({
    across: fc.integer({ min: 40, max: 4000 }),
    along: fc.integer({ min: 40, max: 4000 }),
    up: fc.integer({ min: 1, max: 900 }),
    thick: fc.integer({ min: 1, max: 159 }),
    per: fc.constantFrom(1, 3, 10, 64),
  });
  it('enclose exactly the box that is stated', () => {
    fc.assert(
      fc.property(frames, ({ across, along, up, thick, per }) => {
        const t = mm(thick, 8 * per);
        const size = { across: mm(across, per), along: mm(along, per), up: mm(up, per) };
        const walls = mitredWalls(size, t);
        const [inner, low] = [
          [minus(size.across, sum(t, t)), minus(size.along, sum(t, t)), size.up],
          [t, t, zero],
        ];
        const core = piece('core', blockAt(low, inner), walls[0]!.stance);
        const { overlaps, doubts, contacts } = touching([...walls, core]);
        expect([overlaps, doubts]).toEqual([[], []]);
        const joints = contacts.filter((it) => it.part !== core && it.other !== core);
        expect(joints.map(({ part, other }) => [part.name, other.name].sort().join(' ')).sort()).toEqual([
          'back left',
          'back right',
          'front left',
          'front right',
        ]);
        const squared = multiply(multiply(rational(2n), multiply(t, t)), multiply(size.up, size.up));
        for (const { area, isSure } of joints) {
          expect(isSure).toBe(true);
          expect(compare(multiply(area.lo, area.lo) as Length, squared as Length)).toBeLessThanOrEqual(0);
          expect(compare(squared as Length, multiply(area.hi, area.hi) as Length)).toBeLessThanOrEqual(0);
          expect(float(area.hi) - float(area.lo)).toBeLessThan(1e-9);
        }
        const filled = contacts.filter((it) => it.part === core || it.other === core);
        expect(filled.map(({ area }) => area.lo)).toEqual(filled.map(({ area }) => area.hi));
        const around = filled.reduce((all, { area }) => sum(all, area.lo as Length), zero);
        expect(
          equal(around, multiply(rational(2n), multiply(sum(inner[0]!, inner[1]!), size.up)) as Length),
        ).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
  it('overlap the core as soon as it is larger by a hair', () => {
    const walls = mitredWalls({ across: mm(76), along: mm(76), up: mm(20) }, mm(3));
    const core = piece(
      'core',
      blockAt([mm(3), mm(3), zero], [sum(mm(70), mm(1, 1_000_000)), mm(70), mm(20)]),
      walls[0]!.stance,
    );
    const { overlaps } = touching([...walls, core]);
    expect(overlaps.map(({ other, part, way }) => [part.name, other.name, way])).toEqual([
      ['right', 'core', 'across'],
    ]);
  });
  it('leave out of their joints what an arch cuts into a corner', () => {
    const board = drawn([
      [zero, zero],
      [mm(76), zero],
      [mm(76), mm(20)],
      [zero, mm(20)],
    ]);
    const notch = laid(
      drawn([
        [zero, zero],
        [mm(10), zero],
        [mm(10), mm(5)],
        [zero, mm(5)],
      ]),
      shiftBy({ x: zero, y: mm(5) }),
    );
    const outline = difference(board, notch)[0]!;
    const walls = mitredWalls({ across: mm(76), along: mm(76), up: mm(20) }, mm(3), { front: { outline } });
    const { contacts, overlaps } = touching(walls);
    expect(overlaps).toEqual([]);
    const joint = contacts.find(
      ({ part, other }) => [part.name, other.name].sort().join(' ') === 'front left',
    )!;
    // Computed: 3·√2 wide, and 15 of 20 mm high.
    expect(float(joint.area.lo)).toBeCloseTo(45 * Math.SQRT2, 9);
  });
  it('show the ends of their flutes at a mitre that nothing covers', () => {
    const walls = mitredWalls({ across: mm(76), along: mm(76), up: mm(20) }, mm(3)).map((it) => ({
      ...it,
      flutes: it.stance.length,
    }));
    const bare = (parts: readonly StandingPart[]) => {
      const moved = parts.map((it) =>
        movedTo(
          it,
          ways.map((way) => sum(it.block.low[way], mm(10))),
        ),
      );
      const { contacts } = touching(moved);
      const build = { parts: moved, slack: zero, footprint: { across: mm(100), along: mm(100) } };
      return habitFaults(build as never, contacts, new Visible(contacts)).map(
        // all that it looks at
        (it) => it.kind === 'habit' && `${it.part.name} ${it.habit} ${it.side}`,
      );
    };
    expect(bare(walls)).toEqual([]);
    expect(bare(walls.filter(({ name }) => name !== 'right'))).toEqual([
      'front bare flutes right',
      'back bare flutes right',
    ]);
  });
});
