import type { Flow } from './flow.ts';
import type { Mark, Point } from './mark.ts';
import { leadingOf, type Typeface, words, wrapped } from './type.ts';

/** What is set as one in a column: the lines of a step, of a letter's meaning, of a thing to take out. */
export interface Entry {
  readonly heightMm: number;
  readonly draw: (at: Point) => readonly Mark[];
}

export interface Row {
  readonly text: string;
  readonly indentMm: number;
}

/** No entry is higher than so many lines: what is longer goes on in a further one. */
const mostLines = 18;

/** @param lead what stands before the first line, from the entry's left top corner */
export function entriesOf(
  face: Typeface,
  lines: readonly Row[],
  lead: Entry['draw'],
  afterMm: number,
  most = mostLines,
): readonly Entry[] {
  const leading = leadingOf('text');
  return parted(lines, most).map((own, part, parts): Entry => {
    const isLast = part === parts.length - 1;
    return {
      heightMm: Math.max(own.length * leading, 5) + (isLast ? afterMm : 0),
      draw: ({ x, y }) => [
        ...(part === 0 ? lead({ x, y }) : []),
        ...own.map(({ text, indentMm }, row) =>
          words(face, 'text', text, { x: x + indentMm, y: y + 3.9 + row * leading }),
        ),
      ],
    };
  });
}

/** Lines that stay together; hardly ever more than one part. */
export function parted<Line>(lines: readonly Line[], most = mostLines): readonly (readonly Line[])[] {
  const count = Math.max(1, Math.ceil(lines.length / most));
  return Array.from({ length: count }, (_, part) => lines.slice(part * most, (part + 1) * most));
}

/** A line or more of one text, all indented alike. */
export function entryOf(
  face: Typeface,
  text: string,
  indentMm: number,
  widthMm: number,
  lead: Entry['draw'] = () => [],
): readonly Entry[] {
  const rows = wrapped(face, 'text', text, widthMm - indentMm).map((row): Row => ({ text: row, indentMm }));
  return entriesOf(face, rows, lead, 0.4);
}

export function heightOfAll(entries: readonly Entry[]): number {
  return entries.reduce((all, { heightMm }) => all + heightMm, 0);
}

export function countFitting(entries: readonly Entry[], heightMm: number): number {
  let y = 0;
  for (const [index, entry] of entries.entries()) {
    y += entry.heightMm;
    if (y > heightMm) return index;
  }
  return entries.length;
}

export function drawAt(flow: Flow, entries: readonly Entry[], left: number, top: number): void {
  let y = top;
  for (const entry of entries) {
    flow.add(entry.draw({ x: left, y }));
    y += entry.heightMm;
  }
}

export const columnGap = 6;

/** Width of one of two equal columns. */
export function halfOf(flow: Flow): number {
  return (flow.width - columnGap) / 2;
}

/**
 * Entries in two columns of about equal height, over as many pages as they need.
 *
 * @param goesOn the largest line of the further pages
 */
export function inTwoColumns(flow: Flow, entries: readonly Entry[], goesOn?: string): void {
  const tallestFrom = tallestOnwards(entries);
  let left = entries;
  while (left.length > 0) {
    const tallest = tallestFrom[entries.length - left.length] ?? 0;
    if (flow.room() < tallest && !flow.isAtTop()) flow.carryOn(goesOn);
    const columns = balanced(left, flow.room()) ?? filled(left, flow.room());
    for (const [side, column] of columns.entries()) {
      drawAt(flow, column, flow.column.left + side * (halfOf(flow) + columnGap), flow.y());
    }
    flow.down(Math.max(...columns.map(heightOfAll)));
    left = left.slice(columns[0].length + columns[1].length);
    if (left.length > 0) flow.carryOn(goesOn);
  }
}

type Columns = readonly [readonly Entry[], readonly Entry[]];

function filled(entries: readonly Entry[], roomMm: number): Columns {
  const first = countFitting(entries, roomMm);
  const second = countFitting(entries.slice(first), roomMm);
  return [entries.slice(0, first), entries.slice(first, first + second)];
}

/** Undefined where they don't all go on one page; then what comes after it is not looked at. */
function balanced(entries: readonly Entry[], roomMm: number): Columns | undefined {
  const [one, other] = filled(entries, roomMm);
  if (one.length + other.length < entries.length) return undefined;
  const { first, heightMm } = columnsOf(entries);
  return heightMm <= roomMm ? [entries.slice(0, first), entries.slice(first)] : undefined;
}

/** How high the tallest entry is from each on. */
function tallestOnwards(entries: readonly Entry[]): readonly number[] {
  const tallest: number[] = [];
  for (let index = entries.length - 1; index >= 0; index--) {
    tallest[index] = Math.max(entries[index]?.heightMm ?? 0, tallest[index + 1] ?? 0);
  }
  return tallest;
}

/** The two columns that are least high when the entries keep their order. */
export function columnsOf(entries: readonly Entry[]): { readonly first: number; readonly heightMm: number } {
  const total = heightOfAll(entries);
  let best = { first: entries.length, heightMm: total };
  let above = 0;
  for (const [index, { heightMm }] of entries.entries()) {
    above += heightMm;
    const higher = Math.max(above, total - above);
    if (higher < best.heightMm - 0.01) best = { first: index + 1, heightMm: higher };
  }
  return best;
}
