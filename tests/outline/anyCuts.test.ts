import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BoxSide, Corner } from '../../src/model/index.ts';
import { areaOf, type Cut, circle, slot, withCuts } from '../../src/outline/index.ts';
import { selfCrossingOf } from '../../src/outline/wellFormed.ts';
import { curved, notchedBoard, round, star, whole } from './anyOutline.ts';
import { at, float, made, mm } from './drawing.ts';

const edge = fc.constantFrom<BoxSide>('left', 'right', 'bottom', 'top');
const corner = fc.constantFrom<Corner>('top left', 'top right', 'bottom left', 'bottom right');
const along = fc.oneof(
  fc.constant(undefined),
  fc
    .tuple(fc.constantFrom('low' as const, 'high' as const), whole(0, 20))
    .map(([end, clear]) => ({ end, clear: mm(clear) })),
);
const repeat = fc.oneof(
  fc.constant(undefined),
  fc.tuple(whole(1, 4), whole(1, 15)).map(([times, every]) => ({ times, every: mm(every) })),
  fc.tuple(whole(1, 4), whole(0, 9)).map(([times, apart]) => ({ times, apart: mm(apart) })),
);

const cut: fc.Arbitrary<Cut> = fc.oneof(
  fc
    .tuple(fc.constantFrom('round' as const, 'clip' as const), corner, whole(0, 12))
    .map(([kind, which, size]): Cut => ({ kind, corners: new Map([[which, mm(size)]]) })),
  fc
    .tuple(fc.constantFrom('round' as const, 'clip' as const), whole(1, 12))
    .map(([kind, size]): Cut => ({ kind, corners: mm(size) })),
  fc
    .record({ size: fc.tuple(whole(1, 20), whole(0, 20)), edge, along, repeat })
    .map(({ size: [a, b], ...rest }): Cut => ({ kind: 'notch', size: [mm(a), mm(b)], ...rest })),
  fc.record({ width: whole(2, 20), rise: whole(1, 9), sides: whole(0, 6), edge, along, repeat }).map(
    ({ width, rise, sides, ...rest }): Cut => ({
      kind: 'arch',
      size: { width: mm(width), rise: mm(rise) },
      sides: mm(sides),
      ...rest,
    }),
  ),
  fc
    .record({ size: whole(1, 9), along, up: along, repeat })
    .map(
      ({ size, repeat, ...place }): Cut => ({ kind: 'hole', outline: made(circle(mm(size))), place, repeat }),
    ),
  fc.tuple(whole(2, 9), whole(2, 9), whole(0, 60), whole(0, 60)).map(
    ([a, b, x, y]): Cut => ({
      kind: 'hole',
      outline: made(slot(mm(a), mm(b))),
      place: { centre: at(x, y) },
      repeat: undefined,
    }),
  ),
);

describe('any cuts in any outline', () => {
  it('give an outline that is closed, does not cross itself and is no larger, or say why not', () => {
    fc.assert(
      fc.property(
        fc.oneof(round, star, notchedBoard, curved),
        fc.array(cut, { minLength: 1, maxLength: 4 }),
        (part, cuts) => {
          const { value, faults } = withCuts(part, cuts);
          const outline = made({ value, faults: [] });
          for (const loop of [outline.rim, ...outline.holes]) {
            expect(loop.length).toBeGreaterThan(1);
            loop.forEach((it, i) => {
              expect(it.to).toEqual(loop[(i + 1) % loop.length]?.from);
            });
            expect(selfCrossingOf(loop)).toBeUndefined();
          }
          expect(float(areaOf(outline).lo)).toBeLessThanOrEqual(float(areaOf(part).hi) + 1e-6);
          for (const { facet } of faults) expect(facet[0]).toBe('cuts');
        },
      ),
      { numRuns: 80 },
    );
  });
});
