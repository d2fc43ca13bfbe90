import fc from 'fast-check';
import initManifold from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge } from '../../src/fit/index.ts';
import { touchingOf } from '../../src/fit/touching.ts';
import { zero } from '../../src/measure/index.ts';
import { type StandingPart, ways } from '../../src/model/index.ts';
import { bodyOf, sideAreaOf } from '../../src/outline/index.ts';
import { specOf } from '../expand/check.ts';
import { blockAt, float, lying, piece, type Solid } from './bodiesByHand.ts';
import { mm } from './byHand.ts';

/** Parts that slope or are folded, with something cut into them, where they stand. */
type Kernel = Awaited<ReturnType<typeof initManifold>>;
let kernel: Kernel;
beforeAll(async () => {
  kernel = await initManifold();
  kernel.setup();
});

const opening = (t: string) => `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: ${t} }, foam: { thickness: 10 } }
sheets: { card: [{ size: [800, 800] }], foam: [{ size: [800, 800] }] }
`;

function fitOf(text: string) {
  const { value, diagnostics } = expand(specOf(text), {});
  expect(diagnostics.map(({ code, message }) => `${code} ${message}`)).toEqual([]);
  return judge(value!.builds[0]!, { ruler: value!.settings.ruler.value, wander: undefined });
}

/** What is cut out, in the drawing of a part. */
interface Cut {
  readonly kind: 'rectangle' | 'circle';
  readonly middle: readonly [number, number];
  readonly size: readonly [number, number];
}

const written = (cuts: readonly Cut[]): string =>
  cuts
    .map(({ kind, middle: [x, y], size: [a, b] }) => {
      const hole = kind === 'circle' ? `circle: ${a}` : `rectangle: [${a}, ${b}]`;
      return `{ hole: { ${hole} }, centre: [${x}, ${y}] }`;
    })
    .join(', ');

/** A flat board of that length and width with its cuts, its lower face at 0. */
function board([long, wide]: readonly [number, number], thick: number, cuts: readonly Cut[]): Solid {
  const { CrossSection } = kernel;
  const whole = CrossSection.square([long, wide]);
  const left = cuts.reduce((all, { kind, middle, size: [a, b] }) => {
    const hole = kind === 'circle' ? CrossSection.circle(a / 2, 256) : CrossSection.square([a, b], true);
    return all.subtract(hole.translate(middle as [number, number]));
  }, whole);
  return left.extrude(thick);
}

/** Columns of where x, y and z go, and the place of the datum; across, along, up. */
const laidOut = (solid: Solid, ...columns: readonly (readonly [number, number, number])[]): Solid => {
  const [x, y, z, at] = columns.map((it) => [...it]) as [number[], number[], number[], number[]]; // four
  return solid.transform([...x, 0, ...y, 0, ...z, 0, ...at, 1] as never); // sixteen numbers, column by column
};

const box = (low: readonly number[], size: readonly number[]): Solid =>
  kernel.Manifold.cube(size as [number, number, number]).translate(low as [number, number, number]);

/** A block somewhere about, in whole quarters, and the same in floats. */
const blocks = fc
  .tuple(
    ...[40, 40, 40].map((most) =>
      fc.tuple(fc.integer({ min: -20, max: most * 4 }), fc.integer({ min: 4, max: 60 })),
    ),
  )
  .map((spans) => ({
    part: piece(
      'block',
      blockAt(
        spans.map(([at]) => mm(at, 4)),
        spans.map(([, size]) => mm(size, 4)),
      ),
      lying,
    ),
    low: spans.map(([at]) => at / 4),
    size: spans.map(([, size]) => size / 4),
  }));

function agrees(parts: readonly [StandingPart, StandingPart], shared: number): void {
  const { overlaps, doubts } = touchingOf({ parts, glueLine: zero } as never); // all that it looks at
  if (doubts.length > 0) expect(shared).toBeLessThan(3);
  else if (overlaps.length > 0) expect(shared).toBeGreaterThan(1e-4);
  else expect(shared).toBeLessThan(1e-2);
}

