import {
  areaPathsD,
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathsD,
  unionD,
} from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Outline } from '../../src/model/index.ts';
import {
  areaOf,
  bareAreaOf,
  difference,
  flattened,
  intersection,
  laid,
  offset,
  rectangle,
  shareArea,
  sharedAreaOf,
  shiftBy,
  standingOf,
  union,
} from '../../src/outline/index.ts';
import { anywhere, curved, notchedBoard, placed, round, star, whole } from './anyOutline.ts';
import { at, float, made, middle, mm } from './drawing.ts';

// Source of every expected value here: clipper2-ts 2.0.1, a port of an independent polygon library, which
// works on whole numbers; five decimals are asked of it, and curves are given to it flattened.
const decimals = 5;

function paths(outline: Outline): PathsD {
  return flattened(outline, 'along', mm(1, 2000)).map((loop) =>
    loop.map(({ x, y }) => ({ x: float(x), y: float(y) })),
  ) as PathsD;
}

const total = (all: readonly Outline[]) => all.reduce((sum, it) => sum + middle(areaOf(it)), 0);

function agrees(one: Outline, other: Outline, off: number): void {
  const [a, b] = [paths(one), paths(other)];
  const close = (ours: number, theirs: number) => expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(off);
  close(total(difference(one, other)), areaPathsD(differenceD(a, b, FillRule.NonZero, decimals)));
  close(total(union(one, other)), areaPathsD(unionD(a, b, FillRule.NonZero, decimals)));
  const shared = areaPathsD(intersectD(a, b, FillRule.NonZero, decimals));
  close(total(intersection(one, other)), shared);
  const { lo, hi } = sharedAreaOf(one, other);
  expect(float(lo)).toBeLessThanOrEqual(shared + off);
  expect(float(hi)).toBeGreaterThanOrEqual(shared - off);
  const bare = bareAreaOf(one, other);
  expect(float(bare.lo)).toBeLessThanOrEqual(middle(areaOf(one)) - shared + off);
  expect(float(bare.hi)).toBeGreaterThanOrEqual(middle(areaOf(one)) - shared - off);
  if (shared > off) expect(shareArea(one, other)).not.toBe('no');
}

describe('against an independent polygon library', () => {
  it('finds the same areas of what polygons share, leave and join', () => {
    fc.assert(
      fc.property(placed(star), placed(star), (one, other) => agrees(one, other, 0.01)),
      { numRuns: 25 },
    );
  });

  it('finds the same where arcs take part', () => {
    fc.assert(
      fc.property(placed(round), placed(round), (one, other) => agrees(one, other, 0.15)),
      { numRuns: 25 },
    );
  });

  it('finds the same where edges lie on each other', () => {
    const boxed = fc
      .tuple(whole(1, 4), whole(1, 4), whole(-2, 4), whole(-2, 4))
      .map(([a, b, x, y]) => laid(made(rectangle(mm(a * 10), mm(b * 10))), shiftBy(at(x * 10, y * 10))));
    fc.assert(
      fc.property(boxed, boxed, (one, other) => agrees(one, other, 1e-6)),
      { numRuns: 100 },
    );
  });

  it('finds the same where curves take part', () => {
    fc.assert(
      fc.property(placed(curved), placed(fc.oneof(round, curved)), (one, other) => agrees(one, other, 0.2)),
      { numRuns: 10 },
    );
  });

  it('makes outlines larger and smaller by the same, corners kept', () => {
    fc.assert(
      fc.property(notchedBoard, whole(-9, 9), (outline, by) => {
        fc.pre(by !== 0);
        const theirs = inflatePathsD(paths(outline), by, JoinType.Miter, EndType.Polygon, 2, decimals);
        expect(Math.abs(total(offset(outline, mm(by))) - areaPathsD(theirs))).toBeLessThan(0.01);
      }),
      { numRuns: 30 },
    );
  });

  it('makes polygons smaller by the same', () => {
    fc.assert(
      fc.property(star, whole(1, 8), (outline, by) => {
        // Hollow corners of more than 60° stay corners here and there; a library may square off sharper ones.
        const sharp = inflatePathsD(paths(outline), -by, JoinType.Miter, EndType.Polygon, 2, decimals);
        const blunt = inflatePathsD(paths(outline), -by, JoinType.Round, EndType.Polygon, 2, decimals);
        const ours = total(offset(outline, mm(-by)));
        const [least, most] = [areaPathsD(sharp), areaPathsD(blunt)];
        expect(ours).toBeGreaterThan(Math.min(least, most) - 0.05);
        expect(ours).toBeLessThan(Math.max(least, most) + 0.05);
      }),
      { numRuns: 30 },
    );
  });

  it('tells the points inside from those outside as areas do', () => {
    fc.assert(
      fc.property(placed(fc.oneof(round, star)), anywhere, (outline, [x, y]) => {
        // A little square about the point lies in the outline, or out of it, or on its edge.
        const dot = laid(made(rectangle(mm(1, 50), mm(1, 50))), shiftBy(at(x - 0.01, y - 0.01)));
        const shared = areaPathsD(intersectD(paths(outline), paths(dot), FillRule.NonZero, 7));
        const standing = standingOf(outline, at(x, y));
        if (shared > 0.000399) expect(standing).toBe('inside');
        else if (shared < 0.000001) expect(standing).not.toBe('inside');
      }),
      { numRuns: 120 },
    );
  });
});
