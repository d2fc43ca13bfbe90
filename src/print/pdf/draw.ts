import { lineTypes, type Mark, type Page, type Path, type StrokeRole } from '../page/index.ts';
import type { PdfDocument } from './document.ts';

const ptPerMm = 72 / 25.4;

/** To a thousandth of a point: far below what a printer can do, and a good third less to write down. */
function toPt(mm: number): number {
  return Math.round(mm * ptPerMm * 1000) / 1000;
}

const grounds = {
  clear: 'white',
  'step ground': 'white',
  'table ground': 'white',
  'datum corner': 'black',
  'leader end': 'black',
} as const;

/** One page of marks; neighbours of one meaning become one path, so that a hatching is one operator. */
export function drawPage(document: PdfDocument, page: Page): void {
  document.addPage({ size: [page.widthMm * ptPerMm, page.heightMm * ptPerMm], margin: 0 });
  for (const bookmark of page.bookmarks) document.outline.addItem(bookmark);
  document.fillColor('black');
  let open: StrokeRole | undefined;
  for (const mark of page.marks) {
    if (open !== undefined && (mark.kind !== 'stroke' || mark.role !== open)) {
      document.stroke();
      open = undefined;
    }
    if (mark.kind === 'stroke' && open === undefined) {
      setLine(document, mark.role);
      open = mark.role;
    }
    drawMark(document, mark);
  }
  if (open !== undefined) document.stroke();
}

function drawMark(document: PdfDocument, mark: Mark): void {
  switch (mark.kind) {
    case 'stroke':
      for (const path of mark.paths) tracePath(document, path);
      return;
    case 'patch':
      tracePath(document, { points: mark.points, closed: true });
      document.fill(grounds[mark.role]);
      document.fillColor('black');
      return;
    case 'words':
      drawWords(document, mark);
      return;
  }
}

function setLine(document: PdfDocument, role: StrokeRole): void {
  const { widthMm, dashesMm } = lineTypes[role];
  document.lineWidth(widthMm * ptPerMm);
  if (dashesMm.length === 0) document.undash();
  else document.dash(dashesMm.map(toPt));
}

function tracePath(document: PdfDocument, { points, closed }: Path): void {
  const [first, ...rest] = points;
  document.moveTo(toPt(first.x), toPt(first.y));
  for (const { x, y } of rest) document.lineTo(toPt(x), toPt(y));
  if (closed) document.closePath();
}

function drawWords(
  document: PdfDocument,
  { text, at, turned, weight, sizePt }: Extract<Mark, { kind: 'words' }>,
): void {
  if (text === '') return;
  const x = toPt(at.x);
  const y = toPt(at.y);
  document.font(weight, sizePt);
  const options = { lineBreak: false, baseline: 'alphabetic' } as const;
  if (!turned) {
    document.text(text, x, y, options);
    return;
  }
  document.save().rotate(-90, { origin: [x, y] });
  document.text(text, x, y, options);
  document.restore();
}
