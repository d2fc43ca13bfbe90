import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Added, Member, PartMember } from '../../src/expand/placing/rows.ts';
import { touchingOf } from '../../src/fit/touching.ts';
import { equal, minus, sum, toDrawnMm } from '../../src/measure/index.ts';
import {
  type Build,
  type Length,
  type Outline,
  type Rational,
  type StandingPart,
  ways,
} from '../../src/model/index.ts';
import { boxOf, flattened, onDatum } from '../../src/outline/index.ts';
import { curved, notchedBoard, round, star } from '../outline/anyOutline.ts';
import { here, member, mm, part, row, standUp } from './byHand.ts';

// Source of every expected value here: manifold-3d 3.5.4, an independent solid kernel in binary floats.
type Kernel = Awaited<ReturnType<typeof initManifold>>;
type Solid = InstanceType<Kernel['Manifold']>;
let kernel: Kernel;
beforeAll(async () => {
  kernel = await initManifold();
  kernel.setup();
});

const float = (value: Rational): number => toDrawnMm(value as Length); // of whatever unit; only its float is looked at
/** Far nearer to the curves than the verdicts look. */
const fine = mm(1, 2000);

/** A piece as the kernel sees it: its outline pulled up to a plate, then stood up as its stance says. */
function solid({ block, stance, outline, size }: StandingPart): Solid {
  const [x, y, z] = [size.length, size.width, size.thickness].map(float) as [number, number, number]; // three of three
  const plate =
    outline === undefined
      ? kernel.Manifold.cube([x, y, z])
      : new kernel.CrossSection(
          flattened(outline, 'along', fine).map((loop) =>
            loop.map((at): [number, number] => [float(at.x), float(at.y)]),
          ),
          'Positive',
        ).extrude(z);
  const columns = [stance.length, stance.width, stance.thickness].map((way) =>
    ways.map((it) => (it === way ? 1 : 0)),
  );
  const [a, b, c] = columns as [number[], number[], number[]]; // three of three
  const low = ways.map((way) => float(block.low[way]));
  const matrix = [...a, 0, ...b, 0, ...c, 0, ...low, 1];
  return plate.transform(matrix as never); // sixteen numbers, column by column
}

/** Outlines whose box has a size in whole quarters, so that blocks meet exactly in floats, too. */
const shapes: fc.Arbitrary<Outline> = fc
  .oneof(star, notchedBoard, round, curved)
  .map(onDatum)
  .filter((it) => {
    const box = boxOf(it);
    return Object.values(box).every(({ lo, hi }) => equal(lo, hi) && lo.denominator <= 4n);
  });

const plates = fc.tuple(shapes, fc.integer({ min: 1, max: 24 })).map(([outline, thickness]): PartMember => {
  const { left, right, bottom, top } = boxOf(outline);
  const [length, width] = [minus(right.lo, left.lo), minus(top.lo, bottom.lo)];
  return member(part('shape', [length, width], mm(thickness, 4), { outline }));
});
const boards = fc
  .tuple(fc.integer({ min: 4, max: 200 }), fc.integer({ min: 4, max: 200 }), fc.integer({ min: 1, max: 24 }))
  .map(([length, width, thick]) => member(part('board', [mm(length, 4), mm(width, 4)], mm(thick, 4))));
const way = fc.constantFrom('across', 'along', 'up');
const flip = fc.constantFrom(undefined, 'length', 'width', 'both');

const anyPiece = fc
  .tuple(fc.oneof({ arbitrary: plates, weight: 4 }, { arbitrary: boards, weight: 1 }), way, way, flip)
  .map(([it, thickness, length, flipped]): PartMember => {
    const wish = (value: typeof thickness) => ({ value, at: here });
    return {
      ...it,
      flip: flipped,
      stance: { thickness: wish(thickness), length: length === thickness ? undefined : wish(length) },
    };
  });
const offset = fc.integer({ min: -80, max: 160 }).map((quarters) => mm(quarters, 4));

/** Pieces thrown into a tile wherever they fall, and others in rows, where they touch. */
const thrown: fc.Arbitrary<Build | undefined> = fc
  .array(fc.tuple(anyPiece, offset, offset, offset), { minLength: 2, maxLength: 5 })
  .map((all) => {
    const added = all.map(([it, across, along, up], i): Added => {
      const named = { ...it, part: { ...it.part, name: `piece ${i}` } };
      return { at: here, member: named, place: { kind: 'at', corner: { across, along, up } } };
    });
    const floor = member(part('floor', [mm(60), mm(60)], mm(1)));
    return standUp(row('up', [floor]), { added }).build;
  });
const inRows: fc.Arbitrary<Build | undefined> = fc
  .tuple(way, fc.array(anyPiece, { minLength: 2, maxLength: 5 }))
  .map(([it, all]) => {
    const members = all.map(
      (piece, i): Member => ({ ...piece, part: { ...piece.part, name: `piece ${i}` } }),
    );
    return standUp(row(it, members)).build;
  });

function pairsOf({ parts }: Build): readonly (readonly [StandingPart, StandingPart])[] {
  return parts.flatMap((one, i) => parts.slice(i + 1).map((two) => [one, two] as const));
}

describe('shapes, against an independent kernel', () => {
  it('share space where the kernel finds some', () => {
    fc.assert(
      fc.property(fc.oneof(thrown, inRows), (build) => {
        if (build === undefined) return;
        const { overlaps, doubts } = touchingOf(build);
        for (const [one, two] of pairsOf(build)) {
          const is = (it: { part: StandingPart; other: StandingPart | undefined }) =>
            (it.part === one && it.other === two) || (it.part === two && it.other === one);
          const volume = solid(one).intersect(solid(two)).volume();
          if (doubts.some(is)) expect(volume).toBeLessThan(5);
          else if (overlaps.some(is)) expect(volume).toBeGreaterThan(0);
          else expect(volume).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 40 },
    );
  });
  it('touch over as much as the kernel finds covered', () => {
    fc.assert(
      fc.property(fc.oneof(inRows, thrown), (build) => {
        if (build === undefined) return;
        const { contacts, overlaps, doubts } = touchingOf(build);
        for (const [one, two] of pairsOf(build)) {
          const is = (it: { part: StandingPart; other: StandingPart | undefined }) =>
            (it.part === one && it.other === two) || (it.part === two && it.other === one);
          if (overlaps.some(is) || doubts.some(is)) continue;
          const [a, b] = [solid(one), solid(two)];
          const covered = (a.surfaceArea() + b.surfaceArea() - a.add(b).surfaceArea()) / 2;
          const ours = contacts.filter(is).map(({ area }) => area);
          const [lo, hi] = [
            sum(...ours.map((it) => it.lo as Length)),
            sum(...ours.map((it) => it.hi as Length)),
          ];
          expect(covered, `${one.name} ${two.name}`).toBeGreaterThan(float(lo) - 1e-3);
          expect(covered, `${one.name} ${two.name}`).toBeLessThan(float(hi) + 1e-3);
        }
      }),
      { numRuns: 40 },
    );
  });
});
