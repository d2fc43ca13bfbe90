import { toDrawnMm } from '../../measure/index.ts';
import type { Arc, Curve, Point as ExactPoint, Loop, Outline, Segment } from '../../model/index.ts';
import type { Point } from './mark.ts';

/** How far straight edges may be off the curves that they stand for: less than a line is wide at any scale. */
const withinMm = 0.05;

/**
 * The rim and the holes of a shape as a picture has them, in millimetres of the part, y upwards: from here on
 * nothing is measured any more. Whatever is measured, cut or traced is flattened exactly, in `outline/`.
 */
export function loopsDrawn({ rim, holes }: Outline): readonly (readonly Point[])[] {
  return [rim, ...holes].map(loopDrawn);
}

function loopDrawn(loop: Loop): readonly Point[] {
  const points: Point[] = [];
  for (const it of loop) {
    points.push(pointDrawn(it.from));
    addBends(points, it);
  }
  return points;
}

export function pointDrawn({ x, y }: ExactPoint): Point {
  return { x: toDrawnMm(x), y: toDrawnMm(y) };
}

/** The points of a segment between its ends. */
function addBends(points: Point[], it: Segment): void {
  if (it.kind === 'arc') addBendsOfArc(points, it);
  else if (it.kind === 'curve') addBendsOfCurve(points, drawn(it), 0);
}

/**
 * Whole quarter turns first, then equal steps of t, the tangent of half the angle: no more than the four
 * operations and a root, which every machine does alike.
 */
function addBendsOfArc(points: Point[], { from, to, centre, turn }: Arc): void {
  const middle = pointDrawn(centre);
  const spokeTo = (end: ExactPoint): Point => {
    const { x, y } = pointDrawn(end);
    return { x: x - middle.x, y: y - middle.y };
  };
  const hand = turn === 'left' ? 1 : -1;
  const last = spokeTo(to);
  let u = spokeTo(from);
  const square = u.x * u.x + u.y * u.y;
  const add = ({ x, y }: Point): void => {
    points.push({ x: middle.x + x, y: middle.y + y });
  };
  const turned = (by: number): Point => {
    const [along, across] = [(1 - by * by) / (1 + by * by), (hand * 2 * by) / (1 + by * by)];
    return { x: u.x * along - u.y * across, y: u.y * along + u.x * across };
  };
  const stepBy = (most: number): void => {
    // A step of t turns by 2t at most, and its chord is off by r·t²/2 at most.
    const count = Math.max(2, Math.ceil(most * Math.sqrt(Math.sqrt(square) / (2 * withinMm))));
    for (let step = 1; step < count; step++) add(turned((most * step) / count));
  };
  // More than four quarters there are not, however the figures are rounded.
  for (let quarters = 0; quarters < 4; quarters++) {
    const rest = (hand * (u.x * last.y - u.y * last.x)) / (square + u.x * last.x + u.y * last.y);
    if (Math.abs(rest) < next) return;
    if (quarters > 0) add(u);
    const isLast = rest > 0 && rest < 1 + next;
    stepBy(isLast ? rest : 1);
    if (isLast) return;
    u = turned(1);
  }
}

/** Closer than this two directions are one. */
const next = 1e-9;

interface DrawnCurve {
  readonly from: Point;
  readonly leaving: Point;
  readonly arriving: Point;
  readonly to: Point;
}

function drawn({ from, leaving, arriving, to }: Curve): DrawnCurve {
  return {
    from: pointDrawn(from),
    leaving: pointDrawn(leaving),
    arriving: pointDrawn(arriving),
    to: pointDrawn(to),
  };
}

const mostHalvings = 12;

/** In two and in two again (de Casteljau's construction; from memory), until its control points are near. */
function addBendsOfCurve(points: Point[], curve: DrawnCurve, halvings: number): void {
  if (halvings === mostHalvings || isStraight(curve)) return;
  const { from, leaving, arriving, to } = curve;
  const [a, b, c] = [halfway(from, leaving), halfway(leaving, arriving), halfway(arriving, to)];
  const [d, e] = [halfway(a, b), halfway(b, c)];
  const at = halfway(d, e);
  addBendsOfCurve(points, { from, leaving: a, arriving: d, to: at }, halvings + 1);
  points.push(at);
  addBendsOfCurve(points, { from: at, leaving: e, arriving: c, to }, halvings + 1);
}

function halfway(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** True where the control points, to either side of the chord, are no further apart across it. */
function isStraight({ from, leaving, arriving, to }: DrawnCurve): boolean {
  const way = { x: to.x - from.x, y: to.y - from.y };
  const across = (at: Point): number => way.x * (at.y - from.y) - way.y * (at.x - from.x);
  const [a, b] = [across(leaving), across(arriving)];
  const apart = Math.max(a, b, 0) - Math.min(a, b, 0);
  return apart * apart <= withinMm * withinMm * (way.x * way.x + way.y * way.y);
}
