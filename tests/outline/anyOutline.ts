import fc from 'fast-check';
import type { Outline } from '../../src/model/index.ts';
import {
  arched,
  circle,
  difference,
  halfRound,
  laid,
  path,
  polygon,
  quarterRound,
  rectangle,
  shiftBy,
  slot,
  through,
} from '../../src/outline/index.ts';
import { at, made, mm } from './drawing.ts';

/** Outlines of every sort at random, of whole millimetres. */

export const whole = (min: number, max: number) => fc.integer({ min, max });

/** Points in the order of their angle round a middle: it never crosses itself. */
export const star: fc.Arbitrary<Outline> = fc
  .tuple(
    fc.uniqueArray(whole(0, 35), { minLength: 3, maxLength: 9 }),
    fc.array(whole(4, 40), { minLength: 9, maxLength: 9 }),
  )
  .map(([angles, lengths]) =>
    polygon(
      angles
        .sort((a, b) => a - b)
        .map((angle, i) => {
          const [turn, length] = [(angle * Math.PI) / 18, lengths[i] ?? 0];
          return at(50 + Math.round(Math.cos(turn) * length), 50 + Math.round(Math.sin(turn) * length));
        }),
    ),
  )
  .filter(({ value }) => value !== undefined)
  .map(made);

export const notchedBoard: fc.Arbitrary<Outline> = fc
  .tuple(whole(20, 60), whole(20, 60), whole(5, 15), whole(5, 15), whole(0, 4))
  .map(([a, b, c, d, x]) => {
    const notch = laid(made(rectangle(mm(c), mm(2 * d))), shiftBy(at(x, b - d)));
    return difference(made(rectangle(mm(a), mm(b))), notch)[0]!; // the notch is narrower than the board
  });

export const round: fc.Arbitrary<Outline> = fc.oneof(
  whole(5, 60).map((it) => made(circle(mm(it)))),
  whole(5, 60).map((it) => made(halfRound(mm(it)))),
  whole(5, 60).map((it) => made(quarterRound(mm(it)))),
  fc.tuple(whole(5, 60), whole(5, 60)).map(([a, b]) => made(slot(mm(a), mm(b)))),
  fc.tuple(whole(5, 60), whole(5, 60)).map(([a, b]) => made(rectangle(mm(a), mm(b)))),
  fc
    .tuple(whole(10, 60), whole(0, 20), whole(1, 5))
    .map(([a, b, c]) => made(arched({ width: mm(a), rise: mm(c) }, mm(b)))),
  fc
    .tuple(whole(10, 60), whole(0, 20), whole(30, 50))
    .map(([a, b, c]) => made(arched({ width: mm(a), radius: mm(c) }, mm(b)))),
  // A slanted arc, swelling either way.
  fc
    .tuple(whole(20, 60), whole(5, 15), whole(15, 30), whole(1, 3), fc.constantFrom('left', 'right'))
    .map(([a, b, c, rise, swells]) =>
      made(
        path(at(0, 0), [
          { kind: 'line', to: at(a, 0) },
          { kind: 'line', to: at(a, b) },
          { kind: 'arc', to: at(0, c), rise: mm(rise), swells: swells === 'left' ? 'left' : 'right' },
        ]),
      ),
    ),
);

export const curved: fc.Arbitrary<Outline> = fc
  .tuple(
    fc.array(whole(4, 20), { minLength: 1, maxLength: 4 }),
    fc.array(whole(2, 40), { minLength: 5, maxLength: 5 }),
    fc.constantFrom('flat', 'free'),
  )
  .map(([runs, heights, end]) => {
    let x = 0;
    const points = [0, ...runs].map((run, i) => {
      x += run;
      return at(x, heights[i] ?? 1);
    });
    return made(through(points, [end === 'flat' ? 'flat' : 'free', 'flat']));
  });

export const anywhere = fc.tuple(whole(-40, 80), whole(-40, 80));

export function placed(shape: fc.Arbitrary<Outline>): fc.Arbitrary<Outline> {
  return fc.tuple(shape, anywhere).map(([it, [x, y]]) => laid(it, shiftBy(at(x, y))));
}
