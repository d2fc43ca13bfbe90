import {
  add,
  compareRationals,
  divide,
  equal,
  multiply,
  negate,
  rational,
  subtract,
} from '../../measure/index.ts';
import type { Length, Point, Rational, Segment, Way } from '../../model/index.ts';
import type { Facets, Lean } from '../flatten.ts';
import { between, dot, less, opposite, point, signOf } from '../vector.ts';
import { facetsOf, outlineIn, type Plane, planeAcross } from './prism.ts';
import { rough } from './verdict.ts';
import { alongPanel, type Pierced, panelAt, type Straight, type Zone, zonesOf } from './zones.ts';

/**
 * What the cuts of a pierced body leave of the strip behind a straight edge that it is seen with: x is the share of
 * the way along that edge, y the place along the way that it is looked along.
 *
 *      0      share     1
 *      ┌────────────────┐
 *      │   ╭──╮         │ thick
 *      └───┴──┴─────────┘
 *
 * @param edge  in the plane across that way
 */
export function stripLeft(shape: Pierced, edge: Pick<Segment, 'from' | 'to'>, lean: Lean): Facets {
  const { block, stance } = shape;
  const plane = planeAcross(stance.thickness);
  const low = point(block.low[plane.right], block.low[plane.up]);
  const from = block.low[stance.thickness];
  const panel = panelAt(shape, edge, low);
  const [begin, end] = [rational(0n), rational(1n)];
  if (panel === undefined) return [rectangle(begin, end, from, block.high[stance.thickness])];
  const [first, last] = [edge.from, edge.to].map((at) =>
    alongPanel(panel, point(subtract(at.x, low.x), subtract(at.y, low.y))),
  ) as [Rational, Rational]; // two of two
  const run = subtract(last, first);
  return zonesOf(panel, lean).flatMap((zone): Facets => {
    const height = (edge: Straight, x: Rational) => add(from, add(edge.start, multiply(edge.rise, x)));
    if (run.numerator === 0n) {
      return isOver(zone, first)
        ? [rectangle(begin, end, height(zone.below, first), height(zone.above, first))]
        : [];
    }
    const shares = [zone.from, zone.to].map((x) => x && divide(subtract(x, first), run));
    const [one, other] = run.numerator > 0n ? shares : [...shares].reverse();
    const [left, right] = [within(one ?? begin), within(other ?? end)];
    if (compareRationals(left, right) >= 0) return [];
    const [near, far] = [left, right].map((share) => add(first, multiply(share, run))) as [
      Rational,
      Rational,
    ];
    return [
      [
        point(left, height(zone.below, near)),
        point(right, height(zone.below, far)),
        point(right, height(zone.above, far)),
        point(left, height(zone.above, near)),
      ],
    ];
  });
}

function isOver({ from, to }: Zone, x: Rational): boolean {
  const isBehind = from === undefined || compareRationals(from, x) <= 0;
  return isBehind && (to === undefined || compareRationals(x, to) < 0);
}

function within(share: Rational): Rational {
  if (share.numerator < 0n) return rational(0n);
  return share.numerator > share.denominator ? rational(1n) : share;
}

function rectangle(left: Rational, right: Rational, bottom: Rational, top: Rational): readonly Point[] {
  return [point(left, bottom), point(right, bottom), point(right, top), point(left, top)];
}

/** A strip where it lies, behind an edge that runs one way only: in the plane of that way and the strip's other. */
export function stripLaid(
  strip: Facets,
  { from, to }: { readonly from: Length; readonly to: Length },
  way: Way,
  { right }: Plane,
): Facets {
  const run = subtract(to, from);
  return strip.map((loop) => {
    const there = loop.map(({ x, y }) => ({ along: add(from, multiply(x, run)), across: y }));
    return right === way
      ? there.map(({ along, across }) => point(along, across))
      : there.map(({ along, across }) => point(across, along)).reverse();
  });
}

/**
 * All faces of a pierced body that look somewhat that way, without what is cut out of them.
 *
 *      ┌──────┐
 *     ╱ ╭──╮   ╲      from above: all three
 *    ╱  ╰──╯    ╲
 *
 * @param way    another than that it is seen in outline along
 * @param plane  in which they are seen
 */
export function facesSeen(shape: Pierced, way: Way, end: 'low' | 'high', plane: Plane, lean: Lean): Facets {
  const own = planeAcross(shape.stance.thickness);
  const [axis, beside] = own.right === way ? (['y', own.up] as const) : (['x', own.right] as const);
  return edgesToward(shape, way, end).flatMap((edge) =>
    stripLaid(stripLeft(shape, edge, lean), { from: edge.from[axis], to: edge.to[axis] }, beside, plane),
  );
}

export type Edge = Pick<Segment, 'from' | 'to'>;

/** The edges of its profile that look somewhat that way, each from its low to its high end. */
export function edgesToward(shape: Pierced, way: Way, end: 'low' | 'high'): readonly Edge[] {
  const own = planeAcross(shape.stance.thickness);
  const axis = own.right === way ? 'y' : 'x';
  return outlineIn(shape, own).rim.flatMap(({ from, to }): readonly Edge[] => {
    const goes = signOf(subtract(to[axis], from[axis]));
    // The material lies to the left of travel, and what goes right has it above.
    const isHigh = axis === 'x' ? goes < 0 : goes > 0;
    if (goes === 0 || isHigh !== (end === 'high')) return [];
    return [goes > 0 ? { from, to } : { from: to, to: from }];
  });
}

/** As `stripLeft`, as it is drawn: its whole loops, not taken to pieces. */
export function loopsBehind(shape: Pierced, edge: Edge): Facets {
  const { block, stance } = shape;
  const plane = planeAcross(stance.thickness);
  const low = point(block.low[plane.right], block.low[plane.up]);
  const panel = panelAt(shape, edge, low);
  const [first, last] = [edge.from, edge.to].map((at) => panel && alongPanel(panel, less(at, low)));
  if (panel === undefined || first === undefined || last === undefined || equal(first, last))
    return stripLeft(shape, edge, 'along');
  const run = subtract(last, first);
  const onward = point(rational(BigInt(signOf(run))), rational(0n));
  const start = multiply(first, onward.x);
  const from = block.low[stance.thickness];
  return facetsOf(panel.outline, 'along', rough).flatMap((loop): Facets => {
    const begun = cutAt(loop, onward, start);
    const seen = cutAt(begun, opposite(onward), negate(multiply(last, onward.x)));
    if (seen.length < 3) return [];
    return [seen.map(({ x, y }) => point(divide(subtract(x, first), run), add(y, from)))];
  });
}

/** What of a loop lies at least so far on. */
export function cutAt(corners: readonly Point[], way: Point, least: Rational): readonly Point[] {
  return corners.flatMap((from, i) => {
    const to = corners[(i + 1) % corners.length]!; // within
    const [here, there] = [from, to].map((it) => subtract(dot(it, way), least)) as [Rational, Rational]; // two of two
    const kept = signOf(here) >= 0 ? [from] : [];
    if (signOf(here) * signOf(there) >= 0) return kept;
    return [...kept, between(from, to, divide(here, subtract(here, there)))];
  });
}
