import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Added, PartMember } from '../../src/expand/placing/rows.ts';
import { judge } from '../../src/fit/index.ts';
import { type Top, topsAt } from '../../src/fit/tops.ts';
import { equal, minus, toDrawnMm } from '../../src/measure/index.ts';
import {
  type Build,
  type Edge,
  type LevelSide,
  levelSides,
  type Outline,
  type StandingPart,
} from '../../src/model/index.ts';
import { boxOf, flattened, onDatum } from '../../src/outline/index.ts';
import { curved, notchedBoard, round, star } from '../outline/anyOutline.ts';
import { here, member, mm, part, row, standUp } from './byHand.ts';

/** Expected: what is found at single places by counting edges in binary floats, far nearer than 0.01 mm. */
const shapes: fc.Arbitrary<Outline> = fc
  .oneof(star, notchedBoard, round, curved)
  .map(onDatum)
  .filter((it) => Object.values(boxOf(it)).every(({ lo, hi }) => equal(lo, hi)));
const way = fc.constantFrom('across', 'along', 'up');
const plates = fc
  .tuple(fc.option(shapes, { freq: 5, nil: undefined }), fc.integer({ min: 1, max: 8 }), way, way)
  .map(([outline, thickness, stands, runs]): PartMember => {
    const box = outline && boxOf(outline);
    const length = box === undefined ? mm(40) : minus(box.right.lo, box.left.lo);
    const width = box === undefined ? mm(20) : minus(box.top.lo, box.bottom.lo);
    const wish = (value: typeof stands) => ({ value, at: here });
    return member(part('plate', [length, width], mm(thickness), { outline }), {
      stance: { thickness: wish(stands), length: runs === stands ? undefined : wish(runs) },
    });
  });
const place = fc.integer({ min: -5, max: 60 }).map((it) => mm(it));
const anyBuild = fc
  .array(fc.tuple(plates, fc.constantFrom(...levelSides), place, place), { minLength: 1, maxLength: 5 })
  .map((all) => {
    const slab = member(part('slab', [mm(60), mm(60)], mm(2)));
    // Each is pushed up to a side, by the size of its block.
    const added = all.map(([it, side, along, up], i): Added => {
      const named = { ...it, part: { ...it.part, name: `piece ${i}` } };
      const alone = standUp(row('up', [named])).build?.parts[0];
      const deep = (which: 'across' | 'along') =>
        alone === undefined ? mm(0) : minus(alone.block.high[which], alone.block.low[which]);
      const corner = {
        across: side === 'left' ? mm(0) : side === 'right' ? minus(mm(60), deep('across')) : along,
        along: side === 'front' ? mm(0) : side === 'back' ? minus(mm(60), deep('along')) : along,
        up,
      };
      return { at: here, member: named, place: { kind: 'at', corner } };
    });
    return { slab, added };
  });

const none = { front: undefined, back: undefined, left: undefined, right: undefined };
const fine = mm(1, 5000);
type Spot = readonly [number, number];

/** Where an upright line meets an outline, from the bottom; the outline lies in its block as seen from the side. */
function crossings(part: StandingPart, right: 'across' | 'along', x: number): readonly number[] {
  const { block, stance, outline } = part;
  if (outline === undefined) return [toDrawnMm(block.low.up), toDrawnMm(block.high.up)];
  const [lowX, lowY] = [toDrawnMm(block.low[right]), toDrawnMm(block.low.up)];
  const isTurned = stance.length === 'up';
  const loops = flattened(outline, 'along', fine).map((loop) =>
    loop.map(({ x: a, y: b }): Spot => {
      const [u, v] = [toDrawnMm(a), toDrawnMm(b)];
      return isTurned ? [lowX + v, lowY + u] : [lowX + u, lowY + v];
    }),
  );
  const found = loops.flatMap((loop) =>
    loop.flatMap(([x0, y0], i): readonly number[] => {
      const [x1, y1] = loop[(i + 1) % loop.length]!;
      return x0 <= x !== x1 <= x ? [y0 + ((x - x0) / (x1 - x0)) * (y1 - y0)] : [];
    }),
  );
  return found.sort((a, b) => a - b);
}

function isOver(part: StandingPart, right: 'across' | 'along', x: number): boolean {
  return toDrawnMm(part.block.low[right]) < x && x < toDrawnMm(part.block.high[right]);
}

function heightIn(tops: readonly Top[], x: number): number | undefined {
  const top = tops.find(({ from, to }) => toDrawnMm(from) <= x && x <= toDrawnMm(to));
  if (top === undefined) return undefined;
  const [from, to, start, end] = [top.from, top.to, top.start, top.end].map(toDrawnMm) as [
    number,
    number,
    number,
    number,
  ];
  return start + ((x - from) / (to - from)) * (end - start);
}

const runOf = (side: LevelSide) => (side === 'front' || side === 'back' ? 'across' : 'along');
const throughOf = (side: LevelSide) => (runOf(side) === 'across' ? 'along' : 'across');

function reaches({ block }: StandingPart, side: LevelSide): boolean {
  const way = throughOf(side);
  return side === 'front' || side === 'left'
    ? toDrawnMm(block.low[way]) <= 0.4
    : toDrawnMm(block.high[way]) >= 59.6;
}

