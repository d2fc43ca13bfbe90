import type { Fonts } from '../font/index.ts';
import type { Page } from '../page/index.ts';
import type { Composed } from '../paged/index.ts';
import { svgOf } from './document.ts';

/** One drawing, with the name of the file for it. */
export interface SvgFile {
  readonly name: string;
  readonly text: string;
}

/**
 * The pages as SVG files and, where all pages are wanted, each drawing full size in one of its own. The
 * same bytes for the same input, on every machine.
 */
export function printSvg(composed: Composed): readonly SvgFile[] {
  const { title, fonts, pages, of } = composed;
  const sheets = pages.map(({ number, page }): SvgFile => {
    const called = `${title}, page ${number} of ${of}`;
    return file('page', number, of, page, called, aboutPage(page), fonts);
  });
  if (pages.length < of) return sheets;
  const layouts = composed.layouts();
  return [
    ...sheets,
    ...layouts.map((it, index) =>
      file(composed.drawings, index + 1, layouts.length, it, it.title, it.about, fonts),
    ),
  ];
}

function file(
  kind: string,
  number: number,
  of: number,
  page: Page,
  title: string,
  about: string,
  fonts: Fonts,
): SvgFile {
  // Padded, so that a list of files by name is in their order.
  const padded = String(number).padStart(String(of).length, '0');
  return { name: `${kind}-${padded}.svg`, text: svgOf(page, { title, about }, fonts) };
}

/** What its largest line says, and what begins on it. */
function aboutPage({ marks, bookmarks }: Page): string {
  const statement = marks.flatMap((mark) =>
    mark.kind === 'words' && mark.role === 'statement' ? [mark.text] : [],
  );
  return [...new Set([...statement, ...bookmarks])].join('; ') || 'a page of cutting sheets';
}
