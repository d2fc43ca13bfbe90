import { type Batch, type Made, type Outcome, refused } from '../../model/index.ts';
import { readFonts, typefaceOf } from '../font/index.ts';
import {
  digestOf,
  type LayoutDrawing,
  moved,
  paperFault,
  stretchesOf,
  type Typeface,
} from '../page/index.ts';
import type { Composed, Program } from '../paged/index.ts';
import { type Bars, factorsOf, stretched } from './correction.ts';
import { drawingOf } from './drawing.ts';
import { masterPages } from './pages.ts';
import { pieceMarks } from './piece.ts';
import { type TracedMaster, tracedMasters } from './tracing.ts';

export interface MasterChoice {
  /** One master; undefined for all. */
  readonly name: string | undefined;
  readonly bars: Bars;
  readonly mayTurn: boolean;
}

/** Masters at full size as pages, and each whole in a drawing of its own. */
export function composeMasters(
  made: Pick<Made, 'spec' | 'batch'>,
  { name, bars, mayTurn }: MasterChoice,
  { version, readFont }: Program,
): Outcome<Composed> {
  const { title, settings } = made.batch;
  const fault = paperFault(settings, least);
  if (fault !== undefined) return refused(fault);
  const fonts = readFonts(readFont);
  const face = typefaceOf(fonts);
  const masters = chosen(made.batch, name);
  const digest = digestOf(made);
  const about = { title, made: `cardwright ${version} · ${digest}`, settings, bars, mayTurn };
  const { value: pages, diagnostics } = masterPages(masters, about, face);
  if (pages === undefined) return { value: undefined, diagnostics };
  const layouts = function* (): Generator<LayoutDrawing, void> {
    for (const it of masters) yield whole(it, bars, face);
  };
  const print = { title: `${title}: masters`, version, fonts, digest, drawings: 'master' } as const;
  return { value: { ...print, pages, isWhole: true, layouts }, diagnostics };
}

export function chosen(batch: Batch, name: string | undefined): readonly TracedMaster[] {
  return tracedMasters(batch).filter(({ master }) => name === undefined || master.name === name);
}

/** Head, foot and the bar that runs up the page, and a strip of paper to draw on. */
const least = { widthMm: 134, heightMm: 150 } as const;

/** On paper as large as it takes. */
function whole(traced: TracedMaster, bars: Bars, face: Typeface): LayoutDrawing {
  const drawing = drawingOf(traced.master.outline);
  const endless = Number.MAX_SAFE_INTEGER;
  const grid = {
    columns: stretchesOf(drawing.widthMm, endless),
    rows: stretchesOf(drawing.heightMm, endless),
  };
  const cell = { column: 0, row: 0 };
  const marks = pieceMarks(face, { traced, drawing, grid, cells: [cell], joints: [], cell, first: 1 });
  const { name } = traced.master;
  const page = stretched(
    {
      widthMm: drawing.widthMm + 2 * aroundWholeMm,
      heightMm: drawing.heightMm + 2 * aroundWholeMm,
      bookmarks: [],
      marks: moved(marks, ({ x, y }) => ({ x: x + aroundWholeMm, y: y + aroundWholeMm })),
    },
    factorsOf(bars),
  );
  return { ...page, title: name, about: `the master "${name}" at full size, kept and traced` };
}

const aroundWholeMm = 3;
