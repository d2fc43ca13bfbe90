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
  shortened,
  startFlow,
  type Typeface,
  widthOf,
  withFractions,
  words,
  wordsEndingAt,
} from '../page/index.ts';
import type { Composed, Program } from '../paged/index.ts';
import type { PlainTable, TableSheet } from './table.ts';

/** The same sheet on paper: tables go on over the pages, their headings above each. */
export function composeTables(sheet: TableSheet, paper: Paper, { version, readFont }: Program): Composed {
  const fonts = readFonts(readFont);
  const face = typefaceOf(fonts);
  const { width, height } = paperSize(paper);
  const size = { widthMm: toDrawnMm(width), heightMm: toDrawnMm(height), marginMm: 10 };
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

const gapMm = 6;
const betweenMm = 3;

/** In as many columns of the page as the table fits side by side, filled one after the other. */
function setTable(flow: Flow, table: PlainTable): void {
  const { face } = flow;
  const widths = widthsOf(face, table, flow.width);
  const own = widths.reduce((sum, it) => sum + it + betweenMm, -betweenMm);
  const abreast = table.rows.length > 20 ? Math.max(1, Math.floor((flow.width + gapMm) / (own + gapMm))) : 1;
  const rowMm = leadingOf('text');
  flow.down(3);
  if (flow.room() < 6 * rowMm) flow.carryOn();
  if (table.title !== undefined) flow.say('heading', table.title);
  for (const note of table.notes) flow.say('text', note, 2);
  let [column, top, lowest] = [0, flow.y(), flow.y()];
  let y = top;
  const begin = (): void => {
    y = setRow(flow, table, widths, { x: flow.column.left + column * (own + gapMm), y: top }, undefined);
  };
  begin();
  for (const row of table.rows) {
    if (y + rowMm > flow.column.bottom) {
      column += 1;
      if (column >= abreast) {
        flow.carryOn();
        [column, top] = [0, flow.y()];
      }
      begin();
    }
    y = setRow(flow, table, widths, { x: flow.column.left + column * (own + gapMm), y }, row);
    lowest = column === 0 ? y : Math.max(lowest, y);
  }
  flow.down(Math.max(0, lowest - flow.y()));
}

function widthsOf(face: Typeface, { columns, rows }: PlainTable, room: number): readonly number[] {
  const natural = columns.map(({ heading }, at) =>
    Math.max(
      widthOf(face, 'key', heading),
      ...rows.map((row) => widthOf(face, 'text', withFractions(row[at] ?? ''))),
    ),
  );
  const over = natural.reduce((sum, it) => sum + it + betweenMm, -betweenMm) - room;
  if (over <= 0) return natural;
  // Words give way to numbers, the widest most.
  const wordy = columns.flatMap(({ wraps }, at) => (wraps ? [at] : []));
  const ofWords = wordy.reduce((sum, at) => sum + (natural[at] ?? 0), 0);
  return natural.map((it, at) => (wordy.includes(at) ? Math.max(8, it - (over * it) / ofWords) : it));
}

/** One row, or the headings; gives where the next begins. */
function setRow(
  flow: Flow,
  { columns }: PlainTable,
  widths: readonly number[],
  at: { readonly x: number; readonly y: number },
  row: readonly string[] | undefined,
): number {
  const rowMm = leadingOf('text');
  const role = row === undefined ? 'key' : 'text';
  let { x } = at;
  for (const [index, { heading, align }] of columns.entries()) {
    const width = widths[index] ?? 0;
    const text = row === undefined ? heading : withFractions(row[index] ?? '');
    const set = shortened(flow.face, role, text, width + 0.01) ?? '';
    const y = at.y + rowMm * 0.76;
    flow.add([
      align === 'right'
        ? wordsEndingAt(flow.face, role, set, { x: x + width, y })
        : words(flow.face, role, set, { x, y }),
    ]);
    x += width + betweenMm;
  }
  if (row !== undefined) return at.y + rowMm;
  const y = at.y + rowMm + 0.2;
  flow.add([line('table rule', { x: at.x, y }, { x: x - betweenMm, y })]);
  return y + 0.6;
}
