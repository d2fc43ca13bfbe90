import { deflate } from '../deflate.ts';
import type { Font, Fonts } from '../font/index.ts';
import { bytesOf as bytesOfTable, plainFont } from '../font/index.ts';
import type { Page } from '../page/index.ts';
import { contentOf, ptPerMm } from './draw.ts';
import { embedded, type PdfFont } from './embedded.ts';

export interface About {
  readonly title: string;
  /** Program and version. */
  readonly producer: string;
  /** Sixteen characters that tell the file from others. */
  readonly id: string;
}

/**
 * Pages as a PDF with bookmarks, title and language, which asks the printer not to scale. No clock and no chance
 * in it. pdfkit writes the file and carries the fonts; what stands on a page is handed to it as one content.
 *
 * @source ISO 32000-1:2008, 12.2 (viewer preferences)
 */
export async function documentOf(pages: readonly Page[], about: About, fonts: Fonts): Promise<Uint8Array> {
  const document = await startDocument(about);
  const regular = embedded(fonts.regular, carry(document, 'regular', fonts.regular));
  const semibold = embedded(fonts.semibold, carry(document, 'semibold', fonts.semibold));
  for (const page of pages) {
    const size = [page.widthMm, page.heightMm].map((mm) => Math.round(mm * ptPerMm * 10000) / 10000);
    document.addPage({ size, margin: 0 });
    for (const name of page.bookmarks) document.outline.addItem(name);
    // pdfkit turns each page upside down, so that y runs down it; ours have y up, as the format has.
    document.addContent(`1 0 0 -1 0 ${size[1]} cm\n${contentOf(page, { regular, semibold })}`);
    for (const font of [regular, semibold]) document.page.fonts[font.name] = font.reference();
  }
  return bytesOf(document, about.id);
}

/** What is used of pdfkit's document; its published types don't tell of most of it. */
interface PdfDocument {
  addPage(options: { size: readonly number[]; margin: number }): void;
  addContent(operations: string): void;
  registerFont(name: string, bytes: Uint8Array): this;
  font(name: string): this;
  end(): void;
  read(): Uint8Array | null;
  readonly outline: { addItem(title: string): unknown };
  readonly page: { readonly fonts: Record<string, unknown> };
  /** The font in use. */
  readonly _font: PdfFont;
  _id: Uint8Array;
  readonly _root: {
    readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } };
  };
}

/** An object of the file that is being written. */
interface PdfReference {
  compress: boolean;
  buffer: Uint8Array[];
  finalize(): void;
}

/** Empty; no compression but our own, none of pdfkit's own fonts. */
async function startDocument(about: About): Promise<PdfDocument> {
  const { PDFDocument } = (await import('pdfkit')) as unknown as {
    // The published types know the class only as a default export, and little of what it holds.
    PDFDocument: new (
      options: Record<string, unknown>,
    ) => PdfDocument & { ref(data?: object): PdfReference };
  };
  class Document extends PDFDocument {
    override ref(data?: object): PdfReference {
      return deflatedByUs(super.ref(data));
    }
  }
  const document = new Document({
    autoFirstPage: false,
    font: null,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: {
      Title: about.title,
      Creator: about.producer,
      Producer: about.producer,
      // Without a date of ours pdfkit would read the clock, and each run would give another file.
      CreationDate: new Date(0),
    },
  });
  Object.assign(document._root.data.ViewerPreferences.data, {
    PrintScaling: 'None',
    PickTrayByPDFSize: true,
  });
  return document;
}

/** Node's own packer gives other bytes in other versions. */
function deflatedByUs(reference: PdfReference): PdfReference {
  const finalize = reference.finalize.bind(reference);
  reference.finalize = () => {
    if (reference.compress && reference.buffer.length > 0) {
      reference.buffer = [deflate(joined(reference.buffer))];
      reference.compress = false;
    }
    finalize();
  };
  return reference;
}

/** What a file needs of a font to draw glyphs by their numbers; words are set before they come here. */
const carriedTables = [
  ...['head', 'hhea', 'maxp', 'OS/2', 'post', 'name', 'hmtx', 'loca', 'glyf', 'cvt ', 'fpgm', 'prep'],
];

function carry(document: PdfDocument, name: string, { tables }: Font): PdfFont {
  const carried = carriedTables.flatMap((tag) => {
    const table = tables(tag);
    return table === undefined ? [] : [[tag, bytesOfTable(table)] as const];
  });
  return document.registerFont(name, plainFont(carried)).font(name)._font;
}

function bytesOf(document: PdfDocument, id: string): Uint8Array {
  const chunks: Uint8Array[] = [];
  document._id = new TextEncoder().encode(id);
  document.end();
  for (let chunk = document.read(); chunk !== null; chunk = document.read()) chunks.push(chunk);
  return joined(chunks);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((all, { length }) => all + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
