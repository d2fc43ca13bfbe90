import type { Diagnostic, Made, Outcome } from '../../model/index.ts';
import { type Fonts, type ReadFont, readFonts, typefaceOf } from '../font/index.ts';
import {
  digestOf,
  type LayoutDrawing,
  layoutsOf,
  type Page,
  type SheetWishes,
  sheetsOf,
} from '../page/index.ts';

/** The program that prints, and its fonts: the caller owns the files they are read from. */
export interface Program {
  readonly version: string;
  readonly readFont: ReadFont;
}

export interface NumberedPage {
  /** As it stands on the page. */
  readonly number: number;
  readonly page: Page;
}

/** The sheets of a session, composed once for whatever draws them. */
export interface Composed {
  readonly title: string;
  readonly version: string;
  readonly fonts: Fonts;
  readonly pages: readonly NumberedPage[];
  /** How many there are with those that were not chosen. */
  readonly of: number;
  /** Of all that was read. */
  readonly digest: string;
  /** What the drawings below are called. */
  readonly drawings: 'layout' | 'master';
  /** Each distinct layout, or master, by itself; composed when it is asked for. */
  readonly layouts: () => readonly LayoutDrawing[];
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
  const pages = sheets.value.map((page, index): NumberedPage => ({ number: index + 1, page }));
  const title = made.batch.title;
  const digest = digestOf(made);
  const layouts = (): readonly LayoutDrawing[] => layoutsOf(made, face);
  return {
    value: { title, version, fonts, pages, of: pages.length, digest, drawings: 'layout', layouts },
    diagnostics: sheets.diagnostics,
  };
}
