import { closed, type OpenPage, type Page, type Pages } from '../../src/print/page/index.ts';
import type { Composed } from '../../src/print/paged/index.ts';
import { printPdf } from '../../src/print/pdf/index.ts';
import { printSvg, type SvgFile } from '../../src/print/svg/index.ts';

/** Every page with all that stands on it. */
export function allPages(pages: Pages): readonly Page[] {
  const open: OpenPage[] = [];
  for (let step = pages.next(); ; step = pages.next()) {
    if (step.done) {
      const of = step.value;
      return open.map((page) => closed(page, of));
    }
    if (step.value !== undefined) open.push(step.value);
  }
}

export function pdfOf(print: Composed): Uint8Array {
  return toEnd(printPdf(print)).content;
}

export function svgFilesOf(print: Composed): readonly SvgFile[] {
  return toEnd(printSvg(print)).content;
}

export function toEnd<Result>(work: Generator<unknown, Result>): Result {
  for (let step = work.next(); ; step = work.next()) if (step.done) return step.value;
}
