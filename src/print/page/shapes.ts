import { compare, sum, toDrawnMm, zero } from '../../measure/index.ts';
import type {
  DrawnPart,
  DrawnSide,
  Outline,
  PartMember,
  PlannedPiece,
  SharedBlank,
  SheetPlan,
} from '../../model/index.ts';
import { foldsOn } from '../foldWords.ts';
import { drawnMark, drawnMarksOf } from './drawnMarks.ts';
import { bendMarks, edgeMarks } from './edgeMarks.ts';
import type { Frame } from './frame.ts';
import { loopsDrawn, pointDrawn } from './loopsDrawn.ts';
import { areaOfPoints, line, type Mark, type Path, type Point, type StrokeRole } from './mark.ts';
import { emptyRoom, inflated, type Room } from './room.ts';

/** The shape of each piece, drawn in its blank as it lies, with what is marked and not cut. */
export function shapesOn({ pieces }: SheetPlan, frame: Frame): readonly Mark[] {
  return pieces.flatMap((piece) => {
    const { drawn, shared } = piece.member;
    if (drawn === undefined) return [];
    const known = loopsOf(drawn);
    const to = placeIn(piece, drawn, frame);
    if (shared === undefined) return shapeMarks(drawn, known, to);
    const both = placesIn(drawn, shared).flatMap((place, index) =>
      shapeMarks(index === 0 ? drawn : asSecond(drawn, shared), known, (at) => to(place(at))),
    );
    const { parting } = shared;
    if (parting === undefined) return both;
    return [...both, line('cut', to(pointDrawn(parting.from)), to(pointDrawn(parting.to)))];
  });
}

/** Of two that share a bevel, the second as it lies, and without the bevel that is drawn for the first. */
function asSecond(drawn: DrawnPart, { slant, at: [one, other] }: SharedBlank): DrawnPart {
  const { bevels } = drawn;
  if (slant === undefined || bevels === undefined) return drawn;
  const isAlong = compare(one.x, other.x) !== 0;
  const isFirst = compare(one.x, other.x) < 0 || compare(one.y, other.y) < 0;
  const shared = isAlong ? (isFirst ? 'right' : 'left') : isFirst ? 'top' : 'bottom';
  // Drawn with its half-turn in the plane, it has the same end at the cut; its other edges are where they were.
  const beside: Partial<Record<DrawnSide, DrawnSide>> = isAlong
    ? { bottom: 'top', top: 'bottom' }
    : { left: 'right', right: 'left' };
  return {
    ...drawn,
    bevels: bevels
      .filter(({ side }) => side !== shared)
      .map((it) => ({
        ...it,
        side: beside[it.side] ?? it.side,
        longFace: it.longFace === 'good' ? 'other' : 'good',
      })),
  };
}

/** Of two that share a blank, the edges of each as they lie on the page; undefined for a blank of its own. */
export function bothOn(
  piece: PlannedPiece,
  frame: Frame,
): readonly (readonly (readonly Point[])[])[] | undefined {
  const { drawn, shared } = piece.member;
  if (drawn === undefined || shared === undefined) return undefined;
  const [loops, to] = [loopsOf(drawn), placeIn(piece, drawn, frame)];
  return placesIn(drawn, shared).map((place) => loops.map((loop) => loop.map((at) => to(place(at)))));
}

/** Of a drawing in millimetres, y upwards. */
type Place = (at: Point) => Point;

/** From the drawing to each one's place in the blank that two share: the second is turned half round. */
function placesIn({ net }: DrawnPart, { at: [one, other] }: SharedBlank): readonly [Place, Place] {
  const first = pointDrawn(one);
  const [right, top] = [
    toDrawnMm(other.x) + toDrawnMm(net.length),
    toDrawnMm(other.y) + toDrawnMm(net.width),
  ];
  return [({ x, y }) => ({ x: first.x + x, y: first.y + y }), ({ x, y }) => ({ x: right - x, y: top - y })];
}

/** A shape by itself, as large as the box on the page holds it. */
export interface SmallPicture {
  readonly heightMm: number;
  /** @param at its left top corner */
  readonly draw: (at: Point) => readonly Mark[];
}

