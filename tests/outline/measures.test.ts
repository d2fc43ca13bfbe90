import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRationals, subtract, toFraction } from '../../src/measure/index.ts';
import type { Outline, Point, Segment } from '../../src/model/index.ts';
import { areaWithin } from '../../src/outline/area.ts';
import {
  arched,
  arcsFor,
  areaOf,
  boxOf,
  circle,
  compassStepsOf,
  flattened,
  type Lean,
  laid,
  largerAllRound,
  liesIn,
  offset,
  ordinatesOf,
  polygon,
  rectangle,
  shareArea,
  sharedAreaOf,
  shiftBy,
  standingOf,
  through,
} from '../../src/outline/index.ts';
import { loopThrough } from '../../src/outline/loop.ts';
import { curved, notchedBoard, placed, round, star, whole } from './anyOutline.ts';
import { at, float, inch, made, middle, mm, roundsTo, width } from './drawing.ts';

type Xy = readonly [number, number];

/** Points along a segment, by the textbook's formulas in floats. */
function along(it: Segment, count = 24): readonly Xy[] {
  const xy = ({ x, y }: Point): Xy => [float(x), float(y)];
  const [a, b] = [xy(it.from), xy(it.to)];
  return Array.from({ length: count + 1 }, (_, i): Xy => {
    const t = i / count;
    if (it.kind === 'line') return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    if (it.kind === 'arc') {
      const [x, y] = xy(it.centre);
      const start = Math.atan2(a[1] - y, a[0] - x);
      let sweep = Math.atan2(b[1] - y, b[0] - x) - start;
      if (it.turn === 'left' && sweep <= 0) sweep += 2 * Math.PI;
      if (it.turn === 'right' && sweep >= 0) sweep -= 2 * Math.PI;
      const r = Math.hypot(a[0] - x, a[1] - y);
      return [x + r * Math.cos(start + t * sweep), y + r * Math.sin(start + t * sweep)];
    }
    const [l, m, s] = [xy(it.leaving), xy(it.arriving), 1 - t];
    const at = (k: 0 | 1) => s ** 3 * a[k] + 3 * s * s * t * l[k] + 3 * s * t * t * m[k] + t ** 3 * b[k];
    return [at(0), at(1)];
  });
}

function edgesOf({ rim, holes }: Outline): readonly Segment[] {
  return [rim, ...holes].flat();
}

