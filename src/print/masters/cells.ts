import type { Stroke } from '../page/index.ts';
import { touches } from './clipping.ts';
import type { Cell, Grid } from './joints.ts';

/**
 * The cells that something of the master is drawn in, row by row: a page is printed for each of them. All cells,
 * where those alone would not hang together by their joints.
 *
 *      ┌────┬────┬────┐
 *      │  ╭─┼──╮ │    │      no page for the cell at the right top
 *      ├──┼─┼──┼─┼────┤
 *      │  ╰─┼──┴─┼──╮ │
 *      └────┴────┴────┘
 */
export function printedCells({ columns, rows }: Grid, drawn: readonly Stroke[]): readonly Cell[] {
  const all = rows.flatMap((_, row) => columns.map((_, column): Cell => ({ column, row })));
  const used = all.filter(({ column, row }) => {
    const [across, down] = [columns[column]!.own, rows[row]!.own]; // the cells are those of the grid
    const area = { left: across.from, right: across.to, top: down.from, bottom: down.to };
    return drawn.some((it) => touches(it, area));
  });
  return hangTogether(used) ? used : all;
}

function hangTogether(cells: readonly Cell[]): boolean {
  const [first, ...rest] = cells;
  const reached = first === undefined ? [] : [first];
  let left = rest;
  for (let at = 0; at < reached.length; at++) {
    const here = reached[at]!;
    const next = left.filter(
      ({ column, row }) => Math.abs(column - here.column) + Math.abs(row - here.row) === 1,
    );
    reached.push(...next);
    left = left.filter((it) => !next.includes(it));
  }
  return left.length === 0;
}

/** Where a cell stands among those that are printed; below 0 for one that is not. */
export function indexOf(cells: readonly Cell[], { column, row }: Cell): number {
  return cells.findIndex((it) => it.column === column && it.row === row);
}
