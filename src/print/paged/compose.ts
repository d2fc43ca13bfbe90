import type { Diagnostic, Made, Outcome } from '../../model/index.ts';
import { type Fonts, type ReadFont, readFonts, typefaceOf } from '../font/index.ts';
import {
  digestOf,
  type LayoutDrawing,
  layoutsOf,
  type Pages,
  type SheetWishes,
  sheetsOf,
} from '../page/index.ts';

/** The program that prints, and its fonts: the caller owns the files they are read from. */
export interface Program {
  readonly version: string;
  readonly readFont: ReadFont;
}

/** Pages to be composed and drawn, one after the other: nothing is kept of one that is drawn. */
export interface Composed {
  readonly title: string;
  readonly version: string;
  readonly fonts: Fonts;
  /** Those that were chosen; how many there are with the others is known when the last was composed. */
  readonly pages: () => Pages;
  readonly isWhole: boolean;
  /** Of all that was read. */
  readonly digest: string;
  /** What the drawings below are called. */
  readonly drawings: 'layout' | 'master';
  /** Each distinct layout, or master, by itself. */
  readonly layouts: () => Generator<LayoutDrawing, void>;
}

export function compose(
  made: Made,
  diagnostics: readonly Diagnostic[],
  { version, readFont }: Program,
  wishes: SheetWishes = {},
): Outcome<Composed> {
  const fonts = readFonts(readFont);
  const face = typefaceOf(fonts);
  const sheets = sheetsOf(made, diagnostics, version, face, wishes);
  if (sheets.value === undefined) return { value: undefined, diagnostics: sheets.diagnostics };
  const { title } = made.batch;
  const digest = digestOf(made);
  const layouts = () => layoutsOf(made, face);
  const print = { title, version, fonts, digest, drawings: 'layout', layouts } as const;
  return { value: { ...print, pages: sheets.value, isWhole: true }, diagnostics: sheets.diagnostics };
}