function fromLine([x, y]: Xy, [ax, ay]: Xy, [bx, by]: Xy): number {
  const [dx, dy] = [bx - ax, by - ay];
  const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

function fromPolygon(at: Xy, polygon: readonly Xy[]): number {
  return Math.min(...polygon.map((it, i) => fromLine(at, it, polygon[(i + 1) % polygon.length] ?? it)));
}

function fromEdges(at: Xy, edges: readonly (readonly Xy[])[]): number {
  return Math.min(...edges.flatMap((it) => it.slice(1).map((to, i) => fromLine(at, it[i] ?? to, to))));
}

describe('flattening', () => {
  const leans: readonly Lean[] = ['inward', 'outward', 'along'];
  const any = fc.oneof(round, curved, star);

  it('is nowhere further off than 0.01 mm', () => {
    fc.assert(
      fc.property(any, fc.constantFrom(...leans), (outline, lean) => {
        const polygons = flattened(outline, lean).map((it) => it.map(({ x, y }): Xy => [float(x), float(y)]));
        const points = edgesOf(outline).flatMap((edge) => along(edge));
        const off = points.map((point) => Math.min(...polygons.map((it) => fromPolygon(point, it))));
        expect(Math.max(...off)).toBeLessThan(0.01 + 1e-9);
      }),
      { numRuns: 25 },
    );
  });

  // Source: areas, by the shoelace sum of the straight edges: of what lies within, and of what lies around.
  it('lies within and around, as asked', () => {
    fc.assert(
      fc.property(any, (outline) => {
        const [inner, outer] = (['inward', 'outward'] as const).map((lean) =>
          areaWithin(loopThrough(flattened(outline, lean)[0] ?? [])),
        );
        const { lo, hi } = areaOf(outline);
        expect(compareRationals(inner!.lo, hi)).toBeLessThanOrEqual(0);
        expect(compareRationals(outer!.hi, lo)).toBeGreaterThanOrEqual(0);
        for (const point of (flattened(outline, 'outward')[0] ?? []).slice(0, 12)) {
          expect(standingOf(outline, point)).not.toBe('inside');
        }
        for (const point of (flattened(outline, 'inward')[0] ?? []).slice(0, 12)) {
          expect(standingOf(outline, point)).not.toBe('outside');
        }
      }),
      { numRuns: 25 },
    );
  });
});

describe('a box', () => {
  it('holds every point, and each of its sides is reached', () => {
    fc.assert(
      fc.property(placed(fc.oneof(round, curved, star)), (outline) => {
        const points = edgesOf(outline).flatMap((it) => along(it, 200));
        const { left, right, bottom, top } = boxOf(outline);
        const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
        expect(Math.abs(Math.min(...xs) - middle(left))).toBeLessThan(0.01);
        expect(Math.abs(Math.max(...xs) - middle(right))).toBeLessThan(0.01);
        expect(Math.abs(Math.min(...ys) - middle(bottom))).toBeLessThan(0.01);
        expect(Math.abs(Math.max(...ys) - middle(top))).toBeLessThan(0.01);
        expect(Math.min(...xs)).toBeGreaterThan(float(left.lo) - 1e-9);
        expect(Math.max(...xs)).toBeLessThan(float(right.hi) + 1e-9);
        expect(Math.min(...ys)).toBeGreaterThan(float(bottom.lo) - 1e-9);
        expect(Math.max(...ys)).toBeLessThan(float(top.hi) + 1e-9);
        expect(Math.max(...[left, right, bottom, top].map(width))).toBeLessThan(1e-6);
      }),
      { numRuns: 50 },
    );
  });
});

describe('setting out by hand', () => {
  // Source: Pythagoras: a half circle of radius 5 is 3 high 4 off its middle, and 4 high 3 off it.
  it('gives ordinates that are exact where they are rational', () => {
    const drain = made(arched({ width: mm(10), rise: mm(5) }, mm(0)));
    const table = ordinatesOf(drain, mm(1)).map(({ along, top }) => [
      float(along),
      toFraction(top.lo),
      toFraction(top.hi),
    ]);
    expect(table[1]).toEqual([1, '3', '3']);
    expect(table[2]).toEqual([2, '4', '4']);
    expect(table[5]).toEqual([5, '5', '5']);
    expect(table.at(-1)).toEqual([10, '0', '0']);
    expect(table.length).toBe(11);
  });

  it('encloses those that are not', () => {
    const drain = made(arched({ width: mm(10), rise: mm(5) }, mm(2)));
    const third = ordinatesOf(drain, mm(3))[1];
    // Source: 2 + √(25 − 4) = 6.58257569…, from memory of √21.
    expect(roundsTo(third!.top, '6.5825757')).toBe(true);
    expect(third?.bottom).toEqual({ lo: mm(0), hi: mm(0) });
    expect(width(third!.top)).toBeLessThan(1e-15);
  });

  it('gives the last ordinate at the right end, whatever the pitch', () => {
    const wedge = made(through([at(0, 5), at(76.2, 30)], ['flat', 'flat']));
    const table = ordinatesOf(wedge, inch(1, 4));
    expect(table.length).toBe(13);
    expect(table.at(-1)?.along).toEqual(inch(3));
    expect(table.at(-1)?.top.lo).toEqual(mm(30));
    expect(ordinatesOf(wedge, mm(50)).map(({ along: x }) => float(x))).toEqual([0, 50, 76.2]);
  });

  it('finds the same heights as the segments have', () => {
    fc.assert(
      fc.property(fc.oneof(round, curved), (outline) => {
        const table = ordinatesOf(outline, mm(3));
        const edges = edgesOf(outline).map((it) => along(it, 400));
        for (const { along: x, top } of table)
          expect(fromEdges([float(x), middle(top)], edges)).toBeLessThan(0.01);
      }),
      { numRuns: 25 },
    );
  });

  it('opens the compass once for a circle', () => {
    expect(compassStepsOf(made(circle(mm(30))))).toMatchObject([
      { centre: at(15, 15), isWhole: true, radius: { lo: mm(15) } },
    ]);
  });
});

describe('larger and smaller all round', () => {
  const any = fc.oneof(round, curved, star, notchedBoard);

  // Source: distances in floats to points along the edges, 100 of each.
  it('keeps every point of the new edge that far from the old one, and no nearer', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          { weight: 4, arbitrary: fc.oneof(round, star, notchedBoard) },
          { weight: 1, arbitrary: curved },
        ),
        whole(-6, 8),
        (outline, by) => {
          fc.pre(by !== 0);
          const edges = edgesOf(outline).map((it) => along(it, 200));
          for (const other of offset(outline, mm(by))) {
            const off = edgesOf(other).flatMap((edge) =>
              along(edge, 6).map((point) => fromEdges(point, edges)),
            );
            expect(Math.min(...off)).toBeGreaterThan(Math.abs(by) - 0.015);
            // A corner of 60° and more stays sharp: at its point twice as far.
            expect(Math.max(...off)).toBeLessThan(2 * Math.abs(by) + 0.015);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('makes larger what it then makes smaller again, where all bends outward', () => {
    fc.assert(
      fc.property(round, whole(1, 6), (outline, by) => {
        const there = made(largerAllRound(outline, mm(by)));
        const [back, ...others] = offset(there, mm(-by));
        expect(others).toEqual([]);
        expect(Math.abs(middle(areaOf(back!)) - middle(areaOf(outline)))).toBeLessThan(0.02);
      }),
      { numRuns: 25 },
    );
  });

  it('never loses its edge when made larger', () => {
    fc.assert(
      fc.property(any, whole(1, 12), (outline, by) => {
        const [larger, ...others] = offset(outline, mm(by));
        expect(others).toEqual([]);
        expect(float(areaOf(larger!).lo)).toBeGreaterThan(float(areaOf(outline).hi));
      }),
      { numRuns: 25 },
    );
  });
});

describe('arcs in place of a curve', () => {
  it('are nowhere further off than asked, and end to end', () => {
    fc.assert(
      fc.property(curved, (outline) => {
        for (const it of outline.rim) {
          if (it.kind !== 'curve') continue;
          const arcs = arcsFor(it, mm(1, 200));
          const drawn = arcs.map((arc) => along(arc, 100));
          expect(arcs[0]?.from).toEqual(it.from);
          expect(arcs.at(-1)?.to).toEqual(it.to);
          arcs.slice(1).forEach((arc, i) => {
            expect(arc.from).toEqual(arcs[i]?.to);
          });
          expect(Math.max(...along(it, 60).map((point) => fromEdges(point, drawn)))).toBeLessThan(
            0.005 + 1e-4,
          );
        }
      }),
      { numRuns: 10 },
    );
  });
});

describe('whether outlines share an area', () => {
  const board = made(rectangle(mm(40), mm(20)));
  const disc = made(circle(mm(20)));
  const moved = (it: Outline, x: number, y: number) => laid(it, shiftBy(at(x, y)));

  it('is exact between straight sides', () => {
    expect(shareArea(board, moved(board, 40, 0))).toBe('no');
    expect(shareArea(board, laid(board, shiftBy({ x: subtract(mm(40), mm(1, 10 ** 9)), y: mm(0) })))).toBe(
      'yes',
    );
    expect(sharedAreaOf(board, moved(board, 30, 5))).toEqual({ lo: mm(150), hi: mm(150) });
    expect(liesIn(board, board)).toBe('yes');
    expect(liesIn(moved(board, 1, 0), board)).toBe('no');
  });

  it('is not known within 0.01 mm of a curve, and says so', () => {
    expect(shareArea(board, moved(disc, 40.02, 0))).toBe('no');
    expect(shareArea(board, moved(disc, 39.9, 0))).toBe('yes');
    // A slope that touches the circle of radius 10 about [10, 10]: 8x + 15y = 400, by hand.
    const slope = made(polygon([at(50, 0), at(50, 32), at(-10, 32)]));
    expect(shareArea(disc, moved(slope, 0, 0.001))).toBe('within');
    expect(shareArea(disc, moved(slope, 0, 0.02))).toBe('no');
    expect(shareArea(disc, moved(slope, 0, -0.02))).toBe('yes');
    // Upright and level tangents are told exactly.
    expect(liesIn(disc, board)).toBe('yes');
    expect(liesIn(disc, moved(board, 0, 0.001))).toBe('no');
    expect(liesIn(made(circle(mm(19))), board)).toBe('yes');
    expect(liesIn(moved(disc, 0, 1), board)).toBe('no');
  });

  it('encloses the area of a contact', () => {
    const { lo, hi } = sharedAreaOf(board, moved(disc, 10, 0));
    expect(float(lo)).toBeLessThan(100 * Math.PI);
    expect(float(hi)).toBeGreaterThan(100 * Math.PI);
    expect(width({ lo, hi })).toBeLessThan(0.01 * 62.9 * 1.1);
  });
});
