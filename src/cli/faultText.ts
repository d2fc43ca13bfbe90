import {
  type Diagnostic,
  type Fix,
  inReadingOrder,
  isError,
  lineOf,
  type Place,
  positionOf,
  type Severity,
} from '../model/index.ts';
import { glyphsOf, widthOf } from '../print/columns/index.ts';
import type { Paint } from './colour.ts';
import { inAscii, type Look } from './terminal.ts';

/**
 * Diagnostics as a person reads them, in the order of the files, with a count at the end:
 *
 *   terrace.yaml:14:14: error P02: "riser" needs 14 3/8 in along the grain
 *     14 |       size: [14 3/8, 1 1/2]
 *        |              ^^^^^^
 *     try   a sheet of at least 14 5/8 in
 *     more  cardwright explain P02
 */
export function faultText(diagnostics: readonly Diagnostic[], look: Look, paint: Paint): string {
  const sorted = inReadingOrder(diagnostics);
  const shown = sorted.slice(0, mostShown);
  const explained = new Set<string>();
  const blocks = shown.map((it, index) => {
    const isNew = !explained.has(it.code);
    explained.add(it.code);
    const lines = faultLines(it, isNew, look, paint);
    return (saysMore(it, shown[index - 1]) ? lines : lines.slice(0, 1)).join('\n');
  });
  const left = sorted.length - shown.length;
  const end = [...(left > 0 ? [`${left} more are not shown`] : []), countLine(sorted)];
  return `${[...blocks, end.join('\n')].join('\n')}\n`;
}

/** Nobody reads further, and a broken file can have a fault in each of its lines. */
const mostShown = 100;

/**
 * A fault that variants take over from one tile is told of each; its place and what would do, once.
 */
function saysMore(it: Diagnostic, before: Diagnostic | undefined): boolean {
  if (before === undefined || before.code !== it.code || it.place.kind !== 'span') return true;
  const facts = ({ place, hints, related, fix }: Diagnostic): string =>
    [
      placeName(place),
      ...hints,
      ...related.map((other) => placeName(other.place)),
      ...(fix === undefined ? [] : [`${fix.span.start}`, fix.text]),
    ].join('\n');
  return facts(it) !== facts(before);
}

function faultLines(it: Diagnostic, isNew: boolean, look: Look, paint: Paint): readonly string[] {
  const own = (text: string): string => (look.ascii ? inAscii(visible(text)) : visible(text));
  const label = (word: string): string => `  ${paint.faint(word.padEnd(5))} `;
  return [
    `${paint.strong(visible(placeName(it.place)))}: ${inkOf(it.severity, paint)(`${wordOf(it.severity)} ${it.code}`)}: ${own(it.message)}`,
    ...excerpt(it.place, look, inkOf(it.severity, paint)),
    ...it.related.flatMap(({ place, message }) => [
      `${label('also')}${visible(placeName(place))}: ${own(message)}`,
      ...excerpt(place, look, paint.note),
    ]),
    ...it.hints.map((hint) => `${label('try')}${own(hint)}`),
    ...(it.fix === undefined ? [] : [`${label('write')}${visible(mendedLine(it.fix))}`]),
    ...(isNew ? [`${label('more')}cardwright explain ${it.code}`] : []),
  ];
}

function wordOf(severity: Severity): string {
  return severity === 'fatal' ? 'error' : severity;
}

function inkOf(severity: Severity, paint: Paint): (text: string) => string {
  if (severity === 'warning') return paint.warning;
  return severity === 'note' ? paint.note : paint.error;
}

function placeName(place: Place): string {
  switch (place.kind) {
    case 'span': {
      const { line, column } = positionOf(place.span);
      return `${place.span.source.path}:${line}:${column}`;
    }
    case 'file':
      return place.path;
    case 'facet':
      return `${place.path}:facet ${place.facet}`;
    case 'argument':
    case 'none':
      return 'cardwright';
  }
}

