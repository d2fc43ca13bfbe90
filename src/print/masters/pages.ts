import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import { diagnose, fine, type Outcome, refused, type Settings } from '../../model/index.ts';
import {
  type Area,
  footMmOf,
  headMm,
  type Mark,
  moved,
  type Page,
  scaleBars,
  sizesOf,
  stretchesOf,
  surround,
  type Typeface,
} from '../page/index.ts';
import { type Bars, type Factors, factorsOf, stretched } from './correction.ts';
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
): Outcome<readonly Page[]> {
  const drafts: Draft[] = [];
  for (const traced of masters) {
    const best = fewest(waysOf(about).map((sheet) => planned(traced, sheet, about, face)));
    if (best.count > mostPages) {
      const facts = { name: traced.master.name, pages: `${best.count}`, most: `${mostPages}` };
      return refused(diagnose('O24', { kind: 'span', span: traced.master.at }, facts));
    }
    drafts.push(...best.draw(drafts.length + 1));
  }
  return fine(drafts.map((draft, i) => finished(draft, i + 1, drafts.length, about, face)));
}

/** A sheet of paper, in lengths that are true on paper. */
interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly within: Area;
  /** Where something can be drawn. */
  readonly room: Area;
}

interface Draft {
  readonly sheet: Sheet;
  readonly statement: string;
  readonly bookmarks: readonly string[];
  readonly marks: readonly Mark[];
}

/** The paper as it was asked for and, where it may, turned. */
function waysOf({ settings, bars, mayTurn }: MasterPages): readonly Sheet[] {
  const { width, height } = paperSize(settings.paper.value);
  const [across, up] = [toDrawnMm(width), toDrawnMm(height)];
  const marginMm = toDrawnMm(settings.margin.value);
  const factors = factorsOf(bars);
  const asked = sheetOf(across, up, marginMm, factors);
  return mayTurn && across !== up ? [asked, sheetOf(up, across, marginMm, factors)] : [asked];
}

function sheetOf(acrossMm: number, upMm: number, marginMm: number, { across, up }: Factors): Sheet {
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
  return { widthMm, heightMm, within, room };
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
  const count = columns.length * grid.rows.length;
  return {
    count: count + 1,
    draw: (first) => {
      const joints = jointsOf(grid, [drawing.edges, ...drawing.drawn]);
      const top = room.top + notesMm;
      const left: Area = { ...room, top: Math.min(top, room.bottom - 40) };
      const cover: Draft = {
        sheet,
        statement: `${name}: notes and plan`,
        bookmarks: [name],
        marks: [...setNotes(face, notes, room), ...planOfPages(face, drawing, grid, left, first + 1)],
      };
      const pieces = grid.rows.flatMap((_, row) =>
        columns.map((_, column): Draft => {
          const number = row * columns.length + column + 1;
          const which = count === 1 ? '' : `, piece ${number} of ${count}`;
          const marks = pieceMarks(face, {
            traced,
            drawing,
            grid,
            joints,
            cell: { column, row },
            first: first + 1,
          });
          return {
            sheet,
            statement: `${name}, full size${which}`,
            bookmarks: [],
            marks: onSheet(marks, room, columns[column]!.shown.from, grid.rows[row]!.shown.from),
          };
        }),
      );
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
  const marks = pieceMarks(face, { traced, drawing, grid, joints: [], cell: { column: 0, row: 0 }, first });
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

function finished(draft: Draft, number: number, of: number, about: MasterPages, face: Typeface): Page {
  const { sheet, statement, bookmarks, marks } = draft;
  const { title, made, bars } = about;
  const around = { statement, title: `${title}: masters`, number, of, made, alarm: undefined };
  const { within, room } = sheet;
  const page: Page = {
    widthMm: sheet.widthMm,
    heightMm: sheet.heightMm,
    bookmarks,
    marks: [
      ...surround(face, within, {
        ...around,
        ofBars: ['measure me before you cut:', 'both bars, 100 mm and 4 in'],
      }),
      ...scaleBars(face, { x: within.left + 7.4, y: room.bottom - 4 }, 'up'),
      ...marks,
    ],
  };
  return stretched(page, factorsOf(bars));
}
