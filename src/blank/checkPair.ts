import { compare, minus, opposite, sum } from '../measure/index.ts';
import type { Length, Line, Outline, Point, SharedBlank } from '../model/index.ts';
import { boxOf, flattened, heldBy, isClearOf, laid, mostOff, shareArea } from '../outline/index.ts';

/** What is wrong with two in one blank, in words. It is never the user's doing. */
export type PairFlaw = string;

/**
 * Looks at two parts of an outline in their blank: each lies within it, they share no area, and no two points
 * of them are nearer than a kerf, to within what straight edges are off a curve. Nothing here is shared with
 * the code that lays them so: places and distances are worked out anew, point by point.
 *
 * @param net  the box of the part, with the outline on its datum
 */
export function pairFlaws(
  outline: Outline,
  net: { readonly length: Length; readonly width: Length },
  { at: [one, other], ...blank }: Pick<SharedBlank, 'at' | 'length' | 'width'>,
  kerf: Length,
): readonly PairFlaw[] {
  const first = laid(outline, {
    move: ({ x, y }: Point) => ({ x: sum(x, one.x), y: sum(y, one.y) }),
    swapsHands: false,
  });
  const second = laid(outline, {
    move: ({ x, y }: Point) => ({
      x: minus(sum(other.x, net.length), x),
      y: minus(sum(other.y, net.width), y),
    }),
    swapsHands: false,
  });
  const flaws: PairFlaw[] = [];
  for (const [name, it] of [
    ['first', first],
    ['second', second],
  ] as const) {
    if (!liesWithin(it, blank)) flaws.push(`the ${name} sticks out of the blank`);
  }
  if (shareArea(first, second) === 'yes') flaws.push('the two run into each other');
  else if (kerf.numerator > 0n && !areApart(first, second, kerf)) {
    flaws.push('the two are nearer than the kerf');
  }
  return flaws;
}

function liesWithin(outline: Outline, { length, width }: Pick<SharedBlank, 'length' | 'width'>): boolean {
  const { left, right, bottom, top } = heldBy(boxOf(outline));
  const least = opposite(mostOff);
  return (
    compare(left, least) >= 0 &&
    compare(bottom, least) >= 0 &&
    compare(right, sum(length, mostOff)) <= 0 &&
    compare(top, sum(width, mostOff)) <= 0
  );
}

/** Of two that don't cross, the nearest points are a corner of one and a point of the other's edge. */
function areApart(first: Outline, second: Outline, kerf: Length): boolean {
  const [edges, others] = [edgesWithin(first), edgesWithin(second)];
  const areClear = (from: readonly Line[], to: readonly Line[]) =>
    from.every((edge) => to.every(({ from: at }) => isFar(edge, at, kerf) || isClearOf(edge, at, kerf)));
  return areClear(edges, others) && areClear(others, edges);
}

function edgesWithin(outline: Outline): readonly Line[] {
  return flattened({ ...outline, holes: [] }, 'inward').flatMap((loop) =>
    loop.map((from, i): Line => ({ kind: 'line', from, to: loop[(i + 1) % loop.length] ?? from })),
  );
}

/** Most are above, below or beside each other by more than a kerf: that is soon seen. */
function isFar({ from, to }: Line, at: Point, kerf: Length): boolean {
  return (['x', 'y'] as const).some((way) => {
    const isBelow =
      compare(at[way], minus(from[way], kerf)) < 0 && compare(at[way], minus(to[way], kerf)) < 0;
    return (
      isBelow || (compare(at[way], sum(from[way], kerf)) > 0 && compare(at[way], sum(to[way], kerf)) > 0)
    );
  });
}
