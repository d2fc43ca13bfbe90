import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import type { Paper } from '../../model/index.ts';
import { readFonts, typefaceOf } from '../font/index.ts';
import {
  digestOfTexts,
  type Flow,
  leadingOf,
  line,
  type Pages,
  type Point,
  shortened,
  startFlow,
  type Typeface,
  widthOf,
  withFractions,
  words,
  wordsEndingAt,
  wrapped,
} from '../page/index.ts';
import type { Composed, Program } from '../paged/index.ts';
import type { PlainTable, TableSheet } from './table.ts';

/** The same sheet on paper: tables go on over the pages, their headings above each. */
export function composeTables(
  sheet: TableSheet,
  paper: Paper,
  { version, readFont }: Program,
  marginMm = usualMarginMm,
): Composed {
  const fonts = readFonts(readFont);
  const face = typefaceOf(fonts);
  const { width, height } = paperSize(paper);
  const size = { widthMm: toDrawnMm(width), heightMm: toDrawnMm(height), marginMm };
  const texts = [sheet.title, ...sheet.tables.flatMap(({ rows }) => rows.map((row) => row.join('\t')))];
  const digest = digestOfTexts(texts);
  const around = { title: sheet.title, made: `cardwright ${version} · ${digest}`, alarm: undefined };
  function* pages(): Pages {
    const flow = startFlow(face, size, around);
    flow.open(sheet.heading);
    for (const note of sheet.notes) flow.say('text', note);
    for (const table of sheet.tables) {
      setTable(flow, table);
      yield* flow.full();
    }
    yield* flow.rest();
    return flow.count();
  }
  return {
    title: sheet.title,
    version,
    fonts,
    digest,
    drawings: 'layout',
    layouts: none,
    pages,
    isWhole: true,
  };
}

function* none(): Generator<never, void> {}

const usualMarginMm = 10;

/** A table of few words and numbers still reads well in it. */
export const leastRoom = { widthMm: 100, heightMm: 100 } as const;

const gapMm = 6;
const betweenMm = 3;

/** In as many columns of the page as the table fits side by side, filled one after the other. */
function setTable(flow: Flow, table: PlainTable): void {
  const { title, notes, rows, below = [] } = table;
  flow.down(3);
  if (flow.room() < 6 * leadingOf('text')) flow.carryOn();
  if (title !== undefined) flow.say('heading', title);
  for (const note of notes) flow.say('text', note, 2);
  if (rows.length > 0) setRows(flow, table);
  for (const words of below) flow.say('text', words);
}

function setRows(flow: Flow, table: PlainTable): void {
  const { face } = flow;
  const widths = widthsOf(face, table, flow.width);
  const own = widths.reduce((sum, it) => sum + it + betweenMm, -betweenMm);
  const rows = table.rows.map((row) => cellsOf(face, table, widths, row));
  const isRuled = rows.some((row) => heightOf(row) > 1);
  const abreast =
    !isRuled && rows.length > 20 ? Math.max(1, Math.floor((flow.width + gapMm) / (own + gapMm))) : 1;
  const rowMm = leadingOf('text');
  let [column, top, lowest] = [0, flow.y(), flow.y()];
  let y = top;
  const place = (): Point => ({ x: flow.column.left + column * (own + gapMm), y });
  const begin = (): void => {
    y = top;
    y = setHead(flow, table, widths, place());
  };
  const next = (): void => {
    column += 1;
    if (column >= abreast) {
      flow.carryOn();
      if (table.title !== undefined) flow.say('heading', `${table.title}, continued`);
      [column, top] = [0, flow.y()];
    }
    begin();
  };
  begin();
  for (const row of rows) {
    const height = heightOf(row);
    // What is higher than a page goes on over the next; all else stays together.
    const isTooHigh = height * rowMm > flow.fullMm / 2;
    if (!isTooHigh && y + height * rowMm > flow.column.bottom) next();
    for (let from = 0; from < height; ) {
      const room = Math.floor((flow.column.bottom - y) / rowMm + 1e-6);
      if (room < 1) {
        next();
        continue;
      }
      const part = row.map((lines) => lines.slice(from, from + room));
      setLines(flow, table, widths, place(), part);
      y += heightOf(part) * rowMm;
      from += room;
    }
    if (isRuled) {
      const { x } = place();
      flow.add([line('table rule', { x, y: y + 0.2 }, { x: x + own, y: y + 0.2 })]);
      y += 0.6;
    }
    lowest = column === 0 ? y : Math.max(lowest, y);
  }
  flow.down(Math.max(0, lowest - flow.y()));
}

