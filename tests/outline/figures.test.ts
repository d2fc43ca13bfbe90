import { describe, expect, it } from 'vitest';
import {
  add,
  divide,
  isZero,
  millimetres,
  multiply,
  rational,
  subtract,
  toFraction,
} from '../../src/measure/index.ts';
import {
  areaOf,
  boxOf,
  circle,
  compassStepsOf,
  curvedLengthOf,
  flattened,
  halfRound,
  path,
  perimeterOf,
  pi,
  polygon,
  quarterRound,
} from '../../src/outline/index.ts';
import { at, inch, inSquareInches, made, mm, roundsTo, width } from './drawing.ts';

/** The segment of a circle over a chord: a straight base, and an arc by its rise. */
function segment(chord: ReturnType<typeof mm>, rise: ReturnType<typeof mm>) {
  const [left, right] = [{ ...at(0, 0) }, { x: chord, y: at(0, 0).y }];
  return made(
    path(left, [
      { kind: 'line', to: right },
      { kind: 'arc', to: left, rise, swells: 'right' },
    ]),
  );
}

function withRadius(chord: ReturnType<typeof mm>, radius: ReturnType<typeof mm>) {
  const [left, right] = [at(0, 0), { x: chord, y: at(0, 0).y }];
  return made(
    path(left, [
      { kind: 'line', to: right },
      { kind: 'arc', to: left, radius, swells: 'right' },
    ]),
  );
}

/** To twelve places. */
function fromDouble(value: number) {
  return millimetres(rational(BigInt(Math.round(value * 2 ** 40)), 2n ** 40n));
}

describe('printed figures', () => {
  // Source: MatheAss help, page "Circular Sections", worked example: chord 21, sagitta 6 (verified).
  it('agree for the segment with chord 21 and sagitta 6', () => {
    const outline = segment(mm(21), mm(6));
    const [step] = compassStepsOf(outline);
    expect(step?.radius.lo).toEqual(mm(195, 16));
    expect(step?.radius.hi).toEqual(mm(195, 16));
    expect(roundsTo(areaOf(outline), '89.254148')).toBe(true);
    expect(roundsTo(curvedLengthOf(outline), '25.308373')).toBe(true);
  });

  // Source: the same page: the circle of that segment and its sector (verified).
  it('agree for its circle and its sector', () => {
    expect(roundsTo(areaOf(made(circle(mm(195, 8)))), '466.63696')).toBe(true);
    const triangle = rational(21n * 99n, 32n); // half the chord times (radius − sagitta), worked out by hand
    const { lo, hi } = areaOf(segment(mm(21), mm(6)));
    expect(roundsTo({ lo: add(lo, triangle), hi: add(hi, triangle) }, '154.2229')).toBe(true);
  });

  // Source: computed with 36π, 6π; no page opened.
  it('agree for a quarter round of 12 in', () => {
    const outline = made(quarterRound(inch(12)));
    expect(roundsTo(inSquareInches(areaOf(outline)), '113.09734')).toBe(true);
    const { lo, hi } = curvedLengthOf(outline);
    const inInches = { lo: divide(lo, rational(127n, 5n)), hi: divide(hi, rational(127n, 5n)) };
    expect(roundsTo(inInches, '18.84956')).toBe(true);
  });

  // Source: computed: area (θ − sin θ)/2 and arc θ of a circle of radius 1, from chord 2 sin(θ/2), height
  // 1 − cos(θ/2). Chord and height are typed as they are printed, so only the angles whose are rational serve:
  // 180°, and 120° and 60° by their radius.
  it('agree for half a circle of radius 1', () => {
    const outline = made(halfRound(mm(2)));
    expect(roundsTo(areaOf(outline), '1.57080')).toBe(true);
    expect(roundsTo(curvedLengthOf(outline), '3.14159')).toBe(true);
    expect(boxOf(outline).top).toEqual({ lo: mm(1), hi: mm(1) });
  });

  it('agree for the segment whose chord is the radius, 60°', () => {
    const base = { kind: 'line', to: at(1, 0) } as const;
    const outline = made(
      path(at(0, 0), [base, { kind: 'arc', to: at(0, 0), radius: mm(1), swells: 'right' }]),
    );
    expect(roundsTo(areaOf(outline), '0.09059')).toBe(true);
    expect(roundsTo(curvedLengthOf(outline), '1.04720')).toBe(true);
    expect(roundsTo(boxOf(outline).top, '0.13397')).toBe(true);
  });

  // Source: computed from s = rθ, c = 2r sin(θ/2), h = r(1 − cos(θ/2)), K = r²(θ − sin θ)/2, the formulas as two
  // pages on circular segments give them (verified); the figures as handbooks print them for r = 1, five places.
  // The chord is given to the outline to twelve places.
  it.each([
    [10, '0.17453', '0.00381', '0.17431', '0.00044'],
    [30, '0.52360', '0.03407', '0.51764', '0.01180'],
    [45, '0.78540', '0.07612', '0.76537', '0.03915'],
    [60, '1.04720', '0.13397', '1.00000', '0.09059'],
    [90, '1.57080', '0.29289', '1.41421', '0.28540'],
    [120, '2.09440', '0.50000', '1.73205', '0.61418'],
    [150, '2.61799', '0.74118', '1.93185', '1.05900'],
  ])('agree for a segment of %i° and radius 1', (degrees, arc, height, chord, area) => {
    const wide = 2 * Math.sin((degrees * Math.PI) / 360);
    expect(wide.toFixed(5)).toBe(chord);
    const outline = withRadius(fromDouble(wide), mm(1));
    expect(roundsTo(curvedLengthOf(outline), arc)).toBe(true);
    expect(roundsTo(boxOf(outline).top, height)).toBe(true);
    expect(roundsTo(areaOf(outline), area)).toBe(true);
  });

  // Source: MatheAss help, page "Circular Sections", worked example: arc 1, θ 45° (verified).
  it('agree for the segment with arc 1 and angle 45°', () => {
    const [radius, chord] = [4 / Math.PI, (8 / Math.PI) * Math.sin(Math.PI / 8)];
    expect([radius.toFixed(7), chord.toFixed(8)]).toEqual(['1.2732395', '0.97449536']);
    const outline = withRadius(fromDouble(chord), fromDouble(radius));
    expect(roundsTo(curvedLengthOf(outline), '1.0000000')).toBe(true);
    expect(roundsTo(boxOf(outline).top, '0.096919589')).toBe(true);
    expect(roundsTo(areaOf(outline), '0.063460604')).toBe(true);
  });

  // Source: computed: r(1 − cos(π/n)) is how far a side of a regular n-gon is off its circle: 1.921 mm for 16 sides
  // of r = 100, 0.482 for 32, 0.120 for 64. As many sides as that are needed, and no more than twice as many.
  it.each([
    [mm(2), 16],
    [mm(1, 2), 32],
    [mm(125, 1000), 64],
  ])('need no more sides for a circle than its chords ask for', (off, sides) => {
    const [rim] = flattened(made(circle(mm(200))), 'along', off);
    expect(rim!.length).toBeGreaterThan(sides / 2);
    expect(rim!.length).toBeLessThanOrEqual(2 * sides);
  });

  // Source: π to 40 places, a mathematical constant; from memory.
  it('know π to more than twenty places', () => {
    const known = rational(31415926535897932384626433832795028841971n, 10n ** 40n);
    const { lo, hi } = pi();
    expect(subtract(known, lo).numerator > 0n && subtract(hi, known).numerator > 0n).toBe(true);
    expect(width({ lo, hi })).toBeLessThan(1e-25);
  });
});

