import type { StandingPart, Way } from '../../model/index.ts';
import { bodyOf, facesDrawn, rough, shadowOf, shapeAlong } from '../../outline/index.ts';
import type { Canvas, Point } from './canvas.ts';
import type { Axis } from './drawnAxis.ts';

/** Which two ways a view shows. */
interface Seen {
  readonly across: Way;
  readonly up: Way;
}

/** Corners in fractions of characters, from the left and from the top. */
export type DrawnLoop = readonly Point[];

/** How a piece that is less than its block is seen in outline; undefined where it isn't. */
export function outlineSeen(
  part: StandingPart,
  { across, up }: Seen,
  columns: Axis,
  rows: Axis,
): readonly DrawnLoop[] | undefined {
  const body = bodyOf(part);
  const way = (['across', 'along', 'up'] as const).find((it) => it !== across && it !== up) ?? 'up';
  const plane = { right: across, up };
  // The section that is seen from the front, the one with the front to the left, and the plan.
  const nearest = way === 'along' ? 'low' : 'high';
  const loops =
    shapeAlong(body, way) === undefined
      ? facesDrawn(body, way, nearest, plane)
      : shadowOf(body, plane, 'along', rough);
  return loops?.map((loop) =>
    loop.map(({ x, y }) => ({ column: columns.near(x), row: rows.size - rows.near(y) })),
  );
}

/**
 * An outline on squared paper: what slants goes up in steps.
 *
 *            ┌──
 *        ┌───┘
 *     ───┘
 */
export function drawOutline(canvas: Canvas, loops: readonly DrawnLoop[]): void {
  for (const loop of loops) {
    for (const [i, from] of loop.entries()) drawSteps(canvas, from, loop[(i + 1) % loop.length] ?? from);
  }
}

/** From the left to the right, so that two edges that lie against each other take the same steps. */
function drawSteps(canvas: Canvas, one: Point, other: Point): void {
  const isInOrder = one.column < other.column || (one.column === other.column && one.row <= other.row);
  const [from, to] = isInOrder ? [one, other] : [other, one];
  const [first, last] = [Math.round(from.column), Math.round(to.column)];
  let row = Math.round(from.row);
  const goTo = (column: number, next: number): void => {
    canvas.line({ column, row: Math.min(row, next) }, { column, row: Math.max(row, next) }, 1);
    row = next;
  };
  for (let column = first; column < last; column++) {
    const share = (column + 0.5 - from.column) / (to.column - from.column);
    goTo(column, Math.round(from.row + Math.min(1, Math.max(0, share)) * (to.row - from.row)));
    canvas.line({ column, row }, { column: column + 1, row }, 1);
  }
  goTo(last, Math.round(to.row));
}

/** From which row to which an outline has something in a column, from the top. */
export function rowsIn(loops: readonly DrawnLoop[], column: number): readonly (readonly [number, number])[] {
  const met = loops
    .flatMap((loop) =>
      loop.flatMap((from, i): readonly number[] => {
        const to = loop[(i + 1) % loop.length] ?? from;
        if (from.column <= column === to.column <= column) return [];
        return [from.row + ((column - from.column) / (to.column - from.column)) * (to.row - from.row)];
      }),
    )
    .sort((a, b) => a - b);
  return met.flatMap((top, i) => {
    const bottom = met[i + 1];
    return i % 2 > 0 || bottom === undefined ? [] : [[Math.round(top), Math.round(bottom)] as const];
  });
}
