import { compare, millimetres } from '../measure/index.ts';
import type { Bevel, DrawnPart, DrawnSide, Length, Rebate } from '../model/index.ts';
import { bevelKey, middleOf, rebateKey } from '../outline/index.ts';
import { angleWords } from './foldWords.ts';

type Edges = Pick<DrawnPart, 'bevels' | 'rebates'>;

export interface EdgeStyle {
  /** A mark, with its error where no rule has it. */
  readonly brief: (length: Length) => string;
  /** What is too small for the marks of most rules. */
  readonly fine: (length: Length) => string;
}

/** `bevel both ends 45 degrees, long face up`, `rebate both ends 3/16 wide down to 1/32, from below`: in a list. */
export function edgesBriefly(
  { bevels = [], rebates = [] }: Edges,
  isTurned: boolean,
  { brief, fine }: EdgeStyle,
): readonly string[] {
  const places = (edges: readonly (Bevel | Rebate)[]) =>
    placesOf(edges.map(({ side }) => (isTurned ? turnedLeft[side] : side)));
  return [
    ...alike(bevels, bevelKey).map(
      ([first, all]) =>
        `bevel ${places(all)} ${angleOf(first)}, long face ${first.longFace === 'good' ? 'up' : 'down'}`,
    ),
    ...alike(rebates, rebateKey).map(
      ([{ wide, stays, longFace }, all]) =>
        `rebate ${places(all)} ${brief(wide)} wide, down to ${fine(stays)}, from ${
          longFace === 'good' ? 'below' : 'above'
        }`,
    ),
  ];
}

/** What else is told of the part whose edges are cut. */
export interface AroundEdges {
  /** Some of them lie end to end with another, so that one bevel serves both. */
  readonly isShared: boolean;
  /** The order of work on its outline stands before this. */
  readonly isBegun: boolean;
}

/** How edges that are not square are cut, once the part has its full size: one sentence for each way. */
export function edgeRows(
  { bevels = [], rebates = [] }: Edges,
  around: AroundEdges,
  { brief, fine }: EdgeStyle,
): readonly string[] {
  const rows = [
    ...alike(bevels, bevelKey).map(([first, all]) => {
      const [long, other] = facesOf(first);
      return (
        `Bevel ${placesOf(all.map(({ side }) => side))}, ${angleOf(first)} off square: ${long} keeps its size, ` +
        `${other} ends ${brief(millimetres(middleOf(first.back)))} further in.`
      );
    }),
    ...alike(rebates, rebateKey).map(([first, all]) => {
      const [long, other] = facesOf(first);
      return (
        `Rebate ${placesOf(all.map(({ side }) => side))} from ${other}: take it off over ${brief(first.wide)}, down to ` +
        `the last ${fine(first.stays)} of ${long}.`
      );
    }),
  ];
  return rows.length === 0 ? [] : [beforeEdges(around), ...rows];
}

function beforeEdges({ isShared, isBegun }: AroundEdges): string {
  if (isBegun) {
    return isShared
      ? 'The bevel that two share is cut with their blank; what else is not square, after that.'
      : 'After that, what is not square:';
  }
  return isShared
    ? 'The bevel that two share is cut with their blank. First cut what else there is square, to its full size.'
    : 'First cut it square, to its full size.';
}

/** The face that is long, and the other, as the part lies to be cut: its good side up. */
function facesOf({ longFace }: Bevel | Rebate): readonly [string, string] {
  const [up, below] = ['the face that lies up', 'the face below'] as const;
  return longFace === 'good' ? [up, below] : [below, up];
}

/** Half a corner in half a corner's words; what is no whole angle as a slope. */
function angleOf({ back, thickness }: Bevel): string {
  if (compare(back.lo, thickness) === 0 && compare(back.hi, thickness) === 0) return '45 degrees';
  return angleWords({ kind: 'pitch', rise: millimetres(middleOf(back)), run: thickness });
}

/** Those that are cut in the same way, and the first of them. */
function alike<E>(edges: readonly E[], keyOf: (edge: E) => string): readonly (readonly [E, readonly E[]])[] {
  const groups = new Map<string, E[]>();
  for (const edge of edges) groups.set(keyOf(edge), [...(groups.get(keyOf(edge)) ?? []), edge]);
  return [...groups.values()].flatMap((all) => (all[0] === undefined ? [] : [[all[0], all] as const]));
}

/** `both ends`, `its left end and its top edge`: left and right are the ends of its length. */
function placesOf(sides: readonly DrawnSide[]): string {
  const has = (side: DrawnSide) => sides.includes(side);
  const pair = (one: DrawnSide, other: DrawnSide, both: string, name: string): readonly string[] =>
    has(one) && has(other)
      ? [both]
      : [one, other].flatMap((side) => (has(side) ? [`its ${side} ${name}`] : []));
  const places = [
    ...pair('left', 'right', 'both ends', 'end'),
    ...pair('bottom', 'top', 'both edges', 'edge'),
  ];
  return places.join(' and ');
}

/** Where a side of the drawing lies when its length is laid along the width of what is written. */
const turnedLeft: Readonly<Record<DrawnSide, DrawnSide>> = {
  left: 'bottom',
  bottom: 'right',
  right: 'top',
  top: 'left',
};