describe('areas of polygons', () => {
  // Source: computed by the shoelace sum by hand: (0,0) (19/8,0) (19/8,3/2) (1/2,5/4) in.
  it('are exact fractions', () => {
    const point = (x: number, y: number) => ({ x: inch(x, 8), y: inch(y, 8) });
    const { lo, hi } = areaOf(made(polygon([point(0, 0), point(19, 0), point(19, 12), point(4, 10)])));
    expect(toFraction(lo)).toBe('596773/320');
    expect(isZero(subtract(hi, lo))).toBe(true);
  });

  // Source: a pentagon and its area, 30, that stand in many textbooks on the shoelace sum; from memory.
  it('are those of a textbook pentagon', () => {
    const points = [at(3, 4), at(5, 11), at(12, 8), at(9, 5), at(5, 6)];
    expect(toFraction(areaOf(made(polygon(points))).lo)).toBe('30');
    expect(toFraction(areaOf(made(polygon([...points].reverse()))).lo)).toBe('30');
  });

  // Source: Pythagoras; 3, 4, 5.
  it('have exact perimeters where the sides are rational', () => {
    const { lo, hi } = perimeterOf(made(polygon([at(0, 0), at(4, 0), at(0, 3)])));
    expect([toFraction(lo), toFraction(hi)]).toEqual(['12', '12']);
  });

  it('enclose those that are not', () => {
    // Source: √2, from memory: 1.41421356237309504880…
    const { lo, hi } = perimeterOf(made(polygon([at(0, 0), at(1, 0), at(1, 1)])));
    const square = (a: typeof lo) => {
      const slope = subtract(a, rational(2n));
      return multiply(slope, slope);
    };
    expect(subtract(rational(2n), square(lo)).numerator >= 0n).toBe(true);
    expect(subtract(square(hi), rational(2n)).numerator >= 0n).toBe(true);
    expect(width({ lo, hi })).toBeLessThan(1e-15);
  });
});
