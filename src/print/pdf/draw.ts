import { lineTypes, type Mark, type Page, type Path, type StrokeRole, type Weight } from '../page/index.ts';
import type { EmbeddedFont } from './embedded.ts';

export const ptPerMm = 72 / 25.4;

/** To a thousandth of a point: far below what a printer can do, and a good third less to write down. */
function toPt(mm: number): number {
  return Math.round(mm * ptPerMm * 1000) / 1000;
}

const grounds = {
  clear: '1 g',
  'step ground': '1 g',
  'table ground': '1 g',
  'datum corner': '0 g',
  'leader end': '0 g',
} as const;

/**
 * The content of a page; neighbours of one meaning become one path, so that a hatching is one operator.
 *
 * @source ISO 32000-1:2008, 8.2 (graphics operators), 9.4 (text objects)
 */
export function contentOf(page: Page, fonts: Readonly<Record<Weight, EmbeddedFont>>): string {
  const operations: string[] = [];
  const pen: Pen = {
    say: (operation) => operations.push(operation),
    // A page's y runs down, a PDF's up.
    up: (mm) => toPt(page.heightMm - mm),
    ground: undefined,
    font: undefined,
  };
  let open: StrokeRole | undefined;
  for (const mark of page.marks) {
    if (open !== undefined && (mark.kind !== 'stroke' || mark.role !== open)) {
      pen.say('S');
      open = undefined;
    }
    if (mark.kind === 'stroke' && open === undefined) {
      setLine(pen, mark.role);
      open = mark.role;
    }
    drawMark(pen, mark, fonts);
  }
  if (open !== undefined) pen.say('S');
  return operations.join('\n');
}

interface Pen {
  readonly say: (operation: string) => void;
  readonly up: (mm: number) => number;
  /** The colour areas and letters are filled with, as it was last set. */
  ground: string | undefined;
  /** As it was last set. */
  font: string | undefined;
}

function drawMark(pen: Pen, mark: Mark, fonts: Readonly<Record<Weight, EmbeddedFont>>): void {
  switch (mark.kind) {
    case 'stroke':
      for (const path of mark.paths) tracePath(pen, path);
      return;
    case 'patch':
      fillWith(pen, grounds[mark.role]);
      tracePath(pen, { points: mark.points, closed: true });
      pen.say('f');
      return;
    case 'words':
      drawWords(pen, mark, fonts[mark.weight]);
      return;
  }
}

function fillWith(pen: Pen, ground: string): void {
  if (pen.ground === ground) return;
  pen.ground = ground;
  pen.say(ground);
}

function setLine(pen: Pen, role: StrokeRole): void {
  const { widthMm, dashesMm } = lineTypes[role];
  pen.say(`${toPt(widthMm)} w [${dashesMm.map(toPt).join(' ')}] 0 d`);
}

function tracePath(pen: Pen, { points, closed }: Path): void {
  let path = '';
  for (const { x, y } of points) path += `${toPt(x)} ${pen.up(y)} ${path === '' ? 'm' : 'l'} `;
  pen.say(closed ? `${path}h` : path);
}

function drawWords(
  pen: Pen,
  { text, at, turned, sizePt }: Extract<Mark, { kind: 'words' }>,
  font: EmbeddedFont,
): void {
  if (text === '') return;
  fillWith(pen, '0 g');
  const chosen = `/${font.name} ${sizePt} Tf`;
  const isNew = chosen !== pen.font;
  pen.font = chosen;
  const [x, y] = [toPt(at.x), pen.up(at.y)];
  const place = turned ? `0 1 -1 0 ${x} ${y} Tm` : `${x} ${y} Td`;
  pen.say(`BT ${isNew ? `${chosen} ` : ''}${place} ${font.show(text, sizePt)} ET`);
}
