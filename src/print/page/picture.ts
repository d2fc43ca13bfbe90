import { equal, isZero } from '../../measure/index.ts';
import type { MaterialDemand, SheetPlan } from '../../model/index.ts';
import { placeCutNumbers, tag, tagArea } from './cutNumbers.ts';
import { datumMarks, marksOf, runningMarks, ticksMm } from './datum.ts';
import { type Frame, frameOf } from './frame.ts';
import { type Keyed, pointersIn } from './keys.ts';
import { type Area, areaOfPoints, line, type Mark, type Point, rectangle } from './mark.ts';
import { hatch } from './patterns.ts';
import { placePieceWords } from './pieceWords.ts';
import { emptyRoom, inflated, type Room } from './room.ts';
import { roomBeside, shapesOn } from './shapes.ts';
import type { Sizes } from './sizes.ts';
import { stripsAtEdges, stripsInScrap, stripsPointedAt } from './stripNames.ts';
import { areaOf, type Typeface, widthOf, words } from './type.ts';

/** A sheet drawn to scale, with room around it for marks, numbers and leaders. */
export interface Picture {
  readonly marks: readonly Mark[];
  /** All that it covers on the page. */
  readonly area: Area;
  /** Pieces too small for their words, and what each letter in the picture stands for. */
  readonly keyed: readonly Keyed[];
}

