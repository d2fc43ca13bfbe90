import { compareRationals, rational } from '../measure/index.ts';
import type { Arc, Length, Line, Loop, Point, Segment } from '../model/index.ts';
import { arcRound } from './arc.ts';
import { cross, dot, isSame, less, mirroredAt, plus, signOf, square, type Vector } from './vector.ts';

export function lineTo(from: Point, to: Point): Line {
  return { kind: 'line', from, to };
}

/** The straight-sided loop through points, closed by itself. */
export function loopThrough(points: readonly Point[]): Loop {
  return points.map((from, i) => lineTo(from, points[(i + 1) % points.length]!)); // i is within
}

export function pointsOf(loop: Loop): readonly Point[] {
  return loop.map(({ from }) => from);
}

/** Travelled the other way. */
export function reversed(loop: Loop): Loop {
  return loop.map(reversedSegment).reverse();
}

export function reversedSegment(it: Segment): Segment {
  const [from, to] = [it.to, it.from];
  switch (it.kind) {
    case 'line':
      return { kind: 'line', from, to };
    case 'arc':
      return { ...it, from, to, turn: otherTurn(it.turn) };
    case 'curve':
      return { kind: 'curve', from, leaving: it.arriving, arriving: it.leaving, to };
  }
}

/** A way of laying a drawing elsewhere: no size of it changes. */
export interface Motion {
  readonly move: (at: Point) => Point;
  /** True for a mirror image. */
  readonly swapsHands: boolean;
}

export function shiftBy(by: Vector): Motion {
  return { move: (at) => plus(at, by), swapsHands: false };
}

export function mirrorAt(x: Length): Motion {
  return { move: (at) => mirroredAt(at, x), swapsHands: true };
}

/** A loop moved; a mirror image is travelled the other way, so that the material stays on its left. */
export function moved(loop: Loop, motion: Motion): Loop {
  const there = loop.map((it) => movedSegment(it, motion));
  return motion.swapsHands ? reversed(there) : there;
}

function movedSegment(it: Segment, { move, swapsHands }: Motion): Segment {
  const [from, to] = [move(it.from), move(it.to)];
  switch (it.kind) {
    case 'line':
      return { kind: 'line', from, to };
    case 'arc':
      return {
        ...it,
        from,
        to,
        centre: move(it.centre),
        turn: swapsHands ? otherTurn(it.turn) : it.turn,
      };
    case 'curve':
      return { kind: 'curve', from, leaving: move(it.leaving), arriving: move(it.arriving), to };
  }
}

function otherTurn(turn: Arc['turn']): Arc['turn'] {
  return turn === 'left' ? 'right' : 'left';
}

/** The direction in which a segment sets out. */
export function leavingOf(it: Segment): Vector {
  switch (it.kind) {
    case 'line':
      return less(it.to, it.from);
    case 'arc': {
      const { x, y } = less(it.from, it.centre);
      return it.turn === 'left'
        ? { x: { ...y, numerator: -y.numerator }, y: x }
        : { x: y, y: { ...x, numerator: -x.numerator } };
    }
    case 'curve':
      return less([it.leaving, it.arriving, it.to].find((at) => !isSame(at, it.from)) ?? it.to, it.from);
  }
}

/** The direction in which a segment comes in. */
export function arrivingOf(it: Segment): Vector {
  const back = leavingOf(reversedSegment(it));
  return less({ x: rational(0n), y: rational(0n) }, back);
}

/** Lines that go on in lines, and arcs in arcs about the same centre, taken together. */
export function joinedUp(loop: Loop): Loop {
  const joined: Segment[] = [];
  for (const it of loop) {
    const last = joined.at(-1);
    const both = last === undefined ? undefined : inOne(last, it);
    if (both === undefined) joined.push(it);
    else joined[joined.length - 1] = both;
  }
  const [first, last] = [joined[0], joined.at(-1)];
  const across =
    first === undefined || last === undefined || joined.length < 3 ? undefined : inOne(last, first);
  return across === undefined ? joined : [across, ...joined.slice(1, -1)];
}

function inOne(a: Segment, b: Segment): Segment | undefined {
  if (a.kind === 'line' && b.kind === 'line') {
    const [one, other] = [less(a.to, a.from), less(b.to, b.from)];
    const goesOn = signOf(cross(one, other)) === 0 && signOf(dot(one, other)) > 0;
    return goesOn ? lineTo(a.from, b.to) : undefined;
  }
  if (a.kind === 'arc' && b.kind === 'arc' && a.turn === b.turn && isSame(a.centre, b.centre)) {
    // No more than half a circle in one, or its ends would tell too little of it.
    const side = signOf(cross(less(a.from, a.centre), less(b.to, a.centre)));
    const isWithinHalf = a.turn === 'left' ? side > 0 : side < 0;
    const isSameCircle = compareRationals(square(less(a.from, a.centre)), square(less(b.to, b.centre))) === 0;
    return isWithinHalf && isSameCircle ? arcRound(a.from, b.to, a.centre, a.turn, a.radius) : undefined;
  }
  return undefined;
}
