import { toDrawnMm } from '../../measure/index.ts';
import type { Length, SheetPlan } from '../../model/index.ts';
import { counted, type Look, signsOf, widthOf, wrap } from '../columns/index.ts';
import { type Block, blocksOf, joinSmall } from './blocks.ts';
import type { Canvas } from './canvas.ts';
import type { Showing } from './lengths.ts';
import { setOut, type Ticks } from './scale.ts';

export interface DrawingRoom {
  /** Columns of the whole picture, with the marks beside it. */
  readonly columns: number;
  /** How large this sheet is drawn beside the longest of its material, above 0 and at most 1. */
  readonly share: number;
  readonly kerf: Length;
  readonly showing: Showing;
  readonly look: Look;
}

/** Where everything of a picture goes, in cells. */
export interface PictureLayout {
  readonly blocks: readonly Block[];
  readonly x: Ticks;
  readonly y: Ticks;
}

/**
 * The largest scale that fits; where even thin pieces have no room, they are given less of it. Thin strips
 * are stretched to hold a row of words each, unless there are so many that the picture would grow too tall:
 * then they are joined.
 */
export function layOut(sheet: SheetPlan, { kerf, look }: DrawingRoom, inner: number): PictureLayout {
  const length = toDrawnMm(sheet.inside.length);
  const all = blocksOf(sheet, kerf);
  const linesWithin = lineCounter();
  const tallest = Math.max(40, (inner * toDrawnMm(sheet.inside.width)) / length);
  for (const least of [4, 3, 2, 1]) {
    for (let columns = inner; columns >= inner / 2; columns -= Math.max(1, Math.floor(inner / 12))) {
      const perMm = columns / length;
      for (const leastRows of [1, 0]) {
        const hasRoom = (block: Block) => {
          const cells = Math.round((block.right - block.left) * perMm) - 1;
          const rows = Math.round(((block.top - block.bottom) * perMm) / 2) - 1;
          return linesWithin(wordOf(block, look), cells) <= Math.max(rows, leastRows);
        };
        const layout = setOutBlocks(joinSmall(all, hasRoom), perMm, least);
        if (layout.x.cells <= inner && (layout.y.cells <= tallest || leastRows === 0)) return layout;
      }
    }
  }
  return setOutBlocks(all, inner / length, 0);
}

/** Rows that a label takes within so many columns, infinitely many where a word of it would break. */
function lineCounter(): (label: string, columns: number) => number {
  const known = new Map<string, { readonly label: number; readonly longestWord: number }>();
  return (label, columns) => {
    const width = known.get(label) ?? {
      label: widthOf(label),
      longestWord: Math.max(...label.split(' ').map(widthOf)),
    };
    known.set(label, width);
    if (width.label <= columns) return 1;
    return width.longestWord > columns ? Number.POSITIVE_INFINITY : wrap(label, columns).length;
  };
}

function setOutBlocks(blocks: readonly Block[], perMm: number, least: number): PictureLayout {
  const across = blocks.map(({ left, right }) => ({ from: left, to: right }));
  const up = blocks.map(({ bottom, top }) => ({ from: bottom, to: top }));
  return { blocks, x: setOut(across, perMm, least), y: setOut(up, perMm / 2, 2) };
}

/** A laid out picture on its canvas. */
export interface Placing {
  readonly canvas: Canvas;
  readonly plan: PictureLayout;
  readonly leftMargin: number;
  /** Rows above the sheet's top edge. */
  readonly top: number;
}

export function columnOf({ plan, leftMargin }: Placing, x: number): number {
  return leftMargin + plan.x.at(x);
}

export function rowOf({ plan, top }: Placing, y: number): number {
  return top + plan.y.cells - plan.y.at(y);
}

export function wordOf({ name, across, up }: Block, look: Look): string {
  const count = across * up;
  return counted(count, name, signsOf(look)).replaceAll('\u00a0', ' ');
}
