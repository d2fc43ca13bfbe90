import {
  add,
  compareRationals,
  divide,
  equal,
  inOrder,
  larger,
  multiply,
  negate,
  rational,
  smaller,
  subtract,
} from '../../measure/index.ts';
import type { Length, Panel, Point, Rational, Segment, Way } from '../../model/index.ts';
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
export function stripLeft(shape: Pierced, edge: Edge, lean: Lean): Facets {
  const { low, high } = shape.block;
  const { thickness } = shape.stance;
  const seam = seamOn(shape, edge);
  if (seam === undefined) return [rectangle(rational(0n), rational(1n), low[thickness], high[thickness])];
  if (equal(seam.first, seam.last)) {
    return zonesOf(seam.panel, lean)
      .filter((zone) => isOver(zone, seam.first))
      .map((zone) => zoneLeft({ ...zone, from: undefined, to: undefined }, seam));
  }
  // Into its folds a panel goes on as it is at their lines.
  const [least, most] = inOrder(seam.first, seam.last);
  const goesOn = compareRationals(least, seam.panel.from) < 0 || compareRationals(most, seam.panel.to) > 0;
  const beyond = goesOn ? zonesOf(seam.panel, lean).filter(isInFold) : [];
  return [
    ...loopsLeft(facetsOf(seam.panel.outline, lean), seam),
    ...beyond.map((zone) => zoneLeft(zone, seam)).filter(({ length }) => length > 0),
  ];
}

/** A straight edge of a pierced body: where its panel's outline has its two ends. */
interface Seam {
  readonly panel: Panel;
  readonly first: Rational;
  readonly last: Rational;
  /** Where the panel's outline begins on the way through the block. */
  readonly low: Length;
}

function seamOn(shape: Pierced, edge: Edge): Seam | undefined {
  const { block, stance } = shape;
  const plane = planeAcross(stance.thickness);
  const low = point(block.low[plane.right], block.low[plane.up]);
  const panel = panelAt(shape, edge, low);
  if (panel === undefined) return undefined;
  const [first, last] = [edge.from, edge.to].map((at) => alongPanel(panel, less(at, low))) as [
    Rational,
    Rational,
  ]; // two of two
  return { panel, first, last, low: block.low[stance.thickness] };
}

/** What of an outline lies over a seam, within its panel. */
function loopsLeft(loops: Facets, { panel, first, last, low }: Seam): Facets {
  const run = subtract(last, first);
  const [least, most] = inOrder(first, last);
  const [from, to] = [larger(least, panel.from), smaller(most, panel.to)];
  return loops.flatMap((loop): Facets => {
    const seen = keptBetween(loop, from, to);
    if (seen.length < 3) return [];
    const there = seen.map(({ x, y }) => point(divide(subtract(x, first), run), add(y, low)));
    return [run.numerator > 0n ? there : there.reverse()];
  });
}

/** What of a loop lies from one x to another. */
function keptBetween(loop: readonly Point[], from: Rational, to: Rational): readonly Point[] {
  return cutAt(cutAt(loop, onward, from), opposite(onward), negate(to));
}

const onward = point(rational(1n), rational(0n));

function isInFold({ from, to }: Zone): boolean {
  return from === undefined || to === undefined;
}

function zoneLeft(zone: Zone, { first, last, low }: Seam): readonly Point[] {
  const run = subtract(last, first);
  const height = (it: Straight, x: Rational) => add(low, add(it.start, multiply(it.rise, x)));
  const shares = [zone.from, zone.to].map((x) => x && divide(subtract(x, first), run));
  const [one, other] = run.numerator < 0n ? [...shares].reverse() : shares;
  const [left, right] = [within(one ?? rational(0n)), within(other ?? rational(1n))];
  if (compareRationals(left, right) >= 0) return [];
  const [near, far] = [left, right].map((share) => add(first, multiply(share, run))) as [Rational, Rational]; // two of two
  return [
    point(left, height(zone.below, near)),
    point(right, height(zone.below, far)),
    point(right, height(zone.above, far)),
    point(left, height(zone.above, near)),
  ];
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

/** As `stripLeft`, as it is drawn: whole loops, roughly, whose ends at folds are drawn out to the corners. */
export function loopsBehind(shape: Pierced, edge: Edge): Facets {
  const seam = seamOn(shape, edge);
  if (seam === undefined || equal(seam.first, seam.last)) return stripLeft(shape, edge, 'along');
  const { panel, first, last, low } = seam;
  const [near, far] = inOrder(first, last);
  const drawnOut = (x: Rational) => {
    if (compareRationals(x, panel.from) <= 0) return smaller(x, near);
    return compareRationals(x, panel.to) >= 0 ? larger(x, far) : x;
  };
  const [from, to] = [larger(near, panel.from), smaller(far, panel.to)];
  const run = subtract(last, first);
  return facetsOf(panel.outline, 'along', rough).flatMap((loop): Facets => {
    const seen = keptBetween(loop, from, to);
    return seen.length < 3
      ? []
      : [seen.map(({ x, y }) => point(divide(subtract(drawnOut(x), first), run), add(y, low)))];
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
