import type { Made } from '../../src/model/index.ts';
import { mmPerPt, type Page, sheetsOf, type Typeface } from '../../src/print/page/index.ts';
import { type Fonts, startDocument } from '../../src/print/pdf/document.ts';
import { demand, kind, member, mm, sheet } from '../plan/byHand.ts';
import { madeOf } from '../print/page/evening.ts';

export { printPdf } from '../../src/print/pdf/index.ts';
export { fontInWoff } from '../../src/print/pdf/woff.ts';

/** An evening of many distinct layouts, so of many pages. */
export function manyPages(): Made {
  const [first, ...others] = Array.from({ length: 160 }, (_, index) =>
    kind(mm(24 + ((index * 37) % 90)), mm(14 + ((index * 23) % 50)), [member(`piece ${index + 1}`, 9)]),
  );
  if (first === undefined) throw new Error('no parts');
  return madeOf('Many pages', [demand([first, ...others], [sheet(mm(420), mm(297))])]);
}

/** The pages as marks, composed with the widths that pdfkit gives. */
export async function marksOf(made: Made, fonts: Fonts): Promise<readonly Page[]> {
  const document = await startDocument({ title: 'widths', producer: 'bench' }, fonts);
  const face: Typeface = {
    widthMm: (text, weight, sizePt) =>
      (document.font(weight, 100).widthOfString(text) / 100) * sizePt * mmPerPt,
    has: (codePoint) => document.font('regular')._font.font.hasGlyphForCodePoint(codePoint),
  };
  return sheetsOf(made, [], 'bench', face).value ?? [];
}

export { lineTypes } from '../../src/print/page/index.ts';