/** The line that the fault stands in, and carets under it. */
function excerpt(place: Place, look: Look, ink: (text: string) => string): readonly string[] {
  if (place.kind !== 'span') return [];
  const { line, column, length } = positionOf(place.span);
  const number = `${line}`.padStart(3);
  const gutter = `${number} | `;
  const cells = cellsOf(lineOf(place.span));
  if (cells.length === 0 && length === 0) return [];
  const from = Math.min(column - 1, cells.length);
  const to = Math.min(from + Math.max(length, 1), Math.max(cells.length, from + 1));
  const clip = clipped(cells, from, to, look.width - gutter.length - 1, look.ascii ? '...' : '…');
  return [
    `${gutter}${clip.text}`.trimEnd(),
    `${' '.repeat(number.length)} | ${' '.repeat(clip.before)}${ink('^'.repeat(clip.under))}`,
  ];
}

/** A code point as it is shown, and the columns it takes; joined ones take theirs at the first. */
interface Cell {
  readonly text: string;
  readonly columns: number;
}

function cellsOf(line: string): readonly Cell[] {
  return glyphsOf(line).flatMap((glyph): readonly Cell[] => {
    const [first = '', ...joined] = glyph.text;
    const seen = visible(first);
    // What is made visible takes as many columns as the sign that stands for it.
    const columns = seen === first ? glyph.columns : widthOf(seen);
    return [{ text: seen, columns }, ...joined.map((text) => ({ text: visible(text), columns: 0 }))];
  });
}

interface Clip {
  readonly text: string;
  /** Columns before the first caret, and the number of carets. */
  readonly before: number;
  readonly under: number;
}

/** So much of the line around the fault as there is room for. */
function clipped(cells: readonly Cell[], from: number, to: number, room: number, cut: string): Clip {
  const columns = (start: number, end: number): number =>
    cells.slice(start, end).reduce((sum, cell) => sum + cell.columns, 0);
  let [start, end] = [0, cells.length];
  if (columns(start, end) > room) {
    start = from;
    let used = 0;
    const context = Math.min(Math.floor(room / 3), contextMost);
    while (start > 0 && used + cells[start - 1]!.columns <= context) used += cells[--start]!.columns;
    const left = start > 0 ? cut.length : 0;
    end = start;
    used = 0;
    while (end < cells.length && left + used + cells[end]!.columns <= room - cut.length) {
      used += cells[end++]!.columns;
    }
  }
  const before = (start > 0 ? cut.length : 0) + columns(start, from);
  const under = Math.max(1, columns(from, Math.min(to, end)));
  const middle = cells
    .slice(start, end)
    .map((cell) => cell.text)
    .join('');
  return { text: `${start > 0 ? cut : ''}${middle}${end < cells.length ? cut : ''}`, before, under };
}

const contextMost = 30;

/** Controls and signs that turn the writing about become text that can be seen; a tab becomes spaces. */
export function visible(text: string): string {
  return text
    .replaceAll('\t', '    ')
    .replace(
      /[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g,
      (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}`,
    );
}

/** The line of the file as it will read once mended. */
function mendedLine({ span, text }: Fix): string {
  const whole = span.source.text;
  const start =
    Math.max(whole.lastIndexOf('\n', span.start - 1), whole.lastIndexOf('\r', span.start - 1)) + 1;
  const rest = whole.slice(span.end).split(/[\r\n]/)[0] ?? '';
  return `${whole.slice(start, span.start)}${text}${rest}`.trimEnd();
}

function countLine(diagnostics: readonly Diagnostic[]): string {
  const errors = diagnostics.filter(isError).length;
  const warnings = diagnostics.filter((it) => it.severity === 'warning').length;
  const notes = diagnostics.length - errors - warnings;
  const counts = [counted(errors, 'error'), counted(warnings, 'warning'), counted(notes, 'note')];
  return counts.filter((it) => it !== '').join(', ');
}

function counted(count: number, word: string): string {
  return count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;
}
