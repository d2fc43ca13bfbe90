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
  arched,
  areaOf,
  bareAreaOf,
  circle,
  difference,
  flattened,
  halfRound,
  intersection,
  laid,
  offset,
  polygon,
  quarterRound,
  rectangle,
  shareArea,
  sharedAreaOf,
  shiftBy,
  slot,
  standingOf,
  through,
  union,
} from '../../src/outline/index.ts';
import { at, float, made, middle, mm } from './drawing.ts';

// Source of every expected value here: clipper2-ts 2.0.1, a port of an independent polygon library, which
// works on whole numbers; five decimals are asked of it, and curves are given to it flattened.
const decimals = 5;

function paths(outline: Outline): PathsD {
  return flattened(outline, 'along', mm(1, 2000)).map((loop) =>
    loop.map(({ x, y }) => ({ x: float(x), y: float(y) })),
  ) as PathsD;
}

const whole = (min: number, max: number) => fc.integer({ min, max });

/** Points in order of their angle round a middle: never crossing itself. */
const star = fc
  .uniqueArray(whole(0, 35), { minLength: 3, maxLength: 9 })
  .chain((angles) =>
    fc.tuple(
      fc.constant(angles.sort((a, b) => a - b)),
      fc.array(whole(4, 40), { minLength: 9, maxLength: 9 }),
    ),
  )
  .map(([angles, lengths]) =>
    polygon(
      angles.map((angle, i) => {
        const turn = (angle * Math.PI) / 18;
        return at(
          50 + Math.round(Math.cos(turn) * lengths[i]!),
          50 + Math.round(Math.sin(turn) * lengths[i]!),
        );
      }),
    ),
  )
  .filter(({ value }) => value !== undefined)
  .map(made);

const round = fc.oneof(
  whole(5, 60).map((it) => made(circle(mm(it)))),
  whole(5, 60).map((it) => made(halfRound(mm(it)))),
  whole(5, 60).map((it) => made(quarterRound(mm(it)))),
  fc.tuple(whole(5, 60), whole(5, 60)).map(([a, b]) => made(slot(mm(a), mm(b)))),
  fc.tuple(whole(5, 60), whole(5, 60)).map(([a, b]) => made(rectangle(mm(a), mm(b)))),
  fc
    .tuple(whole(10, 60), whole(0, 20), whole(1, 5))
    .map(([a, b, c]) => made(arched({ width: mm(a), rise: mm(c) }, mm(b)))),
);

const curved = fc
  .tuple(
    fc.array(whole(4, 20), { minLength: 1, maxLength: 4 }),
    fc.array(whole(2, 40), { minLength: 5, maxLength: 5 }),
  )
  .map(([runs, heights]) => {
    let x = 0;
    const points = [0, ...runs].map((run, i) => {
      x += run;
      return at(x, heights[i]!);
    });
    return made(through(points, ['free', 'flat']));
  });

const anywhere = fc.tuple(whole(-40, 80), whole(-40, 80));
const placed = (shape: fc.Arbitrary<Outline>) =>
  fc.tuple(shape, anywhere).map(([it, [x, y]]) => laid(it, shiftBy(at(x, y))));

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
      { numRuns: 60 },
    );
  });

  it('finds the same where arcs take part', () => {
    fc.assert(
      fc.property(placed(round), placed(round), (one, other) => agrees(one, other, 0.2)),
      { numRuns: 80 },
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
      { numRuns: 30 },
    );
  });

  it('makes outlines larger and smaller by the same, corners kept', () => {
    const right = fc
      .tuple(whole(20, 60), whole(20, 60), whole(5, 15), whole(5, 15), whole(0, 4))
      .map(([a, b, c, d, x]) => {
        const notch = laid(made(rectangle(mm(c), mm(2 * d))), shiftBy(at(x, b - d)));
        return difference(made(rectangle(mm(a), mm(b))), notch)[0]!;
      });
    fc.assert(
      fc.property(right, whole(-9, 9), (outline, by) => {
        fc.pre(by !== 0);
        const theirs = inflatePathsD(paths(outline), by, JoinType.Miter, EndType.Polygon, 2, decimals);
        expect(Math.abs(total(offset(outline, mm(by))) - areaPathsD(theirs))).toBeLessThan(0.01);
      }),
      { numRuns: 60 },
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
      { numRuns: 60 },
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
      { numRuns: 300 },
    );
  });
});
