import { compare, larger, minus, multiply, opposite, smaller, sum, zero } from '../../measure/index.ts';
import { type Block, type Enclosure, type Length, type Outline, type Way, ways } from '../../model/index.ts';
import { areaOf } from '../area.ts';
import { exactly } from '../enclosure.ts';
import { type Lean, mostOff } from '../flatten.ts';
import { widened } from '../root.ts';
import { isStraight } from '../sharing.ts';
import { hasAny, sharedArea, slices } from '../slabs.ts';
import { type Patch, patchesOf } from './patches.ts';
import { isShaped, outlineIn, type Plane, type Prism, planeAcross, rectangleIn, shadowOf } from './prism.ts';
import { slopesMet } from './slopes.ts';
import { answered, sharesAPoint } from './verdict.ts';

/** Where two prisms touch, or a glue line apart. */
export interface Touch {
  readonly way: Way;
  /** Which of the two lies on the high side of the other. */
  readonly higher: 'first' | 'second';
  /** False where it hangs on less than 0.01 mm of a curve. */
  readonly isSure: boolean;
  /** In mm². */
  readonly area: () => Enclosure;
}

/**
 * Where two prisms touch that share no space. Each shows patches in each way: a face of its outline across its
 * thickness, a rectangle for each straight edge that looks that way. Edges that slope or bend meet only those of
 * a prism in the same plane.
 *
 *      ┌──╮  ┌────┐
 *      │  │  │    ┃     what looks right: ┃
 *      │  ╰──┘    ┃
 *      └──────────┃
 *
 * @param glueLine  how far apart faces that touch may lie
 */
export function touchesOf(a: Prism, b: Prism, glueLine: Length): readonly Touch[] {
  const apart = ways.filter((way) => compare(begin(a, b, way), end(a, b, way)) >= 0);
  if (apart.length > 1) return [];
  const met = (apart.length === 1 ? apart : ways).flatMap((way) => [
    ...patchesMet(a, b, way, glueLine, 'second'),
    ...patchesMet(b, a, way, glueLine, 'first'),
  ]);
  const isSideBySide = apart.length === 0 && a.stance.thickness === b.stance.thickness;
  return isSideBySide && isShaped(a) && isShaped(b) ? [...met, ...slopesMet(a, b, glueLine)] : met;
}

function begin({ block: a }: Prism, { block: b }: Prism, way: Way): Length {
  return larger(a.low[way], b.low[way]);
}

function end({ block: a }: Prism, { block: b }: Prism, way: Way): Length {
  return smaller(a.high[way], b.high[way]);
}

function patchesMet(
  lower: Prism,
  upper: Prism,
  way: Way,
  glueLine: Length,
  higher: Touch['higher'],
): readonly Touch[] {
  // Points that were rounded are off by less than anybody can see.
  const slip = sum(lower.outline?.within ?? zero, upper.outline?.within ?? zero);
  const [least, most] = [opposite(slip), sum(glueLine, slip)];
  const looking = patchesOf(lower, way, 'high');
  return patchesOf(upper, way, 'low').flatMap((down) =>
    looking.flatMap((up): readonly Touch[] => {
      const gap = minus(down.at, up.at);
      if (compare(gap, least) < 0 || compare(gap, most) > 0) return [];
      const met = patchesTouch(up, down, planeAcross(way));
      return met === undefined ? [] : [{ way, higher, ...met }];
    }),
  );
}

type Met = Pick<Touch, 'isSure' | 'area'>;

function patchesTouch(a: Patch, b: Patch, plane: Plane): Met | undefined {
  const box = sharedBox(blockOf(a), blockOf(b), plane);
  if (box === undefined) return undefined;
  const outlines = [a, b].map((it) => outlineOf(it, plane));
  const [first, second] = outlines;
  if (first === undefined && second === undefined)
    return { isSure: true, area: () => exactly(areaOfBox(box, plane)) };
  const covered = first === second ? first : coveredOutline([a, b], outlines, box, plane);
  if (covered !== undefined) return { isSure: true, area: () => areaOf(covered) };
  const seen = (it: Patch, lean: Lean, off: Length) =>
    it.box === undefined ? shadowOf(it.prism, plane, lean, off) : rectangleIn(it.box, plane);
  const isExact = outlines.every((it) => it === undefined || isStraight(it));
  const answer = sharesAPoint(outlines, box, plane)
    ? 'yes'
    : answered(isExact, (lean, off) =>
        hasAny(slices(seen(a, lean, off), seen(b, lean, off)), (it) => it.isInFirst && it.isInSecond),
      );
  if (answer === 'no') return undefined;
  const area = (lean: Lean) => sharedArea(seen(a, lean, mostOff), seen(b, lean, mostOff));
  const whole = (): Enclosure =>
    isExact ? exactly(area('inward')) : widened({ lo: area('inward'), hi: area('outward') });
  return { isSure: answer === 'yes', area: whole };
}

function blockOf({ box, prism }: Patch): Block {
  return box ?? prism.block;
}

function outlineOf({ box, prism }: Patch, plane: Plane): Outline | undefined {
  return box === undefined && isShaped(prism) ? outlineIn(prism, plane) : undefined;
}

/** The outline of the one patch where the other is a rectangle over all of it. */
function coveredOutline(
  patches: readonly Patch[],
  outlines: readonly (Outline | undefined)[],
  box: Block,
  { right, up }: Plane,
): Outline | undefined {
  const [only, ...others] = outlines.flatMap((outline, i) => (outline === undefined ? [] : [{ outline, i }]));
  if (only === undefined || others.length > 0) return undefined;
  const { low, high } = blockOf(patches[only.i]!); // one for each outline
  const isAll = [right, up].every(
    (way) => compare(box.low[way], low[way]) === 0 && compare(box.high[way], high[way]) === 0,
  );
  return isAll ? only.outline : undefined;
}

function sharedBox(a: Block, b: Block, { right, up }: Plane): Block | undefined {
  const [low, high] = [{ ...a.low }, { ...a.high }];
  for (const way of [right, up]) {
    low[way] = larger(a.low[way], b.low[way]);
    high[way] = smaller(a.high[way], b.high[way]);
    if (compare(low[way], high[way]) >= 0) return undefined;
  }
  return { low, high };
}

function areaOfBox({ low, high }: Block, { right, up }: Plane) {
  return multiply(minus(high[right], low[right]), minus(high[up], low[up]));
}