/** Undefined for a plain rectangle, which its size tells of. */
export function smallPicture(
  { drawn, shared }: Pick<PartMember, 'drawn' | 'shared'>,
  most: { readonly widthMm: number; readonly heightMm: number },
): SmallPicture | undefined {
  if (drawn?.outline === undefined) return undefined;
  const { outline } = drawn;
  const box = shared ?? drawn.net;
  const [length, width] = [toDrawnMm(box.length), toDrawnMm(box.width)];
  const scale = Math.min(most.widthMm / length, most.heightMm / width);
  const heightMm = width * scale;
  const one = loopsOf(drawn);
  const all = shared === undefined ? [one] : placesIn(drawn, shared).map((to) => one.map((it) => it.map(to)));
  return {
    heightMm,
    draw: ({ x, y }) => {
      const to = (at: Point): Point => ({ x: x + at.x * scale, y: y + heightMm - at.y * scale });
      const folds = shared === undefined ? foldsOn(outline) : [];
      return [
        ...all.flatMap((loops) => edgesOf(loops, to, 'part outline')),
        ...folds.flatMap((it) => drawnMark(it, (at) => to(pointDrawn(at)), crossMm)),
      ];
    },
  };
}

type Loops = readonly (readonly Point[])[];

/** Many parts have one outline, and each is drawn on its sheet and in the list. */
const knownLoops = new WeakMap<Outline, Loops>();

function loopsOf({ outline, net }: DrawnPart): Loops {
  if (outline !== undefined) {
    const loops = knownLoops.get(outline) ?? loopsDrawn(outline);
    knownLoops.set(outline, loops);
    return loops;
  }
  const [x, y] = [toDrawnMm(net.length), toDrawnMm(net.width)];
  return [
    [
      { x: 0, y: 0 },
      { x, y: 0 },
      { x, y },
      { x: 0, y },
    ],
  ];
}

function shapeMarks(drawn: DrawnPart, loops: Loops, to: Place): readonly Mark[] {
  // What is trimmed after gluing is no cut of the sheet.
  const role = drawn.outline === undefined ? 'pencil mark' : 'part outline';
  const isDrawn = drawn.outline !== undefined || drawn.leave !== undefined;
  return [
    ...(isDrawn ? edgesOf(loops, to, role) : []),
    ...edgeMarks(drawn, to),
    ...bendMarks(drawn, to),
    ...(drawn.outline === undefined ? [] : drawnMarksOf(drawn.outline, (at) => to(pointDrawn(at)), crossMm)),
  ];
}

/** The rim and the holes as one mark. */
function edgesOf(loops: Loops, to: Place, role: StrokeRole): readonly Mark[] {
  const [rim, ...holes] = loops.flatMap((loop): readonly Path[] => {
    const [first, ...rest] = loop.map(to);
    return first === undefined ? [] : [{ points: [first, ...rest], closed: true }];
  });
  return rim === undefined ? [] : [{ kind: 'stroke', role, paths: [rim, ...holes] }];
}

/**
 * From the drawing, whose datum is at the left bottom of the net size, to the page; from the blank itself, where
 * two share it. A blank that lies across is turned to the left, never over.
 *
 *      ┌───────────┐ W        ┌───┐
 *      │  A        │    →     │   │
 *      └───────────┘          │   │
 *            L                │ A │
 *                             └───┘
 */
function placeIn(piece: PlannedPiece, { net, leave }: DrawnPart, frame: Frame): Place {
  const area = frame.area(piece.box);
  const [left, bottom] = [toDrawnMm(leave?.left ?? zero), toDrawnMm(leave?.bottom ?? zero)];
  const width = toDrawnMm(
    piece.member.shared?.width ?? sum(net.width, leave?.bottom ?? zero, leave?.top ?? zero),
  );
  const isAcross = piece.turned !== (piece.member.isTurned ?? false);
  return ({ x, y }) => {
    const [along, up] = [x + left, y + bottom];
    const [right, high] = isAcross ? [width - up, along] : [along, up];
    return { x: area.left + right / frame.scale, y: area.bottom - high / frame.scale };
  };
}

const crossMm = 1;

/** What the lines of shapes take: words stand beside them where they can. */
export function roomBeside(shapes: readonly Mark[], room: Room): Room {
  const taken = emptyRoom();
  for (const mark of shapes) {
    if (mark.kind !== 'stroke') continue;
    for (const { points, closed } of mark.paths) {
      const ends = closed ? [...points.slice(1), points[0]] : points.slice(1);
      for (const [i, to] of ends.entries()) takeLine(points[i] ?? to, to, taken);
    }
  }
  return { isFree: (area) => taken.isFree(area) && room.isFree(area), take: room.take };
}

const stepMm = 1.2;

function takeLine(from: Point, to: Point, room: Room): void {
  const steps = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / stepMm));
  const at = (step: number): Point => ({
    x: from.x + ((to.x - from.x) * step) / steps,
    y: from.y + ((to.y - from.y) * step) / steps,
  });
  for (let i = 0; i < steps; i++) room.take(inflated(areaOfPoints([at(i), at(i + 1)]), 0.15));
}
