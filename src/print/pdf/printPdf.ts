import type { Composed, Printing } from '../paged/index.ts';
import { documentOf } from './document.ts';

/** The pages as a PDF: the same bytes for the same input, on every machine. */
export function* printPdf({ title, version, fonts, digest, pages }: Composed): Printing<Uint8Array> {
  const about = { title, producer: `cardwright ${version}`, digest };
  return yield* documentOf(pages(), about, fonts);
}
