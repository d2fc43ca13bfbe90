import type { Stretch } from '../page/index.ts';
import {
  type Area,
  crossName,
  line,
  type Mark,
  type Point,
  registerMark,
  type Stroke,
  type Typeface,
  words,
  wordsAround,
} from '../page/index.ts';
import { indexOf } from './cells.ts';
import { areaAround } from './drawing.ts';
import { isClear } from './room.ts';

/** Where two pages lie on each other: the same two crosses on both. */
export interface Joint {
  /** Upright: the pages lie side by side; else one above the other. */
  readonly isUpright: boolean;
  /** Row and column of the page before it, and of the one behind it. */
  readonly between: readonly [Cell, Cell];
  readonly from: Point;
  readonly to: Point;
  readonly crosses: readonly { readonly name: string; readonly at: Point }[];
}

export interface Cell {
  readonly column: number;
  readonly row: number;
}

export interface Grid {
  readonly columns: readonly Stretch[];
  readonly rows: readonly Stretch[];
}

/** Nothing else stands so near. */
const aroundCrossMm = 12;

/** All joints of cells that have a page, row by row; the crosses are named A, B, … over the whole master. */
export function jointsOf(
  { columns, rows }: Grid,
  cells: readonly Cell[],
  drawn: readonly Stroke[],
): readonly Joint[] {
  const places: Omit<Joint, 'crosses'>[] = [];
  for (const [row, { own: down }] of rows.entries()) {
    for (const [column, { own: along }] of columns.entries()) {
      const here = { column, row };
      if (column + 1 < columns.length)
        places.push({
          isUpright: true,
          between: [here, { column: column + 1, row }],
          from: { x: along.to, y: down.from },
          to: { x: along.to, y: down.to },
        });
      if (row + 1 < rows.length)
        places.push({
          isUpright: false,
          between: [here, { column, row: row + 1 }],
          from: { x: along.from, y: down.to },
          to: { x: along.to, y: down.to },
        });
    }
  }
  const printed = places.filter(({ between }) => between.every((it) => indexOf(cells, it) >= 0));
  return printed.map((it, index): Joint => {
    const [first, second] = crossesOn(it, drawn);
    return {
      ...it,
      crosses: [
        { name: crossName(2 * index), at: first },
        { name: crossName(2 * index + 1), at: second },
      ],
    };
  });
}

/** Far apart, so that they hold the angle; each where no line runs through it, if there is such a place. */
function crossesOn(
  { from, to }: Pick<Joint, 'from' | 'to'>,
  drawn: readonly Stroke[],
): readonly [Point, Point] {
  const at = (share: number): Point => ({
    x: from.x + (to.x - from.x) * share,
    y: from.y + (to.y - from.y) * share,
  });
  const isFree = (share: number): boolean =>
    isClear(drawn, areaAround(at(share), aroundCrossMm, aroundCrossMm));
  const shares = Array.from({ length: 9 }, (_, i) => 0.12 + i * 0.035);
  const near = shares.find(isFree) ?? 0.2;
  const far = shares.map((it) => 1 - it).find(isFree) ?? 0.8;
  return [at(near), at(far)];
}

/** What a page shows of a joint: the line to lay the other page to, and both crosses with their names. */
export function jointMarks(face: Typeface, joint: Joint): readonly Mark[] {
  return [
    line('joint', joint.from, joint.to),
    ...joint.crosses.flatMap(({ name, at }) => [
      ...registerMark(at),
      words(face, 'key', name, { x: at.x + 1, y: at.y - 1 }),
    ]),
  ];
}

/** Says on the far side of a joint which page goes there, where there is room for it. */
export function neighbourWords(
  face: Typeface,
  joint: Joint,
  cell: Cell,
  page: number,
  taken: readonly Stroke[],
): readonly Mark[] {
  const isBefore = joint.between[0].column === cell.column && joint.between[0].row === cell.row;
  const off = (isBefore ? 1 : -1) * 3;
  const text = `page ${page} joins here`;
  for (let i = 0; i < 15; i++) {
    // From the middle of the joint outwards.
    const share = 0.5 + (i % 2 === 0 ? 1 : -1) * Math.ceil(i / 2) * 0.06;
    const x = joint.from.x + (joint.to.x - joint.from.x) * share;
    const y = joint.from.y + (joint.to.y - joint.from.y) * share;
    const centre = joint.isUpright ? { x: x + off, y } : { x, y: y + off };
    const set = wordsAround(face, 'caption', text, centre, joint.isUpright);
    const area: Area = joint.isUpright
      ? areaAround(centre, 3.4, set.widthMm)
      : areaAround(centre, set.widthMm, 3.4);
    if (isClear(taken, area)) return [set];
  }
  return [];
}
