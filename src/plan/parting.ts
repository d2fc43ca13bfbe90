import { compare, equal, minus, sum, toFraction, zero } from '../measure/index.ts';
import type { CutTree, Length, NonEmpty, SheetKind } from '../model/index.ts';

/**
 * What a sheet is parted into, by sizes alone: all parallel cuts of a piece in hand are one level. In which
 * order the pieces of a level lie is still open.
 */
export type Parted = PartedPart | PartedRest | PartedPiece;

interface Sized {
  readonly length: Length;
  readonly width: Length;
  /** Equal for what is equal in size and parted alike, in whatever order it lies. */
  readonly likeness: string;
}

export interface PartedPart extends Sized {
  readonly kind: 'part';
  readonly part: number;
  readonly turned: boolean;
}

export interface PartedRest extends Sized {
  readonly kind: 'left over';
}

export interface PartedPiece extends Sized {
  readonly kind: 'cut';
  readonly direction: Direction;
  /** From the datum edge on. */
  readonly into: NonEmpty<Parted>;
  /** False where the last of them ends on the edge of the piece in hand, and so needs no cut of its own. */
  readonly endsInLoss: boolean;
}

export type Direction = 'rip' | 'crosscut';

export function partedSheet(
  tree: CutTree,
  { length, width }: Pick<SheetKind, 'length' | 'width'>,
  kerf: Length,
): Parted {
  if (tree.kind === 'left over') return { kind: 'left over', length, width, likeness: 'left over' };
  if (tree.kind === 'part') {
    const likeness = `part ${tree.part}${tree.turned ? ' turned' : ''}`;
    return { kind: 'part', part: tree.part, turned: tree.turned, length, width, likeness };
  }
  return partedPiece(tree, length, width, kerf);
}

type Cut = Extract<CutTree, { readonly at: Length }>;

// A chain of cuts in one direction is one piece in hand with several marks:
//
//      rip at a                          ┌────────────┐
//      ├ near                            │  far far   │
//      └ far: rip at b         ═══▶      ├────────────┤ ← a + kerf + b
//             ├ near                     │  far near  │
//             └ far                      ├────────────┤ ← a
//                                        │    near    │
//                                        └────────────┘ ← 0
function partedPiece(tree: Cut, length: Length, width: Length, kerf: Length): PartedPiece {
  const direction = tree.kind;
  const sized = (size: Length) => (direction === 'rip' ? { length, width: size } : { length: size, width });
  const into: Parted[] = [];
  let rest: CutTree | undefined = tree;
  let room = direction === 'rip' ? width : length;
  while (rest !== undefined && rest.kind === direction) {
    into.push(...spread(partedSheet(rest.near, sized(rest.at), kerf), direction));
    const beyond = minus(room, sum(rest.at, kerf));
    room = compare(beyond, zero) > 0 ? beyond : zero;
    rest = rest.far;
  }
  if (rest !== undefined) into.push(partedSheet(rest, sized(room), kerf));
  const sizes = into.map((it) => sizeAcross(it, direction));
  const end = sum(...sizes, ...sizes.slice(1).map(() => kerf));
  const piece = {
    kind: 'cut',
    direction,
    length,
    width,
    into: into as [Parted, ...Parted[]], // a cut tree's cut always takes something off
    endsInLoss: !equal(end, sizeAcross({ length, width }, direction)),
  } as const;
  return { ...piece, likeness: likenessOf(piece) };
}

/** A near piece that is cut on in the same direction needs no cut of its own first, unless it ends in loss. */
function spread(piece: Parted, direction: Direction): readonly Parted[] {
  if (piece.kind !== 'cut' || piece.direction !== direction || piece.endsInLoss) return [piece];
  return piece.into;
}

/** The size of a piece that cuts in this direction part. */
export function sizeAcross(
  { length, width }: { readonly length: Length; readonly width: Length },
  direction: Direction,
): Length {
  return direction === 'rip' ? width : length;
}

/** What the cuts of a level leave over at its end: it takes no cut of its own, and so stays there. */
export function restOf({ into, endsInLoss }: Pick<PartedPiece, 'into' | 'endsInLoss'>): Parted | undefined {
  const last = into[into.length - 1];
  return !endsInLoss && into.length > 1 && last?.kind === 'left over' ? last : undefined;
}

function likenessOf({ direction, length, width, into, endsInLoss }: Omit<PartedPiece, 'likeness'>): string {
  const rest = restOf({ into, endsInLoss });
  const inner = into
    .filter((it) => it !== rest)
    .map((it) => `${toFraction(sizeAcross(it, direction))} ${it.likeness}`)
    .sort();
  const end = rest === undefined ? '' : ' and a rest';
  return `${direction} ${toFraction(length)} by ${toFraction(width)} (${inner.join(', ')}${end})`;
}
