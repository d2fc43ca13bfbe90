import type { CutTree, Made } from '../../src/model/index.ts';
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
import { crosscut, demand, kind, leftOver, member, mm, part, rip, sheet } from '../plan/byHand.ts';
import { allPages } from '../print/drawn.ts';
import { withLayouts } from '../print/page/evening.ts';

export { compose } from '../../src/print/paged/index.ts';
export { pdfOf } from '../print/drawn.ts';

const rows = 10;
const columns = 20;

/** An evening of so many distinct layouts, each of 200 pieces, so of as many pages and a few. */
export function manyPages(pages: number): Made {
  const kinds = new Map<string, { readonly index: number; count: number }>();
  const indexOf = (length: number, width: number): number => {
    const size = `${length} ${width}`;
    const known = kinds.get(size) ?? { index: kinds.size, count: 0 };
    known.count++;
    kinds.set(size, known);
    return known.index;
  };
  const trees = Array.from({ length: pages }, (_, page) => gridOf(page, indexOf));
  const [first, ...others] = [...kinds].map(([size, { index, count }]) => {
    const [length = 0, width = 0] = size.split(' ').map(Number);
    return kind(mm(length), mm(width), [member(`piece ${index + 1}`, count)]);
  });
  if (first === undefined) throw new Error('no parts');
  const of = demand([first, ...others], [sheet(mm(420), mm(297))]);
  return withLayouts('Many pages', of, trees);
}

/** Strips of other widths on each page, each cut into pieces of two lengths. */
function gridOf(page: number, indexOf: (length: number, width: number) => number): CutTree {
  const strip = (row: number, column: number): CutTree => {
    if (column === columns) return leftOver;
    const length = 15 + ((page * 5 + row * 3 + (column < columns / 2 ? 0 : 2)) % 6);
    return crosscut(mm(length), part(indexOf(length, widthOf(page, row))), strip(row, column + 1));
  };
  const from = (row: number): CutTree =>
    row === rows ? leftOver : rip(mm(widthOf(page, row)), strip(row, 0), from(row + 1));
  return from(0);
}

function widthOf(page: number, row: number): number {
  return 20 + ((page * 3 + row * 2) % 9);
}

/** The pages as marks, composed as ours are. */
export function marksOf(made: Made, read: ReadFont): readonly Page[] {
  const { value } = sheetsOf(made, [], 'bench', typefaceOf(readFonts(read)));
  return value === undefined ? [] : allPages(value());
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
