import { type Area, line, lines, type Mark, type Point } from './mark.ts';
import { shortened, type Typeface, widthOf, words, wordsAround, wordsEndingAt } from './type.ts';

/** What is said around the drawing on one page. */
export interface Surround {
  readonly statement: string;
  readonly title: string;
  readonly number: number;
  readonly of: number;
  /** Program, version, and the digest that tells two prints apart. */
  readonly made: string;
  /** Stands out on every page where the print must not be trusted as asked. */
  readonly alarm: string | undefined;
}

export const headMm = 16;

/** Beside the bars there is room for the words only on paper that is wide enough; else they stand above. */
const wideMm = 160;

export function footMmOf(widthMm: number): number {
  return widthMm >= wideMm ? 14 : 28;
}

/** Head and foot of a page; `within` is the paper less its margins. */
export function surround(face: Typeface, within: Area, it: Surround): readonly Mark[] {
  return [...head(face, within, it), ...foot(face, within, it)];
}

function head(face: Typeface, { left, right, top }: Area, it: Surround): readonly Mark[] {
  const page = `page ${it.number} of ${it.of}`;
  const titleRoom = right - left - widthOf(face, 'caption', page) - 6;
  const said = it.alarm ?? (it.statement === it.title ? 'cutting sheets' : it.title);
  const caption = shortened(face, 'caption', said, titleRoom) ?? '';
  const statement = shortened(face, 'statement', it.statement, right - left) ?? '';
  return [
    words(face, 'caption', caption, { x: left, y: top + 2.8 }),
    wordsEndingAt(face, 'caption', page, { x: right, y: top + 2.8 }),
    words(face, 'statement', statement, { x: left, y: top + 10.4 }),
    line('page rule', { x: left, y: top + 13.4 }, { x: right, y: top + 13.4 }),
  ];
}

/**
 * Two bars from one zero: millimetres above, inches below.
 *
 *   0 mm         50            100
 *   ├──┴──┴──┴──┴┴──┴──┴──┴──┴──┤
 *   ├─────┬──────┬──────┬───────┤
 *   0 in  1      2      3       4
 */
function foot(face: Typeface, { left, right, bottom }: Area, it: Surround): readonly Mark[] {
  const y = bottom - 7.2;
  const inch = 25.4;
  const tick = (at: number, from: number, to: number): readonly [Point, Point] => [
    { x: left + at, y: from },
    { x: left + at, y: to },
  ];
  const upper = Array.from({ length: 21 }, (_, n) =>
    tick(n * 5, y, y - (n % 10 === 0 ? 2.4 : n % 2 === 0 ? 1.6 : 1)),
  );
  const lower = Array.from({ length: 17 }, (_, n) =>
    tick((n * inch) / 4, y + 0.8, y + 0.8 + (n % 4 === 0 ? 2.4 : 1.2)),
  );
  const figure = (text: string, at: number, baseline: number): Mark =>
    wordsAround(face, 'scale bar', text, { x: left + at, y: baseline });
  const isWide = right - left >= wideMm;
  const x = isWide ? left + inch * 4 + 9 : left;
  const rows = isWide ? [y - 2.4, y + 1.8, y + 6] : [y - 17, y - 12.8, y - 8.6];
  const captions = ['checks the printer, not the drawing', 'measure: 100 mm and 4 in', it.made];
  return [
    line('scale bar', { x: left, y }, { x: left + 100, y }),
    line('scale bar', { x: left, y: y + 0.8 }, { x: left + inch * 4, y: y + 0.8 }),
    ...lines('scale bar', [...upper, ...lower]),
    words(face, 'scale bar', '0 mm', { x: left, y: y - 3.2 }),
    figure('50', 50, y - 4.3),
    figure('100', 100, y - 4.3),
    words(face, 'scale bar', '0 in', { x: left, y: y + 6.3 }),
    ...[1, 2, 3, 4].map((n) => figure(`${n}`, n * inch, y + 5.2)),
    ...captions.map((text, row) =>
      words(face, 'caption', shortened(face, 'caption', text, right - x) ?? '', { x, y: rows[row] ?? y }),
    ),
  ];
}
