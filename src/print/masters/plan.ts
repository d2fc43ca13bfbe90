import { type Area, line, type Mark, moved, type Typeface, words, wordsAround } from '../page/index.ts';
import type { Drawing } from './drawing.ts';
import type { Cell, Grid } from './joints.ts';

const mostWideMm = 110;
const headingMm = 8;
const emptyWords = 'What has no number is empty, and has no page.';

/** The whole master small, with the number of the page that each piece is on; cells without a line have none. */
export function planOfPages(
  face: Typeface,
  drawing: Drawing,
  { grid, cells }: { readonly grid: Grid; readonly cells: readonly Cell[] },
  room: Area,
  first: number,
): readonly Mark[] {
  if (grid.columns.length * grid.rows.length === 1) return [];
  const space = { widthMm: Math.min(mostWideMm, room.right - room.left), heightMm: room.bottom - room.top };
  const share = Math.min(
    1,
    space.widthMm / drawing.widthMm,
    (space.heightMm - headingMm - 10) / drawing.heightMm,
  );
  const [left, top] = [room.left + 2, room.top + headingMm];
  const at = (x: number, y: number) => ({ x: left + x * share, y: top + y * share });
  const reachOf = (stretches: Grid['columns']) => [stretches[0]!.own.from, stretches.at(-1)!.own.to] as const; // a grid has both
  const [west, east] = reachOf(grid.columns);
  const [north, south] = reachOf(grid.rows);
  return [
    words(face, 'heading', 'Which page goes where', { x: room.left, y: room.top + 4 }),
    ...moved([drawing.edges], ({ x, y }) => at(x, y)),
    ...grid.columns.slice(0, -1).map(({ own }) => line('joint', at(own.to, north), at(own.to, south))),
    ...grid.rows.slice(0, -1).map(({ own }) => line('joint', at(west, own.to), at(east, own.to))),
    ...cells.map(({ column, row }, i) => {
      const [along, down] = [grid.columns[column]!.own, grid.rows[row]!.own]; // the cell is one of the grid
      const middle = at((along.from + along.to) / 2, (down.from + down.to) / 2);
      return wordsAround(face, 'part label', `${first + i}`, middle);
    }),
    ...(cells.length === grid.columns.length * grid.rows.length
      ? []
      : [words(face, 'text', emptyWords, { x: left, y: top + drawing.heightMm * share + 8 })]),
  ];
}
