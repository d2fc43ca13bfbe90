import { equal, isZero, toDrawnMm } from '../../measure/index.ts';
import type { Length, SheetPlan, Step, Strip } from '../../model/index.ts';
import { type Block, blocksOf, joinSmall } from './blocks.ts';
import { blankCanvas, type Canvas } from './canvas.ts';
import type { Showing } from './lengths.ts';
import type { Lines } from './lines.ts';
import { setOut, type Ticks } from './scale.ts';
import { counted, type Look, signsOf } from './signs.ts';
import { widthOf, wrap } from './width.ts';

export interface Drawing {
  readonly lines: Lines;
  /** What the numbers in the picture stand for, in order. */
  readonly numbered: readonly string[];
  /** True where thin pieces had to be drawn wider than they are. */
  readonly isStretched: boolean;
}

export interface DrawingRoom {
  /** Columns of the whole picture, with the marks beside it. */
  readonly columns: number;
  /** How large this sheet is drawn beside the longest of its material, above 0 and at most 1. */
  readonly share: number;
  readonly kerf: Length;
  readonly showing: Showing;
  readonly look: Look;
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

interface Layout {
  readonly blocks: readonly Block[];
  readonly x: Ticks;
  readonly y: Ticks;
}

/**
 * The largest scale that fits; where even thin pieces have no room, they are given less of it. Thin strips
 * are stretched to hold a row of words each, unless there are so many that the picture would grow too tall:
 * then they are joined.
 */
function layOut(sheet: SheetPlan, { kerf, look }: DrawingRoom, inner: number): Layout {
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

function setOutBlocks(blocks: readonly Block[], perMm: number, least: number): Layout {
  const across = blocks.map(({ left, right }) => ({ from: left, to: right }));
  const up = blocks.map(({ bottom, top }) => ({ from: bottom, to: top }));
  return { blocks, x: setOut(across, perMm, least), y: setOut(up, perMm / 2, 2) };
}

interface Placing {
  readonly canvas: Canvas;
  readonly plan: Layout;
  readonly leftMargin: number;
  /** Rows above the sheet's top edge. */
  readonly top: number;
}

function columnOf({ plan, leftMargin }: Placing, x: number): number {
  return leftMargin + plan.x.at(x);
}

function rowOf({ plan, top }: Placing, y: number): number {
  return top + plan.y.cells - plan.y.at(y);
}

function wordOf({ name, across, up }: Block, look: Look): string {
  const count = across * up;
  return counted(count, name, signsOf(look)).replaceAll('\u00a0', ' ');
}

function drawBlocks(place: Placing, { look, showing }: DrawingRoom): readonly string[] {
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

interface Mark {
  readonly at: number;
  readonly text: string;
}

type CutStep = Extract<Step, { readonly marks: unknown }>;

/** The cuts whose marks run along the sheet's own edges: at most one up its side, one along its bottom. */
interface LeadingCuts {
  readonly up: CutStep | undefined;
  readonly along: CutStep | undefined;
}

/** The first cut; and where that only takes a margin off, also the cut of the one strip that it leaves. */
function leadingCuts({ steps }: SheetPlan): LeadingCuts {
  const cuts = steps.filter((step): step is CutStep => step.kind === 'rip' || step.kind === 'crosscut');
  const [first] = cuts;
  const strips = (first?.runs ?? []).flatMap(({ gives }) => gives).filter(({ what }) => what !== 'scrap');
  const [strip, ...others] = strips;
  const isMargin = strip?.what === 'strip' && strip.count === 1 && others.length === 0;
  const second = isMargin ? cuts.find(({ piece }) => piece.name === strip.name) : undefined;
  const startsAtDatum =
    second !== undefined && isZero(second.piece.box.left) && isZero(second.piece.box.bottom);
  const both = startsAtDatum ? [first, second] : [first];
  return {
    up: both.find((step) => step?.kind === 'rip'),
    along: both.find((step) => step?.kind === 'crosscut'),
  };
}

/** Their running marks, and the sheet's own size at the end of both edges. */
function marksAlong(
  { up, along }: LeadingCuts,
  { inside }: SheetPlan,
  showing: Showing,
): { readonly up: readonly Mark[]; readonly along: readonly Mark[] } {
  const toMark = (length: Length): Mark => ({ at: toDrawnMm(length), text: showing.short(length) });
  return {
    up: [...(up?.marks ?? []), inside.width].map(toMark),
    along: [...(along?.marks ?? []), inside.length].map(toMark),
  };
}

function writeMarks(
  place: Placing,
  marks: { readonly up: readonly Mark[]; readonly along: readonly Mark[] },
  { kerf }: DrawingRoom,
): void {
  const { canvas, leftMargin, plan, top } = place;
  const half = toDrawnMm(kerf) / 2;
  const edgesY = plan.blocks.flatMap((it) => [it.bottom, it.top]);
  const rows = new Set<number>();
  for (const { at, text } of [...marks.up].reverse()) {
    const edge = edgeOfMark(at, half, edgesY);
    if (edge === undefined || rows.has(rowOf(place, edge))) continue;
    rows.add(rowOf(place, edge));
    canvas.write({ column: leftMargin - 1 - widthOf(text), row: rowOf(place, edge) }, text);
  }
  const edgesX = plan.blocks.flatMap((it) => [it.left, it.right]);
  let free = Number.POSITIVE_INFINITY;
  for (const { at, text } of [...marks.along].reverse()) {
    const edge = edgeOfMark(at, half, edgesX);
    if (edge === undefined) continue;
    const column = columnOf(place, edge) - widthOf(text) + 1;
    if (column < 0 || column + widthOf(text) >= free) continue;
    canvas.write({ column, row: top + plan.y.cells + 1 }, text);
    free = column;
  }
}

/** A mark's cut is drawn half a kerf beyond it, or on the sheet's edge; inside a joined outline not at all. */
function edgeOfMark(at: number, half: number, edges: readonly number[]): number | undefined {
  const edge = nearest(at + half, edges);
  return Math.abs(edge - at) <= half + 0.01 ? edge : undefined;
}

function nearest(wanted: number, edges: readonly number[]): number {
  return edges.reduce((best, edge) => (Math.abs(edge - wanted) < Math.abs(best - wanted) ? edge : best), 0);
}

function letterOf(name: string): string {
  return name.replace(/^strip /, '');
}

/** The strips that lie one above the other along the marks of the side. */
function stripsBeside(up: CutStep | undefined, { strips }: SheetPlan): readonly Strip[] {
  if (up === undefined) return [];
  const names = up.runs.flatMap(({ gives }) => gives.map(({ name }) => name));
  return strips.filter(({ name, box }) => names.includes(name) && equal(box.length, up.piece.box.length));
}

/** Names beside the strips of the leading rip; on the upper edge of all others, where it is long enough. */
function writeStrips(place: Placing, sheet: SheetPlan, beside: readonly Strip[]): void {
  const { canvas, leftMargin, plan } = place;
  const edgesX = plan.blocks.flatMap((it) => [it.left, it.right]);
  const edgesY = plan.blocks.flatMap((it) => [it.bottom, it.top]);
  const taken = new Set<string>();
  for (const strip of sheet.strips) {
    const left = toDrawnMm(strip.box.left);
    const bottom = toDrawnMm(strip.box.bottom);
    const right = left + toDrawnMm(strip.box.length);
    const top = bottom + toDrawnMm(strip.box.width);
    const low = rowOf(place, nearest(bottom, edgesY));
    const high = rowOf(place, nearest(top, edgesY));
    const letter = letterOf(strip.name);
    if (beside.includes(strip)) {
      canvas.write({ column: leftMargin + plan.x.cells + 2, row: (low + high) >> 1 }, letter);
      continue;
    }
    // Strips that begin in one corner have their names in a row, the outer one first.
    const end = columnOf(place, nearest(right, edgesX));
    const row = high === place.top ? 0 : high;
    let column = columnOf(place, nearest(left, edgesX)) + 1;
    while (taken.has(`${column} ${row}`)) column += 2;
    if (column + widthOf(letter) > end) continue;
    canvas.write({ column, row }, letter);
    taken.add(`${column} ${row}`);
  }
}

function trimBlank(lines: Lines): Lines {
  const from = lines.findIndex((line) => line.trim() !== '');
  const to = lines.findLastIndex((line) => line.trim() !== '');
  return lines.slice(from, to + 1);
}
