import { compare, minus, sum, toDrawnMm, zero } from '../../measure/index.ts';
import type { Block, Build, Length, StandingPart, TileFit, Way } from '../../model/index.ts';
import { clean, type Lines, type Look, paragraph, widthOf } from '../columns/index.ts';
import { blankCanvas, type Point } from './canvas.ts';
import { type Axis, drawnAxis } from './drawnAxis.ts';
import { type Mark, markOf, type ShowBriefly } from './faultMarks.ts';
import { drawOutline, outlineSeen, rowsIn } from './outlineLines.ts';

/**
 * A tile that doesn't fit, as a section and a plan: every part with its letter, the room that it has in heavy
 * lines, and each dimension that is off below or beside it. Thin layers are drawn thicker than they are.
 *
 *     ┏━┯━━━━━━━━━━┯━┳┓ ┬
 *     ┃a│    b     │a┃│ │ 1 9/16
 *     ┗━┷━━━━━━━━━━┷━┻┘ ┴ floor at the back: 1/16 too high
 *     ├───── 3 1/16 ──┤   3 to fill: 1/16 over
 */
export function drawBuild({ build, faults }: TileFit, show: ShowBriefly, look: Look): Lines {
  const marks = faults.flatMap((fault) => markOf(fault, build, show) ?? []);
  const letters = lettersOf(build);
  const seen = marks.map((mark) => mark.seen).find((it) => it !== undefined) ?? 'along';
  const views: readonly View[] = [
    {
      title: seen === 'along' ? 'section, front to the left' : 'section, seen from the front',
      across: seen,
      up: 'up',
      cut: seen === 'along' ? 'across' : 'along',
    },
    { title: 'plan, front below', across: 'across', up: 'along', cut: undefined },
  ];
  const drawing: Drawing = { build, marks, letters, look };
  const frame = look.ascii ? '= the room it has' : '━ the room it has';
  const legend = [...[...letters].map(([part, letter]) => `${letter} ${clean(part)}`), frame];
  const others = new Set(marks.flatMap(({ dimension, note }) => (dimension === undefined ? [note] : [])));
  const lines = [
    ...views.flatMap((view) => [...drawView(view, drawing), '']),
    ...paragraph(legend.map((it) => it.replaceAll(' ', '\u00a0')).join('\u00a0\u00a0 '), look.width - indent),
    ...[...others].flatMap((note) => paragraph(note, look.width - indent)),
  ];
  return [
    ...lines.map((line) =>
      line === '' ? line : ' '.repeat(indent) + line.replaceAll('\u00a0', ' ').trimEnd(),
    ),
    '',
  ];
}

const indent = 4;

interface Drawing {
  readonly build: Build;
  readonly marks: readonly Mark[];
  readonly letters: ReadonlyMap<string, string>;
  readonly look: Look;
}

interface View {
  readonly title: string;
  readonly across: Way;
  readonly up: Way;
  /** The direction in which the tile is cut through; undefined: seen from above. */
  readonly cut: Way | undefined;
}

/** a, b, c, … by part, in the order of the build; then aa, ab, … */
function lettersOf({ parts }: Build): ReadonlyMap<string, string> {
  const names = [...new Set(parts.map(({ part }) => part))];
  const letter = (index: number): string =>
    (index >= 26 ? letter(Math.floor(index / 26) - 1) : '') + String.fromCharCode(97 + (index % 26));
  return new Map(names.map((name, index) => [name, letter(index)]));
}

function drawView(view: View, { build, marks, letters, look }: Drawing): Lines {
  const shown = cutParts(view, build, marks);
  const envelope = roomOf(build);
  const blocks = [...shown.map(({ block }) => block), envelope];
  const below = marks.filter(({ dimension }) => dimension?.way === view.across);
  // In the plan, what is off in the section's own direction stands beside.
  const beside = marks.filter(({ dimension }) => dimension?.way === view.up);
  const [columns, rows] = axesOf(view, blocks, [...below, ...beside], look);
  const canvas = blankCanvas(columns.size + 1, rows.size + 1);
  const frame = ({ low, high }: Block, weight: 1 | 2): void => {
    const [left, right] = [columns.at(low[view.across]), columns.at(high[view.across])];
    const [bottom, top] = [rows.size - rows.at(low[view.up]), rows.size - rows.at(high[view.up])];
    for (const row of [top, bottom]) canvas.line({ column: left, row }, { column: right, row }, weight);
    for (const column of [left, right]) canvas.line({ column, row: top }, { column, row: bottom }, weight);
  };
  for (const part of shown) {
    const loops = outlineSeen(part, view, columns, rows);
    if (loops === undefined) frame(part.block, 1);
    else drawOutline(canvas, loops);
  }
  frame(envelope, 2);
  for (const { at, part } of letterPlaces(shown, view, columns, rows)) {
    canvas.write(at, letters.get(part) ?? '?');
  }
  const width = look.width - indent;
  const drawn = canvas.toLines(look.ascii).map((line) => line.padEnd(columns.size + 1));
  const { lines, leftOver } = withDimensionsBeside(drawn, beside, rows, width, look);
  return [
    view.title,
    ...lines.map((line) => line.trimEnd()),
    ...below.flatMap((mark) => dimensionBelow(mark, columns, width, look)),
    ...leftOver,
  ];
}

