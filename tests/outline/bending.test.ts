import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, isZero, millimetres, rational, toFraction, zero } from '../../src/measure/index.ts';
import type { Curve, Length, Outline } from '../../src/model/index.ts';
import {
  areaOf,
  boxOf,
  circle,
  halfRound,
  path,
  polygon,
  quarterRound,
  rectangle,
  skinOver,
  slot,
  type TopEdge,
  through,
  tightestOf,
  topEdgeOf,
} from '../../src/outline/index.ts';
import { at, float, inch, made, middle, mm, roundsTo, width } from './drawing.ts';

function edgeOf(outline: Outline): TopEdge {
  const found = topEdgeOf(outline);
  if ('turnsBack' in found) throw new Error(`turns back at ${toFraction(found.turnsBack)}`);
  return found.edge;
}

function skin(outline: Outline, thickness: Length) {
  const bent = skinOver(edgeOf(outline), { thickness, within: outline.within });
  if ('kind' in bent) throw new Error(bent.kind);
  return bent;
}

/** A segment of a circle on its chord. */
function segment(chord: Length, by: { readonly rise: Length } | { readonly radius: Length }): Outline {
  const [left, right] = [at(0, 0), { x: chord, y: zero }];
  return made(
    path(left, [
      { kind: 'line', to: right },
      { kind: 'arc', to: left, ...by, swells: 'right' },
    ]),
  );
}

/** To twelve places. */
function fromDouble(value: number): Length {
  return millimetres(rational(BigInt(Math.round(value * 2 ** 44)), 2n ** 44n));
}

describe('over arcs', () => {
  // Source: the table of segments for r = 1 that handbooks print (arc for the angle), values computed;
  // of the outer face of a card 1/10 thick a tenth more, since it lies on 11/10 of the radius.
  it.each([
    [10, '0.17453'],
    [30, '0.52360'],
    [45, '0.78540'],
    [60, '1.04720'],
    [90, '1.57080'],
    [120, '2.09440'],
    [150, '2.61799'],
  ])('%s° of radius 1 is %s long', (degrees, printed) => {
    const chord = fromDouble(2 * Math.sin((degrees * Math.PI) / 360));
    const { developed, leastRadius } = skin(segment(chord, { radius: mm(1) }), mm(1, 10));
    expect(roundsTo(developed.inner, printed)).toBe(true);
    const arc = (degrees * Math.PI) / 180;
    expect(middle(developed.outer)).toBeCloseTo(1.1 * arc, 9);
    expect(middle(developed.middle)).toBeCloseTo(1.05 * arc, 9);
    expect(width(developed.outer)).toBeLessThan(1e-9);
    expect(leastRadius?.radius).toEqual({ lo: mm(1), hi: mm(1) });
  });

  // Source: MatheAss help, page "Circular Sections", worked example: chord 21, sagitta 6 (verified): radius 195/16,
  // arc 25.308373. A skin 3/16 thick lies on a radius of 198/16 outside: 25.308373 × 198/195 = 25.697733, computed.
  it('agree for the segment with chord 21 and sagitta 6', () => {
    const { developed, leastRadius } = skin(segment(mm(21), { rise: mm(6) }), mm(3, 16));
    expect(roundsTo(developed.inner, '25.308373')).toBe(true);
    expect(roundsTo(developed.outer, '25.697733')).toBe(true);
    expect(leastRadius?.radius).toEqual({ lo: mm(195, 16), hi: mm(195, 16) });
  });

  // Source: computed, π (r + t) for half a circle and π (r + t) / 2 for a quarter.
  it('are half and a quarter of a circle', () => {
    const half = skin(made(halfRound(inch(3))), inch(1, 16));
    expect(middle(half.developed.outer)).toBeCloseTo(Math.PI * (1.5 + 1 / 16) * 25.4, 9);
    expect(middle(half.developed.inner)).toBeCloseTo(Math.PI * 1.5 * 25.4, 9);
    const quarter = skin(made(quarterRound(mm(30))), mm(2));
    expect(middle(quarter.developed.outer)).toBeCloseTo((Math.PI / 2) * 32, 9);
  });

  it('end square to the edge, where the edge is upright beside it', () => {
    const { profile } = skin(made(halfRound(mm(60))), mm(2));
    const box = boxOf(profile);
    expect([box.left, box.right, box.bottom, box.top]).toEqual(
      [mm(-2), mm(62), mm(0), mm(32)].map((it) => ({ lo: it, hi: it })),
    );
    expect(isZero(profile.within)).toBe(true);
  });
});

