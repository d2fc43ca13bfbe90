import { multiply } from '../../measure/index.ts';
import type { Enclosure, Way } from '../../model/index.ts';
import { ways } from '../../model/index.ts';
import { areaOf } from '../area.ts';
import { exactly, nothing, productOf } from '../enclosure.ts';
import { piecesOf } from '../flatten.ts';
import { perimeterOfLoop } from '../perimeter.ts';
import { looksTo } from './looks.ts';
import { isShaped, outlineIn, type Prism, planeAcross, spanOf } from './prism.ts';

/** In mm², how much of a prism's surface looks which way; an edge that slopes or bends counts where it looks most. */
export interface Side {
  readonly way: Way;
  readonly end: 'low' | 'high';
  readonly area: Enclosure;
}

export function sidesOfPrism(prism: Prism): readonly Side[] {
  if (!isShaped(prism)) {
    return ways.flatMap((way) => {
      const { right, up } = planeAcross(way);
      const area = exactly(multiply(spanOf(prism, right), spanOf(prism, up)));
      return bothEnds.map((end): Side => ({ way, end, area }));
    });
  }
  const way = prism.stance.thickness;
  const plane = planeAcross(way);
  const outline = outlineIn(prism, plane);
  const face = areaOf(outline);
  const thick = exactly(spanOf(prism, way));
  const edges = [outline.rim, ...outline.holes].flat().flatMap(piecesOf);
  const looking = edges.map((edge) => ({ edge, ...looksTo(edge, plane) }));
  return [
    ...bothEnds.map((end): Side => ({ way, end, area: face })),
    ...[plane.right, plane.up].flatMap((looks) =>
      bothEnds.map((end): Side => {
        const there = looking.filter((it) => it.way === looks && it.end === end).map(({ edge }) => edge);
        const area = there.length === 0 ? nothing : productOf(perimeterOfLoop(there), thick);
        return { way: looks, end, area };
      }),
    ),
  ];
}

const bothEnds = ['low', 'high'] as const;
