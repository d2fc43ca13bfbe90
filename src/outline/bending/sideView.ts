import { zero } from '../../measure/index.ts';
import type { Outline, Way } from '../../model/index.ts';
import { loopThrough } from '../loop.ts';
import { bodyOf, type Piece, shapeAlong } from '../prisms/body.ts';
import { outlineIn, planeAcross, rectangleIn } from '../prisms/prism.ts';

/** A piece as it is seen along a level way, where it stands: x goes the other level way, y up. */
export function seenAlong(piece: Piece, way: Way): Outline {
  const plane = planeAcross(way);
  const shape = shapeAlong(bodyOf(piece), way);
  if (shape !== undefined) return outlineIn(shape, plane);
  const [corners = []] = rectangleIn(piece.block, plane);
  return { rim: loopThrough(corners), holes: [], marks: [], within: zero };
}
