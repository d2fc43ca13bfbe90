import type { Diagnostic, Made, Outcome } from '../../model/index.ts';
import { type ReadFont, readFonts, typefaceOf } from '../font/index.ts';
import { digestOf, digestOfTexts, type Page, sheetsOf } from '../page/index.ts';
import { documentOf } from './document.ts';

/** The program that prints, and its fonts: the caller owns the files they are read from. */
export interface Program {
  readonly version: string;
  readonly readFont: ReadFont;
}

/** The cutting sheets as a PDF: the same bytes for the same input, on every machine. */
export function printPdf(
  made: Made,
  diagnostics: readonly Diagnostic[],
  { version, readFont }: Program,
): Outcome<Uint8Array> {
  const fonts = readFonts(readFont);
  const sheets = sheetsOf(made, diagnostics, version, typefaceOf(fonts));
  if (sheets.value === undefined) return { value: undefined, diagnostics: sheets.diagnostics };
  const about = { title: made.batch.title, producer: `cardwright ${version}`, id: idOf(made, sheets.value) };
  return { value: documentOf(sheets.value, about, fonts), diagnostics: sheets.diagnostics };
}

/** The inputs tell sessions apart, the pages tell apart how one was printed. */
function idOf(made: Made, pages: readonly Page[]): string {
  const shapes = pages.map(({ widthMm, heightMm, marks }) => `${widthMm} × ${heightMm}: ${marks.length}`);
  return digestOf(made) + digestOfTexts(shapes);
}
