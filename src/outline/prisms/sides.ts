import { multiply } from '../../measure/index.ts';
import type { Enclosure, Outline, Segment, Way } from '../../model/index.ts';
import { areaOf } from '../area.ts';
import { addUp, exactly, nothing, productOf } from '../enclosure.ts';
import { type Lean, piecesOf } from '../flatten.ts';
import { perimeterOfLoop } from '../perimeter.ts';
import { widened } from '../root.ts';
import { isStraight } from '../sharing.ts';
import { areaInAll } from './areaInAll.ts';
import { type Body, shapesOf } from './body.ts';
import { looksTo, slantOf } from './looks.ts';
import { type Patch, patchesOf } from './patches.ts';
import { facetsOf, outlineIn, planeAcross, rectangleIn, type Shaped, spanOf } from './prism.ts';
import { isSlope, type Reach, seamArea } from './seam.ts';
import { slantedWallsOf } from './walls.ts';
import { isPierced, type Pierced } from './zones.ts';

/** In mm², how much of a body looks one way; an edge that slopes or bends counts, all of it, where it looks most. */
export function sideAreaOf(body: Body, way: Way, end: 'low' | 'high'): Enclosure {
  const [one, other] = shapesOf(body);
  if (one === undefined) {
    const { right, up } = planeAcross(way);
    return exactly(multiply(spanOf(body[0], right), spanOf(body[0], up)));
  }
  if (other !== undefined) return sideAreaOfBoth(body, one, other, way, end);
  if (isPierced(one)) return sideAreaOfPierced(body, one, way, end);
  const { thickness } = one.stance;
  if (thickness === way) return areaOf(outlineIn(one, planeAcross(way)));
  const edges = edgesLooking(one, way, end);
  return edges.length === 0 ? nothing : productOf(perimeterOfLoop(edges), exactly(spanOf(one, thickness)));
}

/** Of a body that is seen in outline along two ways: what is square, and what of each slanted edge the other leaves. */
function sideAreaOfBoth(body: Body, one: Shaped, other: Shaped, way: Way, end: 'low' | 'high'): Enclosure {
  const square = patchesOf(body, way, end).map((patch) => areaOfPatch(patch, way));
  const slanted = [one, other].flatMap((shape) => {
    const { thickness } = shape.stance;
    const against = [shape === one ? other : one];
    return edgesLooking(shape, way, end)
      .filter(isSlope)
      .map((edge) => seamArea(edge, planeAcross(thickness), reachOf(shape), against));
  });
  return widened(addUp(...square, ...slanted));
}

/** Of what slopes or is folded and has cuts: what they leave of its faces, and their walls. */
function sideAreaOfPierced(body: Body, one: Pierced, way: Way, end: 'low' | 'high'): Enclosure {
  const square = patchesOf(body, way, end).map((patch) => areaOfPatch(patch, way));
  const plane = planeAcross(one.stance.thickness);
  const slanted = one.stance.thickness === way ? [] : edgesLooking(one, way, end).filter(isSlope);
  const walls = slantedWallsOf(one).filter((wall) => wall.way === way && wall.end === end);
  return widened(
    addUp(
      ...square,
      ...slanted.map((edge) => seamArea(edge, plane, reachOf(one), [], [one])),
      ...walls.map(({ area }) => area),
    ),
  );
}

function areaOfPatch({ box, shape, left }: Patch, way: Way): Enclosure {
  const plane = planeAcross(way);
  const room = rectangleIn(box, plane);
  if (left !== undefined) {
    const [lo, hi] = (['inward', 'outward'] as const).map((lean) => areaInAll([left.facets(lean), room]));
    return { lo: lo!, hi: hi! }; // two of two
  }
  if (shape === undefined) return exactly(areaInAll([room]));
  const area = (lean: Lean) => areaInAll([facetsOf(outlineIn(shape, plane), lean), room]);
  return isStraight(shape.outline) ? exactly(area('inward')) : { lo: area('inward'), hi: area('outward') };
}

/** In mm², how much of a body's edges that slant looks that way, too, but more another way. */
export function slantAreaOf(body: Body, way: Way, end: 'low' | 'high'): Enclosure {
  return widened(
    addUp(
      ...shapesOf(body).flatMap((shape) => {
        const plane = planeAcross(shape.stance.thickness);
        const others = shapesOf(body).filter((it) => it !== shape);
        return piecesIn(outlineIn(shape, plane))
          .filter((edge) => {
            const slant = slantOf(edge, plane);
            return slant !== undefined && slant.way === way && slant.end === end;
          })
          .map((edge) => seamArea(edge, plane, reachOf(shape), others, [shape].filter(isPierced)));
      }),
    ),
  );
}

function reachOf({ block, stance: { thickness } }: Shaped): Reach {
  return { way: thickness, from: block.low[thickness], to: block.high[thickness] };
}

/** True where some of a body looks that way. */
export function looksThere(body: Body, way: Way, end: 'low' | 'high'): boolean {
  const shapes = shapesOf(body);
  if (shapes.length > 1 || shapes.some(isPierced)) return sideAreaOf(body, way, end).hi.numerator > 0n;
  return shapes.every((it) => it.stance.thickness === way || edgesLooking(it, way, end).length > 0);
}

function edgesLooking(shape: Shaped, way: Way, end: 'low' | 'high'): readonly Segment[] {
  const plane = planeAcross(shape.stance.thickness);
  return piecesIn(outlineIn(shape, plane)).filter((edge) => {
    const looks = looksTo(edge, plane);
    return looks.way === way && looks.end === end;
  });
}

const known = new WeakMap<Outline, readonly Segment[]>();

function piecesIn(outline: Outline): readonly Segment[] {
  const pieces = known.get(outline) ?? [outline.rim, ...outline.holes].flat().flatMap(piecesOf);
  known.set(outline, pieces);
  return pieces;
}
