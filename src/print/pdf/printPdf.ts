import type { Diagnostic, Made, Outcome } from '../../model/index.ts';
import { digestOf, digestOfTexts, mmPerPt, type Page, sheetsOf, type Typeface } from '../page/index.ts';
import { bytesOf, type Fonts, type PdfDocument, startDocument } from './document.ts';
import { drawPage } from './draw.ts';

/** The program that prints, and its fonts: the caller owns the files they are read from. */
export interface Program {
  readonly version: string;
  /** @param name of a file in `shared/fonts` */
  readonly readFont: (name: string) => Uint8Array;
}

/** The cutting sheets as a PDF: the same bytes for the same input, on every machine. */
export async function printPdf(
  made: Made,
  diagnostics: readonly Diagnostic[],
  program: Program,
): Promise<Outcome<Uint8Array>> {
  const fonts: Fonts = {
    regular: program.readFont('IBMPlexSans-Regular.woff'),
    semibold: program.readFont('IBMPlexSans-SemiBold.woff'),
  };
  const producer = `cardwright ${program.version}`;
  const document = await startDocument({ title: made.batch.title, producer }, fonts);
  const sheets = sheetsOf(made, diagnostics, program.version, typefaceOf(document));
  if (sheets.value === undefined) return { value: undefined, diagnostics: sheets.diagnostics };
  for (const page of sheets.value) drawPage(document, page);
  return { value: bytesOf(document, idOf(made, sheets.value)), diagnostics: sheets.diagnostics };
}

/** The inputs tell sessions apart, the pages tell apart how one was printed. */
function idOf(made: Made, pages: readonly Page[]): string {
  const shapes = pages.map(({ widthMm, heightMm, marks }) => `${widthMm} × ${heightMm}: ${marks.length}`);
  return digestOf(made) + digestOfTexts(shapes);
}

/** Widths as pdfkit itself will set them. */
function typefaceOf(document: PdfDocument): Typeface {
  const widths = new Map<string, number>();
  return {
    widthMm: (text, weight, sizePt) => {
      const key = `${weight} ${text}`;
      const known = widths.get(key);
      if (known !== undefined) return known * sizePt * mmPerPt;
      // The width grows with the size, so one look at 100 pt serves all sizes.
      const width = document.font(weight, 100).widthOfString(text) / 100;
      widths.set(key, width);
      return width * sizePt * mmPerPt;
    },
    has: (codePoint) => document.font('regular')._font.font.hasGlyphForCodePoint(codePoint),
  };
}
