import { multiply } from '../../measure/index.ts';
import type { Enclosure, Outline, Segment, Way } from '../../model/index.ts';
import { areaOf } from '../area.ts';
import { exactly, nothing, productOf } from '../enclosure.ts';
import { piecesOf } from '../flatten.ts';
import { perimeterOfLoop } from '../perimeter.ts';
import { looksTo } from './looks.ts';
import { isShaped, outlineIn, type Prism, planeAcross, spanOf } from './prism.ts';

/** In mm², how much of a prism looks one way; an edge that slopes or bends counts where it looks most. */
export function sideAreaOf(prism: Prism, way: Way, end: 'low' | 'high'): Enclosure {
  const { right, up } = planeAcross(way);
  if (!isShaped(prism)) return exactly(multiply(spanOf(prism, right), spanOf(prism, up)));
  const { thickness } = prism.stance;
  if (thickness === way) return areaOf(outlineIn(prism, planeAcross(way)));
  const edges = edgesLooking(prism, way, end);
  return edges.length === 0 ? nothing : productOf(perimeterOfLoop(edges), exactly(spanOf(prism, thickness)));
}

/** True where some of a prism looks that way. */
export function looksThere(prism: Prism, way: Way, end: 'low' | 'high'): boolean {
  return !isShaped(prism) || prism.stance.thickness === way || edgesLooking(prism, way, end).length > 0;
}

function edgesLooking(
  prism: Prism & { readonly outline: Outline },
  way: Way,
  end: 'low' | 'high',
): readonly Segment[] {
  const plane = planeAcross(prism.stance.thickness);
  return piecesIn(outlineIn(prism, plane)).filter((edge) => {
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
