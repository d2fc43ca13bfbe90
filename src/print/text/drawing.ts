import type { SheetPlan } from '../../model/index.ts';
import { type Lines, type Look, signsOf, widthOf } from '../columns/index.ts';
import { blankCanvas } from './canvas.ts';
import { leadingCuts, letterOf, marksAlong, stripsBeside, writeMarks, writeStrips } from './edgeMarks.ts';
import { drawBlocks } from './filling.ts';
import { type DrawingRoom, layOut, type Placing } from './pictureLayout.ts';

export interface Drawing {
  readonly lines: Lines;
  /** What the numbers in the picture stand for, in order. */
  readonly numbered: readonly string[];
  /** True where thin pieces had to be drawn wider than they are. */
  readonly isStretched: boolean;
}

/**
 * Draws a layout in proportion (a character is twice as high as wide). Marks of the first cuts stand along
 * the edge that they are measured along, so the picture can be read like the rule laid against the sheet.
 *
 *      6 ┏━━━━━━━━━━━━┯━━━━━┓
 *        ┃            │     ┃ strip B
 *      3 ┠──────┬─────┴─────┨
 *        ┃      │           ┃ strip A
 *        ●━━━━━━┷━━━━━━━━━━━┛
 *                          12
 */
export function drawSheet(sheet: SheetPlan, room: DrawingRoom): Drawing {
  const leading = leadingCuts(sheet);
  const marks = marksAlong(leading, sheet, room.showing);
  const leftMargin = Math.max(...marks.up.map(({ text }) => widthOf(text))) + 1;
  const names = stripsBeside(leading.up, sheet);
  const rightMargin =
    names.length === 0 ? 0 : 2 + Math.max(...names.map(({ name }) => widthOf(letterOf(name))));

  const available = room.columns - leftMargin - rightMargin - 1;
  const inner = Math.max(Math.min(available, leastColumns), Math.floor(available * room.share));
  const plan = layOut(sheet, room, inner);
  const canvas = blankCanvas(leftMargin + plan.x.cells + 1 + rightMargin, plan.y.cells + 3);
  const place: Placing = { canvas, plan, leftMargin, top: 1 };
  const numbered = drawBlocks(place, room);
  drawOutline(place, room.look);
  writeMarks(place, marks, room);
  writeStrips(place, sheet, names);
  const lines = canvas.toLines(room.look.ascii);
  return {
    lines: trimBlank(lines),
    numbered,
    isStretched: plan.x.worstShift > 2 || plan.y.worstShift > 1,
  };
}

/** A small offcut is not drawn smaller than this, or its words would have no room. */
const leastColumns = 40;

function drawOutline(place: Placing, look: Look): void {
  const { canvas, plan, leftMargin, top } = place;
  const right = leftMargin + plan.x.cells;
  const bottom = top + plan.y.cells;
  const corners = {
    leftTop: { column: leftMargin, row: top },
    rightTop: { column: right, row: top },
    leftBottom: { column: leftMargin, row: bottom },
    rightBottom: { column: right, row: bottom },
  };
  canvas.line(corners.leftTop, corners.rightTop, 2);
  canvas.line(corners.leftBottom, corners.rightBottom, 2);
  canvas.line(corners.leftTop, corners.leftBottom, 2);
  canvas.line(corners.rightTop, corners.rightBottom, 2);
  canvas.write(corners.leftBottom, signsOf(look).datum);
}

function trimBlank(lines: Lines): Lines {
  const from = lines.findIndex((line) => line.trim() !== '');
  const to = lines.findLastIndex((line) => line.trim() !== '');
  return lines.slice(from, to + 1);
}
