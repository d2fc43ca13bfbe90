import { glyphsOf, type Lines } from '../columns/index.ts';

/** How strongly an arm of a line leaves a cell: not at all, light, heavy. */
type Weight = 0 | 1 | 2;

interface Cell {
  up: Weight;
  down: Weight;
  left: Weight;
  right: Weight;
  /** What stands here instead of a line; '' is the right half of a wide character. */
  glyph: string | undefined;
}

/** A sheet of squared paper: lines that meet join by themselves, text lies over them. */
export interface Canvas {
  readonly columns: number;
  readonly rows: number;
  line(from: Point, to: Point, weight: 1 | 2): void;
  write(at: Point, text: string): void;
  toLines(ascii: boolean): Lines;
}

export interface Point {
  readonly column: number;
  readonly row: number;
}

export function blankCanvas(columns: number, rows: number): Canvas {
  const cells: Cell[][] = Array.from({ length: rows }, () =>
    Array.from({ length: columns }, () => ({ up: 0, down: 0, left: 0, right: 0, glyph: undefined })),
  );
  const at = ({ column, row }: Point): Cell | undefined => cells[row]?.[column];
  const strengthen = (point: Point, arm: 'up' | 'down' | 'left' | 'right', weight: 1 | 2) => {
    const cell = at(point);
    if (cell !== undefined && cell[arm] < weight) cell[arm] = weight;
  };

  return {
    columns,
    rows,
    line(from, to, weight) {
      for (let column = from.column; column < to.column; column++) {
        strengthen({ column, row: from.row }, 'right', weight);
        strengthen({ column: column + 1, row: from.row }, 'left', weight);
      }
      for (let row = from.row; row < to.row; row++) {
        strengthen({ column: from.column, row }, 'down', weight);
        strengthen({ column: from.column, row: row + 1 }, 'up', weight);
      }
    },
    write(point, text) {
      let { column } = point;
      for (const glyph of glyphsOf(text)) {
        const cell = at({ column, row: point.row });
        if (cell !== undefined) cell.glyph = glyph.text;
        const half = glyph.columns === 2 ? at({ column: column + 1, row: point.row }) : undefined;
        if (half !== undefined) half.glyph = '';
        column += glyph.columns;
      }
    },
    toLines(ascii) {
      return cells.map((row) =>
        row
          .map((cell) => cell.glyph ?? joint(cell, ascii))
          .join('')
          .trimEnd(),
      );
    },
  };
}

// Keys: weights of up, down, left, right. Those not listed fall back to the light joint of the same arms.
const joints: Readonly<Record<string, string>> = {
  '0011': '─',
  '0022': '━',
  '1100': '│',
  '2200': '┃',
  '0101': '┌',
  '0110': '┐',
  '1001': '└',
  '1010': '┘',
  '0202': '┏',
  '0220': '┓',
  '2002': '┗',
  '2020': '┛',
  '1101': '├',
  '1110': '┤',
  '0111': '┬',
  '1011': '┴',
  '2201': '┠',
  '2210': '┨',
  '0122': '┯',
  '1022': '┷',
  '1111': '┼',
  '1122': '┿',
  '2211': '╂',
};

function joint({ up, down, left, right }: Cell, ascii: boolean): string {
  const isBlank = up + down + left + right === 0;
  if (isBlank) return ' ';
  if (ascii) {
    if (up === 0 && down === 0) return left === 2 || right === 2 ? '=' : '-';
    return left === 0 && right === 0 ? '|' : '+';
  }
  const light = [up, down, left, right].map((weight) => Math.min(1, weight)).join('');
  return joints[`${up}${down}${left}${right}`] ?? joints[light] ?? '·';
}
