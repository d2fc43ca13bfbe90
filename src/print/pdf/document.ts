import type { Fonts } from '../font/index.ts';
import type { Page } from '../page/index.ts';
import { contentOf, fontNames, ptPerMm } from './draw.ts';
import { embedded } from './embedded.ts';
import { latin1, type PdfFile, type Reference, startFile, textString } from './objects.ts';

export interface About {
  readonly title: string;
  /** Program and version. */
  readonly producer: string;
  /** Sixteen characters that tell the file from others. */
  readonly id: string;
}

/**
 * Pages as a PDF with bookmarks, title and language, which asks the printer not to scale. No clock and no chance
 * in it.
 *
 * @source ISO 32000-1:2008, 7.7 (catalogue, page tree), 12.2 (viewer preferences), 12.3.3 (outline), 14.3 (info)
 */
export function documentOf(pages: readonly Page[], about: About, fonts: Fonts): Uint8Array {
  const file = startFile();
  const regular = embedded(fonts.regular, 'IBMPlexSans');
  const semibold = embedded(fonts.semibold, 'IBMPlexSans-SemiBold');
  const tree = file.reserve();
  const [first, second] = [file.reserve(), file.reserve()];
  const resources = file.add(`<</Font <</${fontNames.regular} ${first} /${fontNames.semibold} ${second}>>>>`);
  const written = pages.map((page) => {
    const content = file.addStream('', latin1(contentOf(page, { regular, semibold })));
    const size = [page.widthMm, page.heightMm].map((mm) => Math.round(mm * ptPerMm * 10000) / 10000);
    return file.add(
      `<</Type /Page /Parent ${tree} /MediaBox [0 0 ${size.join(' ')}] /Resources ${resources} /Contents ${content}>>`,
    );
  });
  regular.finish(file, first);
  semibold.finish(file, second);
  file.put(tree, `<</Type /Pages /Count ${written.length} /Kids [${written.join(' ')}]>>`);
  const bookmarks = pages.flatMap((page, index) =>
    page.bookmarks.map((name): Bookmark => ({ name, page: written[index] ?? tree })),
  );
  const outline = outlineOf(file, bookmarks);
  const preferences = '<</DisplayDocTitle true /PrintScaling /None /PickTrayByPDFSize true>>';
  const root = file.add(
    `<</Type /Catalog /Pages ${tree} /Lang (en) /ViewerPreferences ${preferences}${outline === undefined ? '' : ` /Outlines ${outline} /PageMode /UseOutlines`}>>`,
  );
  const producer = textString(about.producer);
  // The file has a date, since some readers want one; it is not today's, so that two runs give one file.
  const info = file.add(
    `<</Title ${textString(about.title)} /Creator ${producer} /Producer ${producer} /CreationDate (D:19700101000000Z)>>`,
  );
  return file.bytes({ root, info, id: about.id });
}

interface Bookmark {
  readonly name: string;
  readonly page: Reference;
}

/** One level; each leads to the top of its page. */
function outlineOf(file: PdfFile, bookmarks: readonly Bookmark[]): Reference | undefined {
  if (bookmarks.length === 0) return undefined;
  const outline = file.reserve();
  const items = bookmarks.map(() => file.reserve());
  for (const [index, { name, page }] of bookmarks.entries()) {
    const [before, after] = [items[index - 1], items[index + 1]];
    const beside = `${before === undefined ? '' : ` /Prev ${before}`}${after === undefined ? '' : ` /Next ${after}`}`;
    file.put(
      items[index] ?? outline,
      `<</Title ${textString(name)} /Parent ${outline} /Dest [${page} /Fit]${beside}>>`,
    );
  }
  file.put(
    outline,
    `<</Type /Outlines /First ${items[0]} /Last ${items[items.length - 1]} /Count ${items.length}>>`,
  );
  return outline;
}
