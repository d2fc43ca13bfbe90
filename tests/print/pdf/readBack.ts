import { getDocument, OPS, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A PDF as another program sees it: read by pdfjs-dist, which shares nothing with what wrote it. */
export interface ReadBack {
  readonly pages: readonly ReadPage[];
  readonly viewerPreferences: Readonly<Record<string, unknown>>;
  readonly title: unknown;
  readonly language: unknown;
  readonly bookmarks: readonly string[];
}

export interface ReadPage {
  /** Left, bottom, right, top in points. */
  readonly box: readonly number[];
  readonly texts: readonly {
    readonly text: string;
    readonly x: number;
    readonly y: number;
    readonly sizePt: number;
  }[];
  /** Subpaths in points, y runs up, as they lie on the page. */
  readonly paths: readonly (readonly (readonly [number, number])[])[];
  /** The same with the pen that draws them. */
  readonly drawn: readonly DrawnPath[];
  readonly fonts: readonly { readonly name: string; readonly isEmbedded: boolean }[];
}

export interface DrawnPath {
  readonly points: readonly (readonly [number, number])[];
  readonly closed: boolean;
  readonly widthPt: number;
  readonly isDashed: boolean;
  readonly isStroked: boolean;
}

export async function readBack(bytes: Uint8Array): Promise<ReadBack> {
  // pdfjs takes the buffer over, so it gets a copy.
  const task = getDocument({ data: bytes.slice(), verbosity: 0, fontExtraProperties: true });
  const document = await task.promise;
  const metadata = await document.getMetadata();
  const info = metadata.info as Record<string, unknown>; // pdfjs types it as an object without members
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number++) pages.push(await readPage(document, number));
  const result = {
    pages,
    viewerPreferences: ((await document.getViewerPreferences()) ?? {}) as Record<string, unknown>, // likewise
    title: info.Title,
    language: info.Language,
    bookmarks: ((await document.getOutline()) ?? []).map(({ title }) => title),
  };
  await task.destroy();
  return result;
}

async function readPage(document: PDFDocumentProxy, number: number): Promise<ReadPage> {
  const page = await document.getPage(number);
  const content = await page.getTextContent();
  const operators = await page.getOperatorList();
  const fonts = new Map<string, boolean>();
  const drawn: DrawnPath[] = [];
  let [widthPt, isDashed] = [1, false];
  let matrix: readonly number[] = [1, 0, 0, 1, 0, 0];
  const saved: (readonly number[])[] = [];
  operators.fnArray.forEach((operator, index) => {
    const args = operators.argsArray[index];
    if (operator === OPS.save) saved.push(matrix);
    else if (operator === OPS.restore) matrix = saved.pop() ?? matrix;
    else if (operator === OPS.transform) matrix = multiplied(matrix, args);
    else if (operator === OPS.setLineWidth) widthPt = args[0];
    else if (operator === OPS.setDash) isDashed = args[0].length > 0;
    else if (operator === OPS.constructPath) {
      const isStroked = args[0] === OPS.stroke || args[0] === OPS.closeStroke;
      for (const path of subpaths(args[1][0], matrix)) drawn.push({ ...path, widthPt, isDashed, isStroked });
    } else if (operator === OPS.setFont) {
      const font = page.commonObjs.get(args[0]);
      fonts.set(font.name, font.missingFile !== true && font.data !== undefined);
    }
  });
  return {
    box: page.view,
    texts: content.items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, x: item.transform[4], y: item.transform[5], sizePt: item.height }]
        : [],
    ),
    paths: drawn.map(({ points }) => points),
    drawn,
    fonts: [...fonts].map(([name, isEmbedded]) => ({ name, isEmbedded })),
  };
}

/** pdfjs hands a path over as numbers: 0 move, 1 line, 2 curve, 3 quadratic curve, 4 close. */
function subpaths(
  numbers: Iterable<number>,
  matrix: readonly number[],
): readonly Pick<DrawnPath, 'points' | 'closed'>[] {
  const all = [...numbers];
  const found: { points: [number, number][]; closed: boolean }[] = [];
  let at = 0;
  while (at < all.length) {
    const operation = all[at++];
    const last = found[found.length - 1];
    if (operation === 4) {
      last!.closed = true;
      continue;
    }
    if (operation === 0) found.push({ points: [], closed: false });
    else if (operation !== 1) throw new Error(`a curve: ${operation}`);
    found[found.length - 1]!.points.push(placed(matrix, all[at++]!, all[at++]!));
  }
  return found;
}

function placed([a, b, c, d, e, f]: readonly number[], x: number, y: number): [number, number] {
  return [a! * x + c! * y + e!, b! * x + d! * y + f!];
}

function multiplied([a, b, c, d, e, f]: readonly number[], by: readonly number[]): readonly number[] {
  const [g, h, i, j, k, l] = by;
  return [
    a! * g! + c! * h!,
    b! * g! + d! * h!,
    a! * i! + c! * j!,
    b! * i! + d! * j!,
    a! * k! + c! * l! + e!,
    b! * k! + d! * l! + f!,
  ];
}
