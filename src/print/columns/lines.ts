import { padEnd, padStart, widthOf, wrap } from './width.ts';

export type Lines = readonly string[];

/** Sets a paragraph; the lines after the first hang under its text, or in a little where a long name leads it. */
export function paragraph(text: string, columns: number, lead = ''): Lines {
  const indent = widthOf(lead);
  if (indent > 8 && indent > columns / 2) {
    const [first = '', ...others] = wrap(`${lead}${text}`, Math.max(8, columns - 4));
    return [first, ...others.map((line) => `    ${line}`)];
  }
  return wrap(text, Math.max(8, columns - indent)).map(
    (line, i) => (i === 0 ? lead : ' '.repeat(indent)) + line,
  );
}

export function indented(lines: Lines, by: number): Lines {
  return lines.map((line) => (line === '' ? '' : ' '.repeat(by) + line));
}

/** Two columns of text side by side, the right one beginning at `at`. */
export function beside(left: Lines, right: Lines, at: number): Lines {
  const count = Math.max(left.length, right.length);
  return Array.from({ length: count }, (_, i) => `${padEnd(left[i] ?? '', at)}${right[i] ?? ''}`.trimEnd());
}

export interface Column {
  readonly heading: string;
  readonly align: 'left' | 'right';
  /** True where words may wrap; a column of numbers is never broken. */
  readonly wraps: boolean;
}

/**
 * Sets a table within `columns`: numbers whole and aligned, words wrapped in what room is left. Where even
 * that is too narrow, each row becomes a small list of its own.
 */
export function table(
  headings: readonly Column[],
  rows: readonly (readonly string[])[],
  { columns, rule }: { readonly columns: number; readonly rule: string },
): Lines {
  const gap = 2;
  const natural = headings.map((column, i) =>
    Math.max(widthOf(column.heading), ...rows.map((row) => widthOf(row[i] ?? ''))),
  );
  const spare = columns - sumOf(natural) - gap * (headings.length - 1);
  const widths =
    spare >= 0
      ? natural
      : (narrowed(headings, rows, { natural, missing: -spare, between: / / }) ??
        narrowed(headings, rows, { natural, missing: -spare, between: /[ \u00a0]/ }));
  if (widths === undefined) return rows.flatMap((row) => asList(headings, row, columns));

  const setRow = (cells: readonly string[]): Lines => {
    const wrapped = headings.map((column, i) =>
      column.wraps ? wrap(cells[i] ?? '', widths[i]!) : [(cells[i] ?? '').replaceAll('\u00a0', ' ')],
    );
    const height = Math.max(...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) =>
      headings
        .map(({ align }, i) => (align === 'right' ? padStart : padEnd)(wrapped[i]![line] ?? '', widths[i]!))
        .join(' '.repeat(gap))
        .trimEnd(),
    );
  };
  const underline = widths.map((width) => rule.repeat(width)).join(' '.repeat(gap));
  return [...setRow(headings.map(({ heading }) => heading)), underline, ...rows.flatMap(setRow)];
}

const leastWords = 8;

interface Narrowing {
  readonly natural: readonly number[];
  readonly missing: number;
  /** Where a column of words may be broken. */
  readonly between: RegExp;
}

/** Takes the missing room from the widest wrapping columns; undefined where they can't give it. */
function narrowed(
  headings: readonly Column[],
  rows: readonly (readonly string[])[],
  { natural, missing, between }: Narrowing,
): readonly number[] | undefined {
  const widths = [...natural];
  const least = headings.map((column, i) => {
    if (!column.wraps) return natural[i]!;
    // What is aligned at its right end are numbers: these stay whole.
    const breaks = column.align === 'right' ? / / : between;
    const words = rows.flatMap((row) => (row[i] ?? '').split(breaks));
    // A size and the sign behind it: `2 61/64 scant (-0.00037) ×`.
    const most = column.align === 'right' ? 30 : 24;
    const longestWord = Math.max(0, ...words.map((word) => Math.min(widthOf(word), most)));
    return Math.max(widthOf(column.heading), Math.min(leastWords, natural[i]!), longestWord);
  });
  for (let left = missing; left > 0; left--) {
    let widest = -1;
    for (const [i, width] of widths.entries()) {
      if (width > least[i]! && (widest === -1 || width > widths[widest]!)) widest = i;
    }
    if (widest === -1) return undefined;
    widths[widest]!--;
  }
  return widths;
}

function asList(headings: readonly Column[], row: readonly string[], columns: number): Lines {
  const lines = headings.flatMap(({ heading }, i) => {
    const cell = row[i] ?? '';
    if (cell === '') return [];
    return paragraph(heading === '' ? cell : `${heading}: ${cell}`, columns - 2);
  });
  return lines.map((line, i) => (i === 0 ? line : `  ${line}`));
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, it) => sum + it, 0);
}
