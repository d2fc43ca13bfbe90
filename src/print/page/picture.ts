import type { MaterialDemand, SheetPlan } from '../../model/index.ts';
import { placeCutNumbers } from './cutNumbers.ts';
import { datumMarks, runningMarks } from './datum.ts';
import { type Frame, frameOf } from './frame.ts';
import { type Area, line, type Mark, type Point, rectangle } from './mark.ts';
import { hatch } from './patterns.ts';
import { type Keyed, placePieceWords } from './pieceWords.ts';
import { emptyRoom, inflated } from './room.ts';
import type { Sizes } from './sizes.ts';
import { areaOf, type Typeface } from './type.ts';

/** A sheet drawn to scale, with room around it for marks, numbers and leaders. */
export interface Picture {
  readonly marks: readonly Mark[];
  /** All that it covers on the page. */
  readonly area: Area;
  /** Pieces too small for their words, and what each letter in the picture stands for. */
  readonly keyed: readonly Keyed[];
}

/** What surrounds the sheet as bought: ticks and figures at the datum edges, step numbers at the far ones. */
export const gutters = { left: 21, top: 6, right: 9, bottom: 13 } as const;

/** @param at left top corner of all that it covers */
export function pictureOf(
  face: Typeface,
  sizes: Sizes,
  demand: MaterialDemand,
  plan: SheetPlan,
  scale: number,
  at: Point,
): Picture {
  const frame = frameOf(plan, scale, { x: at.x + gutters.left, y: at.y + gutters.top });
  const area: Area = {
    left: at.x,
    top: at.y,
    right: frame.sheet.right + gutters.right,
    bottom: frame.sheet.bottom + gutters.bottom,
  };
  const room = emptyRoom();
  const datum = [...datumMarks(frame, sizes, scale), ...runningMarks(face, sizes, plan, frame)];
  for (const mark of datum) if (mark.kind === 'words') room.take(areaOf(mark));

  const numbers = placeCutNumbers(face, plan, frame, room);
  const words = placePieceWords(face, sizes, demand, plan, frame, room, area);
  return {
    marks: [
      ...trimMarks(plan, frame),
      ...leftoverMarks(plan, frame),
      ...plan.pieces.map(({ box }) => rectangle('part outline', frame.area(box))),
      ...cutLines(plan, frame),
      ...datum,
      ...words.marks,
      ...numbers,
    ],
    area,
    keyed: words.keyed,
  };
}

/** What squaring up takes off: hatched close, since none of it is kept. */
function trimMarks(plan: SheetPlan, { sheet, squared }: Frame): readonly Mark[] {
  const strips: readonly Area[] = [
    { ...sheet, bottom: squared.top },
    { ...sheet, top: squared.bottom },
    { ...squared, left: sheet.left, right: squared.left },
    { ...squared, left: squared.right, right: sheet.right },
  ];
  const lost = strips.filter(({ left, right, top, bottom }) => right - left > 0.01 && bottom - top > 0.01);
  return [
    ...lost.flatMap((strip) => hatch('trim hatch', strip, 0.8, 'rising')),
    rectangle('sheet outline', sheet),
    ...(plan.pieces.length === 0 ? [rectangle('part outline', squared)] : []),
  ];
}

function leftoverMarks(plan: SheetPlan, frame: Frame): readonly Mark[] {
  return plan.leftovers.flatMap(({ box, keep }) => {
    const area = frame.area(box);
    if (area.right - area.left < 0.05 || area.bottom - area.top < 0.05) return [];
    return keep === undefined
      ? hatch('scrap hatch', area, 1.4, 'falling')
      : [...hatch('keep hatch', area, 3.2, 'rising'), rectangle('keep outline', inflated(area, -0.7))];
  });
}

/** A cut runs a little past the edges of the sheet, as the rule and the knife do. */
function cutLines(plan: SheetPlan, frame: Frame): readonly Mark[] {
  const past = 1.2;
  return plan.steps.flatMap((step) => {
    if (step.kind !== 'rip' && step.kind !== 'crosscut') return [];
    return step.lines.map(({ from, to }) => {
      const [a, b] = [frame.point(from), frame.point(to)];
      const { squared } = frame;
      if (step.kind === 'rip') {
        const right = Math.max(a.x, b.x);
        return line(
          'cut',
          { x: Math.min(a.x, b.x), y: a.y },
          {
            x: right > squared.right - 0.01 ? right + past + (frame.sheet.right - squared.right) : right,
            y: a.y,
          },
        );
      }
      const top = Math.min(a.y, b.y);
      return line(
        'cut',
        { x: a.x, y: Math.max(a.y, b.y) },
        {
          x: a.x,
          y: top < squared.top + 0.01 ? top - past - (squared.top - frame.sheet.top) : top,
        },
      );
    });
  });
}