describe('over corners and lines', () => {
  // Source: computed, l + t·θ with θ the angle of the corner: 30 + 40 over a right angle.
  it('go round a crest, a full thickness off it', () => {
    const box = made(polygon([at(0, 0), at(70, 0), at(70, 1), at(30, 31), at(0, 1)]));
    const turn = Math.atan2(30, 30) + Math.atan2(30, 40);
    const { developed, leastRadius } = skin(box, mm(2));
    expect(middle(developed.inner)).toBeCloseTo(Math.hypot(30, 30) + 50, 9);
    expect(middle(developed.outer)).toBeCloseTo(Math.hypot(30, 30) + 50 + 2 * turn, 9);
    expect(leastRadius?.radius).toEqual({ lo: zero, hi: zero });
  });
  it('are a lid on a level edge', () => {
    const { developed, profile, leastRadius } = skin(made(rectangle(mm(60), mm(20))), mm(1));
    expect(developed.outer).toEqual({ lo: mm(60), hi: mm(60) });
    expect(leastRadius).toBeUndefined();
    expect(float(areaOf(profile).lo)).toBe(60);
  });
  it('are bent into no hollow corner', () => {
    const valley = made(polygon([at(0, 0), at(60, 0), at(60, 20), at(30, 10), at(0, 20)]));
    const card = { thickness: mm(1), within: zero };
    expect(skinOver(edgeOf(valley), card)).toEqual({ kind: 'hollow', at: mm(30) });
  });
});

describe('an edge that can not be laid over', () => {
  it('turns back under itself, but not where it is laid over to its widest', () => {
    // More than half a circle, on a chord of 10: radius 85/8 by c²/8h + h/2, half a circle over its widest.
    const bulb = made(
      path(at(0, 0), [
        { kind: 'line', to: at(10, 0) },
        { kind: 'arc', to: at(0, 0), rise: mm(20), swells: 'right' },
      ]),
    );
    const { developed } = skin(bulb, mm(1));
    expect(middle(developed.inner)).toBeCloseTo((Math.PI * 85) / 8, 9);
    expect(middle(skin(made(circle(mm(10))), mm(1)).developed.outer)).toBeCloseTo(Math.PI * 6, 9);
    expect(middle(skin(made(slot(mm(40), mm(10))), mm(1)).developed.inner)).toBeCloseTo(30 + Math.PI * 5, 9);
    const hook = made(
      polygon([at(0, 0), at(60, 0), at(60, 40), at(20, 40), at(20, 30), at(40, 30), at(40, 20), at(0, 20)]),
    );
    expect(topEdgeOf(hook)).toHaveProperty('turnsBack');
  });
});

/** y = ∓x²/2 from -1 to 1: its radius is 1 at 0, and there alone so small. Source: computed, r = (1 + x²)^(3/2). */
function parabola(sign: 1 | -1, times = 1): Curve {
  const point = (x: number, y: number) => ({
    x: mm(Math.round(6 * x * times), 6),
    y: mm(Math.round(6 * y * sign * times), 6),
  });
  return {
    kind: 'curve',
    from: point(-1, -1 / 2),
    leaving: point(-1 / 3, 1 / 6),
    arriving: point(1 / 3, 1 / 6),
    to: point(1, -1 / 2),
  };
}