/**
 * Where each piece has its letter: as near to its middle as it is seen, since from above what lies on top
 * hides what is below. What can't be seen has none.
 */
function letterPlaces(
  shown: readonly StandingPart[],
  view: View,
  columns: Axis,
  rows: Axis,
): readonly { readonly at: Point; readonly part: string }[] {
  const pieces = [...shown]
    .sort((a, b) => compare(a.block.high.up, b.block.high.up))
    .map((part) => ({ part: part.part, spans: spansOf(part, view, columns, rows) }));
  const onTop = new Map<number, number>();
  const cell = (column: number, row: number): number => row * (columns.size + 1) + column;
  for (const [index, { spans }] of pieces.entries()) {
    for (const { column, top, bottom } of spans) {
      for (let row = top; row <= bottom; row++) onTop.set(cell(column, row), index);
    }
  }
  return pieces.flatMap(({ part, spans }, index) => {
    const ends = spans.map(({ column }) => column);
    const [left, right] = [Math.min(...ends), Math.max(...ends)];
    const middle = Math.floor((left + right) / 2);
    const there = spans.find(({ column }) => column === middle);
    const halfway = there === undefined ? 0 : Math.floor((there.top + there.bottom) / 2);
    let best: { readonly at: Point; readonly away: number } | undefined;
    for (const { column, top, bottom } of spans) {
      for (let row = top; row <= bottom; row++) {
        if (onTop.get(cell(column, row)) !== index) continue;
        const isOnLine = column === left || column === right || row === top || row === bottom;
        const away = Math.abs(column - middle) + 2 * Math.abs(row - halfway) + (isOnLine ? 1000 : 0);
        if (best === undefined || away < best.away) best = { at: { column, row }, away };
      }
    }
    return best === undefined ? [] : [{ at: best.at, part }];
  });
}

interface Span {
  readonly column: number;
  readonly top: number;
  readonly bottom: number;
}

/** The characters that a piece takes up, column by column. */
function spansOf(part: StandingPart, view: View, columns: Axis, rows: Axis): readonly Span[] {
  const { low, high } = part.block;
  const [left, right] = [columns.at(low[view.across]), columns.at(high[view.across])];
  const [top, bottom] = [rows.size - rows.at(high[view.up]), rows.size - rows.at(low[view.up])];
  const loops = outlineSeen(part, view, columns, rows);
  return Array.from({ length: right - left + 1 }, (_, i) => left + i).flatMap((column) =>
    loops === undefined
      ? [{ column, top, bottom }]
      : rowsIn(loops, column).map(([from, to]) => ({ column, top: from, bottom: to })),
  );
}

/** In a section the parts that its plane goes through: the middle of the tile, or of what is at fault. */
function cutParts({ cut }: View, build: Build, marks: readonly Mark[]): readonly StandingPart[] {
  if (cut === undefined || cut === 'up') return build.parts;
  const { parts, footprint } = build;
  const concerned = marks.flatMap(({ pieces }) => pieces);
  // Twice the plane's place, so that nothing is halved.
  const goesThrough = (twicePlane: Length) => (part: StandingPart) =>
    compare(twice(part.block.low[cut]), twicePlane) < 0 &&
    compare(twice(part.block.high[cut]), twicePlane) > 0;
  const middle = footprint[cut];
  const [first] = concerned;
  const plane =
    first === undefined || concerned.some(goesThrough(middle))
      ? middle
      : sum(first.block.low[cut], first.block.high[cut]);
  return parts.filter(goesThrough(plane));
}

function twice(length: Length): Length {
  return sum(length, length);
}

/** The footprint, as high as the tile states or else as its rows reach. */
function roomOf({ footprint, height, row }: Build): Block {
  return {
    low: { across: zero, along: zero, up: zero },
    high: { ...footprint, up: height?.value ?? row.block.high.up },
  };
}

