import { compare, divide, millimetres, rational, subtract } from '../../measure/index.ts';
import {
  type Enclosure,
  type Length,
  type Line,
  type Rational,
  type Segment,
  type Way,
  ways,
} from '../../model/index.ts';
import { addUp, productOf } from '../enclosure.ts';
import { bendsOf, type Facets, type Lean } from '../flatten.ts';
import { lengthOf } from '../perimeter.ts';
import { widened } from '../root.ts';
import { point } from '../vector.ts';
import { areaInAll } from './areaInAll.ts';
import { stretchesAt } from './patches.ts';
import { facetsOf, outlineIn, type Plane, type Shaped } from './prism.ts';
import { stripLeft } from './strip.ts';
import type { Pierced } from './zones.ts';

/** From where to where something goes through, along the way that it is looked along. */
export interface Reach {
  readonly way: Way;
  readonly from: Length;
  readonly to: Length;
}

/**
 * The area of a slanted seam between bodies that are less in another plane, too: laid flat, it is a strip as long
 * as the seam, of which each of those outlines leaves a part.
 *
 *      ├──── seam ────┤
 *    ─┬┌──────────────┐
 *     ││   ╭──╮       │ thick
 *    ─┴└───┴──┴───────┘
 */
export function seamArea(
  met: Segment,
  plane: Plane,
  reach: Reach,
  others: readonly Shaped[],
  pierced: readonly Pierced[] = [],
): Enclosure {
  const points = [met.from, ...bendsOf(met), met.to];
  const shares = (lean: Lean) =>
    points
      .slice(1)
      .map((to, i) => shareLeft({ from: points[i]!, to }, plane, reach, { others, pierced }, lean)); // one before each
  const lengths = points.slice(1).map((to, i) => lengthOf({ kind: 'line', from: points[i]!, to }));
  const [least, most] = [shares('inward'), shares('outward')];
  // One share for each length.
  return widened(addUp(...lengths.map((length, i) => productOf(length, { lo: least[i]!, hi: most[i]! }))));
}

/** Those that are seen in outline in another plane, and those that are seen in this one and have cuts. */
interface Leaving {
  readonly others: readonly Shaped[];
  readonly pierced: readonly Pierced[];
}

/** How thick, on average, what is left along a straight seam is. */
function shareLeft(
  seam: Pick<Line, 'from' | 'to'>,
  plane: Plane,
  { way, from, to }: Reach,
  { others, pierced }: Leaving,
  lean: Lean,
): Rational {
  const [start, end] = [point(rational(0n), from), point(rational(1n), to)];
  const strip: Facets = [[start, { x: end.x, y: start.y }, end, { x: start.x, y: end.y }]];
  const shapes = others.map((shape) => {
    const along = ways.find((it) => it !== way && it !== shape.stance.thickness) ?? way;
    const axis = along === plane.right ? 'x' : 'y';
    const run = subtract(seam.to[axis], seam.from[axis]);
    // The chord of an arc may stand across: then it meets one place of the outline only.
    if (run.numerator === 0n) return standingAt(shape, { right: along, up: way }, seam.from[axis]);
    const facets = facetsOf(outlineIn(shape, { right: along, up: way }), lean);
    const laid = facets.map((loop) =>
      loop.map(({ x, y }) => point(divide(subtract(x, seam.from[axis]), run), y)),
    );
    return run.numerator < 0n ? laid.map((loop) => [...loop].reverse()) : laid;
  });
  return areaInAll([strip, ...shapes, ...pierced.map((it) => stripLeft(it, seam, lean))]);
}

/** What an outline has at one place, along the whole of a seam. */
function standingAt(shape: Shaped, plane: Plane, at: Length): Facets {
  const [start, end] = [millimetres(rational(0n)), millimetres(rational(1n))];
  return stretchesAt(shape, plane, at, 'below').map(([low, high]) => [
    { x: start, y: low },
    { x: end, y: low },
    { x: end, y: high },
    { x: start, y: high },
  ]);
}

/** True for an edge that neither lies nor stands upright in its plane. */
export function isSlope(it: Segment): boolean {
  if (it.kind === 'arc') return true;
  const points = it.kind === 'curve' ? [it.leaving, it.arriving, it.to] : [it.to];
  return (['x', 'y'] as const).every((axis) => points.some((at) => compare(at[axis], it.from[axis]) !== 0));
}
