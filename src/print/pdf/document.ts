import type { Weight } from '../page/index.ts';
import { deflate } from './deflate.ts';
import { kerningIn } from './kerning.ts';
import { shapeByLetters } from './shaping.ts';
import { fontInWoff } from './woff.ts';

/** The fonts of the project, by weight, as WOFF files. */
export type Fonts = Readonly<Record<Weight, Uint8Array>>;

/** What the renderer uses of pdfkit's document; its published types don't tell of most of it. */
export interface PdfDocument extends PdfPath {
  addPage(options: { size: readonly [number, number]; margin: number }): this;
  registerFont(name: string, bytes: Uint8Array): this;
  font(name: string, sizePt?: number): this;
  widthOfString(text: string): number;
  lineWidth(pt: number): this;
  dash(pt: readonly number[]): this;
  undash(): this;
  stroke(): this;
  fill(colour: string): this;
  fillColor(colour: string): this;
  save(): this;
  restore(): this;
  rotate(degrees: number, options: { origin: readonly [number, number] }): this;
  text(text: string, x: number, y: number, options: { lineBreak: false; baseline: 'alphabetic' }): this;
  end(): void;
  read(): Uint8Array | null;
  readonly outline: { addItem(title: string): unknown };
  /** The font in use, as fontkit gives it. */
  readonly _font: PdfFont;
  _id: Uint8Array;
  readonly _root: {
    readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } };
  };
}

/** A font as pdfkit keeps it. */
export interface PdfFont {
  /** As the font library gives it. */
  readonly font: {
    hasGlyphForCodePoint(codePoint: number): boolean;
    glyphForCodePoint(codePoint: number): ShapedRun['glyphs'][number];
    readonly unitsPerEm: number;
  };
  /** One word; all that is measured or drawn comes by here once. */
  layoutRun: (text: string, features?: unknown) => ShapedRun;
}

/** Glyphs side by side, lengths in parts of an em of 1000. */
export interface ShapedRun {
  readonly glyphs: readonly {
    readonly id: number;
    readonly advanceWidth: number;
    readonly codePoints: readonly number[];
  }[];
  readonly positions: readonly {
    readonly xAdvance: number;
    readonly yAdvance: number;
    readonly xOffset: number;
    readonly yOffset: number;
    /** Of the glyph on its own. */
    readonly advanceWidth: number;
  }[];
  readonly advanceWidth: number;
}

interface PdfPath {
  moveTo(x: number, y: number): this;
  lineTo(x: number, y: number): this;
  closePath(): this;
}

/** An object of the file that is being written. */
interface PdfReference {
  compress: boolean;
  buffer: Uint8Array[];
  finalize(): void;
}

export interface About {
  readonly title: string;
  /** Program and version. */
  readonly producer: string;
}

/**
 * An empty document of ours: no clock and no chance in it, no compression but our own, none of pdfkit's own
 * fonts.
 */
export async function startDocument(about: About, fonts: Fonts): Promise<PdfDocument> {
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
  for (const weight of ['semibold', 'regular'] as const) {
    const font = fontInWoff(fonts[weight]);
    document.registerFont(weight, font);
    shapeByLetters(document.font(weight)._font, kerningIn(font));
  }
  return document;
}

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

/** @param id sixteen characters that tell the file from others */
export function bytesOf(document: PdfDocument, id: string): Uint8Array {
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
