import { isPositive } from '../../measure/index.ts';
import type { Length, SheetPlan } from '../../model/index.ts';
import type { Frame } from './frame.ts';
import { line, lines, type Mark, type Point } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { heightOf, type Typeface, widthOf, words, wordsEndingAt } from './type.ts';

/** The corner and the two edges that everything is measured from, with a rule laid along them. */
export function datumMarks(frame: Frame, sizes: Sizes, scale: number): readonly Mark[] {
  const { sheet, squared } = frame;
  const corner = { x: squared.left, y: squared.bottom };
  return [
    line('datum edge', corner, { x: corner.x, y: squared.top }),
    line('datum edge', corner, { x: squared.right, y: corner.y }),
    // A black wedge that points into the corner from outside.
    //
    //      │
    //      └────
    //    ◣▘
    {
      kind: 'patch',
      role: 'datum corner',
      points: [
        { x: sheet.left - 0.4, y: sheet.bottom + 0.4 },
        { x: sheet.left - 4, y: sheet.bottom + 1.9 },
        { x: sheet.left - 1.9, y: sheet.bottom + 4 },
      ],
    },
    ...ruleTicks(frame, sizes, scale),
  ];
}

/** Graduations of the reader's rule as far apart as the eye can part them: whole units long, halves short. */
function ruleTicks({ sheet, squared }: Frame, sizes: Sizes, scale: number): readonly Mark[] {
  const unitMm = (sizes.unit === 'inches' ? 25.4 : 10) / scale;
  const stepOf = [unitMm / 4, unitMm / 2, unitMm, unitMm * 5, unitMm * 10, unitMm * 50].find(
    (it) => it >= 1.4,
  );
  if (stepOf === undefined) return [];
  const ends: [Point, Point][] = [];
  const longEvery = Math.max(1, Math.round(unitMm / stepOf));
  for (let count = 0; count * stepOf <= squared.right - squared.left + 0.001; count++) {
    const x = squared.left + count * stepOf;
    const reach = count % longEvery === 0 ? 2.2 : 1.2;
    ends.push([
      { x, y: sheet.bottom + 0.7 },
      { x, y: sheet.bottom + 0.7 + reach },
    ]);
  }
  for (let count = 0; count * stepOf <= squared.bottom - squared.top + 0.001; count++) {
    const y = squared.bottom - count * stepOf;
    const reach = count % longEvery === 0 ? 2.2 : 1.2;
    ends.push([
      { x: sheet.left - 0.7, y },
      { x: sheet.left - 0.7 - reach, y },
    ]);
  }
  return lines('rule tick', ends);
}

/**
 * The marks that the whole sheet gets, each measured from the datum edge: rips up the left edge, crosscuts
 * along the bottom edge. Figures that would stand too close are spread, each tied to its mark by a line.
 */
export function runningMarks(face: Typeface, sizes: Sizes, plan: SheetPlan, frame: Frame): readonly Mark[] {
  return [
    ...upTheLeft(face, sizes, marksOf(plan, 'rip'), frame),
    ...alongTheBottom(face, sizes, marksOf(plan, 'crosscut'), frame),
  ];
}

/** Measured from the datum edge of the whole sheet, up to each of its cuts. */
export function marksOf({ steps }: SheetPlan, kind: 'rip' | 'crosscut'): readonly Length[] {
  const all = steps.flatMap((step) => (step.kind === kind && step.piece.name === 'sheet' ? step.marks : []));
  return all.filter(isPositive);
}

function upTheLeft(face: Typeface, sizes: Sizes, marks: readonly Length[], frame: Frame): readonly Mark[] {
  const height = heightOf('running mark', '\u2044');
  const { sheet, squared } = frame;
  const wanted = marks.map((mark) => squared.bottom - frame.size(mark));
  const places = spread(
    wanted,
    wanted.map(() => height),
    sheet.top - 6,
    sheet.bottom - 1,
  );
  return marks.flatMap((mark, index): readonly Mark[] => {
    const place = places?.[index];
    const at = wanted[index];
    if (place === undefined || at === undefined) return [];
    const figure = wordsEndingAt(face, 'running mark', sizes.brief(mark), {
      x: sheet.left - 7.4,
      y: place + 1.4,
    });
    return [...tie({ x: sheet.left - 3.2, y: at }, { x: sheet.left - 6.8, y: place }), figure];
  });
}

function alongTheBottom(
  face: Typeface,
  sizes: Sizes,
  marks: readonly Length[],
  frame: Frame,
): readonly Mark[] {
  const { sheet, squared } = frame;
  const wanted = marks.map((mark) => squared.left + frame.size(mark));
  const widths = marks.map((mark) => widthOf(face, 'running mark', sizes.brief(mark)) + 1.2);
  const places = spread(wanted, widths, sheet.left + 1, sheet.right + 8);
  return marks.flatMap((mark, index): readonly Mark[] => {
    const place = places?.[index];
    const at = wanted[index];
    const width = widths[index];
    if (place === undefined || at === undefined || width === undefined) return [];
    const figure = words(face, 'running mark', sizes.brief(mark), {
      x: place - width / 2 + 0.6,
      y: sheet.bottom + 10.4,
    });
    return [...tie({ x: at, y: sheet.bottom + 3.2 }, { x: place, y: sheet.bottom + 6.6 }), figure];
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