/** The lines of each cell of a row. */
type Cells = readonly (readonly string[])[];

function cellsOf(
  face: Typeface,
  { columns }: PlainTable,
  widths: readonly number[],
  row: readonly string[],
): Cells {
  return columns.map(({ wraps }, at) => {
    const text = withFractions(row[at] ?? '');
    const width = (widths[at] ?? 0) + 0.01;
    return wraps ? wrapped(face, 'text', text, width) : [shortened(face, 'text', text, width) ?? ''];
  });
}

function heightOf(cells: Cells): number {
  return Math.max(1, ...cells.map((it) => it.length));
}

function widthsOf(face: Typeface, { columns, rows }: PlainTable, room: number): readonly number[] {
  const natural = columns.map(({ heading }, at) =>
    Math.max(
      widthOf(face, 'key', heading),
      ...rows.map((row) => widthOf(face, 'text', withFractions(row[at] ?? ''))),
    ),
  );
  const wordy = columns.flatMap(({ wraps }, at) => (wraps ? [natural[at] ?? 0] : []));
  const own = natural.reduce((sum, it) => sum + it + betweenMm, -betweenMm);
  const most = mostOfEach(wordy, room - own + wordy.reduce((sum, it) => sum + it, 0));
  return natural.map((it, at) => (columns[at]?.wraps ? Math.min(it, most) : it));
}

/** Words give way to numbers, the widest first: none gets more than this, so that all go into the room. */
function mostOfEach(widths: readonly number[], room: number): number {
  const rising = [...widths].sort((a, b) => a - b);
  let left = room;
  for (const [index, width] of rising.entries()) {
    const share = left / (rising.length - index);
    if (width > share) return Math.max(leastWordsMm, share);
    left -= width;
  }
  return Number.POSITIVE_INFINITY;
}

const leastWordsMm = 8;

/** The headings, and a line below them; gives where the rows begin. */
function setHead(flow: Flow, table: PlainTable, widths: readonly number[], at: Point): number {
  const lines = table.columns.map(({ heading }, index) => {
    return [shortened(flow.face, 'key', heading, (widths[index] ?? 0) + 0.01) ?? ''];
  });
  setLines(flow, table, widths, at, lines, 'key');
  const y = at.y + leadingOf('text') + 0.2;
  const width = widths.reduce((sum, it) => sum + it + betweenMm, -betweenMm);
  flow.add([line('table rule', { x: at.x, y }, { x: at.x + width, y })]);
  return y + 0.6;
}

function setLines(
  flow: Flow,
  { columns }: PlainTable,
  widths: readonly number[],
  at: Point,
  cells: Cells,
  role: 'text' | 'key' = 'text',
): void {
  const rowMm = leadingOf('text');
  let { x } = at;
  for (const [index, { align }] of columns.entries()) {
    const width = widths[index] ?? 0;
    const lines = cells[index] ?? [];
    flow.add(
      lines.map((text, number) => {
        const y = at.y + (number + 0.76) * rowMm;
        return align === 'right'
          ? wordsEndingAt(flow.face, role, text, { x: x + width, y })
          : words(flow.face, role, text, { x, y });
      }),
    );
    x += width + betweenMm;
  }
}
