import {
  lineTypes,
  type Mark,
  type Patch,
  type Path,
  type Point,
  type Stroke,
  type StrokeRole,
  type Weight,
} from '../page/index.ts';
import type { EmbeddedFont } from './embedded.ts';

export const ptPerMm = 72 / 25.4;

/** To a thousandth of a point: far below what a printer can do, and a good third less to write down. */
function toPt(mm: number): number {
  return rounded(mm * ptPerMm);
}

function rounded(pt: number): number {
  return Math.round(pt * 1000) / 1000;
}

function hundredths(pt: number): number {
  return Math.round(pt * 100) / 100;
}

const grounds = {
  clear: '1 g',
  'step ground': '1 g',
  'table ground': '1 g',
  'datum corner': '0 g',
  'leader end': '0 g',
} as const;

/**
 * Marks as the content of a page; neighbours of one meaning become one path, so that a hatching is one operator.
 *
 * @source ISO 32000-1:2008, 8.2 (graphics operators), 9.4 (text objects)
 */
export function contentOf(
  marks: readonly Mark[],
  heightMm: number,
  fonts: Readonly<Record<Weight, EmbeddedFont>>,
): string {
  const operations: string[] = [];
  const pen: Pen = {
    say: (operation) => operations.push(operation),
    // A page's y runs down, a PDF's up.
    up: (mm) => toPt(heightMm - mm),
    ground: undefined,
    font: undefined,
  };
  let open: StrokeRole | undefined;
  const endOpen = (): void => {
    if (open !== undefined) pen.say('S');
    open = undefined;
  };
  let ground: Patch | undefined;
  for (const [index, mark] of marks.entries()) {
    if (mark.kind !== 'stroke' || mark.role !== open) endOpen();
    const next = marks[index + 1];
    if (mark.kind === 'patch' && next !== undefined && isOutlineOf(next, mark)) {
      ground = mark;
    } else if (mark.kind === 'stroke' && ground !== undefined) {
      drawOutlined(pen, ground, mark);
      ground = undefined;
    } else {
      if (mark.kind === 'stroke' && open === undefined) {
        setLine(pen, mark.role);
        open = mark.role;
      }
      drawMark(pen, mark, fonts);
    }
  }
  endOpen();
  return `${operations.join('\n')}\n`;
}

/** Whether a mark is the line around an area, and no more. */
function isOutlineOf(mark: Mark, { points }: Patch): mark is Stroke {
  if (mark.kind !== 'stroke') return false;
  const [{ points: line, closed }, ...others] = mark.paths;
  return (
    closed &&
    others.length === 0 &&
    line.length === points.length &&
    line.every(({ x, y }, index) => x === points[index]?.x && y === points[index]?.y)
  );
}

/** The path of both is written down once. */
function drawOutlined(pen: Pen, { role, points }: Patch, outline: Stroke): void {
  fillWith(pen, grounds[role]);
  setLine(pen, outline.role);
  tracePath(pen, { points, closed: true });
  pen.say('B');
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
  if (closed && isUpright(points)) {
    const [{ x, y }, , { x: acrossX, y: acrossY }] = points;
    const [left, foot] = [toPt(x), pen.up(y)];
    pen.say(`${left} ${foot} ${rounded(toPt(acrossX) - left)} ${rounded(pen.up(acrossY) - foot)} re`);
    return;
  }
  let path = '';
  for (const { x, y } of points) path += `${toPt(x)} ${pen.up(y)} ${path === '' ? 'm' : 'l'} `;
  pen.say(closed ? `${path}h` : path);
}

/** A rectangle, first along its level side: the format has an operator for it, a third as long to write. */
function isUpright(points: readonly Point[]): points is readonly [Point, Point, Point, Point] {
  const [a, b, c, d] = points;
  if (points.length !== 4 || a === undefined || b === undefined || c === undefined || d === undefined)
    return false;
  return a.y === b.y && b.x === c.x && c.y === d.y && d.x === a.x;
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
  // Nobody measures from letters: a hundredth of a point will do.
  const [x, y] = [hundredths(toPt(at.x)), hundredths(pen.up(at.y))];
  const place = turned ? `0 1 -1 0 ${x} ${y} Tm` : `${x} ${y} Td`;
  pen.say(`BT ${isNew ? `${chosen} ` : ''}${place} ${font.show(text, sizePt)} ET`);
}