/** What surrounds the sheet as bought: ticks and figures at the datum edges, step numbers at the far ones. */
export interface Gutters {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function guttersOf(face: Typeface, sizes: Sizes, plan: SheetPlan): Gutters {
  const widest = Math.max(
    0,
    ...marksOf(plan, 'rip').map((mark) => widthOf(face, 'running mark', sizes.brief(mark))),
  );
  const ticks = ticksMm(sizes);
  return {
    left: Math.max(10, widest + ticks + 5.1),
    top: reachesTop(plan) ? 6.5 : 5.4,
    right: 9,
    bottom: ticks + 8.8,
  };
}

/** Cuts that end at the top edge have their numbers above it. */
function reachesTop({ inside, steps }: SheetPlan): boolean {
  return steps.some(
    (step) =>
      step.kind === 'crosscut' &&
      step.lines.some(({ from, to }) => [from, to].some(({ bottom }) => equal(bottom, inside.width))),
  );
}

/** @param at left top corner of all that it covers */
export function pictureOf(
  face: Typeface,
  sizes: Sizes,
  demand: MaterialDemand,
  plan: SheetPlan,
  scale: number,
  at: Point,
): Picture {
  const { frame, area } = placeOf(face, sizes, plan, scale, at);
  const room = emptyRoom();
  const datum = [...datumMarks(face, frame, sizes, scale), ...runningMarks(face, sizes, plan, frame)];
  for (const mark of datum) {
    if (mark.kind === 'words') room.take(areaOf(mark));
    if (mark.kind === 'patch') room.take(areaOfPoints(mark.points));
  }

  const numbers = [
    ...placeCutNumbers(face, plan, frame, room),
    ...squaringNumber(face, plan, frame, room, area),
  ];
  const atEdges = stripsAtEdges(face, plan, frame, room);
  const strips = [...atEdges, ...stripsInScrap(face, plan, frame, room, atEdges)];
  const shapes = shapesOn(plan, frame);
  const kept = plan.leftovers.flatMap(({ box, keep }) => (keep === undefined ? [] : [frame.area(box)]));
  const pointers = pointersIn(face, sizes, frame, room, area, kept);
  const inPieces = placePieceWords(face, sizes, demand, plan, frame, room, pointers, shapes);
  const more = stripsPointedAt(face, plan, frame, roomBeside(shapes, room), pointers, strips);
  const corner = cornerWords(face, sizes, plan, frame, area, room);
  return {
    marks: [
      ...trimMarks(plan, frame),
      ...leftoverMarks(plan, frame),
      ...plan.pieces.map(({ box }) => rectangle('part outline', frame.area(box))),
      ...shapes,
      ...cutLines(plan, frame),
      ...datum,
      ...corner,
      ...inPieces.marks,
      ...numbers,
      ...strips,
      ...more,
    ],
    area,
    keyed: inPieces.keyed,
  };
}

/** Where the sheet lies, and all that its picture covers; known before anything is placed in it. */
export function placeOf(
  face: Typeface,
  sizes: Sizes,
  plan: SheetPlan,
  scale: number,
  at: Point,
): { readonly frame: Frame; readonly area: Area } {
  const gutters = guttersOf(face, sizes, plan);
  const frame = frameOf(plan, scale, { x: at.x + gutters.left, y: at.y + gutters.top });
  const { right, bottom } = frame.sheet;
  return {
    frame,
    area: { left: at.x, top: at.y, right: right + gutters.right, bottom: bottom + gutters.bottom },
  };
}

/**
 * So that a page found on its own still tells where to begin: from the corner on, along the datum edge that
 * bears no figures, as near to it as the letters of small parts leave room.
 */
function cornerWords(
  face: Typeface,
  sizes: Sizes,
  plan: SheetPlan,
  { sheet }: Frame,
  area: Area,
  room: Room,
): readonly Mark[] {
  const ticks = ticksMm(sizes);
  const isUp = marksOf(plan, 'crosscut').length > 0;
  const places = isUp
    ? [{ x: sheet.left - ticks - 1.4, y: sheet.bottom - 0.5 }]
    : [
        { x: sheet.left + 0.5, y: sheet.bottom + ticks + 3.7 },
        { x: sheet.left - 3.6, y: sheet.bottom + ticks + 7.5 },
      ];
  for (const text of ['measure from this corner', 'measure from here']) {
    for (const at of places) {
      const written = words(face, 'caption', text, at, isUp);
      const box = areaOf(written);
      // A letter beside it would read as a part of the sentence.
      const apart = { ...box, left: box.left - 0.2, right: box.right + 3 };
      if (box.right > area.right || box.top < area.top || !room.isFree(apart)) continue;
      room.take(box);
      return [written];
    }
  }
  return [];
}

/** The step that squares the sheet up is numbered at the corner across from the datum. */
function squaringNumber(
  face: Typeface,
  plan: SheetPlan,
  { sheet }: Frame,
  room: Room,
  outer: Area,
): readonly Mark[] {
  const step = plan.steps.find(({ kind }) => kind === 'square up');
  const { left, right, bottom, top } = plan.sheet.trim;
  if (step === undefined || [left, right, bottom, top].every(isZero)) return [];
  const at = [1, -3.6]
    .map((down) => ({ x: sheet.right + 3.8, y: sheet.top + down }))
    .find((it) => {
      const area = tagArea(face, `${step.number}`, it);
      return area.top > outer.top && room.isFree(area);
    });
  if (at === undefined) return [];
  room.take(tagArea(face, `${step.number}`, at));
  const corner = { x: sheet.right + 0.2, y: sheet.top + (at.y > sheet.top ? 1 : -0.2) };
  return [line('leader', corner, at), ...tag(face, `${step.number}`, at)];
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
      : [...hatch('keep hatch', area, 4.5, 'rising'), rectangle('keep outline', inflated(area, -0.7))];
  });
}

/** A cut runs a little past the edges of the sheet, as the rule and the knife do. */
function cutLines(plan: SheetPlan, frame: Frame): readonly Mark[] {
  const past = 1.2;
  return plan.steps.flatMap((step) => {
    if (step.kind !== 'rip' && step.kind !== 'crosscut') return [];
    const role = step.piece.name === 'sheet' ? 'first cut' : 'cut';
    return step.lines.map(({ from, to }) => {
      const [a, b] = [frame.point(from), frame.point(to)];
      const { squared } = frame;
      if (step.kind === 'rip') {
        const right = Math.max(a.x, b.x);
        return line(
          role,
          { x: Math.min(a.x, b.x), y: a.y },
          {
            x: right > squared.right - 0.01 ? right + past + (frame.sheet.right - squared.right) : right,
            y: a.y,
          },
        );
      }
      const top = Math.min(a.y, b.y);
      return line(
        role,
        { x: a.x, y: Math.max(a.y, b.y) },
        {
          x: a.x,
          y: top < squared.top + 0.01 ? top - past - (squared.top - frame.sheet.top) : top,
        },
      );
    });
  });
}
