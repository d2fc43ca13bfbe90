import pdfkit from 'pdfkit';
import { deflate } from '../deflate.ts';
import type { Font, Fonts } from '../font/index.ts';
import { bytesOf as bytesOfTable, plainFont } from '../font/index.ts';
import { digestOfTexts, type Mark, type OpenPage, type Pages } from '../page/index.ts';
import { eachDrawn, type Printing } from '../paged/index.ts';
import { contentOf, ptPerMm } from './draw.ts';
import { embedded, type PdfFont } from './embedded.ts';

export interface About {
  readonly title: string;
  /** Program and version. */
  readonly producer: string;
  /** Of the inputs. */
  readonly digest: string;
}

/**
 * Pages as a PDF with bookmarks, title and language, which asks the printer not to scale. No clock and no chance
 * in it. pdfkit writes the file and carries the fonts; what stands on a page is handed to it as three contents:
 * its head, which waits for the number of pages, its own, which is packed and gone at once, and the foot, which is
 * written once for all.
 *
 * @source ISO 32000-1:2008, 7.8.2 (content streams, several to a page), 12.2 (viewer preferences)
 */
export function* documentOf(pages: Pages, about: About, fonts: Fonts): Printing<Uint8Array> {
  const document = startDocument(about);
  const pens = {
    regular: embedded(fonts.regular, carry(document, 'regular', fonts.regular)),
    semibold: embedded(fonts.semibold, carry(document, 'semibold', fonts.semibold)),
  };
  const letters = new TextEncoder();
  const contents = (marks: readonly Mark[], heightMm: number): Uint8Array =>
    letters.encode(contentOf(marks, heightMm, pens));
  const heads: ((of: number) => void)[] = [];
  const feet = new Map<readonly Mark[], PdfReference>();
  const shapes: string[] = [];
  const draw = ({ number, widthMm, heightMm, bookmarks, head, own, foot }: OpenPage): void => {
    document.addPage({ size: [widthMm, heightMm].map(sizeOf), margin: 0 });
    for (const name of bookmarks) document.outline.addItem(name);
    const { content, dictionary, fonts } = document.page;
    const above = document.ref();
    // A few words: packing them takes longer than the file is worth.
    above.compress = false;
    heads.push((of) => above.end(contents(head(of), heightMm)));
    // pdfkit has turned the page upside down, so that y runs down it; ours have y up, as the format has.
    content.buffer = [];
    content.write(contents(own, heightMm));
    const below = feet.get(foot) ?? document.ref();
    if (!feet.has(foot)) below.end(contents(foot, heightMm));
    feet.set(foot, below);
    dictionary.data.Contents = [above, content, below];
    for (const font of Object.values(pens)) fonts[font.name] = font.reference();
    shapes.push(`${number}: ${widthMm} × ${heightMm}: ${own.length}`);
  };
  const counted = yield* eachDrawn(pages, draw);
  for (const end of heads) end(counted.of);
  // The inputs tell sessions apart, the pages tell apart how one was printed.
  const content = bytesOf(document, about.digest + digestOfTexts(shapes));
  return { ...counted, content };
}

function sizeOf(mm: number): number {
  return Math.round(mm * ptPerMm * 10000) / 10000;
}

/** What is used of pdfkit's document; its published types don't tell of most of it. */
interface PdfDocument {
  addPage(options: { size: readonly number[]; margin: number }): void;
  ref(data?: object): PdfReference;
  registerFont(name: string, bytes: Uint8Array): this;
  font(name: string): this;
  end(): void;
  read(): Uint8Array | null;
  readonly outline: { addItem(title: string): unknown };
  readonly page: {
    readonly fonts: Record<string, unknown>;
    readonly content: PdfReference;
    readonly dictionary: { readonly data: { Contents: unknown } };
  };
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
  write(operations: Uint8Array): void;
  end(operations: Uint8Array): void;
  finalize(): void;
}

/** Empty; no compression but our own, none of pdfkit's own fonts. */
function startDocument(about: About): PdfDocument {
  // The published types tell little of what it holds.
  class Document extends (pdfkit as unknown as new (options: Record<string, unknown>) => PdfDocument) {
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
