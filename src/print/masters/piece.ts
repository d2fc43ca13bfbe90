import {
  type Area,
  grainMark,
  heightOf,
  leadingOf,
  lines,
  type Mark,
  type Point,
  type Stroke,
  type Typeface,
  type WordsRole,
  widthOf,
  wordsAround,
} from '../page/index.ts';
import { indexOf } from './cells.ts';
import { clipped } from './clipping.ts';
import { areaAround, type Drawing } from './drawing.ts';
import { type Cell, type Grid, type Joint, jointMarks, neighbourWords } from './joints.ts';
import { roomOn } from './room.ts';
import { grainOf, type TracedMaster } from './tracing.ts';

export interface Piece {
  readonly traced: TracedMaster;
  readonly drawing: Drawing;
  readonly grid: Grid;
  /** Those that have a page. */
  readonly cells: readonly Cell[];
  readonly joints: readonly Joint[];
  readonly cell: Cell;
  /** Page of the first piece. */
  readonly first: number;
}

/** What one page shows of a master, where it lies on the master: its lines, joints, name and grain. */
export function pieceMarks(face: Typeface, piece: Piece): readonly Mark[] {
  const { drawing, grid, cell, first } = piece;
  const [across, down] = [grid.columns[cell.column]!, grid.rows[cell.row]!]; // the cell is one of the grid
  const window: Area = {
    left: across.shown.from,
    right: across.shown.to,
    top: down.shown.from,
    bottom: down.shown.to,
  };
  const edges = clipped(drawing.edges, window);
  const drawn = drawing.drawn.flatMap((it) => clipped(it, window));
  const joints = piece.joints.filter(({ between }) => between.some((it) => isSame(it, cell)));
  const joined = joints.flatMap((it) => jointMarks(face, it));
  const taken = [...edges, ...drawn, ...joined.filter((it) => it.kind === 'stroke')];
  const said = joints.flatMap((joint) => {
    const [a, b] = joint.between;
    const other = isSame(a, cell) ? b : a;
    return neighbourWords(face, joint, cell, first + indexOf(piece.cells, other), taken);
  });
  return [...drawn, ...edges, ...joined, ...said, ...nameAndGrain(face, piece, taken, window)];
}

function isSame(a: Cell, b: Cell): boolean {
  return a.column === b.column && a.row === b.row;
}

const grainMm = 14;

/** On the material where there is room, so that it stands on what is kept. */
function nameAndGrain(
  face: Typeface,
  { traced, drawing }: Piece,
  taken: readonly Stroke[],
  window: Area,
): readonly Mark[] {
  const marks: Mark[] = [];
  const obstacles = [...taken];
  for (const rows of wordings(traced)) {
    const widthMm = Math.max(...rows.map(({ role, text }) => widthOf(face, role, text)));
    const heightMm = rows.reduce((sum, { role }) => sum + leadingOf(role), 0);
    const centre = roomOn(drawing, taken, window, widthMm, heightMm);
    if (centre === undefined) continue;
    let y = centre.y - heightMm / 2;
    for (const { role, text } of rows) {
      marks.push(wordsAround(face, role, text, { x: centre.x, y: y + leadingOf(role) / 2 }));
      y += leadingOf(role);
    }
    obstacles.push(...hatched(areaAround(centre, widthMm, heightMm)));
    break;
  }
  const grain = grainOf(traced);
  if (grain === undefined) return marks;
  const [widthMm, heightMm] = grain === 'length' ? [grainMm, 4] : [4, grainMm];
  const captionMm = heightOf('caption') + 0.6;
  const place = roomOn(drawing, obstacles, window, Math.max(widthMm, 10), heightMm + captionMm);
  if (place === undefined) return marks;
  const centre: Point = { x: place.x, y: place.y + captionMm / 2 };
  return [
    ...marks,
    wordsAround(face, 'caption', 'grain', { x: place.x, y: place.y - heightMm / 2 }),
    ...grainMark(centre, grainMm, grain === 'length' ? 'across' : 'up'),
  ];
}

interface Row {
  readonly role: WordsRole;
  readonly text: string;
}

/** What is said on the master itself: as much as there is room for. */
function wordings({ master, hasHands }: TracedMaster): readonly (readonly Row[])[] {
  const name: Row = { role: 'heading', text: master.name };
  const small: Row = { role: 'tight label', text: master.name };
  const kept: Row = { role: 'caption', text: 'kept and traced, not built in' };
  const shorter: readonly Row[] = ['kept and traced,', 'not built in'].map((text) => ({
    role: 'caption',
    text,
  }));
  const hand: readonly Row[] = hasHands ? [{ role: 'caption', text: 'left hand: this face up' }] : [];
  const shortHand: readonly Row[] = hasHands ? [{ role: 'caption', text: 'left hand' }] : [];
  return [
    [name, kept, ...hand],
    [small, ...shorter, ...shortHand],
    [small, kept, ...shortHand],
    [small, kept],
    [small, ...shortHand],
    [small],
  ];
}

/** What words take up, as an obstacle for what is placed after them: lines so close that nothing goes between. */
function hatched({ left, right, top, bottom }: Area): readonly Stroke[] {
  const count = Math.ceil((bottom - top) / 2) + 1;
  return lines(
    'table rule',
    Array.from({ length: count }, (_, i) => {
      const y = top + ((bottom - top) * i) / (count - 1);
      return [
        { x: left, y },
        { x: right, y },
      ];
    }),
  );
}