/** Characters are about twice as high as wide. A section shows its layers, so it is never very low. */
function axesOf(
  view: View,
  blocks: readonly Block[],
  marks: readonly Mark[],
  look: Look,
): readonly [Axis, Axis] {
  const endsIn = (way: Way): readonly Length[] => [
    ...blocks.flatMap(({ low, high }) => [low[way], high[way]]),
    ...marks.flatMap(({ dimension }) => (dimension?.way === way ? [dimension.from, dimension.to] : [])),
  ];
  const wanted = Math.round(look.width < 60 ? look.width * 0.6 : Math.min(44, look.width * 0.4));
  const most = look.width - indent - 2 - (marks.some(({ dimension }) => dimension?.way === view.up) ? 4 : 0);
  const columns = drawnAxis(endsIn(view.across), { least: 2, wanted, most });
  const spans = [view.across, view.up].map((way) => {
    const { low, high } = blocks.at(-1) ?? { low: undefined, high: undefined };
    return low === undefined ? 1 : toDrawnMm(minus(high[way], low[way])) || 1;
  });
  const inProportion = Math.round((wanted * (spans[1] ?? 1)) / (spans[0] ?? 1) / 2);
  const height = Math.max(4, Math.min(view.cut === undefined ? 10 : 14, inProportion));
  return [columns, drawnAxis(endsIn(view.up), { least: 2, wanted: height, most: 30 })];
}

/** The dimension line below a view. */
function dimensionBelow({ dimension, note }: Mark, columns: Axis, width: number, look: Look): Lines {
  if (dimension === undefined) return [];
  const [left, line, right] = look.ascii ? ['|', '-', '|'] : ['├', '─', '┤'];
  const from = columns.at(dimension.from);
  const size = columns.at(dimension.to) - from;
  const inside = size - 1 - widthOf(` ${dimension.text} `);
  const before = Math.floor(inside / 2);
  const bare = `${' '.repeat(from)}${left}${line.repeat(Math.max(0, size - 1))}${right}`;
  const bar =
    inside < 2
      ? `${bare} ${dimension.text}`
      : `${' '.repeat(from)}${left}${line.repeat(before)} ${dimension.text} ${line.repeat(inside - before)}${right}`;
  const whole = `${bar}   ${note}`;
  if (widthOf(whole) <= width) return [whole];
  if (widthOf(bar) <= width) return [bar, ...paragraph(note, width)];
  return [bare, ...paragraph(`${dimension.text}; ${note}`, width)];
}

/** Dimension lines at the right of a view, one beside the other, and what can't be said there. */
function withDimensionsBeside(
  drawn: Lines,
  marks: readonly Mark[],
  rows: Axis,
  width: number,
  look: Look,
): { readonly lines: Lines; readonly leftOver: Lines } {
  const lines = [...drawn];
  const leftOver: string[] = [];
  const [top, bar, bottom, point] = look.ascii ? ['+', '|', '+', '+'] : ['┬', '│', '┴', '─'];
  const dimensions = distinctDimensions(marks);
  for (const { from, to } of dimensions) {
    const [low, high] = [rows.size - rows.at(from), rows.size - rows.at(to)];
    for (const [row, line] of lines.entries()) {
      const sign =
        row < high || row > low
          ? ' '
          : high === low
            ? point
            : row === high
              ? top
              : row === low
                ? bottom
                : bar;
      lines[row] = `${line} ${sign}`;
    }
  }
  const taken = new Set<number>();
  for (const { dimension, note } of marks) {
    if (dimension === undefined) continue;
    const middle = rows.size - Math.ceil((rows.at(dimension.from) + rows.at(dimension.to)) / 2);
    const texts = [dimension.text, note];
    const fits = texts.every((text) => widthOf(lines[0] ?? '') + 1 + widthOf(text) <= width);
    const start = fits ? freeRows(middle, texts.length, taken, lines.length) : undefined;
    if (start === undefined) {
      leftOver.push(...paragraph(`${dimension.way}: ${texts.join('; ')}`, width));
      continue;
    }
    for (const [offset, text] of texts.entries()) {
      taken.add(start + offset);
      lines[start + offset] = `${lines[start + offset] ?? ''} ${text}`;
    }
  }
  return { lines, leftOver };
}

function distinctDimensions(marks: readonly Mark[]) {
  const all = marks.flatMap(({ dimension }) => dimension ?? []);
  const isSame = (a: (typeof all)[number], b: (typeof all)[number]): boolean =>
    compare(a.from, b.from) === 0 && compare(a.to, b.to) === 0;
  return all.filter((it, index) => all.findIndex((other) => isSame(it, other)) === index);
}

/** So many free rows, as near below or above the wanted one as can be. */
function freeRows(
  wanted: number,
  count: number,
  taken: ReadonlySet<number>,
  rows: number,
): number | undefined {
  const starts = Array.from({ length: Math.max(0, rows - count + 1) }, (_, row) => row).sort(
    (a, b) => Math.abs(a - wanted) - Math.abs(b - wanted) || a - b,
  );
  return starts.find((start) =>
    Array.from({ length: count }, (_, i) => start + i).every((row) => !taken.has(row)),
  );
}
