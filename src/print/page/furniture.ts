import { type Area, line, type Mark } from './mark.ts';
import { barInches, scaleBars } from './scaleBars.ts';
import { shortened, type Typeface, widthOf, words, wordsEndingAt } from './type.ts';

/** What is said around the drawings of all pages. */
export interface Surround {
  readonly title: string;
  /** Program, version, and the digest that tells two prints apart. */
  readonly made: string;
  /** Stands out on every page where the print must not be trusted as asked. */
  readonly alarm: string | undefined;
  /** Two lines beside the bars, in place of the usual ones. */
  readonly ofBars?: readonly [string, string];
}

/** What is said above the drawing of one page. */
export interface Heading extends Surround {
  readonly statement: string;
  readonly number: number;
  readonly of: number;
}

export const headMm = 16;

/** Beside the bars there is room for the words only on paper that is wide enough; else they stand above. */
const wideMm = 160;

export function footMmOf(widthMm: number): number {
  return widthMm >= wideMm ? 14 : 28;
}

/** What stands above a page; `within` is the paper less its margins. */
export function headOf(face: Typeface, { left, right, top }: Area, it: Heading): readonly Mark[] {
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

/** Bars across, and what is said of them: the same on every page. */
export function footOf(
  face: Typeface,
  { left, right, bottom }: Area,
  { made, ofBars = usual }: Surround,
): readonly Mark[] {
  const y = bottom - 7.2;
  const isWide = right - left >= wideMm;
  const x = isWide ? left + barInches * 25.4 + 9 : left;
  const rows = isWide ? [y - 2.4, y + 1.8, y + 6] : [y - 17, y - 12.8, y - 8.6];
  const captions = [...ofBars, made];
  return [
    ...scaleBars(face, { x: left, y }, 'across'),
    ...captions.map((text, row) =>
      words(face, 'caption', shortened(face, 'caption', text, right - x) ?? '', { x, y: rows[row] ?? y }),
    ),
  ];
}

const usual = ['checks the printer, not the drawing', 'measure: 100 mm and 4 in'] as const;
