import { larger, millimetres } from '../measure/index.ts';
import type { Length, Outline, Segment } from '../model/index.ts';
import { standingInLoops } from './contains.ts';
import { doOverlap, hullOf, isOn, touch } from './crossing.ts';
import { lineTo, reversedSegment } from './loop.ts';
import { midpointOf } from './midpoint.ts';
import { takenOverOneEdge } from './oneEdge.ts';
import { hair } from './root.ts';
import { cutWhereTheyMeet, Pool } from './splitting.ts';
import { outlinesOf, stitched } from './stitching.ts';
import { isSame } from './vector.ts';

/** How a piece of one outline's edge lies to another outline. */
type Lies = 'inside' | 'outside' | 'along it' | 'against it';

/**
 * What is left of the first when the second is taken out of it: several outlines where it falls apart, none
 * where nothing is left. Arcs stay arcs, curves curves.
 *
 *      ┌────────┐             ┌──┐  ┌──┐      of the first: what lies outside the second,
 *      │  ┌──┐  │      →      │  │  │  │      and where the two lie against each other;
 *      └──┼──┼──┘             └──┘  └──┘      of the second: what lies inside the first, turned round
 *         └──┘
 */
export function difference(whole: Outline, away: Outline): readonly Outline[] {
  return put(whole, away, keptOfDifference);
}

/** What is left, and whether anything at all is gone. */
export function takenOut(
  whole: Outline,
  away: Outline,
): { readonly left: readonly Outline[]; readonly takesAny: boolean } {
  const plain = takenOverOneEdge(whole, away);
  if (plain !== undefined) return { left: [plain], takesAny: true };
  let takesAny = false;
  const left = put(whole, away, (sides) => {
    takesAny =
      sides.ofSecond.some(({ lies }) => lies === 'inside') ||
      sides.ofFirst.some(({ lies }) => lies === 'inside' || lies === 'along it');
    return keptOfDifference(sides);
  });
  return { left, takesAny };
}

function keptOfDifference({ ofFirst, ofSecond }: Sides): readonly Segment[] {
  return [
    ...ofFirst.filter(({ lies }) => lies === 'outside' || lies === 'against it').map(({ piece }) => piece),
    ...ofSecond.filter(({ lies }) => lies === 'inside').map(({ piece }) => reversedSegment(piece)),
  ];
}

export function union(one: Outline, other: Outline): readonly Outline[] {
  return put(one, other, ({ ofFirst, ofSecond }) => [
    ...ofFirst.filter(({ lies }) => lies === 'outside' || lies === 'along it').map(({ piece }) => piece),
    ...ofSecond.filter(({ lies }) => lies === 'outside').map(({ piece }) => piece),
  ]);
}

export function intersection(one: Outline, other: Outline): readonly Outline[] {
  return put(one, other, ({ ofFirst, ofSecond }) => [
    ...ofFirst.filter(({ lies }) => lies === 'inside' || lies === 'along it').map(({ piece }) => piece),
    ...ofSecond.filter(({ lies }) => lies === 'inside').map(({ piece }) => piece),
  ]);
}

interface Sorted {
  readonly piece: Segment;
  readonly lies: Lies;
}

interface Sides {
  readonly ofFirst: readonly Sorted[];
  readonly ofSecond: readonly Sorted[];
}

function put(
  first: Outline,
  second: Outline,
  keep: (sides: Sides) => readonly Segment[],
): readonly Outline[] {
  const kept = keep(sidesOf(first, second));
  return outlinesOf(stitched(kept), withinOf(first, second, kept), first.marks);
}

function sidesOf(first: Outline, second: Outline): Sides {
  const [ofOne = [], ofOther = []] = cutWhereTheyMeet([edgesOf(first), edgesOf(second)], new Pool());
  return {
    ofFirst: ofOne.map((piece) => ({ piece, lies: liesOf(piece, second, ofOther) })),
    ofSecond: ofOther.map((piece) => ({ piece, lies: liesOf(piece, first, ofOne) })),
  };
}

function edgesOf({ rim, holes }: Outline): readonly Segment[] {
  return [rim, ...holes].flat();
}

function liesOf(piece: Segment, other: Outline, itsPieces: readonly Segment[]): Lies {
  const at = midpointOf(piece);
  const hull = hullOf(lineTo(at, at));
  const shared = itsPieces.find(
    (it) =>
      ((isSame(it.from, piece.from) && isSame(it.to, piece.to)) ||
        (isSame(it.from, piece.to) && isSame(it.to, piece.from))) &&
      doOverlap(hullOf(it), hull) &&
      isOn(it, at),
  );
  if (shared !== undefined) return isSame(shared.from, piece.from) ? 'along it' : 'against it';
  return standingInLoops([other.rim, ...other.holes], at) === 'inside' ? 'inside' : 'outside';
}

/** Points where arcs or curves were cut are rounded; between lines alone nothing is. */
function withinOf(first: Outline, second: Outline, kept: readonly Segment[]): Length {
  const both = larger(first.within, second.within);
  const ends = new Set([...edgesOf(first), ...edgesOf(second)].map(({ from }) => from));
  const cut = kept.filter((it) => it.kind !== 'line' && !(ends.has(it.from) && ends.has(it.to)));
  if (cut.length === 0) return both;
  return larger(both, cut.some(({ kind }) => kind === 'curve') ? millimetres(touch) : hair);
}
