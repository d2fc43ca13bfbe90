import { compare, larger, minus, multiply, opposite, smaller, sum } from '../../measure/index.ts';
import { type Block, type Enclosure, type Length, type Outline, type Way, ways } from '../../model/index.ts';
import { areaOf } from '../area.ts';
import { exactly } from '../enclosure.ts';
import { type Lean, mostOff } from '../flatten.ts';
import { widened } from '../root.ts';
import { isStraight } from '../sharing.ts';
import { areaInAll, areasInAll } from './areaInAll.ts';
import { type Body, shapesOf } from './body.ts';
import { type Left, type Patch, patchesOf } from './patches.ts';
import { facetsOf, outlineIn, type Plane, planeAcross, rectangleIn } from './prism.ts';
import { slopesMet } from './slopes.ts';
import { answered, sharesAPoint } from './verdict.ts';

/** Where two bodies touch, or a glue line apart. */
export interface Touch {
  readonly way: Way;
  /** Which of the two lies on the high side of the other. */
  readonly higher: 'first' | 'second';
  /** Of a slanted touch: the other way in which the two lie one behind the other, and which is higher there. */
  readonly slant?: Pick<Touch, 'way' | 'higher'> | undefined;
  /** False where it hangs on less than 0.01 mm of a curve. */
  readonly isSure: boolean;
  /** In mm². */
  readonly area: () => Enclosure;
}

/**
 * Where two bodies touch that share no space. Each shows patches in each way: a face of its outline across its
 * thickness, a rectangle for each straight edge that looks that way. Edges that slope or bend meet only those that
 * are seen in the same plane.
 *
 *      ┌──╮  ┌────┐
 *      │  │  │    ┃     what looks right: ┃
 *      │  ╰──┘    ┃
 *      └──────────┃
 *
 * @param glueLine  how far apart faces that touch may lie
 */
export function touchesOf(a: Body, b: Body, glueLine: Length): readonly Touch[] {
  const apart = ways.filter((way) => compare(begin(a, b, way), end(a, b, way)) >= 0);
  if (apart.length > 1) return [];
  const met = (apart.length === 1 ? apart : ways).flatMap((way) => [
    ...patchesMet(a, b, way, glueLine, 'second'),
    ...patchesMet(b, a, way, glueLine, 'first'),
  ]);
  if (apart.length > 0) return met;
  const inOnePlane = shapesOf(a).flatMap((one) =>
    shapesOf(b).flatMap((other) => (one.stance.thickness === other.stance.thickness ? [[one, other]] : [])),
  );
  return [...met, ...inOnePlane.flatMap(([one, other]) => slopesMet(one!, other!, [a, b], glueLine))]; // pairs
}

function begin([{ block: a }]: Body, [{ block: b }]: Body, way: Way): Length {
  return larger(a.low[way], b.low[way]);
}

function end([{ block: a }]: Body, [{ block: b }]: Body, way: Way): Length {
  return smaller(a.high[way], b.high[way]);
}

function patchesMet(
  lower: Body,
  upper: Body,
  way: Way,
  glueLine: Length,
  higher: Touch['higher'],
): readonly Touch[] {
  const looking = patchesOf(lower, way, 'high');
  return patchesOf(upper, way, 'low').flatMap((down) =>
    looking.flatMap((up): readonly Touch[] => {
      const gap = minus(down.at, up.at);
      // Points that were rounded are off by less than anybody can see.
      const slip = sum(up.within, down.within);
      if (compare(gap, opposite(slip)) < 0 || compare(gap, sum(glueLine, slip)) > 0) return [];
      const met = patchesTouch(up, down, planeAcross(way));
      return met === undefined ? [] : [{ way, higher, ...met }];
    }),
  );
}

type Met = Pick<Touch, 'isSure' | 'area'>;

function patchesTouch(a: Patch, b: Patch, plane: Plane): Met | undefined {
  const box = sharedBox(a.box, b.box, plane);
  if (box === undefined) return undefined;
  const shaped = [a, b].flatMap(({ shape }) => shape ?? []);
  const outlines = [...new Set(shaped.map((it) => outlineIn(it, plane)))];
  const [only, other] = outlines;
  const left = [a, b].flatMap((it) => it.left ?? []);
  if (left.length > 0) return leftTouch(left, outlines, box, plane);
  if (only === undefined) return { isSure: true, area: () => exactly(areaOfBox(box, plane)) };
  const isAll = shaped.every(({ block }) => isAsLarge(box, block, plane));
  if (other === undefined && isAll) return { isSure: true, area: () => areaOf(only) };
  const isBounded = [a, b].every((it) => it.shape !== undefined && isAsLarge(it.box, it.shape.block, plane));
  const seen = (lean: Lean, off: Length) => [
    ...outlines.map((it) => facetsOf(it, lean, off)),
    ...(isAll || isBounded ? [] : [rectangleIn(box, plane)]),
  ];
  const isExact = outlines.every(isStraight);
  const answer = sharesAPoint(outlines, box, plane)
    ? 'yes'
    : answered(isExact, (lean, off) => areasInAll(seen(lean, off)).next().done === false);
  if (answer === 'no') return undefined;
  const area = (lean: Lean) => areaInAll(seen(lean, mostOff));
  const whole = (): Enclosure =>
    isExact ? exactly(area('inward')) : widened({ lo: area('inward'), hi: area('outward') });
  return { isSure: answer === 'yes', area: whole };
}

/** Of what slopes or is folded: what its cuts leave of what the two have in common. */
function leftTouch(
  left: readonly Left[],
  outlines: readonly Outline[],
  box: Block,
  plane: Plane,
): Met | undefined {
  const isExact = outlines.every(isStraight) && left.every((it) => it.isExact);
  const area = (lean: Lean) =>
    areaInAll([
      rectangleIn(box, plane),
      ...outlines.map((it) => facetsOf(it, lean)),
      ...left.map(({ facets }) => facets(lean)),
    ]);
  const least = area('inward');
  if (isExact) return least.numerator > 0n ? { isSure: true, area: () => exactly(least) } : undefined;
  const most = area('outward');
  if (most.numerator <= 0n) return undefined;
  return { isSure: least.numerator > 0n, area: () => widened({ lo: least, hi: most }) };
}

function isAsLarge(box: Block, { low, high }: Block, { right, up }: Plane): boolean {
  return [right, up].every(
    (way) => compare(box.low[way], low[way]) === 0 && compare(box.high[way], high[way]) === 0,
  );
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
