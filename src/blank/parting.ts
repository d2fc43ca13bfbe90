import {
  add,
  compareRationals,
  divide,
  millimetres,
  multiply,
  subtract,
  sum,
  zero,
} from '../measure/index.ts';
import type { Length, Outline, Point, Rational, SharedBlank } from '../model/index.ts';
import { flattened } from '../outline/index.ts';

interface Net {
  readonly length: Length;
  readonly width: Length;
}

/**
 * The straight cut that parts the two of a blank, along an edge of the first and from edge to edge of the
 * blank; the kerf falls on the other's side of it. undefined where no edge of the first lets the second by.
 *
 *      ┌─────────────────┐
 *      │ ╲ ╲      2      │     all of the first to the left of its edge, all of the second a kerf and more
 *      │   ╲ ╲           │     to the right of it
 *      │  1  ╲ ╲         │
 *      └───────╲─╲───────┘
 */
export function partingOf(
  outline: Outline,
  net: Net,
  blank: { readonly box: Net; readonly at: SharedBlank['at']; readonly kerf: Length },
): SharedBlank['parting'] {
  const points = flattened({ ...outline, holes: [] }, 'outward').flat();
  const [one, other] = blank.at;
  const first = points.map((it) => plus(it, one));
  const second = points.map((it) => plus(halfRound(it, net), other));
  for (const it of outline.rim) {
    if (it.kind !== 'line') continue;
    const edge: Edge = { from: plus(it.from, one), to: plus(it.to, one) };
    const isClear =
      first.every((at) => beside(edge, at).numerator >= 0n) &&
      second.every((at) => isPast(edge, at, blank.kerf));
    if (isClear) return fromEdgeToEdge(edge, blank.box);
  }
  return undefined;
}

interface Edge {
  readonly from: Point;
  readonly to: Point;
}

function plus(a: Point, b: Point): Point {
  return { x: sum(a.x, b.x), y: sum(a.y, b.y) };
}

function halfRound({ x, y }: Point, { length, width }: Net): Point {
  return { x: millimetres(subtract(length, x)), y: millimetres(subtract(width, y)) };
}

/** How far to the left of the edge, times its length. */
function beside({ from, to }: Edge, { x, y }: Point): Rational {
  const [along, up] = [subtract(to.x, from.x), subtract(to.y, from.y)];
  return subtract(multiply(along, subtract(y, from.y)), multiply(up, subtract(x, from.x)));
}

function isPast(edge: Edge, at: Point, kerf: Length): boolean {
  const off = beside(edge, at);
  if (off.numerator > 0n) return false;
  const [along, up] = [subtract(edge.to.x, edge.from.x), subtract(edge.to.y, edge.from.y)];
  const least = multiply(multiply(kerf, kerf), add(multiply(along, along), multiply(up, up)));
  return compareRationals(multiply(off, off), least) >= 0;
}

/** Where the line through an edge enters and leaves the box. */
function fromEdgeToEdge({ from, to }: Edge, { length, width }: Net): SharedBlank['parting'] {
  const [along, up] = [subtract(to.x, from.x), subtract(to.y, from.y)];
  const shares = [
    ...(along.numerator === 0n ? [] : [sharesBetween(from.x, along, length)]),
    ...(up.numerator === 0n ? [] : [sharesBetween(from.y, up, width)]),
  ];
  const enters = shares.map(([low]) => low).reduce((a, b) => (compareRationals(a, b) > 0 ? a : b));
  const leaves = shares.map(([, high]) => high).reduce((a, b) => (compareRationals(a, b) < 0 ? a : b));
  const at = (share: Rational): Point => ({
    x: millimetres(add(from.x, multiply(along, share))),
    y: millimetres(add(from.y, multiply(up, share))),
  });
  return { from: at(enters), to: at(leaves) };
}

/** The shares of the way at which it is at 0 and at `most`, in their order. */
function sharesBetween(start: Rational, way: Rational, most: Rational): readonly [Rational, Rational] {
  const [low, high] = [divide(subtract(zero, start), way), divide(subtract(most, start), way)];
  return compareRationals(low, high) <= 0 ? [low, high] : [high, low];
}
