import type { Made, MaterialPlan, SheetPlan } from '../../model/index.ts';
import { nameOf } from './block.ts';
import { lowered, type Page, type Words, type WordsRole } from './mark.ts';
import { pictureOf } from './picture.ts';
import { type Sizes, sizesOf } from './sizes.ts';
import { leadingOf, type Typeface, words, wrapped } from './type.ts';

/** One distinct layout by itself, as large as it is. */
export interface LayoutDrawing extends Page {
  readonly title: string;
  /** What it shows in words, for who does not see it. */
  readonly about: string;
}

const aroundMm = 3;
const leastWidthMm = 70;

/** Each distinct layout full size: above it what it is, below it what its letters stand for. */
export function* layoutsOf({ batch, plans }: Made, face: Typeface): Generator<LayoutDrawing, void> {
  const sizes = sizesOf(batch.settings);
  for (const plan of plans) for (const sheet of plan.sheets) yield layoutOf(face, sizes, plan, sheet);
}

function layoutOf(face: Typeface, sizes: Sizes, plan: MaterialPlan, sheet: SheetPlan): LayoutDrawing {
  const picture = pictureOf(face, sizes, plan.demand, sheet, 1, { x: aroundMm, y: 0 });
  const widthMm = Math.max(picture.area.right + aroundMm, leastWidthMm);
  const title = nameOf(plan, sheet);
  const facts = factsOf(sizes, plan, sheet);
  const column = { face, left: aroundMm, widthMm: widthMm - 2 * aroundMm };
  const name = rowsAt(column, 'heading', title, aroundMm);
  const under = rowsAt(column, 'text', `${facts}; full size`, name.bottom);
  const pictureTop = under.bottom + 2;
  let bottom = pictureTop + picture.area.bottom + 2;
  const keys = picture.keyed.flatMap(({ key, label, size, count }) => {
    const here = count === 1 ? '' : `, ${count} here`;
    const rows = rowsAt(column, 'text', `${key}  ${label}, ${size}${here}`, bottom);
    bottom = rows.bottom;
    return rows.marks;
  });
  return {
    widthMm,
    heightMm: bottom + aroundMm,
    bookmarks: [],
    marks: [...name.marks, ...under.marks, ...lowered(picture.marks, pictureTop), ...keys],
    title,
    about: `${facts}: ${piecesOf(sizes, sheet)}`,
  };
}

function factsOf(sizes: Sizes, { demand }: MaterialPlan, { sheet, times }: SheetPlan): string {
  const repeat = times === 1 ? 'cut 1 like this' : `cut ${times} like this`;
  const thick = `${sizes.fine(demand.material.thickness)} thick`;
  return `${sizes.pair(sheet.length, sheet.width)} ${sizes.unit}, ${thick}; ${repeat}`;
}

/** `4 × RW board 3 × 2 7⁄8, …` */
function piecesOf(sizes: Sizes, { pieces }: SheetPlan): string {
  const counts = new Map<string, number>();
  for (const { member, box } of pieces) {
    const what = `${member.label} ${sizes.pair(box.length, box.width)}`;
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return [...counts].map(([what, count]) => `${count} × ${what}`).join(', ') || 'nothing is cut from it';
}

interface Column {
  readonly face: Typeface;
  readonly left: number;
  readonly widthMm: number;
}

function rowsAt(
  { face, left, widthMm }: Column,
  role: WordsRole,
  text: string,
  top: number,
): { readonly marks: readonly Words[]; readonly bottom: number } {
  const leading = leadingOf(role);
  const marks = wrapped(face, role, text, widthMm).map((row, index) =>
    words(face, role, row, { x: left, y: top + leading * (index + 0.76) }),
  );
  return { marks, bottom: top + leading * marks.length };
}
