import {
  atSpan,
  type Bevel,
  type DrawnSide,
  diagnose,
  type Rebate,
  type StandingPart,
} from '../../model/index.ts';
import { otherHand } from '../hands.ts';
import type { OpenPart, WorkedPart } from '../parts.ts';
import { atOtherSide, isWholeSide } from '../shapes.ts';
import type { Workings } from '../workings.ts';

type Drawn = NonNullable<WorkedPart['drawn']>;

export function hasEdges({ bevels, rebates }: Pick<Drawn, 'bevels' | 'rebates'>): boolean {
  return bevels !== undefined || rebates !== undefined;
}

/** A part as it is cut: the edges that are not square, as its pieces stand, are its drawing's. */
export function asEdged(
  drawn: WorkedPart['drawn'],
  name: string,
  standings: readonly StandingPart[],
): WorkedPart['drawn'] {
  const own = standings.find(({ part }) => part === name);
  const piece = own ?? standings.find(({ part }) => part === otherHand(name));
  if (piece === undefined || !hasEdges(piece)) return drawn;
  const seen = <E extends Bevel | Rebate>(edges: readonly E[]): readonly E[] =>
    own === undefined ? edges.map(atOtherSide) : edges;
  return {
    outline: undefined,
    master: undefined,
    isMirrored: false,
    leave: undefined,
    roundedTo: undefined,
    ...drawn,
    ...(piece.bevels === undefined ? {} : { bevels: seen(piece.bevels) }),
    ...(piece.rebates === undefined ? {} : { rebates: seen(piece.rebates) }),
  };
}

/**
 * An edge that is cut at a slant or down is a whole straight side of the drawing, and ends where its size does.
 *
 * @errors E47
 */
export function checkEdges(
  { name: part }: OpenPart,
  { outline, leave, bevels = [], rebates = [] }: Drawn,
  [first]: readonly StandingPart[],
  { faults }: Workings,
): void {
  const sides = new Set<DrawnSide>([...bevels, ...rebates].map(({ side }) => side));
  for (const side of sides) {
    const isCut = outline !== undefined && !isWholeSide(outline, side);
    const isLeft = leave !== undefined && leave[side].numerator > 0n;
    if ((!isCut && !isLeft) || first === undefined) continue;
    faults.report(diagnose('E47', atSpan(first.at), { part, side, why: isCut ? 'cut into' : 'left larger' }));
  }
}