const spots = fc.array(fc.double({ min: 0.05, max: 59.95, noNaN: true }), { minLength: 12, maxLength: 12 });

describe('at single places', () => {
  it('the floor at a side is as high as its highest part there', () => {
    fc.assert(
      fc.property(anyBuild, spots, ({ slab, added }, xs) => {
        const { build } = standUp(row('up', [slab]), { added });
        if (build === undefined) return;
        for (const side of levelSides) {
          const right = runOf(side);
          // Of those that lie or stand across a side, the heights are held by hand elsewhere.
          const along = build.parts.filter(
            (it) => it.outline === undefined || it.stance.thickness === throughOf(side),
          );
          const only: Build = { ...build, parts: along };
          const { least, most } = topsAt(only, side);
          for (const x of xs) {
            const tops = along
              .filter((it) => reaches(it, side) && isOver(it, right, x))
              .map((it) => Math.max(...crossings(it, right, x)));
            const expected = Math.max(...tops);
            const [low, high] = [heightIn(least, x), heightIn(most, x)];
            // Next to an upright edge a hair to the side is another height.
            const isSteep = [x - 0.03, x + 0.03].some((near) => {
              const there = along
                .filter((it) => reaches(it, side) && isOver(it, right, near))
                .map((it) => Math.max(...crossings(it, right, near)));
              return Math.abs(Math.max(...there) - expected) > 0.1;
            });
            if (isSteep) continue;
            expect(low).toBeLessThanOrEqual(expected + 0.001);
            expect(high).toBeGreaterThanOrEqual(expected - 0.001);
            expect(high! - low!).toBeLessThan(0.25);
          }
        }
      }),
      { numRuns: 25 },
    );
  });

  it('a wall is open where one can look through', () => {
    let open = 0;
    const wall: Edge = { kind: 'wall', at: here };
    fc.assert(
      fc.property(anyBuild, fc.constantFrom(...levelSides), spots, ({ slab, added }, side, xs) => {
        const { build } = standUp(row('up', [slab]), { added, edges: { ...none, [side]: wall } });
        if (build === undefined) return;
        const fault = judge(build, { ruler: [mm(1, 2)], wander: undefined }).faults.find(
          (it) => it.kind === 'not closed' || (it.kind === 'hangs on a curve' && it.what === 'way through'),
        );
        if (fault?.kind === 'hangs on a curve') return;
        const isOpen = (x: number) => isOpenAt(build, side, x);
        if (fault === undefined) {
          // Nothing wider than the slack is open: of three places so far apart never all.
          for (const x of xs) {
            const all = Array.from({ length: 9 }, (_, i) => x - 0.25 + i / 16);
            expect(all.every((near) => near > 0 && near < 60 && isOpen(near))).toBe(false);
          }
          return;
        }
        if (fault.kind !== 'not closed') return;
        open++;
        const middle = (toDrawnMm(fault.from) + toDrawnMm(fault.to)) / 2;
        expect(isOpen(middle) || isOpen(middle - 0.02) || isOpen(middle + 0.02)).toBe(true);
      }),
      { numRuns: 80 },
    );
    expect(open).toBeGreaterThan(10);
  });
});

/** From the table up to the highest of what reaches the side, is there a gap that nothing behind a hole closes? */
function isOpenAt(build: Build, side: LevelSide, x: number): boolean {
  const right = runOf(side);
  const here_ = build.parts.filter((it) => isOver(it, right, x));
  const isFace = (it: StandingPart) => it.outline !== undefined && it.stance.thickness === throughOf(side);
  const spans = (it: StandingPart): readonly Spot[] => {
    if (!isFace(it)) return [[toDrawnMm(it.block.low.up), toDrawnMm(it.block.high.up)]];
    const at = crossings(it, right, x);
    return at.flatMap((low, i): readonly Spot[] => (i % 2 === 0 ? [[low, at[i + 1]!]] : []));
  };
  const near = here_.filter((it) => reaches(it, side));
  const faces = near.filter(isFace);
  const through = throughOf(side);
  const isBehind = (it: StandingPart) =>
    faces.some((face) =>
      side === 'front' || side === 'left'
        ? toDrawnMm(it.block.low[through]) >= toDrawnMm(face.block.high[through])
        : toDrawnMm(it.block.high[through]) <= toDrawnMm(face.block.low[through]),
    );
  const behind = here_.filter((it) => !near.includes(it) && isBehind(it));
  const ofNear = near.flatMap(spans);
  if (ofNear.length === 0) return true;
  const top = Math.max(...ofNear.map(([, high]) => high));
  const ofFaces = Math.max(0, ...faces.flatMap(spans).map(([, high]) => high));
  const closing = behind.flatMap(spans).map(([low, high]): Spot => [low, Math.min(high, ofFaces)]);
  let reached = 0;
  for (const [low, high] of [...ofNear, ...closing].sort((a, b) => a[0] - b[0])) {
    if (low <= reached + 0.001) reached = Math.max(reached, high);
  }
  return reached < top - 0.001;
}
