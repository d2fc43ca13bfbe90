import { type Look, signsOf, widthOf, wrap } from '../columns/index.ts';
import type { Block } from './blocks.ts';
import type { Canvas } from './canvas.ts';
import type { Showing } from './lengths.ts';
import { columnOf, type DrawingRoom, type Placing, rowOf, wordOf } from './pictureLayout.ts';

/**
 * Outlines every block and writes into it what it is.
 *
 * @returns  what the numbers stand for that were written where a label had no room
 */
export function drawBlocks(place: Placing, { look, showing }: DrawingRoom): readonly string[] {
  const numbered: string[] = [];
  const numberOf = (word: string) => {
    if (!numbered.includes(word)) numbered.push(word);
    return `${numbered.indexOf(word) + 1}`;
  };
  for (const block of place.plan.blocks) {
    const left = columnOf(place, block.left);
    const right = columnOf(place, block.right);
    const top = rowOf(place, block.top);
    const bottom = rowOf(place, block.bottom);
    place.canvas.line({ column: left, row: top }, { column: right, row: top }, 1);
    place.canvas.line({ column: left, row: bottom }, { column: right, row: bottom }, 1);
    place.canvas.line({ column: left, row: top }, { column: left, row: bottom }, 1);
    place.canvas.line({ column: right, row: top }, { column: right, row: bottom }, 1);
    const inside = { left: left + 1, right: right - 1, top: top + 1, bottom: bottom - 1 };
    if (block.what === 'scrap') hatch(place.canvas, inside, look);
    else {
      divide(place.canvas, inside, block, look);
      fillIn(place.canvas, inside, block, { look, showing, numberOf });
    }
  }
  return numbered;
}

interface Inside {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function hatch(canvas: Canvas, { left, right, top, bottom }: Inside, look: Look): void {
  const sign = signsOf(look).hatch;
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      if ((column + row) % 3 === 0) canvas.write({ column, row }, sign);
    }
  }
}

/** Shows where the pieces of a joined outline part, if these are far enough apart to be told from hatching. */
function divide(canvas: Canvas, { left, right, top, bottom }: Inside, block: Block, look: Look): void {
  const columns = right - left + 2;
  const apart = columns / block.across;
  for (let i = 1; i < block.across && apart >= 3; i++) {
    const column = left - 1 + Math.round(i * apart);
    for (let row = top; row <= bottom; row++) canvas.write({ column, row }, signsOf(look).divider);
  }
  const down = (bottom - top + 2) / block.up;
  for (let i = 1; i < block.up && down >= 2; i++) {
    const row = top - 1 + Math.round(i * down);
    for (let column = left; column <= right; column++)
      canvas.write({ column, row }, signsOf(look).dividerAlong);
  }
}

interface Filling {
  readonly look: Look;
  readonly showing: Showing;
  readonly numberOf: (word: string) => string;
}

/** Label and size where both have room, else the label, else the label in several rows, else a number. */
function fillIn(canvas: Canvas, inside: Inside, block: Block, { look, showing, numberOf }: Filling): void {
  const columns = inside.right - inside.left + 1;
  const rows = inside.bottom - inside.top + 1;
  if (columns < 1 || rows < 1) return;
  const word = wordOf(block, look);
  const size = `${showing.short(block.length)} ${signsOf(look).times} ${showing.short(block.width)}`;
  const wrapped = wrap(word, columns);
  const choices: readonly (readonly string[])[] = [[word, size], [...wrapped, size], [word], wrapped];
  const fits = (lines: readonly string[]) =>
    lines.length <= rows && lines.every((line) => widthOf(line) <= columns) && isWhole(word, columns);
  const lines = choices.find(fits) ?? [numberOf(word)];
  const firstRow = inside.top + ((rows - lines.length) >> 1);
  for (const [i, line] of lines.entries()) {
    const column = inside.left + Math.max(0, (columns - widthOf(line)) >> 1);
    // A blank on either side keeps a joined outline's dividers off the words.
    const isJoined = block.across > 1 && widthOf(line) + 2 <= columns;
    if (block.up > 1) canvas.write({ column: inside.left, row: firstRow + i }, ' '.repeat(columns));
    canvas.write(
      { column: isJoined ? column - 1 : column, row: firstRow + i },
      isJoined ? ` ${line} ` : line,
    );
  }
}

/** No word of a label is broken: a number stands for it instead. */
function isWhole(label: string, columns: number): boolean {
  return label.split(' ').every((word) => widthOf(word) <= columns);
}
