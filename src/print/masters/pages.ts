import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import { diagnose, fine, type Outcome, refused, type Settings } from '../../model/index.ts';
import {
  type Area,
  footMmOf,
  footOf,
  headMm,
  headOf,
  type Mark,
  moved,
  type OpenPage,
  type Pages,
  type Surround,
  scaleBars,
  sizesOf,
  stretchesOf,
  type Typeface,
} from '../page/index.ts';
import { printedCells } from './cells.ts';
import { type Bars, factorsOf, stretchedMarks } from './correction.ts';
import { type Drawing, drawingOf } from './drawing.ts';
import { type Grid, jointsOf } from './joints.ts';
import { type Note, notesMmOf, notesOf, setNotes } from './notes.ts';
import { pieceMarks } from './piece.ts';
import { planOfPages } from './plan.ts';
import type { TracedMaster } from './tracing.ts';

export interface MasterPages {
  readonly title: string;
  /** Program, version and the digest that tells two prints apart. */
  readonly made: string;
  readonly settings: Settings;
  readonly bars: Bars;
  /** The paper may be turned for a master that then needs fewer pages. */
  readonly mayTurn: boolean;
}

/** Room for the bar that runs up the page. */
export const gutterMm = 16;
/** More pages than this nobody joins well. */
const mostPages = 60;

/** Each master at full size, over as many pages as it takes. */
export function masterPages(
  masters: readonly TracedMaster[],
  about: MasterPages,
  face: Typeface,
): Outcome<() => Pages> {
  const ways = waysOf(about, face);
  const plans: Planned[] = [];
  for (const traced of masters) {
    const best = fewest(ways.map((sheet) => planned(traced, sheet, about, face)));
    if (best.count > mostPages) {
      const facts = { name: traced.master.name, pages: `${best.count}`, most: `${mostPages}` };
      return refused(diagnose('O24', { kind: 'span', span: traced.master.at }, facts));
    }
    plans.push(best);
  }
  return fine(function* () {
    let count = 0;
    for (const { draw } of plans)
      for (const draft of draw(count + 1)) yield opened(draft, ++count, about, face);
    return count;
  });
}

/** A sheet of paper, in lengths that are true on paper. */
interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly within: Area;
  /** Where something can be drawn. */
  readonly room: Area;
  /** Its foot, as it goes to the printer: with the second bar, which runs up the page. */
  readonly foot: readonly Mark[];
}

interface Draft {
  readonly sheet: Sheet;
  readonly statement: string;
  readonly bookmarks: readonly string[];
  readonly marks: readonly Mark[];
}

/** The paper as it was asked for and, where it may, turned. */
function waysOf(about: MasterPages, face: Typeface): readonly Sheet[] {
  const { settings, mayTurn } = about;
  const { width, height } = paperSize(settings.paper.value);
  const [across, up] = [toDrawnMm(width), toDrawnMm(height)];
  const marginMm = toDrawnMm(settings.margin.value);
  const asked = sheetOf(across, up, marginMm, about, face);
  return mayTurn && across !== up ? [asked, sheetOf(up, across, marginMm, about, face)] : [asked];
}

function sheetOf(
  acrossMm: number,
  upMm: number,
  marginMm: number,
  about: MasterPages,
  face: Typeface,
): Sheet {
  const factors = factorsOf(about.bars);
  const { across, up } = factors;
  const [widthMm, heightMm] = [acrossMm / across, upMm / up];
  const within = {
    left: marginMm / across,
    right: (acrossMm - marginMm) / across,
    top: marginMm / up,
    bottom: (upMm - marginMm) / up,
  };
  const room = {
    left: within.left + gutterMm,
    right: within.right,
    top: within.top + headMm,
    bottom: within.bottom - footMmOf(within.right - within.left),
  };
  const foot = [
    ...footOf(face, within, aroundOf(about)),
    ...scaleBars(face, { x: within.left + 7.4, y: room.bottom - 4 }, 'up'),
  ];
  return { widthMm, heightMm, within, room, foot: stretchedMarks(foot, factors) };
}

interface Planned {
  readonly count: number;
  /** @param first number of its first page */
  readonly draw: (first: number) => readonly Draft[];
}

function fewest([first, ...others]: readonly Planned[]): Planned {
  return others.reduce((a, b) => (b.count < a.count ? b : a), first!); // there is the paper as asked
}

