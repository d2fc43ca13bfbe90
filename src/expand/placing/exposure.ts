import {
  add,
  compare,
  isPositive,
  larger,
  minus,
  multiply,
  negate,
  smaller,
  sum,
  zero,
} from '../../measure/index.ts';
import {
  type DrawnSide,
  type Length,
  type Rational,
  type StandingPart,
  type Way,
  ways,
} from '../../model/index.ts';
import { bodyOf, fillsItsBlock, touchesOf } from '../../outline/index.ts';
import { type CladSides, endsOf } from './cladding.ts';
import type { PartMember } from './rows.ts';
import { asItLies } from './stance.ts';

/** Pieces that stand, and of each the member that it comes from. */
export interface Stood {
  readonly standing: { readonly parts: readonly StandingPart[] };
  readonly members: readonly PartMember[];
  readonly glueLine: Length;
}

/** Ends of flutes that were found visible, of the members that ask to have them clad. */
export class Exposure implements CladSides {
  readonly #sides = new Map<PartMember, Set<DrawnSide>>();

  of(member: PartMember): ReadonlySet<DrawnSide> {
    return this.#sides.get(member) ?? new Set();
  }

  /** Looks at all ends anew; true where some are visible that were not before. */
  grows({ standing, members, glueLine }: Stood): boolean {
    const faces = new Faces(standing.parts, glueLine);
    let hasGrown = false;
    for (const [index, piece] of standing.parts.entries()) {
      const member = members[index];
      const { flutes: way } = piece;
      if (member?.part.clad?.exposedFlutes === undefined || way === undefined || way === 'either') continue;
      const [low, high] = endsOf(
        asItLies(member, piece.stance),
        piece.stance.length === way ? 'length' : 'width',
      );
      if (faces.leaveVisible(piece, way, 'low')) hasGrown = this.#note(member, low) || hasGrown;
      if (faces.leaveVisible(piece, way, 'high')) hasGrown = this.#note(member, high) || hasGrown;
    }
    return hasGrown;
  }

  #note(member: PartMember, side: DrawnSide): boolean {
    const key = member.undressed ?? member;
    const known = this.#sides.get(key) ?? new Set<DrawnSide>();
    if (known.has(side)) return false;
    this.#sides.set(key, known.add(side));
    return true;
  }
}

type End = 'low' | 'high';

/** The faces of pieces, sorted by where they lie, so that those against a face are found at once. */
class Faces {
  readonly #glueLine: Length;
  readonly #sorted: Readonly<Record<Way, Readonly<Record<End, readonly StandingPart[]>>>>;

  constructor(pieces: readonly StandingPart[], glueLine: Length) {
    this.#glueLine = glueLine;
    const by = (way: Way, end: End) =>
      [...pieces].sort((a, b) => compare(a.block[end][way], b.block[end][way]));
    const both = (way: Way) => ({ low: by(way, 'low'), high: by(way, 'high') });
    this.#sorted = { across: both('across'), along: both('along'), up: both('up') };
  }

  /** True where some of a piece's end is covered neither by what touches it nor by the table. */
  leaveVisible(piece: StandingPart, way: Way, end: End): boolean {
    const place = piece.block[end][way];
    if (way === 'up' && end === 'low' && !isPositive(place)) return false;
    const [one, two] = ways.filter((it) => it !== way) as [Way, Way]; // three ways less one
    let left: Rational = multiply(spanOf(piece, one), spanOf(piece, two));
    for (const other of this.#against(place, way, end)) {
      const [a, b] = [shared(piece, other, one), shared(piece, other, two)];
      if (!isPositive(a) || !isPositive(b)) continue;
      const covered = fillsItsBlock(other) ? multiply(a, b) : this.#coveredBy(other, piece, way);
      left = add(left, negate(covered));
    }
    return isPositive(left);
  }

  /** What a shaped piece may cover at most: a strip less wide than 0.01 mm is not worth cladding. */
  #coveredBy(other: StandingPart, piece: StandingPart, way: Way): Rational {
    return touchesOf(bodyOf(piece), bodyOf(other), this.#glueLine)
      .filter((it) => it.way === way)
      .reduce<Rational>((all, { area }) => add(all, area().hi), zero);
  }

  /** Pieces that begin where an end lies, or up to a glue line further out. */
  #against(place: Length, way: Way, end: End): readonly StandingPart[] {
    const facing: End = end === 'low' ? 'high' : 'low';
    const sorted = this.#sorted[way][facing];
    const [from, to] =
      end === 'high' ? [place, sum(place, this.#glueLine)] : [minus(place, this.#glueLine), place];
    let [first, last] = [0, sorted.length];
    while (first < last) {
      const middle = (first + last) >> 1;
      const at = sorted[middle]?.block[facing][way];
      if (at !== undefined && compare(at, from) < 0) first = middle + 1;
      else last = middle;
    }
    const found: StandingPart[] = [];
    for (const other of sorted.slice(first)) {
      if (compare(other.block[facing][way], to) > 0) break;
      found.push(other);
    }
    return found;
  }
}

function spanOf({ block }: StandingPart, way: Way): Length {
  return minus(block.high[way], block.low[way]);
}

function shared(a: StandingPart, b: StandingPart, way: Way): Length {
  return minus(smaller(a.block.high[way], b.block.high[way]), larger(a.block.low[way], b.block.low[way]));
}
