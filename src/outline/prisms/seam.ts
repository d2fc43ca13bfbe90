import { compare, divide, rational, subtract } from '../../measure/index.ts';
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
import { point } from '../vector.ts';
import { areaInAll } from './areaInAll.ts';
import { facetsOf, outlineIn, type Plane, type Shaped } from './prism.ts';

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
export function seamArea(met: Segment, plane: Plane, reach: Reach, others: readonly Shaped[]): Enclosure {
  const points = [met.from, ...bendsOf(met), met.to];
  const shares = (lean: Lean) =>
    points.slice(1).map((to, i) => shareLeft({ from: points[i]!, to }, plane, reach, others, lean)); // one before each
  const lengths = points.slice(1).map((to, i) => lengthOf({ kind: 'line', from: points[i]!, to }));
  const [least, most] = [shares('inward'), shares('outward')];
  return addUp(...lengths.map((length, i) => productOf(length, { lo: least[i]!, hi: most[i]! }))); // one for each
}

/** How thick, on average, what is left along a straight seam is. */
function shareLeft(
  seam: Pick<Line, 'from' | 'to'>,
  plane: Plane,
  { way, from, to }: Reach,
  others: readonly Shaped[],
  lean: Lean,
): Rational {
  const [start, end] = [point(rational(0n), from), point(rational(1n), to)];
  const strip: Facets = [[start, { x: end.x, y: start.y }, end, { x: start.x, y: end.y }]];
  const shapes = others.map((shape) => {
    const along = ways.find((it) => it !== way && it !== shape.stance.thickness) ?? way;
    const axis = along === plane.right ? 'x' : 'y';
    const facets = facetsOf(outlineIn(shape, { right: along, up: way }), lean);
    const run = subtract(seam.to[axis], seam.from[axis]);
    const laid = facets.map((loop) =>
      loop.map(({ x, y }) => point(divide(subtract(x, seam.from[axis]), run), y)),
    );
    return run.numerator < 0n ? laid.map((loop) => [...loop].reverse()) : laid;
  });
  return areaInAll([strip, ...shapes]);
}

/** True for an edge that neither lies nor stands upright in its plane. */
export function isSlope(it: Segment): boolean {
  if (it.kind !== 'line') return true;
  return compare(it.from.x, it.to.x) !== 0 && compare(it.from.y, it.to.y) !== 0;
}
