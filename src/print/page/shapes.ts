import { millimetres, minus, rational, sum, toDrawnMm, zero } from '../../measure/index.ts';
import type {
  DrawnPart,
  Point as ExactPoint,
  Length,
  Outline,
  PartMember,
  PlannedPiece,
  SharedBlank,
  SheetPlan,
} from '../../model/index.ts';
import { flattened } from '../../outline/index.ts';
import { drawnMark } from './drawnMarks.ts';
import type { Frame } from './frame.ts';
import { areaOfPoints, line, type Mark, type Path, type Point, type StrokeRole } from './mark.ts';
import { emptyRoom, inflated, type Room } from './room.ts';

/** How far straight edges may be off the curves that they stand for: less than a line is wide at any scale. */
const drawnWithin: Length = millimetres(rational(1n, 20n));

/** The shape of each piece, drawn in its blank as it lies, with what is marked and not cut. */
export function shapesOn({ pieces }: SheetPlan, frame: Frame): readonly Mark[] {
  return pieces.flatMap((piece) => {
    const { drawn, shared } = piece.member;
    if (drawn === undefined) return [];
    const known = loopsOf(drawn);
    const to = placeIn(piece, drawn, frame);
    if (shared === undefined) return shapeMarks(drawn, known, to);
    const both = placesIn(drawn, shared).flatMap((place) => shapeMarks(drawn, known, (at) => to(place(at))));
    const { parting } = shared;
    return parting === undefined ? both : [...both, line('cut', to(parting.from), to(parting.to))];
  });
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

type Place = (at: ExactPoint) => ExactPoint;

/** From the drawing to each one's place in the blank that two share: the second is turned half round. */
function placesIn({ net }: DrawnPart, { at: [one, other] }: SharedBlank): readonly [Place, Place] {
  return [
    ({ x, y }) => ({ x: sum(x, one.x), y: sum(y, one.y) }),
    ({ x, y }) => ({ x: minus(sum(other.x, net.length), x), y: minus(sum(other.y, net.width), y) }),
  ];
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
  const box = shared ?? drawn.net;
  const [length, width] = [toDrawnMm(box.length), toDrawnMm(box.width)];
  const scale = Math.min(most.widthMm / length, most.heightMm / width);
  const heightMm = width * scale;
  const one = loopsOf(drawn);
  const all = shared === undefined ? [one] : placesIn(drawn, shared).map((to) => one.map((it) => it.map(to)));
  return {
    heightMm,
    draw: ({ x, y }) => {
      const to = (at: ExactPoint): Point => ({
        x: x + toDrawnMm(at.x) * scale,
        y: y + heightMm - toDrawnMm(at.y) * scale,
      });
      return all.flatMap((loops) => edgesOf(loops, to, 'part outline'));
    },
  };
}

type Loops = readonly (readonly ExactPoint[])[];

/** Many parts have one outline, and each is drawn on its sheet and in the list. */
const knownLoops = new WeakMap<Outline, Loops>();

function loopsOf({ outline, net }: DrawnPart): Loops {
  if (outline !== undefined) {
    const loops = knownLoops.get(outline) ?? flattened(outline, 'along', drawnWithin);
    knownLoops.set(outline, loops);
    return loops;
  }
  const { length, width } = net;
  return [
    [
      { x: zero, y: zero },
      { x: length, y: zero },
      { x: length, y: width },
      { x: zero, y: width },
    ],
  ];
}

function shapeMarks(
  drawn: DrawnPart,
  loops: readonly (readonly ExactPoint[])[],
  to: (at: ExactPoint) => Point,
): readonly Mark[] {
  // What is trimmed after gluing is no cut of the sheet.
  const role = drawn.outline === undefined ? 'pencil mark' : 'part outline';
  const marks = drawn.outline?.marks ?? [];
  return [...edgesOf(loops, to, role), ...marks.flatMap((it) => drawnMark(it, to, crossMm))];
}

/** The rim and the holes as one mark. */
function edgesOf(
  loops: readonly (readonly ExactPoint[])[],
  to: (at: ExactPoint) => Point,
  role: StrokeRole,
): readonly Mark[] {
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
function placeIn(piece: PlannedPiece, { net, leave }: DrawnPart, frame: Frame): (at: ExactPoint) => Point {
  const area = frame.area(piece.box);
  const [left, bottom] = [leave?.left ?? zero, leave?.bottom ?? zero];
  const width = piece.member.shared?.width ?? sum(net.width, bottom, leave?.top ?? zero);
  const isAcross = piece.turned !== (piece.member.isTurned ?? false);
  return ({ x, y }) => {
    const [along, up] = [sum(x, left), sum(y, bottom)];
    const [right, high] = isAcross ? [minus(width, up), along] : [along, up];
    return { x: area.left + frame.size(right), y: area.bottom - frame.size(high) };
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
