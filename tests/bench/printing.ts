import type { Made } from '../../src/model/index.ts';
import {
  bytesOf,
  plainFont,
  type ReadFont,
  readFonts,
  tablesIn,
  tagsIn,
  typefaceOf,
} from '../../src/print/font/index.ts';
import { type Page, sheetsOf } from '../../src/print/page/index.ts';
import { demand, kind, member, mm, sheet } from '../plan/byHand.ts';
import { madeOf } from '../print/page/evening.ts';

export { compose } from '../../src/print/paged/index.ts';
export { printPdf } from '../../src/print/pdf/index.ts';

/** An evening of many distinct layouts, so of many pages. */
export function manyPages(): Made {
  const [first, ...others] = Array.from({ length: 160 }, (_, index) =>
    kind(mm(24 + ((index * 37) % 90)), mm(14 + ((index * 23) % 50)), [member(`piece ${index + 1}`, 9)]),
  );
  if (first === undefined) throw new Error('no parts');
  return madeOf('Many pages', [demand([first, ...others], [sheet(mm(420), mm(297))])]);
}

/** The pages as marks, composed as ours are. */
export function marksOf(made: Made, read: ReadFont): readonly Page[] {
  return sheetsOf(made, [], 'bench', typefaceOf(readFonts(read))).value ?? [];
}

/** The plain font inside a WOFF file: pdfkit would unpack its outlines again for every glyph it looks at. */
export function fontInWoff(woff: Uint8Array): Uint8Array {
  const tables = tablesIn(woff);
  return plainFont(
    tagsIn(woff).flatMap((tag) => {
      const table = tables(tag);
      return table === undefined ? [] : [[tag, bytesOf(table)] as const];
    }),
  );
}

export { lineTypes } from '../../src/print/page/index.ts';