function looksAsLargeAs(part: StandingPart, solid: Solid): void {
  const areas = ways.flatMap((way) =>
    (['low', 'high'] as const).map((end) => sideAreaOf(bodyOf(part), way, end)),
  );
  const sum = (end: 'lo' | 'hi') => areas.reduce((all, area) => all + float(area[end]), 0);
  const surface = solid.surfaceArea();
  expect(surface).toBeGreaterThan(sum('lo') * (1 - 2e-3));
  expect(surface).toBeLessThan(sum('hi') * (1 + 2e-3));
}

const cutsIn = (long: number, wide: number): fc.Arbitrary<readonly Cut[]> =>
  fc
    .tuple(
      fc.constantFrom('rectangle' as const, 'circle' as const),
      fc.integer({ min: 12, max: Math.floor(long) - 12 }),
      fc.integer({ min: 12, max: wide - 12 }),
      fc.integer({ min: 4, max: 14 }),
      fc.integer({ min: 4, max: 14 }),
    )
    .map(([kind, x, y, a, b]) => [{ kind, middle: [x, y], size: [a, b] }]);

// Source of every expected value in this block: manifold-3d 3.5.4, an independent solid kernel in binary floats, and
// Pythagoras in floats.
describe('what is cut into a sloping board, against an independent kernel', () => {
  const slopes = fc
    .record({
      run: fc.constantFrom(40, 36, 50),
      rise: fc.constantFrom(30, 15, 20, 7),
      thick: fc.constantFrom(1.5, 2, 4),
      to: fc.constantFrom('back' as const, 'front' as const, 'left' as const, 'right' as const),
      ends: fc.constantFrom('plumb' as const, 'square' as const),
    })
    .chain((slope) => fc.tuple(fc.constant(slope), cutsIn(Math.hypot(slope.run, slope.rise), 40), blocks));

  it('is free where the kernel finds it free, and its faces and walls are as large', () => {
    fc.assert(
      fc.property(slopes, ([{ run, rise, thick, to, ends }, cuts, block]) => {
        const isAlong = to === 'back' || to === 'front';
        // The drawing's length runs up the slope.
        const fit = fitOf(`${opening(`${thick}`)}
tiles:
  ramp:
    footprint: [${isAlong ? `40, ${run}` : `${run}, 40`}]
    parts: { deck: { of: card, size: [rest, 40], cuts: [${written(cuts)}] } }
    build: { up: [{ part: deck, slope: { to: ${to}, rise: ${rise}, ends: ${ends} }, length: ${isAlong ? 'along' : 'across'}, up to: 0.1 }] }
`);
        const [deck] = fit.build.parts;
        const long = Math.hypot(run, rise);
        const [cos, sin] = [run / long, rise / long];
        const isUp = to === 'back' || to === 'right';
        // As it is seen from beside, from the lower left end of its slope, and how far it begins behind that.
        const gap = ends === 'square' ? thick * sin : 0;
        const stretch = ends === 'square' ? long - (thick * rise) / run : long + (thick * rise) / run;
        const flat = board([stretch, 40], thick, cuts);
        const foot = thick / cos;
        const [w, z]: readonly [number, number] = isUp
          ? [gap, 0]
          : ends === 'square'
            ? [thick * sin - thick * sin, stretch * sin]
            : [-thick * sin, rise + foot - thick * cos];
        const up = isUp ? sin : -sin;
        const place = (x: number, y: number, h: number): [number, number, number] =>
          isAlong ? [y, x, h] : [x, y, h];
        const room = box([0, 0, -1], isAlong ? [40, run, 200] : [run, 40, 200]);
        const solid = laidOut(
          flat,
          place(cos, 0, up),
          place(0, 1, 0),
          place(-up, 0, cos),
          place(w, 0, z),
        ).intersect(room);
        const other = box(block.low, block.size);
        agrees([deck!, block.part], solid.intersect(other).volume());
        looksAsLargeAs(deck!, solid);
      }),
      { numRuns: 40 },
    );
  });
});
