import { digestOfTexts } from '../page/index.ts';
import type { Composed } from '../paged/index.ts';
import { documentOf } from './document.ts';

/** The pages as a PDF: the same bytes for the same input, on every machine. */
export async function printPdf(composed: Composed): Promise<Uint8Array> {
  const { title, version, fonts } = composed;
  const about = { title, producer: `cardwright ${version}`, id: idOf(composed) };
  const pages = composed.pages.map(({ page }) => page);
  return documentOf(pages, about, fonts);
}

/** The inputs tell sessions apart, the pages tell apart how one was printed. */
function idOf({ digest, pages }: Composed): string {
  const shapes = pages.map(
    ({ number, page: { widthMm, heightMm, marks } }) =>
      `${number}: ${widthMm} × ${heightMm}: ${marks.length}`,
  );
  return digest + digestOfTexts(shapes);
}
