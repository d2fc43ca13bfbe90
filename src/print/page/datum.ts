import { isPositive, zero } from '../../measure/index.ts';
import type { Length, SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { line, lines, type Mark, type Point } from './mark.ts';
import type { Rule, Sizes } from './sizes.ts';
import { heightOf, type Typeface, widthOf, words, wordsEndingAt } from './type.ts';

/** The corner and the two edges that everything is measured from, with a rule laid along them. */
export function datumMarks(face: Typeface, frame: Frame, sizes: Sizes, scale: number): readonly Mark[] {
  const { sheet, squared } = frame;
  const corner = { x: squared.left, y: squared.bottom };
  return [
    line('datum edge', corner, { x: corner.x, y: squared.top }),
    line('datum edge', corner, { x: squared.right, y: corner.y }),
    datumCorner({ x: sheet.left, y: sheet.bottom }),
    ...ruleTicks(face, frame, sizes, scale),
  ];
}

/**
 * A black wedge that points into the corner from outside.
 *
 *      │
 *      └────
 *    ◣▘
 */
export function datumCorner({ x, y }: Point): Mark {
  return {
    kind: 'patch',
    role: 'datum corner',
    points: [
      { x: x - 0.4, y: y + 0.4 },
      { x: x - 4, y: y + 1.9 },
      { x: x - 1.9, y: y + 4 },
    ],
  };
}

/** How far the ticks of all rules reach from the sheet. */
export function ticksMm({ rules }: Sizes): number {
  return 0.7 + longTickMm + (rules.length - 1) * betweenRulesMm;
}

const longTickMm = 2.2;
/** Closer than this the eye can't part ticks. */
const leastApartMm = 1.4;
/** Leaves room for the name of a unit beside each rule. */
const betweenRulesMm = 3.6;

/** The reader's rules, laid along both datum edges: one beyond the other, each with its unit where there are several. */
function ruleTicks(face: Typeface, { sheet, squared }: Frame, sizes: Sizes, scale: number): readonly Mark[] {
  return sizes.rules.flatMap((rule, index) => {
    const out = 0.7 + index * betweenRulesMm;
    const along = ticksOn(rule, scale, squared.right - squared.left).map(
      ({ at, reach }): readonly [Point, Point] => [
        { x: squared.left + at, y: sheet.bottom + out },
        { x: squared.left + at, y: sheet.bottom + out + reach },
      ],
    );
    const up = ticksOn(rule, scale, squared.bottom - squared.top).map(
      ({ at, reach }): readonly [Point, Point] => [
        { x: sheet.left - out, y: squared.bottom - at },
        { x: sheet.left - out - reach, y: squared.bottom - at },
      ],
    );
    const unit = words(face, 'caption', rule.unit, { x: sheet.right + 1.6, y: sheet.bottom + out + 2 });
    return [...lines('rule tick', [...along, ...up]), ...(sizes.rules.length > 1 ? [unit] : [])];
  });
}

interface Tick {
  readonly at: number;
  readonly reach: number;
}

/** Graduations as far apart as the eye can part them: whole units long, halves shorter, others short. */
function ticksOn({ unitMm, graduationsMm }: Rule, scale: number, lengthMm: number): readonly Tick[] {
  const index = graduationsMm.findIndex((it) => it / scale >= leastApartMm);
  const step = graduationsMm[index];
  if (step === undefined) return [];
  const long = step < unitMm ? unitMm : (graduationsMm[index + 1] ?? step);
  const ticks: Tick[] = [];
  for (let count = 0; (count * step) / scale <= lengthMm + 0.001; count++) {
    const reach = isOn(count, long / step) ? longTickMm : isOn(count, long / 2 / step) ? 1.7 : 1.2;
    ticks.push({ at: (count * step) / scale, reach });
  }
  return ticks;
}

/** True for every so manieth tick, where that is a whole number of them above one. */
function isOn(count: number, every: number): boolean {
  const whole = Math.round(every);
  return Math.abs(every - whole) < 1e-6 && whole > 1 && count % whole === 0;
}

/**
 * The marks that the whole sheet gets, each measured from the datum edge: rips up the left edge, crosscuts
 * along the bottom edge, from 0 on. Figures that would stand too close are spread, each tied to its mark by
 * a line.
 */
export function runningMarks(face: Typeface, sizes: Sizes, plan: SheetPlan, frame: Frame): readonly Mark[] {
  return [
    ...upTheLeft(face, sizes, fromZero(marksOf(plan, 'rip')), frame),
    ...alongTheBottom(face, sizes, fromZero(marksOf(plan, 'crosscut')), frame),
  ];
}

function fromZero(marks: readonly Length[]): readonly Length[] {
  return marks.length === 0 ? [] : [zero, ...marks];
}

/** Measured from the datum edge of the whole sheet, up to each of its cuts. */
export function marksOf({ steps }: SheetPlan, kind: 'rip' | 'crosscut'): readonly Length[] {
  const all = steps.flatMap((step) => (step.kind === kind && step.piece.name === 'sheet' ? step.marks : []));
  return all.filter(isPositive);
}

function upTheLeft(face: Typeface, sizes: Sizes, marks: readonly Length[], frame: Frame): readonly Mark[] {
  const height = heightOf('running mark', '\u2044');
  const { sheet, squared } = frame;
  const ticks = ticksMm(sizes);
  const wanted = marks.map((mark) => squared.bottom - frame.size(mark));
  const places = spread(
    wanted,
    wanted.map(() => height),
    sheet.top - 6,
    sheet.bottom + 2.1,
  );
  return marks.flatMap((mark, index): readonly Mark[] => {
    const place = places?.[index];
    const at = wanted[index];
    if (place === undefined || at === undefined) return [];
    const figure = wordsEndingAt(face, 'running mark', sizes.brief(mark), {
      x: sheet.left - ticks - 4.5,
      y: place + 1.4,
    });
    return [
      ...tie({ x: sheet.left - ticks - 0.3, y: at }, { x: sheet.left - ticks - 3.9, y: place }),
      figure,
    ];
  });
}

function alongTheBottom(
  face: Typeface,
  sizes: Sizes,
  marks: readonly Length[],
  frame: Frame,
): readonly Mark[] {
  const { sheet, squared } = frame;
  const ticks = ticksMm(sizes);
  const wanted = marks.map((mark) => squared.left + frame.size(mark));
  const widths = marks.map((mark) => widthOf(face, 'running mark', sizes.brief(mark)) + 1.2);
  const places = spread(wanted, widths, sheet.left - 2, sheet.right + 8);
  return marks.flatMap((mark, index): readonly Mark[] => {
    const place = places?.[index];
    const at = wanted[index];
    const width = widths[index];
    if (place === undefined || at === undefined || width === undefined) return [];
    const figure = words(face, 'running mark', sizes.brief(mark), {
      x: place - width / 2 + 0.6,
      y: sheet.bottom + ticks + 7.5,
    });
    const [from, to] = [sheet.bottom + ticks + 0.3, sheet.bottom + ticks + 3.7];
    return [...tie({ x: at, y: from }, { x: place, y: to }), figure];
  });
}

function tie(from: Point, to: Point): readonly Mark[] {
  return [line('running mark', from, to)];
}

/**
 * Moves things along a line as little as it takes for none to overlap, keeping their order.
 *
 * @returns undefined where they don't fit between the ends at all
 */
export function spread(
  wanted: readonly number[],
  sizes: readonly number[],
  least: number,
  most: number,
): readonly number[] | undefined {
  const order = wanted.map((_, index) => index).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0));
  const total = sizes.reduce((all, size) => all + size, 0);
  if (total > most - least) return undefined;
  const places: number[] = [...wanted];
  let edge = least;
  for (const index of order) {
    const half = (sizes[index] ?? 0) / 2;
    places[index] = Math.max(places[index] ?? 0, edge + half);
    edge = (places[index] ?? 0) + half;
  }
  edge = most;
  for (const index of [...order].reverse()) {
    const half = (sizes[index] ?? 0) / 2;
    places[index] = Math.min(places[index] ?? 0, edge - half);
    edge = (places[index] ?? 0) - half;
  }
  return places;
}
