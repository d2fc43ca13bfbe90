import { compare, larger, millimetres, rational, sum, zero } from '../measure/index.ts';
import { type Build, endOfSide, type Length, type LevelSide, type StandingPart } from '../model/index.ts';
import {
  bodyOf,
  type Column,
  columnsOf,
  faceAtEnd,
  type Lean,
  rectangleIn,
  restBehind,
  shadowOf,
  shapeAlong,
} from '../outline/index.ts';
import { blocksAtSide, wayOf, wayThrough } from './atSide.ts';

/** A stretch of a side. */
export interface Opening {
  readonly from: Length;
  readonly to: Length;
}

/** From where up a side has to be closed, and up to where, given how high what stands there goes. */
export interface Closing {
  readonly start: Length;
  readonly upTo: (top: Length) => Length;
}

/** How curves are looked at: by straight edges that lie so, and are off by so much. */
export interface Straightened {
  readonly lean: Lean;
  readonly off: Length;
}

/** The pieces whose outline, or what is cut out of it, is seen from that side. */
export function facesAt(pieces: readonly StandingPart[], side: LevelSide): readonly StandingPart[] {
  return pieces.filter(
    (part) =>
      shapeAlong(bodyOf(part), wayThrough(side)) !== undefined || piercedFace(part, side) !== undefined,
  );
}

/** Of what slopes or is folded: the face that it has at that side. */
function piercedFace(part: StandingPart, side: LevelSide): ReturnType<typeof faceAtEnd> {
  const { way, end } = endOfSide[side];
  return faceAtEnd(bodyOf(part), way, end);
}

/**
 * Where one can look through a stretch of a side: no piece that reaches it is there, and what is cut out of one
 * has nothing behind it.
 *
 *      ┌────────────┐
 *      │   ╭──╮  ┌┐ │     what stands behind it closes
 *      │ ░░│░░│░░││ │     the first hole, not the second
 *      └───┴──┴──┴┴─┘
 *
 * @param reaching  the pieces that reach the side
 */
export function seenThrough(
  build: Build,
  side: LevelSide,
  reaching: readonly StandingPart[],
  stretch: Opening,
  closing: Closing,
  curves: Straightened,
): readonly Opening[] {
  const plane = { right: wayOf(side), up: 'up' } as const;
  const isHere = ({ block }: StandingPart) =>
    compare(block.low[plane.right], stretch.to) < 0 && compare(block.high[plane.right], stretch.from) > 0;
  const near = reaching.filter(isHere);
  const faces = facesAt(near, side);
  const behind = build.parts.filter(
    (part) => isHere(part) && !near.includes(part) && faces.some((face) => isBehind(part, face, side)),
  );
  const pierced = faces.filter((part) => piercedFace(part, side) !== undefined);
  const { way, end } = endOfSide[side];
  const { low, high } = nearBlock(build, stretch, closing, plane.right);
  // The height up to which it has to be closed is an edge, too, so that no column changes on its way there.
  const shapes = [
    ...near.map((part) =>
      faces.includes(part)
        ? (piercedFace(part, side)?.(curves.lean) ?? shadowOf(bodyOf(part), plane, curves.lean, curves.off))
        : blocksAtSide(build, part, side, curves.lean).flatMap((it) => rectangleIn(it, plane)),
    ),
    ...behind.map((part) => shadowOf(bodyOf(part), plane, curves.lean, curves.off)),
    ...pierced.map((part) => restBehind(bodyOf(part), way, end, curves.lean)),
    rectangleIn({ low, high }, plane),
  ];
  // With edges within the curves, what is traced from one master seems to gape along it.
  const slit = curves.lean === 'inward' && shapes.length > 2 ? hairline : zero;
  const isOfFace = near.map((part) => faces.includes(part));
  return columnsOf(shapes)
    .filter((it) => compare(it.from, stretch.to) < 0 && compare(it.to, stretch.from) > 0)
    .filter((it) => !isClosed(it, near.length, isOfFace, closing, sum(build.glueLine, slit)));
}

const hairline = millimetres(rational(1n, 20n));

function nearBlock(build: Build, { from, to }: Opening, { start, upTo }: Closing, way: 'across' | 'along') {
  const nothing = { across: start, along: start };
  const most = build.parts.reduce((top, { block }) => larger(top, block.high.up), start);
  return {
    low: { ...nothing, [way]: from, up: start },
    high: { ...nothing, [way]: to, up: upTo(most) },
  };
}

function isBehind({ block }: StandingPart, face: StandingPart, side: LevelSide): boolean {
  const way = wayThrough(side);
  // Of what is folded its block tells nothing of how thick its face is.
  if (piercedFace(face, side) !== undefined) {
    const [own, its] = [block, face.block].map((it) => it[endOfSide[side].end][way]);
    return side === 'front' || side === 'left' ? compare(own!, its!) > 0 : compare(own!, its!) < 0; // two of two
  }
  return side === 'front' || side === 'left'
    ? compare(block.low[way], face.block.high[way]) >= 0
    : compare(block.high[way], face.block.low[way]) <= 0;
}

/** @param near  how many of the shapes reach the side; all but the last of the others stand behind these */
function isClosed(
  { layers }: Column,
  near: number,
  isOfFace: readonly boolean[],
  { start, upTo }: Closing,
  glueLine: Length,
): boolean {
  const isNear = (isIn: readonly boolean[]) => isIn.slice(0, near).includes(true);
  const isBehind = (isIn: readonly boolean[]) => isIn.slice(near, -1).includes(true);
  const top = layers.findLast(({ isIn }) => isNear(isIn))?.high;
  const ofFace = layers.findLast(({ isIn }) => isIn.some((is, i) => is && isOfFace[i] === true))?.high;
  if (top === undefined) return false;
  let reached = start;
  for (const { low, high, isIn } of layers) {
    const isThere = isNear(isIn) || (isBehind(isIn) && ofFace !== undefined && compare(high, ofFace) <= 0);
    if (isThere && compare(low, sum(reached, glueLine)) <= 0) reached = larger(reached, high);
  }
  return compare(reached, start) > 0 && compare(reached, upTo(top)) >= 0;
}