describe('over curves', () => {
  it('are bent as tightly as a parabola at its vertex', () => {
    const crest = tightestOf([parabola(1)], 'over');
    expect(float(crest!.radius.lo)).toBeLessThanOrEqual(1);
    expect(float(crest!.radius.hi)).toBeGreaterThanOrEqual(1 - 1e-12);
    expect(width(crest!.radius)).toBeLessThan(0.001);
    expect(tightestOf([parabola(1)], 'into')).toBeUndefined();
    const hollow = tightestOf([parabola(-1)], 'into');
    expect(middle(hollow!.radius)).toBeCloseTo(1, 3);
    expect(tightestOf([parabola(-1)], 'over')).toBeUndefined();
  });
  it('have their own thickness to bend round in a hollow, and refuse one that leaves none', () => {
    const card = (thickness: Length) => ({ thickness, within: zero });
    const thin = skinOver([parabola(-1)], card(mm(1, 4)));
    expect('kind' in thin ? thin.kind : middle(thin.leastRadius!.radius)).toBeCloseTo(0.75, 3);
    expect(skinOver([parabola(-1)], card(mm(1)))).toMatchObject({ kind: 'tight' });
    expect(skinOver([parabola(1)], card(mm(1)))).not.toHaveProperty('kind');
  });

  const tops: fc.Arbitrary<Outline> = fc
    .record({
      heights: fc.array(fc.integer({ min: 20, max: 60 }), { minLength: 2, maxLength: 6 }),
      ends: fc.tuple(
        fc.constantFrom('flat' as const, 'free' as const),
        fc.constantFrom('flat' as const, 'free' as const),
      ),
    })
    .map(({ heights, ends }) =>
      made(
        through(
          heights.map((y, i) => at(40 * i, y)),
          ends,
        ),
      ),
    );

  it('are as long on every face where they end as they began', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 20, max: 60 }), { minLength: 2, maxLength: 6 }), (heights) => {
        const outline = made(
          through(
            heights.map((y, i) => at(60 * i, y)),
            ['flat', 'flat'],
          ),
        );
        const bent = skinOver(edgeOf(outline), { thickness: mm(1, 2), within: zero });
        if ('kind' in bent) return;
        expect(bent.developed.outer).toEqual(bent.developed.inner);
        expect(bent.developed.middle).toEqual(bent.developed.inner);
      }),
      { numRuns: 60 },
    );
  });

  // Source: computed in double precision: the points of each cubic, moved out by their own normals, in 4000 steps.
  it('are as long as the ways from point to point of what lies off them', () => {
    fc.assert(
      fc.property(tops, fc.integer({ min: 1, max: 8 }), (outline, quarters) => {
        const edge = edgeOf(outline);
        const thickness = mm(quarters, 4);
        const bent = skinOver(edge, { thickness, within: zero });
        if ('kind' in bent) return;
        const off = (by: number) =>
          edge.map((it) => (it.kind === 'curve' ? steps(it, by) : 0)).reduce((a, b) => a + b);
        for (const [face, by] of [
          ['outer', quarters / 4],
          ['middle', quarters / 8],
          ['inner', 0],
        ] as const) {
          const found = bent.developed[face];
          expect(float(found.lo) - 0.0005).toBeLessThanOrEqual(off(by));
          expect(float(found.hi) + 0.0005).toBeGreaterThanOrEqual(off(by));
          expect(width(found)).toBeLessThan(0.02);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('take up as much as their middle is long, by their thickness', () => {
    fc.assert(
      fc.property(tops, fc.integer({ min: 1, max: 8 }), (outline, quarters) => {
        const bent = skinOver(edgeOf(outline), { thickness: mm(quarters, 4), within: zero });
        if ('kind' in bent) return;
        // Source: Pappus: a section of one width along a line that it is square to.
        const wanted = (middle(bent.developed.middle) * quarters) / 4;
        expect(Math.abs(middle(areaOf(bent.profile)) - wanted)).toBeLessThan(
          0.006 * middle(bent.developed.outer),
        );
      }),
      { numRuns: 25 },
    );
  });

  it('lie on the edge itself', () => {
    fc.assert(
      fc.property(tops, (outline) => {
        const edge = edgeOf(outline);
        const bent = skinOver(edge, { thickness: mm(1, 2), within: zero });
        if ('kind' in bent) return;
        expect(bent.profile.rim.slice(0, edge.length)).toEqual(edge);
        expect(compare(bent.profile.within, mm(1, 100))).toBeLessThan(0);
      }),
      { numRuns: 25 },
    );
  });
});

function steps({ from, leaving, arriving, to }: Curve, by: number): number {
  const [p, q, r, s] = [from, leaving, arriving, to].map(({ x, y }) => [float(x), float(y)] as const);
  const mix = (i: 0 | 1, t: number) =>
    p![i] * (1 - t) ** 3 + 3 * q![i] * t * (1 - t) ** 2 + 3 * r![i] * t * t * (1 - t) + s![i] * t ** 3;
  const slope = (i: 0 | 1, t: number) =>
    (q![i] - p![i]) * (1 - t) ** 2 + 2 * (r![i] - q![i]) * t * (1 - t) + (s![i] - r![i]) * t * t;
  const moved = (t: number) => {
    const [dx, dy] = [slope(0, t), slope(1, t)];
    const long = Math.hypot(dx, dy);
    return [mix(0, t) - (by * dy) / long, mix(1, t) + (by * dx) / long] as const;
  };
  let [all, last] = [0, moved(0)];
  for (let i = 1; i <= 4000; i++) {
    const next = moved(i / 4000);
    all += Math.hypot(next[0] - last[0], next[1] - last[1]);
    last = next;
  }
  return all;
}