const underNotesMm = 6;

/**
 * On one page below its notes where both have room; else the notes and the plan of the pages have a page of
 * their own, and the drawing goes over the pages behind it.
 */
function planned(traced: TracedMaster, sheet: Sheet, about: MasterPages, face: Typeface): Planned {
  const { room } = sheet;
  const [widthMm, heightMm] = [room.right - room.left, room.bottom - room.top];
  const drawing = drawingOf(traced.master.outline);
  const notes = notesOf(traced, sizesOf(about.settings), about.bars);
  const { name } = traced.master;
  const notesMm = notesMmOf(face, notes, widthMm) + underNotesMm;
  const columns = stretchesOf(drawing.widthMm, widthMm);
  const fits = columns.length === 1 && stretchesOf(drawing.heightMm, heightMm - notesMm).length === 1;
  if (fits) {
    return { count: 1, draw: (first) => [onOnePage(traced, sheet, drawing, notes, notesMm, first, face)] };
  }
  const grid: Grid = { columns, rows: stretchesOf(drawing.heightMm, heightMm) };
  const cells = printedCells(grid, [drawing.edges, ...drawing.drawn]);
  const count = cells.length;
  return {
    count: count + 1,
    draw: (first) => {
      const joints = jointsOf(grid, cells, [drawing.edges, ...drawing.drawn]);
      const top = room.top + notesMm;
      const left: Area = { ...room, top: Math.min(top, room.bottom - 40) };
      const cover: Draft = {
        sheet,
        statement: `${name}: notes and plan`,
        bookmarks: [name],
        marks: [
          ...setNotes(face, notes, room),
          ...planOfPages(face, drawing, { grid, cells }, left, first + 1),
        ],
      };
      const pieces = cells.map((cell, i): Draft => {
        const which = count === 1 ? '' : `, piece ${i + 1} of ${count}`;
        const marks = pieceMarks(face, { traced, drawing, grid, cells, joints, cell, first: first + 1 });
        const [across, down] = [columns[cell.column]!, grid.rows[cell.row]!]; // the cell is one of the grid
        return {
          sheet,
          statement: `${name}, full size${which}`,
          bookmarks: [],
          marks: onSheet(marks, room, across.shown.from, down.shown.from),
        };
      });
      return [cover, ...pieces];
    },
  };
}

function onOnePage(
  traced: TracedMaster,
  sheet: Sheet,
  drawing: Drawing,
  notes: readonly Note[],
  notesMm: number,
  first: number,
  face: Typeface,
): Draft {
  const { room } = sheet;
  const grid: Grid = {
    columns: stretchesOf(drawing.widthMm, room.right - room.left),
    rows: stretchesOf(drawing.heightMm, room.bottom - room.top),
  };
  const cell = { column: 0, row: 0 };
  const marks = pieceMarks(face, { traced, drawing, grid, cells: [cell], joints: [], cell, first });
  const { name } = traced.master;
  return {
    sheet,
    statement: `${name}, full size`,
    bookmarks: [name],
    marks: [...setNotes(face, notes, room), ...onSheet(marks, { ...room, top: room.top + notesMm }, 0, 0)],
  };
}

/** From the drawing's own place to the page. */
function onSheet(marks: readonly Mark[], { left, top }: Area, fromX: number, fromY: number): readonly Mark[] {
  return moved(marks, ({ x, y }) => ({ x: x - fromX + left, y: y - fromY + top }));
}

function opened(
  { sheet, statement, bookmarks, marks }: Draft,
  number: number,
  about: MasterPages,
  face: Typeface,
): OpenPage {
  const factors = factorsOf(about.bars);
  const head = (of: number) =>
    stretchedMarks(headOf(face, sheet.within, { ...aroundOf(about), statement, number, of }), factors);
  return {
    number,
    widthMm: sheet.widthMm * factors.across,
    heightMm: sheet.heightMm * factors.up,
    bookmarks,
    own: stretchedMarks(marks, factors),
    head,
    foot: sheet.foot,
  };
}

function aroundOf({ title, made }: MasterPages): Surround {
  return {
    title: `${title}: masters`,
    made,
    alarm: undefined,
    ofBars: ['measure me before you cut:', 'both bars, 100 mm and 4 in'],
  };
}
